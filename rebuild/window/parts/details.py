"""The part card: all that is known of what is chosen, on leaves, the glance first, the working last.

The same widget wherever a part is opened: on the bench, and in a window over any other page.
"""

from __future__ import annotations

from typing import Protocol, cast, runtime_checkable

from PySide6.QtCore import QTimer
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QApplication, QHBoxLayout, QStackedWidget, QVBoxLayout, QWidget

from rebuild.errors import NotThere
from rebuild.store.changed import Changed
from rebuild.trade.results.working import Working
from rebuild.window.commands.pages import WORKING, Slot
from rebuild.window.desk.desk import Desk
from rebuild.window.forms.record_form import RecordForm
from rebuild.window.layout.page_row import PageRow
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.parts.fields_leaf import FieldsLeaf
from rebuild.work.records.rows import card

#: Leaves whose modules are loaded when they are first turned to.
_LATER = {
    "card": Slot("rebuild.window.parts.glance_leaf", "GlanceLeaf"),
    "features": Slot("rebuild.window.parts.features_leaf", "FeaturesLeaf"),
    "concessions": Slot("rebuild.window.parts.concessions_leaf", "ConcessionsLeaf"),
    "history": Slot("rebuild.window.parts.history_leaf", "HistoryLeaf"),
    "working": WORKING,
}
LEAVES: tuple[tuple[str, str, str], ...] = (
    ("card", "Card", "One glance of the part: where it lies, how it came off, what hangs on it"),
    ("details", "Details", "All fields, edited in place"),
    ("features", "Features", "Features of the part with the reading that speaks for each"),
    ("concessions", "Concessions", "Where it was accepted outside its spec"),
    ("history", "History", "Everything done to the part, newest first"),
    ("working", "Working", "How a number was reached: inputs, equation, table row, source"),
)


@runtime_checkable
class ShowsPart(Protocol):
    """A leaf about one part."""

    def show_part(self, part_id: int | None) -> None: ...


@runtime_checkable
class ShowsWorking(Protocol):
    """The leaf that shows how a number was reached."""

    def show_working(self, working: Working | None) -> None: ...


