"""A table of the grid's rows that fits itself: widths shared out, rows as tall as their words, bands over parts."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, Qt, QTimer, Signal
from PySide6.QtGui import QFont, QFontMetrics, QResizeEvent, QShowEvent
from PySide6.QtWidgets import QHeaderView, QTableView, QWidget

from rebuild.window.ink import theme
from rebuild.window.lists.headings_at_rest import choose_nothing
from rebuild.window.lists.wrapped import wrapped
from rebuild.window.lists.wrapping_delegate import row_height
from rebuild.window.readings.columns import Column
from rebuild.window.readings.delegates import ABOVE, PAD, ROUND_SHAPE
from rebuild.window.readings.model import GridModel
from rebuild.window.readings.shown import Shown, margin_text, verdict_text
from rebuild.window.readings.widths import WRAPS, Widths

#: Rows loaded and measured at once; those of a longer list follow while nothing else is to do, up to ``MEASURED``.
FIRST_ROWS = 256
MEASURED = 2048
PAUSE_MS = 40
#: So many rows changed are measured at once; more wait until all have.
FEW = 32
#: A name flows down no more rows than this.
MOST_BELOW = 8
#: Columns that write more than their bare text.
_TOLD = {Column.OFF: margin_text, Column.VERDICT: verdict_text}


class FittedView(QTableView):
    """Columns share the room unless one was dragged; of a long list the rows are measured in slices."""

    measured = Signal()
    resized = Signal()

    def __init__(self, model: GridModel, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._model = model
        self.setModel(model)
        self.bands = False
        self._lay_out()

    def _lay_out(self) -> None:
        metrics = self.fontMetrics()
        rows = self.verticalHeader()
        rows.hide()
        rows.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        rows.setDefaultSectionSize(row_height(metrics))
        rows.setMinimumSectionSize(8)
        # Headings, the band of a part and a few rows, whatever stands under them.
        self.setMinimumHeight(6 * row_height(metrics))
        header = self.horizontalHeader()
        header.setSectionsClickable(True)
        header.setSectionsMovable(True)
        header.setHighlightSections(False)
        header.setTextElideMode(Qt.TextElideMode.ElideRight)
        header.setMinimumSectionSize(metrics.averageCharWidth() * 3)
        header.setAccessibleName("Columns")
        header.setFont(theme.large(self.font(), 0.88))
        choose_nothing(self)
        header.sectionResized.connect(self._dragged)
        self._sharing = False
        self.shared = True
        self.bold = QFont(self.font())
        self.bold.setBold(True)
        self.band = QFontMetrics(self.bold).lineSpacing() + 2 * ABOVE
        self._widths = Widths(metrics, QFontMetrics(header.font()))
        self._later = QTimer(self)
        self._later.setSingleShot(True)
        self._later.timeout.connect(self.measure)
        self._onward = QTimer(self)
        self._onward.setSingleShot(True)
        self._onward.setInterval(PAUSE_MS)
        self._onward.timeout.connect(self._measure_on)
        self._measured = FIRST_ROWS
        self._model.modelReset.connect(self._other_rows)
        for signal in (self._model.rowsInserted, self._model.rowsRemoved, self._model.layoutChanged):
            signal.connect(self._later.start)
        self._model.dataChanged.connect(self._rows_changed)

    def _other_rows(self) -> None:
        self._widths.forget()
        self._measured = FIRST_ROWS
        self.measure()

    def _measure_on(self) -> None:
        """Measure some more rows of a long list, so that no column widens under the eye as it is scrolled."""
        first, last = self._measured, min(self._measured + FIRST_ROWS, self._model.rowCount(), MEASURED)
        if first >= last or not self.isVisible():
            return
        self._measured = last
        self._model.ensure(first, last - 1)
        places = range(first, last)
        rows = [(place, shown) for place in places if (shown := self._model.prepared_at(place)) is not None]
        if self._widths.see([shown for _, shown in rows]):
            self.share_out()
        else:
            self._set_heights(rows)
        self._onward.start()

    @property
    def one_unit(self) -> bool:
        """Whether every row is in the same unit, which then stands in the heading of the spec."""
        return bool(self._model.common_unit)

    def _rows_changed(self, first: QModelIndex, last: QModelIndex) -> None:
        """A few rows changed: only they are measured again."""
        places = range(first.row(), last.row() + 1)
        if len(places) > FEW:
            self._later.start()
            return
        rows = [(place, shown) for place in places if (shown := self._model.prepared_at(place)) is not None]
        if self._widths.see([shown for _, shown in rows]):
            self._later.start()
        else:
            self._set_heights(rows)

    def measure(self) -> None:
        """Fit columns and rows to what is loaded; of a short list that is every row."""
        if self._model.rowCount():
            self._model.ensure(0, min(self._model.rowCount(), FIRST_ROWS) - 1)
        rows = [shown for _, shown in self._model.loaded()]
        self._widths.see(rows)
        self._model.say_unit({shown.unit for shown in rows})
        self.measured.emit()
        self.share_out()
        if self._model.rowCount() > self._measured:
            self._onward.start()

    def has_room_for(self, columns: Sequence[Column]) -> bool:
        """Whether columns at their narrowest fit the view; of one not laid out yet it is not known, so yes."""
        return not self.isVisible() or self._widths.least(columns) <= self._room()

    def _room(self) -> int:
        """What the columns have [px]; the scroll bar's is kept free, so that it does not come and go with the rows."""
        return self.width() - self.verticalScrollBar().sizeHint().width() - 2 * self.frameWidth()

    def share_out(self) -> None:
        """Share the room out among the columns shown, unless someone dragged one."""
        if self.shared:
            shown = [column for column in Column if not self.isColumnHidden(column)]
            self._sharing = True
            for column, wide in self._widths.share(shown, self._room()).items():
                self.setColumnWidth(column, wide)
            self._sharing = False
        self._set_heights(self._model.loaded())

    def _set_heights(self, rows: Sequence[tuple[int, Shown]]) -> None:
        """As many lines as the loaded rows need, and a band over the first row of each part."""
        metrics = self.fontMetrics()
        for place, shown in rows:
            height = row_height(metrics, self._lines_of(place, shown)) + self.band_of(place)
            if self.rowHeight(place) != height:
                self.setRowHeight(place, height)

    def _lines_of(self, place: int, shown: Shown) -> int:
        """How many lines a row needs; a name may flow down the rows of its feature."""
        most = 1
        for column in WRAPS:
            index = self._model.index(place, column)
            if self.isColumnHidden(column) or not self.draws(index):
                continue
            words = _TOLD[column](shown) if column in _TOLD else shown.texts[column]
            room = self.columnWidth(column) - 2 * PAD - self.taken(index)[0]
            lines = len(wrapped(words, room, self.fontMetrics()))
            most = max(most, lines - self._rows_below(place) if column is Column.FEATURE else lines)
        return most

    def _rows_below(self, place: int) -> int:
        """How many rows of the same feature follow."""
        shown, last = self._model.prepared_at(place), place
        while self.bands and shown is not None and last - place < MOST_BELOW:
            after = self._model.prepared_at(last + 1)
            if after is None or after.row.key[0] != shown.row.key[0]:
                break
            last += 1
        return last - place

    def below(self, index: QModelIndex | QPersistentModelIndex) -> int:
        """The height [px] of the rows a cell's words may flow down."""
        rows = self._rows_below(index.row()) if index.column() == Column.FEATURE else 0
        return sum(self.rowHeight(index.row() + at) for at in range(1, rows + 1))

    def lines_in(self, index: QModelIndex | QPersistentModelIndex, text: str, room: int) -> tuple[str, ...]:
        """What a cell of names writes of its text."""
        lines = wrapped(text, room, self.fontMetrics())
        if index.column() != Column.FEATURE or not self.bands:
            return lines
        first = index.row()
        while not self.draws(self._model.index(first, Column.FEATURE)):
            first -= 1
        space = self.fontMetrics().lineSpacing()
        at = 0
        for row in range(first, index.row() + 1):
            holds = max(1, (self.rowHeight(row) - self.band_of(row) - 2 * ABOVE) // space)
            written = lines[at : at + holds]
            at += holds
        return written

    def band_of(self, row: int) -> int:
        """The height [px] of the band over a row; 0 without one."""
        return self.band if self.bands and self._begins(row) else 0

    def _begins(self, row: int) -> bool:
        """Whether a row is the first of its part."""
        shown = self._model.prepared_at(row)
        if row == 0 or shown is None:
            return row == 0
        above = self._model.prepared_at(row - 1)
        return above is None or above.row.part_id != shown.row.part_id

    def draws(self, index: QModelIndex | QPersistentModelIndex) -> bool:
        """Whether a cell writes its words: a feature's name stands once, on its first row in view."""
        if index.column() not in (Column.FEATURE, Column.KIND) or not self.bands or index.row() == 0:
            return True
        shown, above = self._model.prepared_at(index.row()), self._model.prepared_at(index.row() - 1)
        return shown is None or above is None or shown.row.key[0] != above.row.key[0]

    def taken(self, index: QModelIndex | QPersistentModelIndex) -> tuple[int, int]:
        """What pictures take of a cell's width and the band of its height [px]."""
        return (ROUND_SHAPE if index.column() == Column.VERDICT else 0), self.band_of(index.row())

    def _dragged(self, _column: int, old: int, new: int) -> None:
        if not self._sharing and old and new:
            self.shared = False

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._onward.start()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.share_out()
        self.resized.emit()
