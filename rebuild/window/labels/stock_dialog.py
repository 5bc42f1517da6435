"""On which labels tags go, and from which on; the stock typed last stays with the file."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from PySide6.QtWidgets import QComboBox, QDialog, QDialogButtonBox, QFormLayout, QLineEdit, QWidget

from rebuild.errors import RebuildError
from rebuild.trade.labels.stock import READY, WAYS, read_stock
from rebuild.trade.sizes.number import read_whole
from rebuild.window.desk.desk import Desk
from rebuild.window.labels.printing import print_of, wanted_now
from rebuild.window.layout.plain import PlainLabel
from rebuild.words.counted import counted

STOCK = "labels"


class StockDialog(QDialog):
    """``key`` says whether tags of parts or labels of places are printed; nothing named prints all."""

    def __init__(
        self,
        desk: Desk,
        key: str,
        parent: QWidget,
        place_ids: Sequence[int] = (),
        part_ids: Sequence[int] = (),
    ) -> None:
        super().__init__(parent)
        self._desk, self._key = desk, key
        self._place_ids, self._part_ids = tuple(place_ids), tuple(part_ids)
        self.setWindowTitle("Tags" if key == "tags" else "Bag labels")
        self.stock, self.first = QComboBox(self), QLineEdit("1", self)
        self.told = PlainLabel(self)
        self.buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Cancel, self)
        self.print_button = self.buttons.addButton("&Print…", QDialogButtonBox.ButtonRole.AcceptRole)
        self._lay_out()
        self.buttons.accepted.connect(self.print_them)
        self.buttons.rejected.connect(self.reject)
        self.stock.currentTextChanged.connect(lambda _text: self._tell())
        self._tell()

    def _lay_out(self) -> None:
        self.stock.setEditable(True)
        kept = self._desk.store.setting(STOCK)
        self.stock.addItems([*([kept] if kept and kept not in READY else []), *READY])
        self.stock.setCurrentText(kept or READY[0])
        self.stock.setMinimumWidth(460)
        self.stock.setAccessibleName("Labels")
        self.first.setAccessibleName("First label still on the sheet")
        self.first.setMaximumWidth(80)
        self.told.setWordWrap(True)
        form = QFormLayout(self)
        form.addRow("&Labels", self.stock)
        form.addRow("&First label", self.first)
        form.addRow(self.told)
        form.addRow(self.buttons)

    def _tell(self) -> None:
        """Say how the typed stock was read, or why not."""
        try:
            stock = read_stock(self.stock.currentText())
        except RebuildError as trouble:
            self.told.setText(str(trouble))
            self.print_button.setEnabled(False)
            return
        self.print_button.setEnabled(True)
        page = f"{stock.page_wide:g} × {stock.page_high:g} mm"
        self.told.setText(f"{counted(stock.on_a_page, 'label')} on a page of {page}. {WAYS}")

    def print_them(self) -> Path | None:
        """Write the labels; the stock is kept with the file when they were written."""
        words = self.stock.currentText().strip()

        def first() -> int:
            return read_whole(self.first.text(), "First label", at_least=1)

        number = self._desk.attempt(first)
        if number is None:
            return None
        wanted = replace(wanted_now(self._desk), stock=words, first=number, place_ids=self._place_ids)
        wanted = replace(wanted, part_ids=self._part_ids) if self._part_ids else wanted
        written = print_of(self._desk, self, self._key, wanted)
        if written is not None:
            self._desk.store.set_setting(STOCK, words)
            self.accept()
        return written


def print_tags(desk: Desk, window: QWidget) -> StockDialog:
    """Tags of the chosen parts, else of the chosen subassembly, else of the machine."""
    return _opened(StockDialog(desk, "tags", window))


def print_bags(desk: Desk, window: QWidget) -> StockDialog:
    """Labels of every place."""
    return _opened(StockDialog(desk, "bags", window))


def print_label(desk: Desk, parent: QWidget, place_id: int) -> StockDialog:
    """The label of one place."""
    return _opened(StockDialog(desk, "bags", parent, (place_id,)))


def _opened(dialog: StockDialog) -> StockDialog:
    dialog.open()
    return dialog
