"""The Decide page: parts out of limits or undecided on the left, one of them weighed on the right."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from PySide6.QtCore import QSignalBlocker, Qt, QTimer
from PySide6.QtGui import QResizeEvent, QShowEvent
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QLineEdit, QPushButton, QSplitter, QVBoxLayout, QWidget

from rebuild.window.decisions.rules_dialog import RulesDialog
from rebuild.window.decisions.tables import PARTS, WideTable, part_row
from rebuild.window.decisions.weigh_pane import WeighPane
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.job import Job, Tell
from rebuild.window.desk.live_page import LivePage
from rebuild.window.layout.plain import PlainLabel
from rebuild.words.counted import counted
from rebuild.work.decisions import rows_odd_sizes, rows_options, rows_proposals, rows_skip
from rebuild.work.decisions.rows_proposals import ToDecide, with_decided
from rebuild.work.machines import rows_tree
from rebuild.work.records import rows_settings
from rebuild.work.records.rows_settings import verdict_rule

#: Of more parts than this a machine is judged beside the window: that takes tenths of a second.
MOST_AT_ONCE = 500
#: From this height of the page on all that speaks for each way stands under the proposal [px].
TALL = 850
OPEN_ONLY, ALL, DECIDED = "still open", "all with something out", "all decided"
#: While nobody chose otherwise the list holds what is open, or all when nothing is.


class DecidePage(LivePage):
    """What is to be decided, and what speaks for which way."""

    shows = (rows_proposals, rows_options, rows_odd_sizes, rows_settings, rows_skip)
    soon_ms = 120

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, "Decide", parent)
        self._rows: dict[int, ToDecide] = {}
        self._wanted: int | None = None
        self._listing = False
        self._rows_of: int | None = None
        self._rows_listed: int | None = None
        self._folded_by_hand: bool = False
        self._unfolding: bool = False
        self._in_hand: int | None = (
            None  #: the part in hand this page stood on last, so that its own choice stays
        )
        self.judging = Job(self)
        self.search = QLineEdit(self)
        self.which = QComboBox(self)
        self.rules_button = QPushButton("Wear &rules…", self)
        self.parts = WideTable("Parts to decide", PARTS, self, sortable=True)
        self.counts = PlainLabel(self)
        self.weigh = WeighPane(desk, self)
        self._compose()
        self._wire()

    def _compose(self) -> None:
        self.search.setPlaceholderText("Find a part")
        self.search.setAccessibleName("Find a part to decide")
        self.search.setClearButtonEnabled(True)
        self.which.addItems([ALL, OPEN_ONLY, DECIDED])
        self._chose = False
        self.parts.allow_two()
        self.which.setAccessibleName("Which parts")
        self.parts.when_empty("Parts still to be decided, or with a reading out of its limits, stand here.")
        top = QHBoxLayout()
        top.addWidget(self.search, 1)
        top.addWidget(self.which)
        top.addWidget(self.rules_button)
        left = QWidget(self)
        side = QVBoxLayout(left)
        side.setContentsMargins(0, 0, 0, 0)
        side.setSpacing(4)
        side.addLayout(top)
        side.addWidget(self.parts, 1)
        side.addWidget(self.counts)
        whole = QSplitter(Qt.Orientation.Horizontal, self)
        whole.addWidget(left)
        whole.addWidget(self.weigh)
        whole.setChildrenCollapsible(False)
        whole.setStretchFactor(0, 4)
        whole.setStretchFactor(1, 6)
        whole.setSizes([560, 700])
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 8, 8, 8)
        layout.addWidget(whole)

    def _wire(self) -> None:
        self.search.textChanged.connect(self._list)
        self.which.currentIndexChanged.connect(self._list)
        self.which.activated.connect(lambda _at: self._chosen_by_hand())
        self.rules_button.clicked.connect(self.show_rules)
        self.parts.selectionModel().selectionChanged.connect(lambda *_: self._show())
        self.parts.activated.connect(self._go)
        self.judging.done.connect(self._take)
        self.judging.failed.connect(self.counts.setText)
        self._desk.closing.connect(self.judging.drop)
        self._desk.selection_changed.connect(self._follow_hand)
        self.weigh.head.more.toggled.connect(lambda _on: self._note_folding())

    def resizeEvent(self, event: QResizeEvent) -> None:
        """A large screen has room for the options and the working; folded by hand they stay folded."""
        super().resizeEvent(event)
        more = self.weigh.head.more
        if not self._folded_by_hand and more.isChecked() != (self.height() >= TALL):
            with self._by_itself():
                more.setChecked(self.height() >= TALL)

    @contextmanager
    def _by_itself(self) -> Iterator[None]:
        self._unfolding = True
        try:
            yield
        finally:
            self._unfolding = False

    def _note_folding(self) -> None:
        self._folded_by_hand = self._folded_by_hand or not self._unfolding

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._follow_hand()

    def panes(self) -> list[QWidget]:
        """The panes F6 goes round."""
        rest: list[QWidget] = (
            [self.weigh.proposals, self.weigh.options] if self.weigh.rest.isVisible() else []
        )
        return [self.parts, self.weigh.head.button, *rest]

    def refresh(self) -> None:
        """Look over every part again; a large machine's are judged beside the window, and shown when they are."""
        desk, machine = self._desk, self.machine
        self.judging.forget()
        if machine is None:
            self._rows_of = None
            self._take([])
            return
        if machine != self._rows_of:
            self._rows, self._rows_of = {}, machine
        store, rule = desk.store, verdict_rule(desk.store)

        def judge(_tell: Tell) -> list[ToDecide]:
            with store.read() as connection:
                return with_decided(connection, machine, rule)

        with store.read() as connection:
            parts, *_ = rows_tree.counts_of(connection, machine)
        if parts <= MOST_AT_ONCE:
            self._take(judge(lambda *_: True))
            return
        if not self._rows:
            self._list()
            self.counts.setText(f"Judging {counted(parts, 'part')}…")
        self.judging.ask(judge)

    def _take(self, found: list[ToDecide]) -> None:
        self._rows = {row.part_id: row for row in found}
        if not self._chose:
            still_open = any(not row.settled for row in found)
            with QSignalBlocker(self.which):
                self.which.setCurrentText(OPEN_ONLY if still_open else ALL)
        if self._wanted is not None:
            self._stand_on(self._wanted)
        else:
            self._list()
        self._follow_hand()

    def show_row(self, _table: str, key: int) -> None:
        """Choose what was found."""
        self.choose(key)

    def choose(self, part_id: int) -> None:
        """Turn to one part, at once or when it is judged."""
        self.search.clear()
        self._wanted = part_id
        if part_id not in self._rows:
            self.refresh()
        if not self.judging.running:
            self._stand_on(part_id)

    def _stand_on(self, part_id: int) -> None:
        self._wanted = part_id
        row = self._rows.get(part_id)
        if row is not None and not self._is_listed(row):
            self._chosen_by_hand()  # news that come meanwhile do not take it out of sight again
            with QSignalBlocker(self.which):
                self.which.setCurrentText(OPEN_ONLY if not row.settled else DECIDED if row.at_rest else ALL)
        self._list()
        self._wanted = None
        # Once more when the rows have got their heights: a page just made has none yet.
        self._into_view()
        QTimer.singleShot(0, self, self._into_view)

    def _follow_hand(self) -> None:
        """The part taken in hand elsewhere is the one weighed, where the list has it."""
        chosen = self._desk.selection.part_ids
        part = chosen[-1] if len(chosen) == 1 else None
        if part == self._in_hand or not (self.isVisible() and self._rows):
            return
        self._in_hand = part
        row = self._rows.get(part) if part is not None else None
        if row is not None and self._is_listed(row) and not self.search.text():
            self.parts.choose(row.part_id)
            self._into_view()

    def _into_view(self) -> None:
        self.parts.scrollTo(self.parts.currentIndex())

    def show_all(self) -> None:
        """Every part with something out, decided or not, and all that speaks for which way."""
        self._chosen_by_hand()
        self.which.setCurrentText(ALL)
        self.weigh.head.more.setChecked(True)

    def _chosen_by_hand(self) -> None:
        self._chose = True

    def show_rules(self) -> RulesDialog | None:
        """Open the wear rules."""
        if not self._desk.is_open:
            return None
        dialog = RulesDialog(self._desk, self)
        dialog.open()
        return dialog

    def _list(self) -> None:
        several = self.parts.all_chosen() if self._wanted is None else []
        before = self._wanted if self._wanted is not None else self._weighed()
        words = self.search.text().lower().split()
        shown = [
            row
            for row in self._rows.values()
            if self._is_listed(row)
            and all(word in f"{row.title} {row.decision.value} {' '.join(row.why)}".lower() for word in words)
        ]
        place = max(0, self.parts.currentIndex().row())
        self._listing = True
        self.parts.plain.fill([part_row(row) for row in shown])
        still_open = sum(1 for row in self._rows.values() if not row.settled)
        concerned = sum(1 for row in self._rows.values() if not row.at_rest)
        self.counts.setText(
            f"{counted(concerned, 'part')} with something out or undecided, {still_open} still open"
        )
        if before is not None and before in self.parts.plain.ids:
            self.parts.choose(before)
            self.parts.choose_too(several)
        elif shown:
            # A part just decided leaves the list: the one that moved up to its place is the next.
            self.parts.selectRow(min(place, len(shown) - 1) if self._rows_listed == self._rows_of else 0)
        self._rows_listed = self._rows_of
        self._listing = False
        self._show()

    def _is_listed(self, row: ToDecide) -> bool:
        """Whether the choice beside the search has this part."""
        which = self.which.currentText()
        if which == DECIDED:
            return row.settled
        return not row.settled if which == OPEN_ONLY else not row.at_rest

    def _show(self) -> None:
        if self._listing:
            return  # the part is weighed once, when the list stands
        key = self._weighed()
        self.weigh.show_part(self._rows.get(key) if key is not None else None, self.parts.all_chosen())

    def _weighed(self) -> int | None:
        """Of several chosen the one the keys or the mouse came to last."""
        chosen, at = self.parts.all_chosen(), self.parts.currentIndex().row()
        here = self.parts.plain.ids[at] if 0 <= at < len(self.parts.plain.ids) else None
        return here if here in chosen else self.parts.chosen()

    def _go(self) -> None:
        key = self._weighed()
        if key is not None:
            self._desk.choose(part_ids=(key,), key=None)
            self._desk.page_asked.emit("bench")
