"""The table itself: asks for pages before painting, rules between parts, and the keys of a grid."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import (
    QEvent,
    QItemSelectionModel,
    QLine,
    QModelIndex,
    QPersistentModelIndex,
    QRect,
    Qt,
    QTimer,
    Signal,
)
from PySide6.QtGui import QFont, QFontMetrics, QKeyEvent, QPainter, QPaintEvent, QResizeEvent, QShowEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView, QWidget

from rebuild.window.ink import theme
from rebuild.window.ink.strokes import pen
from rebuild.window.lists.wrapped import wrapped
from rebuild.window.lists.wrapping_delegate import row_height
from rebuild.window.readings.columns import STAGE_COLUMNS, Column, stage_of
from rebuild.window.readings.delegates import (
    ABOVE,
    PAD,
    ROUND_SHAPE,
    LoweredDelegate,
    MarginDelegate,
    VerdictDelegate,
    WordsDelegate,
    ZoneDelegate,
)
from rebuild.window.readings.model import GridModel
from rebuild.window.readings.shown import Shown, verdict_text
from rebuild.window.readings.widths import WRAPS, Widths
from rebuild.words.readings import STAGES, Stage
from rebuild.work.readings.rows_grid import Key

#: Rows loaded and measured at once; those of a longer list follow while nothing else is to do, up to ``MEASURED``.
FIRST_ROWS = 256
MEASURED = 2048
PAUSE_MS = 40
#: So many rows changed are measured at once; more wait until all have.
FEW = 32
#: A name flows down no more rows than this.
MOST_BELOW = 8
_EDIT_BY_TYPING = QAbstractItemView.EditTrigger.AnyKeyPressed


class GridView(QTableView):
    """A table of cells, chosen like a spreadsheet's. ``typed`` carries a key meant for the entry line."""

    opened = Signal(QModelIndex)
    typed = Signal(str)
    measured = Signal()

    def __init__(self, model: GridModel, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._model = model
        self.setModel(model)
        self.bands = False
        self._stage: Stage | None = None
        self._words, self._margin = WordsDelegate(model), MarginDelegate(model)
        self._verdict, self._zone = VerdictDelegate(model), ZoneDelegate(model)
        self.setItemDelegate(LoweredDelegate(self))
        for column in (Column.PART, Column.FEATURE, Column.KIND):
            self.setItemDelegateForColumn(column, self._words)
        self.setItemDelegateForColumn(Column.OFF, self._margin)
        self.setItemDelegateForColumn(Column.VERDICT, self._verdict)
        self.setItemDelegateForColumn(Column.ZONE, self._zone)
        self.setAccessibleName("Measurements")
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectItems)
        self.setEditTriggers(QAbstractItemView.EditTrigger.EditKeyPressed | _EDIT_BY_TYPING)
        self.setShowGrid(False)
        self.setWordWrap(True)
        self.setTabKeyNavigation(False)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        self.doubleClicked.connect(self.opened)
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
        header.sectionResized.connect(self._dragged)
        self._sharing = False
        self.shared = True
        self._bold = QFont(self.font())
        self._bold.setBold(True)
        self.band = QFontMetrics(self._bold).lineSpacing() + 2 * ABOVE
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

    # Widths and heights

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

    def share_out(self) -> None:
        """Share the room out among the columns shown, unless someone dragged one."""
        if self.shared:
            shown = [column for column in Column if not self.isColumnHidden(column)]
            # The scroll bar's room is kept free, so that it does not come and go with the rows.
            room = self.width() - self.verticalScrollBar().sizeHint().width() - 2 * self.frameWidth()
            self._sharing = True
            for column, wide in self._widths.share(shown, room).items():
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
            words = verdict_text(shown) if column is Column.VERDICT else shown.texts[column]
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

    # Painting

    def paintEvent(self, event: QPaintEvent) -> None:
        first, last = self._on_screen()
        if not self._model.holds(first, last):
            self._model.ensure(first, last)
            self._later.start()
        super().paintEvent(event)
        painter = QPainter(self.viewport())
        self._rules(painter, *self._to_paint(event.rect(), first, last))
        painter.end()

    def _to_paint(self, asked: QRect, first: int, last: int) -> tuple[int, int]:
        """The rows of a part of the screen and one on either side, whose frame reaches into it."""
        above, below = self.rowAt(max(0, asked.top())), self.rowAt(asked.bottom())
        return max(first, above - 1), min(last, below + 1) if below >= 0 else last

    def _on_screen(self) -> tuple[int, int]:
        first = max(0, self.rowAt(0))
        last = self.rowAt(self.viewport().height() - 1)
        return first, last if last >= 0 else self._model.rowCount() - 1

    def _rules(self, painter: QPainter, first: int, last: int) -> None:
        """A thin rule under each row, the name of the part over its rows, a frame round the row in hand."""
        scheme = theme.ink()
        right = min(self.viewport().width(), self.horizontalHeader().length()) - 1
        painter.setPen(pen(scheme.rule.rgba()))
        painter.drawLines(
            [QLine(0, y, right, y) for y in (self._under(row) for row in range(first, last + 1))]
        )
        for row in range(first, last + 1):
            if self.band_of(row):
                self._draw_band(painter, row, right)
        current = self.currentIndex()
        if current.isValid() and first <= current.row() <= last:
            band = self.band_of(current.row())
            top = self.rowViewportPosition(current.row()) - 1 + band
            painter.setPen(pen(scheme.mark.rgba()))
            painter.drawRect(QRect(0, top, right, self.rowHeight(current.row()) - band))
            self._frame_cell(painter, current)

    def currentChanged(
        self, current: QModelIndex | QPersistentModelIndex, previous: QModelIndex | QPersistentModelIndex
    ) -> None:
        super().currentChanged(current, previous)
        for index in (previous, current):  # the frame reaches beyond the cells Qt would paint again
            self._paint_again(index)

    def _paint_again(self, index: QModelIndex | QPersistentModelIndex) -> None:
        """Paint a row anew with the frame round it."""
        if index.isValid():
            top, tall = self.rowViewportPosition(index.row()), self.rowHeight(index.row())
            self.viewport().update(QRect(0, top - 3, self.viewport().width(), tall + 6))

    def show_stage(self, stage: Stage) -> None:
        """Mark the cell the next value goes to; the cell in hand goes there when it is another stage's."""
        self._stage = stage
        current, column = self.currentIndex(), STAGE_COLUMNS[STAGES.index(stage)]
        if current.isValid() and stage_of(current.column()) not in (None, stage):
            there = self._model.index(current.row(), column)
            self.selectionModel().setCurrentIndex(there, QItemSelectionModel.SelectionFlag.ClearAndSelect)
        self._paint_again(current)

    def _frame_cell(self, painter: QPainter, current: QModelIndex) -> None:
        """A firm frame round the cell of the stage in hand."""
        if self._stage is None:
            return
        column = STAGE_COLUMNS[STAGES.index(self._stage)]
        space = self.visualRect(self._model.index(current.row(), column))
        if not self.isColumnHidden(column) and space.isValid():
            space.setTop(space.top() + self.band_of(current.row()))
            painter.setPen(pen(theme.ink().mark.rgba(), 2.0))
            painter.drawRect(space.adjusted(1, 1, -1, -1))

    def _under(self, row: int) -> int:
        return self.rowViewportPosition(row) + self.rowHeight(row) - 1

    def _draw_band(self, painter: QPainter, row: int, right: int) -> None:
        scheme = theme.ink()
        shown = self._model.prepared_at(row)
        top = self.rowViewportPosition(row)
        space = QRect(0, top, right, self.band - 1)
        painter.fillRect(space, scheme.band)
        painter.setPen(pen(scheme.faint.rgba()))
        painter.drawLine(0, space.bottom() + 1, right, space.bottom() + 1)
        if shown is not None:
            painter.setFont(self._bold)
            painter.setPen(pen(scheme.ink.rgba()))
            painter.drawText(
                space.adjusted(PAD, 0, -PAD, 0), int(Qt.AlignmentFlag.AlignVCenter), shown.texts[Column.PART]
            )
            painter.setFont(self.font())

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange and hasattr(self, "_verdict"):
            for drawn in (self._words, self._margin, self._verdict, self._zone):
                drawn.use_ink()
            self._model.use_ink()

    # Keys

    def keyPressEvent(self, event: QKeyEvent) -> None:
        current = self.currentIndex()
        editing = self.state() == QAbstractItemView.State.EditingState
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and not editing and current.isValid():
            self.opened.emit(current)
            return
        text = event.text()
        starts_number = len(text) == 1 and (text.isdigit() or text in ".,-+")
        if starts_number and current.isValid() and stage_of(current.column()) is None:
            self.typed.emit(text)
            return
        super().keyPressEvent(event)

    def edit(  # type: ignore[override]
        self,
        index: QModelIndex | QPersistentModelIndex,
        trigger: QAbstractItemView.EditTrigger | None = None,
        event: QEvent | None = None,
    ) -> bool | None:
        """Typing opens an editor in a stage cell only; the spec wants F2, so that no spec is typed over."""
        if trigger is None:
            return super().edit(index)
        if trigger == _EDIT_BY_TYPING and stage_of(index.column()) is None:
            return False
        return super().edit(index, trigger, event)  # type: ignore[arg-type]

    def keyboardSearch(self, search: str) -> None:
        """Letters do not jump about in the grid; the filter finds."""

    def go_to(self, key: Key) -> bool:
        """Make a key's row the current one, in the column in hand; whether it is in the view."""
        place = self._model.place_of(key)
        if place is None:
            return False
        current = self.currentIndex()
        if current.row() != place:
            column = current.column() if current.isValid() else Column.FEATURE
            index = self._model.index(place, column)
            self.selectionModel().setCurrentIndex(index, QItemSelectionModel.SelectionFlag.ClearAndSelect)
            self.scrollTo(index)
        return True
