"""The call-outs of the page shown as a list, and the line a new one is marked with."""

from __future__ import annotations

from PySide6.QtCore import QPointF, Signal
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QLineEdit, QPushButton, QVBoxLayout, QWidget

from rebuild.errors import BadEntry, RebuildError
from rebuild.trade.schedule.graph import Ref
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.leads import follow
from rebuild.window.desk.pane_trouble import PaneTrouble
from rebuild.window.forms.editors import ReferenceEditor
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.plain_table import PlainTable
from rebuild.work.documents.acts import mark_page, name_call_out
from rebuild.work.documents.names import Names
from rebuild.work.documents.rows import CallOutRow, PageRow
from rebuild.work.documents.rows_named import choice_of, choices_named, named_by
from rebuild.work.editing.acts import edit, remove

_COLUMNS = ("Words", "Names", "Differs from the manual here")


class CallOutPane(QWidget):
    """``chosen`` tells the call-out chosen in the list."""

    chosen = Signal(int)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._page: PageRow | None = None
        self._marks: dict[int, CallOutRow] = {}
        self.table = PlainTable("Call-outs of the page", _COLUMNS, self)
        self.words, self.differs = QLineEdit(self), QLineEdit(self)
        self.names = ReferenceEditor(self)
        self.draw_button = QPushButton("Mark on the page", self)
        self.set_button = QPushButton("Change the chosen", self)
        self.go_button = QPushButton("Go to it", self)
        self.remove_button = QPushButton("Remove", self)
        self.trouble = PaneTrouble(desk, [self.words, self.names.line(), self.differs], self)
        self._lay_out()
        self._wire()

    def _lay_out(self) -> None:
        self.words.setAccessibleName("Words of the call-out")
        self.words.setPlaceholderText("as on the page, e.g. 14")
        self.names.setAccessibleName("Names")
        self.names.line().setAccessibleName("Names")
        self.names.line().setPlaceholderText("part, spec or oil point it shows")
        self.differs.setAccessibleName("Differs from the manual here")
        self.differs.setPlaceholderText("how this machine is not as the page has it")
        self.draw_button.setCheckable(True)
        self.draw_button.setToolTip("Then drag across the place on the page")
        self.table.when_empty("What the page shows of this machine: mark a place and name the part.")
        grid = QGridLayout()
        for at, (words, field) in enumerate(
            (("Words", self.words), ("Names", self.names), ("Differs here", self.differs))
        ):
            grid.addWidget(PlainLabel(words, self), 0, at)
            grid.addWidget(field, 1, at)
            grid.setColumnStretch(at, (1, 3, 4)[at])
        buttons = QHBoxLayout()
        for button in (self.draw_button, self.set_button, self.go_button, self.remove_button):
            button.setAutoDefault(False)
            buttons.addWidget(button)
        buttons.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(4)
        layout.addWidget(self.table, 1)
        layout.addLayout(grid)
        layout.addWidget(self.trouble)
        layout.addLayout(buttons)

    def _wire(self) -> None:
        self.table.selectionModel().selectionChanged.connect(lambda _new, _old: self._show_chosen())
        self.table.activated.connect(lambda _index: self.go())
        self.set_button.clicked.connect(lambda _checked=False: self.change())
        self.go_button.clicked.connect(lambda _checked=False: self.go())
        self.remove_button.clicked.connect(lambda _checked=False: self.remove())

    def show_page(self, page: PageRow | None, marks: list[CallOutRow]) -> None:
        """The call-outs of another page; what is begun in the line stays."""
        self._page = page
        self._marks = {mark.id: mark for mark in marks}
        rows = [(mark.id, (mark.text, mark.named, mark.differs)) for mark in marks]
        self.table.plain.fill(rows)
        self._enable()

    def offer(self) -> None:
        """Read again what a call-out may name."""
        machine = self._desk.machine_id
        if self._desk.is_open and machine is not None:
            with self._desk.store.read() as connection:
                self.names.offer(choices_named(connection, machine))

    def _current(self) -> CallOutRow | None:
        return self._marks.get(self.table.chosen() or 0)

    def _show_chosen(self) -> None:
        mark = self._current()
        self._enable()
        if mark is not None:
            self.words.setText(mark.text)
            self.differs.setText(mark.differs)
            key = choice_of(mark)
            self.names.put("" if key is None else str(key))
            self.chosen.emit(mark.id)

    def _enable(self) -> None:
        mark = self._current()
        self.draw_button.setEnabled(self._page is not None)
        for button in (self.set_button, self.remove_button):
            button.setEnabled(mark is not None)
        self.go_button.setEnabled(mark is not None and bool(mark.named))

    def mark(self, start: QPointF, end: QPointF) -> None:
        """A place was dragged on the page: store it with what stands in the line."""
        page = self._page
        if page is None:
            return
        try:
            key = mark_page(
                self._desk.store,
                page.id,
                (start.x(), start.y()),
                (end.x(), end.y()),
                self.words.text(),
                self._names(),
                self.differs.text(),
            )
        except RebuildError as trouble:
            self.trouble.tell(trouble)
            self.words.setFocus()
            return
        self._desk.went_well.emit()
        self.clear()
        self.draw_button.setChecked(False)
        self.table.choose(key)

    def clear(self) -> None:
        """An empty line for the next one."""
        self.words.clear()
        self.differs.clear()
        self.names.put("")

    def change(self) -> None:
        """Give the chosen call-out what stands in the line."""
        mark = self._current()
        if mark is None:
            return
        try:
            names = self._names()
            if names != Names(None if mark.feature_id else mark.part_id, mark.feature_id, mark.oil_point_id):
                name_call_out(self._desk.store, mark.id, names)
            typed = {"text": self.words.text().strip(), "differs": self.differs.text().strip()}
            if typed != {"text": mark.text, "differs": mark.differs}:
                edit(self._desk.store, "call_out", [mark.id], typed)
        except RebuildError as trouble:
            self.trouble.tell(trouble)
        else:
            self._desk.went_well.emit()

    def _names(self) -> Names:
        """What stands in the field of names. Raises BadEntry."""
        typed = self.names.typed()
        if not typed:
            return Names()
        offered = (self.names.itemData(at) for at in range(self.names.count()))
        key = next((one for one in offered if isinstance(one, int) and str(one) == typed), None)
        if key is None:
            raise BadEntry(
                "is none of this machine, or several are called so.",
                where="Names",
                value=typed,
                way_out="Choose from the list, or leave it empty.",
            )
        return named_by(key)

    def go(self) -> None:
        """Go to what the chosen call-out names."""
        mark = self._current()
        if mark is not None:
            follow_call_out(self._desk, mark)

    def remove(self) -> None:
        """Take the chosen call-out off the page."""
        mark = self._current()
        if mark is not None:
            self._desk.attempt(
                lambda: remove(self._desk.store, "call_out", [mark.id]), "Removed; undo brings it back."
            )


def follow_call_out(desk: Desk, mark: CallOutRow) -> None:
    """Turn to the part, spec or oil point a call-out names."""
    if mark.oil_point_id is not None:
        follow(desk, Ref("oil_point", mark.oil_point_id))
    elif mark.feature_id is not None:
        follow(
            desk, Ref("feature", mark.feature_id), part_id=mark.part_id, subassembly_id=mark.subassembly_id
        )
    elif mark.part_id is not None:
        desk.choose(subassembly_id=mark.subassembly_id)
        follow(desk, Ref("part", mark.part_id), subassembly_id=mark.subassembly_id)
