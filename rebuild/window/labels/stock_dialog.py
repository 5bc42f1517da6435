"""Tags and bag labels before they are printed: of what, how many, on which labels, and how the page looks."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import (
    QComboBox,
    QDialog,
    QDialogButtonBox,
    QFormLayout,
    QHBoxLayout,
    QLineEdit,
    QVBoxLayout,
    QWidget,
)

from rebuild.errors import RebuildError
from rebuild.trade.labels.stock import PAPERS, READY, WAYS, Stock, placed, read_stock
from rebuild.trade.sizes.number import read_whole
from rebuild.window.desk.desk import Desk
from rebuild.window.labels.preview import LabelPreview
from rebuild.window.labels.printing import PAPER, print_of, wanted_now
from rebuild.window.layout.plain import PlainLabel
from rebuild.words.counted import counted
from rebuild.work.labels.rows import Label
from rebuild.work.labels.rows_offered import Offer, of_parts, of_places

STOCK = "labels"
#: The label after the last one printed, on the sheet begun.
NEXT = "labels_next"
#: Names told beside how many there are.
NAMED = 3


class StockDialog(QDialog):
    """``key`` says whether tags of parts or labels of places are printed; what is named is offered first."""

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
        self.setWindowTitle("Print tags of parts" if key == "tags" else "Print labels of bags and trays")
        self._offers = self._read_offers(tuple(place_ids), tuple(part_ids))
        self.of, self.stock, self.first = QComboBox(self), QComboBox(self), QLineEdit("1", self)
        self.names, self.told, self.ways = PlainLabel(self), PlainLabel(self), PlainLabel(WAYS, self)
        self.preview = LabelPreview(desk.store, self)
        self.buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Cancel, self)
        self.print_button = self.buttons.addButton("&Print to a PDF…", QDialogButtonBox.ButtonRole.AcceptRole)
        self._fill()
        self._lay_out()
        self.buttons.accepted.connect(self.print_them)
        self.buttons.rejected.connect(self.reject)
        self.of.currentIndexChanged.connect(lambda _at: self._tell())
        self.stock.currentTextChanged.connect(self._turn_to)
        self.first.textChanged.connect(lambda _text: self._tell())
        self._tell()

    def _read_offers(self, place_ids: tuple[int, ...], part_ids: tuple[int, ...]) -> tuple[Offer, ...]:
        machine, chosen = self._desk.machine_id or 0, self._desk.selection
        place, parts = next(iter(place_ids), None), part_ids or chosen.part_ids
        with self._desk.store.read() as connection:
            if self._key == "tags":
                return of_parts(connection, machine, chosen.subassembly_id, parts, place)
            return of_places(connection, place_ids)

    def _fill(self) -> None:
        for offer in self._offers:
            self.of.addItem(f"{offer.words} ({len(offer.ids)})")
        self.of.setAccessibleName("Of")
        self.stock.setEditable(True)
        kept, paper = self._desk.store.setting(STOCK), self._desk.store.setting(PAPER, "A4")
        ready = sorted(READY, key=lambda words: words.split(",")[0] in PAPERS and not words.startswith(paper))
        self.stock.addItems([*([kept] if kept and kept not in ready else []), *ready])
        self.stock.setCurrentText(kept or ready[0])
        self.first.setText(self._next())
        self.stock.setMinimumWidth(430)
        self.stock.setAccessibleName("Labels")
        self.first.setAccessibleName("First label still on the sheet")
        self.first.setMaximumWidth(80)

    def _next(self) -> str:
        """The label a sheet begun goes on with; the first of a stock that was not printed on last."""
        kept, store = self.stock.currentText().strip(), self._desk.store
        return store.setting(NEXT, "1") if kept == store.setting(STOCK) else "1"

    def _turn_to(self, _words: str) -> None:
        """Other labels begin with a sheet of their own."""
        self.first.setText(self._next())
        self._tell()

    def _lay_out(self) -> None:
        for label in (self.names, self.told, self.ways):
            label.setWordWrap(True)
        self.ways.setForegroundRole(QPalette.ColorRole.PlaceholderText)
        form = QFormLayout()
        form.addRow("&Of", self.of)
        form.addRow("", self.names)
        form.addRow("&Labels", self.stock)
        form.addRow("", self.ways)
        row = QHBoxLayout()
        row.addWidget(self.first)
        row.addWidget(PlainLabel("of a sheet begun before, counted row by row", self))
        row.addStretch(1)
        caption = PlainLabel("&First label", self)
        caption.setBuddy(self.first)
        form.addRow(caption, row)
        form.addRow("", self.told)
        left = QVBoxLayout()
        left.addLayout(form)
        left.addStretch(1)
        both = QHBoxLayout()
        both.addLayout(left, 3)
        both.addWidget(self.preview, 2, Qt.AlignmentFlag.AlignTop)
        layout = QVBoxLayout(self)
        layout.addLayout(both)
        layout.addWidget(self.buttons)

    @property
    def offer(self) -> Offer:
        """What is printed of as chosen now."""
        return self._offers[max(0, self.of.currentIndex())]

    def _labels(self) -> list[Label]:
        with self._desk.store.read() as connection:
            return self.offer.labels(connection)

    def _tell(self) -> None:
        """Say what will be printed and on what, and show its first page; or say why it cannot be."""
        labels = self._labels()
        self.names.setText(_named(labels))
        try:
            stock, first = self._read()
            if not labels:
                self._refuse(f"{self.offer.none} Nothing is printed.")
                return
            last = placed(stock, len(labels), first)[-1]
            self.told.setText(_told(stock, len(labels), last.page + 1))
            self.print_button.setEnabled(True)
            self.preview.show_labels(labels[: stock.on_a_page - first + 1], stock, first)
        except RebuildError as trouble:
            self._refuse(str(trouble))

    def _refuse(self, why: str) -> None:
        self.told.setText(why)
        self.print_button.setEnabled(False)
        self.preview.show_labels([], None, 1)

    def _read(self) -> tuple[Stock, int]:
        """The stock and the first label as typed. Raises RebuildError."""
        stock = read_stock(self.stock.currentText())
        return stock, read_whole(self.first.text(), "First label", at_least=1)

    def print_them(self) -> Path | None:
        """Write the labels; the stock is kept with the file when they were written."""
        read = self._desk.attempt(self._read)
        if read is None:
            return None
        words = self.stock.currentText().strip()
        wanted = replace(wanted_now(self._desk), stock=words, first=read[1])
        ids = self.offer.ids
        wanted = replace(wanted, part_ids=ids) if self._key == "tags" else replace(wanted, place_ids=ids)
        written = print_of(self._desk, self, self._key, wanted)
        if written is not None:
            begun = (read[1] + len(ids) - 1) % read[0].on_a_page
            self._desk.store.set_setting(STOCK, words)
            self._desk.store.set_setting(NEXT, str(begun + 1))
            self.accept()
        return written


def _named(labels: Sequence[Label]) -> str:
    """The first few by code and name, and how many more."""
    shown = [" ".join(filter(None, (label.big, label.name))) for label in labels[:NAMED]]
    more = f" and {len(labels) - NAMED} more" if len(labels) > NAMED else ""
    return ", ".join(shown) + more


def _told(stock: Stock, count: int, pages: int) -> str:
    """``12 labels of 63.5 × 38.1 mm, 3 across and 7 down on A4: 1 page.``"""
    paper = next(
        (name for name, size in PAPERS.items() if size == (stock.page_wide, stock.page_high)), "its own page"
    )
    laid = (
        f"{stock.across} across and {stock.down} down on {paper}"
        if stock.on_a_page > 1
        else "one after another"
    )
    return (
        f"{counted(count, 'label')} of {stock.wide:g} × {stock.high:g} mm, {laid}: {counted(pages, 'page')}."
    )


def print_tags(desk: Desk, window: QWidget) -> StockDialog:
    """Tags of the chosen parts, else of the chosen subassembly, else of the machine."""
    return _opened(StockDialog(desk, "tags", window))


def print_bags(desk: Desk, window: QWidget) -> StockDialog:
    """Labels of every place."""
    return _opened(StockDialog(desk, "bags", window))


def print_labels(desk: Desk, parent: QWidget, place_ids: Sequence[int]) -> StockDialog:
    """The labels of the chosen places."""
    return _opened(StockDialog(desk, "bags", parent, place_ids))


def print_tags_of_place(
    desk: Desk, parent: QWidget, place_id: int, part_ids: Sequence[int] = ()
) -> StockDialog:
    """Tags of what lies in one place, or of the parts chosen there."""
    return _opened(StockDialog(desk, "tags", parent, (place_id,), part_ids))


def _opened(dialog: StockDialog) -> StockDialog:
    dialog.open()
    return dialog