class DetailsPane(QWidget):
    """Leaves about the chosen part; without one, about the subassembly or the machine.

    While a field of it has the focus it stays on its part: a gauge moves the line on, and with it what is chosen,
    but what is typed here is meant for the part it was begun on.
    """

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._made: dict[str, QWidget] = {}
        self._again = False
        self._worked: tuple[str, int | None] | None = None
        self._subject = self._chosen
        self._title = PlainLabel(self)
        self._title.setAccessibleName("What the details are of")
        self._title.setForegroundRole(QPalette.ColorRole.PlaceholderText)
        self.leaves = PageRow("Leaves of the details", self)
        self.leaves.offer([leaf for leaf in LEAVES if leaf[0] != "working" or WORKING.present])
        self._stack = QStackedWidget(self)
        self._rest = QTimer(self)
        self._rest.setSingleShot(True)
        self._rest.timeout.connect(self._rested)
        self._build()
        self.leaves.asked.connect(self.show_leaf)
        desk.selection_changed.connect(self._follow_selection)
        desk.machine_changed.connect(self._turn)
        desk.closed.connect(self._turn)
        cast(QApplication, QApplication.instance()).focusChanged.connect(self._focus_moved)
        desk.changed.connect(self._hear)
        desk.working_asked.connect(self._show_working)
        self.show_leaf("card")

    def _build(self) -> None:
        head = QHBoxLayout()
        head.setContentsMargins(4, 0, 8, 0)
        head.addWidget(self.leaves)
        head.addStretch(1)
        head.addWidget(self._title)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addLayout(head)
        layout.addWidget(self._stack, 1)

    @property
    def subject(self) -> tuple[str, int | None]:
        """The record the details are of."""
        return self._subject

    @property
    def _chosen(self) -> tuple[str, int | None]:
        chosen = self._desk.selection
        if chosen.part_ids:
            return "part", chosen.part_ids[-1]
        if chosen.subassembly_id is not None:
            return "subassembly", chosen.subassembly_id
        return "machine", self._desk.machine_id

    def leaf(self, key: str) -> QWidget:
        """One leaf, made on first need."""
        if key not in self._made:
            made = self._make(key)
            self._made[key] = made
            self._stack.addWidget(made)
        return self._made[key]

    def _make(self, key: str) -> QWidget:
        return FieldsLeaf(self._desk, self) if key == "details" else _LATER[key].make(self._desk, self)

    def show_leaf(self, key: str) -> None:
        """Turn to a leaf."""
        self._stack.setCurrentWidget(self.leaf(key))
        self.leaves.show_chosen(key)
        self.follow()

    def show_field(self, field: str) -> None:
        """The caret into a field of the part in hand; without one, its features, where a new one is made."""
        if not field:
            self.show_leaf("features")
            return
        self.show_leaf("details")
        leaf = self.leaf("details")
        if isinstance(leaf, FieldsLeaf):
            leaf.stand_in("part", field)

    def _follow_selection(self) -> None:
        if self._desk.hand.at_work:
            self._rest.start(self._desk.hand.left_ms())
        else:
            self.follow()

    def _rested(self) -> None:
        """The hand that moved the line on rests: to the part it came to; else it is followed on."""
        left = self._desk.hand.left_ms()
        if left:
            self._rest.start(left)
        else:
            with self._desk.reading_together():
                self.follow()
            self._desk.hand.have_looked()

    def follow(self) -> None:
        """Show what is chosen now; with the caret in a field of this part, when it has left it."""
        self._rest.stop()
        if not self._written_in(QApplication.focusWidget()):
            self._subject = self._chosen
        self._show_subject()

    def _turn(self) -> None:
        """Another machine or file: nothing of the last one stays, wherever the caret is."""
        self._subject = self._chosen
        self._show_subject()

    def _focus_moved(self, old: QWidget | None, now: QWidget | None) -> None:
        begun_here = self._written_in(old)
        if self._rest.isActive() and not begun_here and now is not None and self.isAncestorOf(now):
            self._rest.stop()
            self._turn()
        if now is not None and self._subject != self._chosen and begun_here:
            self.follow()

    def _written_in(self, focus: QWidget | None) -> bool:
        """Whether this is a field of the leaves or lies in one (the list of a combo box is a window of its own)."""
        over, in_a_form = focus, False
        while over is not None and over is not self:
            in_a_form = in_a_form or isinstance(over, RecordForm)
            over = over.parentWidget()
        return over is self and in_a_form

    def _show_subject(self) -> None:
        record, row_id = self.subject
        row_id = row_id if self._desk.is_open else None
        part_id = row_id if record == "part" else None
        turned_to: QWidget | None = None
        if self.leaves.chosen == "card":
            # The glance is of a part; of a subassembly or a machine the fields are all there is.
            turned_to = self.leaf("card" if part_id is not None else "details")
        for leaf in list(self._made.values()):
            if isinstance(leaf, ShowsPart):
                leaf.show_part(part_id)
            elif isinstance(leaf, FieldsLeaf):
                leaf.show_record(record, row_id)
        if turned_to is not None:
            self._stack.setCurrentWidget(turned_to)  # when it knows its part: what comes into view is read
        self._forget_working()
        self._say_title(record, row_id)

    def _forget_working(self) -> None:
        """A working of another part, or of what is gone, does not stay beside this one."""
        pane = self._made.get("working")
        if isinstance(pane, ShowsWorking) and self._worked != self.subject:
            pane.show_working(None)

    def _say_title(self, record: str, row_id: int | None) -> None:
        text = ""
        if row_id is not None:
            try:
                with self._desk.store.read() as connection:
                    fields = card(connection, record, row_id).fields
                text = f"{fields.get('code', '')} {fields['name']}".strip()
            except NotThere:
                text = ""
        more = len(self._desk.selection.part_ids) - 1
        self._title.setText(f"{text}, last of {more + 1} chosen" if text and more > 0 else text)

    def _hear(self, changed: Changed) -> None:
        record, row_id = self.subject
        if row_id in changed.rows(record).removed:
            if self._chosen != self.subject:
                self._turn()
            else:
                self._say_title(record, None)
        elif row_id in changed.rows(record).updated:
            self._say_title(record, row_id)

    def _show_working(self, working: Working) -> None:
        if self._again or not WORKING.present:
            return
        first = "working" not in self._made
        self._worked = self.subject
        self.show_leaf("working")
        if first:
            # The pane was made only now and has not heard the signal that asked for it.
            self._again = True
            self._desk.working_asked.emit(working)
            self._again = False
