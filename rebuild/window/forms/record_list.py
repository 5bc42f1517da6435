"""A list of the shop's things with the chosen one's fields beside it, edited in place."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QFrame,
    QHBoxLayout,
    QPushButton,
    QScrollArea,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from rebuild.window.desk.desk import Desk
from rebuild.window.desk.hearing import Hearing, Records, Rows
from rebuild.window.forms.edit_form import EditForm
from rebuild.window.lists.plain_table import PlainTable
from rebuild.work.editing.acts import remove

if TYPE_CHECKING:
    from sqlalchemy import Connection

Row = tuple[int, tuple[str, ...]]


@dataclass(frozen=True, slots=True)
class Listing:
    """What a list shows: its rows as strings, how one is added, and whose lookups it asks besides its record's."""

    title: str
    record: str
    headings: Sequence[str]
    read: Callable[[Connection], list[Row]]
    add: Callable[[RecordList], object]
    shows: Sequence[Rows] = ()


class RecordList(QDialog):
    """The dialog of one ``Listing``."""

    def __init__(self, desk: Desk, listing: Listing, parent: QWidget | None) -> None:
        super().__init__(parent)
        self.desk = desk
        self.listing = listing
        self.setWindowTitle(listing.title)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.table = PlainTable(listing.title, listing.headings, self)
        self.form = EditForm(desk, listing.record, self, most_columns=1)
        self.buttons = QHBoxLayout()
        self._stretch = 0
        self._build()
        self._hearing = Hearing(
            desk,
            self,
            (Records.of(listing.record), *listing.shows),
            lambda _changed: self.read(),
            while_hidden=True,
        )
        desk.closed.connect(self.close)
        self.table.selectionModel().selectionChanged.connect(
            lambda _new, _old: self.form.show_record(self.table.chosen())
        )
        self.read()
        if self.table.plain.ids:
            self.table.selectRow(0)

    def _build(self) -> None:
        self.add_plain_button("New…", lambda: self.listing.add(self))
        self.add_plain_button("Remove", self._remove)
        self.buttons.addStretch(1)
        close = QDialogButtonBox(QDialogButtonBox.StandardButton.Close, self)
        close.rejected.connect(self.reject)
        self.buttons.addWidget(close)
        scroll = QScrollArea(self)
        scroll.setAccessibleName("Fields of the chosen record")
        scroll.setWidget(self.form)
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        split = QSplitter(Qt.Orientation.Horizontal, self)
        split.addWidget(self.table)
        split.addWidget(scroll)
        split.setStretchFactor(0, 3)
        split.setStretchFactor(1, 2)
        split.setChildrenCollapsible(False)
        layout = QVBoxLayout(self)
        layout.addWidget(split, 1)
        layout.addLayout(self.buttons)
        split.setSizes([740, 380])
        self.resize(1120, 560)

    def add_plain_button(self, text: str, act: Callable[[], object]) -> QPushButton:
        """A button under the list."""
        button = QPushButton(text, self)
        button.setAutoDefault(False)
        button.clicked.connect(lambda _checked=False: act())
        self.buttons.insertWidget(self._stretch, button)
        self._stretch += 1
        return button

    def read(self) -> None:
        """Read the rows again; the chosen one stays chosen."""
        if not self.desk.is_open:
            return
        chosen = self.table.chosen()
        with self.desk.store.read() as connection:
            self.table.plain.fill(self.listing.read(connection))
        if chosen is not None and self.table.chosen() is None:
            self.table.choose(chosen)

    def _remove(self) -> None:
        key = self.table.chosen()
        if key is not None:
            self.form.show_record(None)
            self.desk.attempt(
                lambda: remove(self.desk.store, self.listing.record, [key]), "Removed; Ctrl+Z brings it back."
            )

    def done(self, result: int) -> None:
        self.form.show_record(None)
        super().done(result)
