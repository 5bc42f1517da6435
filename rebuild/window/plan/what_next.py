"""What next: one line of tonight, one list of all that is open, and beside it why the chosen line stands there."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QSizePolicy,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from rebuild.trade.results.working import Working
from rebuild.trade.schedule.graph import Node, Ref
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.leads import follow
from rebuild.window.desk.live_page import LivePage
from rebuild.window.ink import theme
from rebuild.window.ink.shapes import Shape, shape_icon
from rebuild.window.layout.plain import PlainLabel, plain_tip
from rebuild.window.lists.empty_state import EmptyState
from rebuild.window.lists.tree_list import line, rewrite, tree_list
from rebuild.window.plan.ahead import Ahead
from rebuild.window.plan.evening import EveningRow
from rebuild.window.plan.listed import Listed, Sort, listed
from rebuild.window.plan.to_work import to_work
from rebuild.window.results.working import WorkingPane
from rebuild.words.counted import counted
from rebuild.work.log import rows as log_rows
from rebuild.work.log.rows import next_said
from rebuild.work.plan import rows_what_next
from rebuild.work.plan.laying import can_take_over
from rebuild.work.plan.next_up import own_next
from rebuild.work.plan.rows_graph import work_graph
from rebuild.work.plan.rows_input import planned
from rebuild.work.plan.rows_tonight import not_tonight, offers, together
from rebuild.work.plan.rows_what_next import Candidate, why_next

COLUMNS = ("What", "Part", "Time, likely", "Unblocks now", "Days saved", "Held by")
_NUMBERS = (2, 3, 4)
ALL = "all that is open"
#: So many lines are made at first, and so many more whenever the last of them comes into view.
LINES = 200
NONE = "Steps typed at the bench, parts decided to be made or bought, and open questions stand here in order."


class WhatNextPane(LivePage):
    """What next, worked out from steps, links and decisions."""

    shows = (rows_what_next, log_rows)
    step_chosen = Signal(object)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, "What next", parent)
        self._rows: list[Listed] = []
        self._ahead = Ahead(self)
        #: The lines of the list; and of each what it stands for, and what is written in it.
        self._shown: list[Listed] = []
        self._drawn: list[tuple[tuple[str, int], Shape, tuple[str, ...]]] = []
        self._ink = theme.ink()
        self._tonight: dict[int, str] = {}
        self.evening = EveningRow(desk, self)
        self.which = QComboBox()
        self.which.setAccessibleName("Which lines")
        self.which.addItem(ALL, None)
        for sort in Sort:
            self.which.addItem(sort.value, sort)
        self.filter = QLineEdit()
        self.filter.setAccessibleName("Filter: step or part")
        self.filter.setPlaceholderText("Filter: step or part")
        self.filter.setClearButtonEnabled(True)
        self.fits = QCheckBox("Fits to&night")
        self.count = PlainLabel()
        self.list = tree_list("What next", COLUMNS, yields=(COLUMNS.index("Held by"),))
        self.empty = EmptyState(self.list, NONE, "Decide on a part", self._decide)
        self.title, self.sentence = PlainLabel(), PlainLabel()
        self.title.setFont(theme.large(self.font(), 1.25))
        for label in (self.title, self.sentence):
            label.setWordWrap(True)
            label.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
            label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.sentence.setAccessibleName("Why this one")
        self.go = QPushButton("&Go to it")
        self.take = QPushButton("Ma&ke it a step of my own")
        self.take_why = PlainLabel()
        self.take_why.setWordWrap(True)
        self.take_why.setAccessibleName("Why it cannot be made a step")
        self.why = WorkingPane(desk, empty="How a part's place in the order is worked out, line by line.")
        self.why.page.setAccessibleName("Why this one next")
        self.why.lie_flush()
        self._lay_out()
        self._wire()

    def _lay_out(self) -> None:
        row = QHBoxLayout()
        for widget in (self.which, self.filter, self.fits, self.count):
            row.addWidget(widget)
        row.addStretch(1)
        side = QWidget()
        beside = QVBoxLayout(side)
        beside.setContentsMargins(8, 0, 0, 0)
        beside.addWidget(self.title)
        beside.addWidget(self.sentence)
        acts = QHBoxLayout()
        acts.addWidget(self.go)
        acts.addWidget(self.take)
        acts.addStretch(1)
        beside.addLayout(acts)
        beside.addWidget(self.take_why)
        beside.addWidget(self.why, 1)
        beside.addStretch(0)
        whole = QSplitter(Qt.Orientation.Horizontal)
        whole.addWidget(self.list)
        whole.addWidget(side)
        whole.setChildrenCollapsible(False)
        whole.setSizes([940, 320])
        whole.setStretchFactor(0, 5)
        whole.setStretchFactor(1, 2)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.evening)
        layout.addLayout(row)
        layout.addWidget(whole, 1)

    def _wire(self) -> None:
        self.list.currentItemChanged.connect(lambda _new, _old: self._show_why())
        self.list.itemActivated.connect(lambda _item: self._go())
        self.list.verticalScrollBar().valueChanged.connect(self._near_the_end)
        self.go.clicked.connect(self._go)
        self.take.clicked.connect(self._take_over)
        self.which.currentIndexChanged.connect(lambda _at: self._fill())
        self.filter.textChanged.connect(lambda _text: self._fill())
        self.fits.toggled.connect(lambda _on: self._fill())
        self.evening.changed.connect(self.refresh)
        self._ahead.came.connect(self.look_again)
        self._desk.closed.connect(self._ahead.drop)

    def refresh(self) -> None:
        """Work it out again; the line whose reason is shown stays chosen. Of a large machine, once it is at hand."""
        rows: list[Listed] = []
        takes: dict[int, str] = {}
        if self.machine is not None:
            with self._desk.store.read() as connection:
                work = work_graph(connection, self.machine)
                if not self._ahead.look(work):
                    return
                own, not_yet = own_next(work, next_said(connection, self.machine))
                rows = listed(work, own)
                tonight = self.evening.tonight()
                first = own.key if own is not None else None
                fit = offers(planned(work), tonight, first) if tonight is not None else None
            if fit is not None and tonight is not None:
                listed_too = {row.key[1] for row in rows if row.key[0] == "step"}
                fit = [offer for offer in fit if offer.node.key in listed_too]
                chosen = together(fit, tonight.minutes)
                self.evening.tell(
                    [offer.told for offer in chosen],
                    [offer.told for offer in fit if offer not in chosen],
                    any_open=bool(rows),
                    own=not_yet or not_tonight(own, {offer.node.key for offer in fit}, tonight),
                )
                takes = {offer.node.key: offer.takes for offer in fit}
        self._rows, self._tonight = rows, takes
        self._fill()

    def _fill(self) -> None:
        here = self.chosen()
        shown = [row for row in self._rows if self._wanted(row)]
        self.list.blockSignals(True)
        self._shown = shown
        if not self._mended(shown):
            self._fill_anew()
        self.list.blockSignals(False)
        self.empty.say("No line is left by the filters." if self._rows else NONE)
        lines = (
            sum(row.sort is not Sort.PARTS for row in self._rows) if here_is_all(self) else len(self._rows)
        )
        self.count.setText(f"{len(shown)} of {counted(lines, 'line')}")
        key = here.key if here is not None else None
        at = next((at for at, row in enumerate(shown) if row.key == key), 0)
        self._stand_on(at)
        self._show_why()

    def _stand_on(self, at: int) -> None:
        """Choose a line, made for it if it was not yet looked at."""
        if at >= len(self._drawn):
            self._draw_to(at + LINES)
        stand = self.list.topLevelItem(at)
        if stand is not None:
            self.list.setCurrentItem(stand)

    def _near_the_end(self, value: int) -> None:
        """More lines are made as the last of those there are comes into view."""
        bar = self.list.verticalScrollBar()
        filled = not self.list.signalsBlocked()
        if filled and len(self._drawn) < len(self._shown) and value >= bar.maximum() - bar.pageStep():
            self._draw_to(len(self._drawn) + LINES)

    def _draw_to(self, end: int) -> None:
        """Make the lines up to one that are not made yet."""
        fresh = self._shown[len(self._drawn) : end]
        icons = {shape: shape_icon(shape) for shape in {row.shape for row in fresh}}
        drawn = [(row.key, row.shape, self._cells(row)) for row in fresh]
        self.list.addTopLevelItems(
            [
                line(cells, row, icons[shape], right=_NUMBERS)
                for row, (_key, shape, cells) in zip(fresh, drawn, strict=True)
            ]
        )
        self._drawn += drawn

    def _fill_anew(self) -> None:
        # All at once: taken one by one, the others are laid out again each time.
        self.list.invisibleRootItem().takeChildren()
        self._ink, self._drawn = theme.ink(), []
        self._draw_to(LINES)

    def _mended(self, shown: list[Listed]) -> bool:
        """Whether the lines made are the first in order still: then only what differs of them is written again."""
        made = shown[: len(self._drawn)]
        if self._ink is not theme.ink() or not self._drawn or len(made) < len(self._drawn):
            return False
        if [row.key for row in made] != [key for key, _, _ in self._drawn]:
            return False
        for at, row in enumerate(made):
            drawn = (row.key, row.shape, self._cells(row))
            item = self.list.topLevelItem(at) if drawn != self._drawn[at] else None
            if item is not None:
                rewrite(item, drawn[2], row, shape_icon(row.shape))
                self._drawn[at] = drawn
        if len(made) < LINES:
            self._draw_to(LINES)
        return True

    def _cells(self, row: Listed) -> tuple[str, ...]:
        """The columns; of what fits tonight the time says which part of it that is."""
        takes = self._tonight.get(row.goes_to.key) if isinstance(row.goes_to, Node) else None
        if takes is None or not self.fits.isChecked():
            return row.cells
        return row._replace(time=takes).cells

    def _wanted(self, row: Listed) -> bool:
        sort, words = self.which.currentData(), self.filter.text().casefold().split()
        if sort is not None and row.sort is not sort:
            return False
        if sort is None and row.sort is Sort.PARTS:
            # Its own steps stand in the list already; the filter of parts shows it.
            return False
        if self.fits.isChecked() and not (isinstance(row.goes_to, Node) and row.goes_to.key in self._tonight):
            return False
        told = " ".join(row.cells).casefold()
        return all(word in told for word in words)

    def chosen(self) -> Listed | None:
        """The line chosen."""
        at = self.list.currentIndex().row()
        return self._shown[at] if 0 <= at < len(self._shown) else None

    def listed_now(self) -> list[str]:
        """What the lines the filters leave say first, those not made yet among them."""
        return [row.what for row in self._shown]

    def choose(self, key: tuple[str, int]) -> None:
        """Stand on a line, if the filters show it."""
        at = next((at for at, row in enumerate(self._shown) if row.key == key), None)
        if at is not None:
            self._stand_on(at)

    def _show_why(self) -> None:
        row = self.chosen()
        self.title.setText(
            row.part if row is not None and row.sort is Sort.PARTS else row.what if row else ""
        )
        self.sentence.setText(row.sentence if row is not None else "")
        working = self._working(row)
        self.why.setVisible(working is not None)
        self.why.show_working(working)
        self.go.setEnabled(row is not None)
        node = row.goes_to if row is not None else None
        grey = why_not_taken(row)
        self.take.setEnabled(not grey)
        self.take.setToolTip(
            plain_tip(grey or "What follows from a decision becomes typed steps, its ties kept")
        )
        self.take_why.setText(grey if row is not None else "")
        if isinstance(node, Node):
            self.step_chosen.emit(node.key)

    def _working(self, row: Listed | None) -> Working | None:
        """How the place of a part in the order is worked out."""
        to = row.goes_to if row is not None else None
        if not isinstance(to, Candidate) or self.machine is None:
            return None
        with self._desk.store.read() as connection:
            return why_next(connection, self.machine, to.part_id)

    def _decide(self) -> None:
        self._desk.page_asked.emit("decide")

    def _take_over(self) -> None:
        """Turn the chosen work into typed steps and stand on the first of them at the bench."""
        from rebuild.work.steps.acts_take_over import take_over

        row, machine = self.chosen(), self.machine
        node = row.goes_to if row is not None else None
        if machine is None or not isinstance(node, Node):
            return
        said = f"“{node.title}” is a step now: change it like any other."
        made = self._desk.attempt(lambda: take_over(self._desk.store, machine, node.key), said)
        if made:
            follow(self._desk, Ref("task", made[0]), subassembly_id=node.subassembly_id)

    def _go(self) -> None:
        row = self.chosen()
        to = row.goes_to if row is not None else None
        if isinstance(to, Node):
            to_work(self._desk, to)
        elif isinstance(to, Candidate):
            follow(self._desk, Ref("part", to.part_id))
        elif to is not None:
            follow(self._desk, Ref(*to))


def here_is_all(pane: WhatNextPane) -> bool:
    """Whether all that is open is listed, parts by their steps."""
    return pane.which.currentData() is None


def why_not_taken(row: Listed | None) -> str:
    """Why a line cannot become a step of one's own; empty where it can."""
    node = row.goes_to if row is not None else None
    if not isinstance(node, Node):
        return "Only work can become a step."
    if row_held(row):
        return "Not while something holds it."
    if can_take_over(node):
        return ""
    if not node.derived:
        return "It is one already."
    if node.elapsed:
        return "It passes by itself."
    return "It is closed where it stands: Go to it."


def row_held(row: Listed | None) -> bool:
    """Whether a line is held up by something."""
    return row is not None and row.sort is Sort.HELD
