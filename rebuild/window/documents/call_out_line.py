"""The line a call-out is typed into, in the order a figure is read: the item on it, the part, what differs here."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import Signal
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QGridLayout, QLineEdit, QVBoxLayout, QWidget

from rebuild.errors import BadEntry, RebuildError
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.pane_trouble import PaneTrouble
from rebuild.window.forms.editors import ReferenceEditor
from rebuild.window.layout.plain import PlainLabel
from rebuild.work.documents.names import Names, NewPart
from rebuild.work.documents.rows import CallOutRow
from rebuild.work.documents.rows_named import (
    choice_of,
    choices_named,
    named_by,
    part_of_item,
    said_named,
)

HINT = "Drag across an item on the page, type its number, Tab, the part, Enter."


@dataclass(frozen=True, slots=True)
class TypedCallOut:
    """What stands in the line, read; ``new_part`` where it names one nobody has listed."""

    text: str
    names: Names
    differs: str
    new_part: NewPart | None = None


class CallOutLine(QWidget):
    """``entered`` when Enter says that it is done; below the fields stands what the part typed was taken for."""

    entered = Signal()

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._page_id: int | None = None
        self._asked = ""
        self._stored = ("", "", "")
        # Made in the order Tab goes through them.
        self.words = QLineEdit(self)
        self.names = ReferenceEditor(self)
        self.differs = QLineEdit(self)
        self.understood = PlainLabel(self)
        self.trouble = PaneTrouble(desk, [self.words, self.names.line(), self.differs], self)
        self._lay_out()
        self.words.returnPressed.connect(self._item_typed)
        self.words.editingFinished.connect(self._suggest)
        self.names.line().textChanged.connect(lambda _text: self._read_back())
        for field in (self.names.line(), self.differs):
            field.returnPressed.connect(self.entered)

    def _lay_out(self) -> None:
        part = self.names.line()
        for field, name, example in (
            (self.words, "Item on the figure", "e.g. 14"),
            (part, "Part", "code or any words of its name; a spec or oil point too"),
            (self.differs, "Differs from the manual here", "how this machine is not as the page has it"),
        ):
            field.setAccessibleName(name)
            field.setPlaceholderText(example)
        self.names.setAccessibleName("Part")
        self.understood.setAccessibleName("What is understood")
        self.understood.setWordWrap(True)
        self.understood.setForegroundRole(QPalette.ColorRole.PlaceholderText)
        grid = QGridLayout()
        grid.setContentsMargins(0, 0, 0, 0)
        fields: tuple[tuple[str, QWidget], ...] = (
            ("Item on the figure", self.words),
            ("Part", self.names),
            ("Differs here", self.differs),
        )
        for at, (words, widget) in enumerate(fields):
            grid.addWidget(PlainLabel(words, self), 0, at)
            grid.addWidget(widget, 1, at)
            grid.setColumnStretch(at, (1, 3, 4)[at])
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        layout.addLayout(grid)
        layout.addWidget(self.understood)
        layout.addWidget(self.trouble)
        self.understood.setText(HINT)

    def show_page(self, page_id: int | None) -> None:
        """The page items are typed for; what stands in the line stays."""
        self._page_id = page_id

    def offer(self) -> None:
        """Read again what a call-out may name."""
        machine = self._desk.machine_id
        if self._desk.is_open and machine is not None:
            with self._desk.store.read() as connection:
                self.names.offer(choices_named(connection, machine))

    def show_mark(self, mark: CallOutRow) -> None:
        """A call-out to be changed."""
        self.words.setText(mark.text)
        self.differs.setText(mark.differs)
        key = choice_of(mark)
        self.names.put("" if key is None else str(key))
        self.keep()

    def _now(self) -> tuple[str, str, str]:
        return self.words.text(), self.names.currentText(), self.differs.text()

    def keep(self) -> None:
        """What stands in the line is stored: nothing of it is begun."""
        self._stored = self._now()

    @property
    def begun(self) -> bool:
        """Whether something stands here that is not what was shown or stored last."""
        return self._now() != self._stored

    @property
    def is_empty(self) -> bool:
        """Whether nothing is typed."""
        return not any(text.strip() for text in self._now())

    def clear(self) -> None:
        """An empty line for the next one."""
        self.words.clear()
        self.differs.clear()
        self.names.put("")
        self._asked = ""
        self.keep()

    def _item_typed(self) -> None:
        """After the item comes its part."""
        self._suggest()
        self.names.setFocus()
        self.names.line().selectAll()

    def _suggest(self) -> None:
        """The part noted with this item of this figure, where none is typed."""
        if self.names.currentText().strip() or not self.words.text().strip() or self._page_id is None:
            return
        with self._desk.store.read() as connection:
            key = part_of_item(connection, self._page_id, self.words.text())
        if key is not None:
            self.names.put(str(key))

    def _said(self) -> Names | str:
        """What stands in the field of the part: something there, or the name of a new part. Raises BadEntry."""
        text, machine = self.names.currentText().strip(), self._desk.machine_id
        if not text or machine is None:
            return Names()
        typed = self.names.typed()
        if typed != text and typed.isdigit():
            return named_by(int(typed))
        with self._desk.store.read() as connection:
            return said_named(connection, machine, text)

    def _read_back(self) -> None:
        """Say what the part typed is taken for, before Enter."""
        text = self.names.currentText().strip()
        if not text or not self._desk.is_open:
            self.understood.setText(HINT)
            return
        try:
            said = self._said()
        except BadEntry as trouble:
            self.understood.setText(f"… {trouble.what} {trouble.way_out}")
            return
        if isinstance(said, str):
            self.understood.setText(f"No part is called so: Enter, then Enter once more, makes “{said}”.")
        else:
            self.understood.setText(f"→ {self._title(said)}")

    def _title(self, names: Names) -> str:
        offered = range(self.names.count())
        keys = ((self.names.itemData(at), self.names.itemText(at)) for at in offered)
        return next((text for key, text in keys if isinstance(key, int) and named_by(key) == names), "")

    def read(self) -> TypedCallOut | None:
        """What stands in the line; a part nobody has listed is asked about once. None: something is said."""
        try:
            said = self._said()
            new = None
            if isinstance(said, str):
                if self._asked != said:
                    self._asked = said
                    raise BadEntry(
                        "is not there yet.",
                        where="Part",
                        value=said,
                        way_out="Enter once more makes it in the subassembly in hand; else type a code.",
                    )
                new, said = NewPart(said, self._desk.selection.subassembly_id), Names()
        except RebuildError as trouble:
            self.tell(trouble)
            return None
        return TypedCallOut(self.words.text().strip(), said, self.differs.text().strip(), new)

    def tell(self, trouble: RebuildError) -> None:
        """Say what is wrong; what is typed stays, the keyboard where it is to be put right."""
        self.trouble.tell(trouble)
        field = self.names if trouble.where == "Part" else self.words
        field.setFocus()
