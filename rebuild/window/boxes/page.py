"""The Unknown things page: what came in boxes, what is seen on it, which part it may be, and what became of it."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QLineEdit, QPushButton, QSplitter, QVBoxLayout, QWidget

from rebuild.errors import RebuildError
from rebuild.trade.schedule.graph import Ref
from rebuild.window.boxes.thing_pane import ThingPane
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.leads import follow
from rebuild.window.desk.live_page import LivePage
from rebuild.window.desk.pane_trouble import PaneTrouble
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.plain_table import PlainTable
from rebuild.words.counted import counted
from rebuild.words.parts import Identity
from rebuild.work.boxes import rows, rows_suspects
from rebuild.work.boxes.rows import ThingRow, things
from rebuild.work.photos import rows_shown

_COLUMNS = ("Thing", "Machine", "Identity", "Came in", "Seen on it", "Lies, or went to")
ALL, OPEN = "all", "not settled"


class BoxesPage(LivePage):
    """Things of every machine of the file on the left, the chosen one with its suspects on the right."""

    shows = (rows, rows_suspects, rows_shown)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, "Unknown things", parent)
        self._rows: dict[int, ThingRow] = {}
        self.name, self.box, self.clues = QLineEdit(self), QLineEdit(self), QLineEdit(self)
        self.add_button = QPushButton("Add", self)
        self.which = QComboBox(self)
        self.said = PlainLabel(self)
        self.trouble = PaneTrouble(desk, [self.name, self.box, self.clues], self)
        self.list = PlainTable("Unknown things", _COLUMNS, self, sortable=True)
        self.list.columns.leave_out((3,))
        self.thing = ThingPane(desk, self)
        self._lay_out()
        self._wire()

    def _lay_out(self) -> None:
        for field, name, words in (
            (self.name, "New thing", "what it looks like: bronze ring"),
            (self.box, "Came in", "came in: box 2"),
            (self.clues, "Seen on it", "seen: bore 24.98; M10 x 1.5; MT 3; stamped 418"),
        ):
            field.setAccessibleName(name)
            field.setPlaceholderText(words)
        self.add_button.setAutoDefault(False)
        self.which.setAccessibleName("Which things")
        self.which.addItems([OPEN, ALL])
        self.list.when_empty(
            "What came in boxes with the machine and nobody knows: note it, and what is seen on it.",
            "Note the first",
            self.name.setFocus,
        )
        line = QHBoxLayout()
        for widget, stretch in ((self.name, 3), (self.box, 2), (self.clues, 4), (self.add_button, 0)):
            line.addWidget(widget, stretch)
        told = QHBoxLayout()
        told.addWidget(self.said, 1)
        told.addWidget(self.which)
        left = QWidget(self)
        column = QVBoxLayout(left)
        column.setContentsMargins(0, 0, 0, 0)
        column.addLayout(line)
        column.addWidget(self.trouble)
        column.addLayout(told)
        column.addWidget(self.list, 1)
        whole = QSplitter(Qt.Orientation.Horizontal, self)
        whole.addWidget(left)
        whole.addWidget(self.thing)
        whole.setChildrenCollapsible(False)
        whole.setStretchFactor(0, 1)
        whole.setSizes([760, 500])
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 8, 8, 8)
        layout.addWidget(whole)

    def _wire(self) -> None:
        self.add_button.clicked.connect(lambda _checked=False: self.add())
        for field in (self.name, self.box, self.clues):
            field.returnPressed.connect(self.add)
        self.which.activated.connect(lambda _at: self.refresh())
        self.list.selectionModel().selectionChanged.connect(lambda _new, _old: self._show())
        self.list.activated.connect(lambda _index: self._go())

    def show_row(self, _table: str, key: int) -> None:
        """Choose one thing, also one that is settled."""
        if key not in self._rows or key not in self.list.plain.ids:
            self.which.setCurrentText(ALL)
            self.refresh()
        self.list.choose(key)

    def refresh(self) -> None:
        """Read the things again; the chosen one stays chosen."""
        found: list[ThingRow] = []
        if self._desk.is_open:
            with self._desk.store.read() as connection:
                found = things(connection)
        self._rows = {row.part_id: row for row in found}
        wanted = [
            row for row in found if self.which.currentText() == ALL or row.identity is not Identity.NOT_OURS
        ]
        here = self.list.chosen()
        self.list.plain.fill([(row.part_id, _cells(row)) for row in wanted])
        if here is not None:
            self.list.choose(here)
        if self.list.chosen() is None and wanted:
            self.list.selectRow(0)
        gone = sum(row.identity is Identity.NOT_OURS for row in found)
        self.said.setText(f"{counted(len(found) - gone, 'thing')} not settled, {gone} not ours")
        self.add_button.setEnabled(self.machine is not None)
        self._show()

    def _show(self) -> None:
        self.thing.show_thing(self._rows.get(self.list.chosen() or 0))

    def add(self) -> None:
        """Note what stands in the line; the box stays for the next thing out of it."""
        from rebuild.work.boxes.acts import add_thing

        machine = self.machine
        if machine is None:
            return
        try:
            made = add_thing(self._desk.store, machine, self.name.text(), self.box.text(), self.clues.text())
        except RebuildError as trouble:
            self.trouble.tell(trouble)
            return
        self._desk.went_well.emit()
        self.name.clear()
        self.clues.clear()
        self.name.setFocus()
        self.list.choose(made)

    def _go(self) -> None:
        """To the thing on the bench, as a loose part of its machine."""
        row = self._rows.get(self.list.chosen() or 0)
        if row is not None:
            self._desk.choose_machine(row.machine_id)
            self._desk.choose(subassembly_id=None)
            follow(self._desk, Ref("part", row.part_id))

    def put_by(self) -> None:
        """A thing begun and not stored is kept: the file may close next."""
        begun = "; ".join(filter(None, (field.text().strip() for field in (self.name, self.clues))))
        if begun and self._desk.is_open:
            self._desk.attempt(
                lambda: self._desk.store.keep_entry("a new unknown thing", begun, "It was not stored.")
            )
        self.name.clear()
        self.clues.clear()

    def line_to_type_in(self) -> QWidget:
        """A new thing's name."""
        return self.name

    def panes(self) -> list[QWidget]:
        """The panes F6 goes round."""
        return [self.name, self.list, self.thing.clue, self.thing.suspects, self.thing.it_is.line]


def _cells(row: ThingRow) -> tuple[str, ...]:
    sure = row.identity.value + (f": {row.suspects}" if row.suspects else "")
    went = f"went to {row.went_to}" if row.went_to else row.place
    return (row.called, row.machine, sure, row.came_in, "; ".join(one.words for one in row.clues), went)
