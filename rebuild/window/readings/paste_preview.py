"""Before an odd block is stored: what lands where, how it reads, and what is odd. Texts can be mended here."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QAbstractItemView,
    QDialog,
    QDialogButtonBox,
    QHeaderView,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from rebuild.window.desk.desk import Desk
from rebuild.window.layout.plain import PlainLabel, plain_tip
from rebuild.window.lists.headings_at_rest import choose_nothing
from rebuild.window.readings.paste_landing import Landed, retyped
from rebuild.words.counted import counted
from rebuild.work.readings.acts import Pasted, paste_readings
from rebuild.work.readings.rows_paste_block import Landing, look_over
from rebuild.work.records.rows_settings import decimal_comma

_TEXT, _WHERE, _READS, _ODD = range(4)


class PastePreview(QDialog):
    """Shows a block that wants a look. *Store* is there once every cell ticked can be read."""

    pasted = Signal(object, object)  #: the cells stored, and their ids

    def __init__(self, desk: Desk, landed: Landed, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._cells = list(landed.cells)
        self._landings: list[Landing] = []
        self.setWindowTitle("Paste readings")
        self.setModal(True)
        self._says = PlainLabel()
        self._says.setWordWrap(True)
        self.table = _table()
        self._buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Cancel)
        self.store = self._buttons.addButton("&Store", QDialogButtonBox.ButtonRole.AcceptRole)
        self.store.setToolTip("Store the ticked readings in one act")
        layout = QVBoxLayout(self)
        layout.addWidget(self._says)
        layout.addWidget(self.table, 1)
        layout.addWidget(self._buttons)
        self.resize(860, 420)
        self._fill(landed.left_over)
        self._look()
        self._leave_slips_out()
        self.table.itemChanged.connect(self._mended)
        self._buttons.accepted.connect(self._store)
        self._buttons.rejected.connect(self.reject)

    def _fill(self, left_over: Sequence[tuple[str, str]]) -> None:
        self.table.setRowCount(len(self._cells) + len(left_over))
        for place, cell in enumerate(self._cells):
            text = QTableWidgetItem(cell.typed)
            text.setFlags(text.flags() | Qt.ItemFlag.ItemIsUserCheckable)
            text.setCheckState(Qt.CheckState.Checked)
            self.table.setItem(place, _TEXT, text)
        for place, (typed, why) in enumerate(left_over, len(self._cells)):
            self.table.setItem(place, _TEXT, _fixed(typed))
            self.table.setItem(place, _WHERE, _fixed("nowhere"))
            self.table.setItem(place, _READS, _fixed(""))
            self.table.setItem(place, _ODD, _fixed(why))
        self._left_over = len(left_over)

    def _look(self) -> None:
        """Read every cell again and say what is odd now."""
        comma = decimal_comma(self._desk.store)
        with self._desk.store.read() as connection:
            self._landings = look_over(connection, self._cells, comma)
        was = self.table.blockSignals(True)
        for place, landing in enumerate(self._landings):
            for column, text in ((_WHERE, landing.where), (_READS, landing.reads), (_ODD, landing.told)):
                self.table.setItem(place, column, _fixed(text))
        self.table.blockSignals(was)
        self._say()

    def _leave_slips_out(self) -> None:
        """What looks like a slip of the decimal place is stored only when somebody ticks it."""
        for place, landing in enumerate(self._landings):
            item = self.table.item(place, _TEXT)
            if landing.slips and item is not None:
                item.setCheckState(Qt.CheckState.Unchecked)
        self._say()

    def _mended(self, item: QTableWidgetItem) -> None:
        if item.column() == _TEXT and item.row() < len(self._cells):
            if item.text() != self._cells[item.row()].typed:
                self._cells[item.row()] = retyped(self._cells[item.row()], item.text())
                self._look()
            self._say()

    def _ticked(self) -> list[int]:
        texts = [self.table.item(place, _TEXT) for place in range(len(self._cells))]
        return [
            place
            for place, item in enumerate(texts)
            if item is not None and item.checkState() == Qt.CheckState.Checked and item.text().strip()
        ]

    def _say(self) -> None:
        ticked = self._ticked()
        stops = sum(self._landings[place].stops for place in ticked)
        odd = sum(bool(self._landings[place].odd) for place in ticked) - stops
        words = [f"{len(ticked)} of {len(self._cells) + self._left_over} cells would be stored, in one act."]
        if stops:
            words.append(f"{stops} cannot be read: mend the text, or take the tick off.")
        if odd:
            words.append(f"{odd} far from what is expected; storing takes them as they are.")
        slips = sum(one.slips for place, one in enumerate(self._landings) if place not in ticked)
        if slips:
            words.append(f"{slips} looks like a wrong decimal place or unit: mend it, then tick it.")
        over = sum(bool(self._landings[place].replaces) for place in ticked)
        if over:
            stand = "value that stands" if over == 1 else "values that stand"
            words.append(f"{over} {stand} there now would be replaced; the old stays in the history.")
        if self._left_over:
            words.append(f"{self._left_over} land nowhere; they stay on the clipboard.")
        self._says.setText(" ".join(words))
        self.store.setEnabled(bool(ticked) and not stops)

    def _store(self) -> None:
        cells: list[Pasted] = [self._cells[place] for place in self._ticked()]
        stored = self._desk.attempt(lambda: paste_readings(self._desk.store, cells, confirmed=True))
        if stored is not None:
            self._desk.say(f"{counted(len(stored), 'reading')} stored.")
            self.pasted.emit(cells, stored)
            self.accept()


def _fixed(text: str) -> QTableWidgetItem:
    item = QTableWidgetItem(text)
    item.setFlags(Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable)
    item.setToolTip(plain_tip(text))
    return item


def _table() -> QTableWidget:
    table = QTableWidget(0, 4)
    table.setAccessibleName("Pasted cells")
    table.setHorizontalHeaderLabels(["pasted", "lands on", "reads as", "to look at"])
    table.verticalHeader().hide()
    choose_nothing(table)
    table.setShowGrid(False)
    table.setAlternatingRowColors(True)
    table.setEditTriggers(
        QAbstractItemView.EditTrigger.DoubleClicked
        | QAbstractItemView.EditTrigger.EditKeyPressed
        | QAbstractItemView.EditTrigger.AnyKeyPressed
    )
    header = table.horizontalHeader()
    for column, wide in ((_TEXT, 110), (_WHERE, 270), (_READS, 180)):
        table.setColumnWidth(column, wide)
    header.setSectionResizeMode(_ODD, QHeaderView.ResizeMode.Stretch)
    return table
