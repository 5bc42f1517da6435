"""The table of positions: allowed, as found, after, and where the newest reading lies in its signed zone."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRectF, Qt
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem, QWidget

from rebuild.trade.charts.limit import bounds
from rebuild.window.desk.desk import Desk
from rebuild.window.ink import theme
from rebuild.window.ink.shapes import shape_for, shape_icon
from rebuild.window.ink.zone_picture import Drawn, Placed, draw_cell, place
from rebuild.window.lists.plain_table import AnyIndex, PlainModel, PlainTable
from rebuild.words.charts import LimitSign
from rebuild.work.charts.rows_tests import LineRow, ReadRow, TestRow, shown_size

HEADINGS = ("No.", "Test", "Position", "Limit", "As found", "After", "Verdict", "low · zone · high")
ZONE_WIDTH = 96
VERDICT, ZONE = 6, 7
PLACED, SHAPE = Qt.ItemDataRole.UserRole, Qt.ItemDataRole.UserRole + 1


@dataclass(frozen=True, slots=True)
class Extra:
    """What a row draws besides its words."""

    placed: Placed | None
    reading: ReadRow | None


class ChartModel(PlainModel):
    """Rows of strings, with each row's picture prepared."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(HEADINGS, parent)
        self._extra: dict[int, Extra] = {}

    def show_chart(self, tests: Sequence[TestRow], desk: Desk) -> None:
        """Fill it from a chart; the test's name stands on its first row only."""
        rows: list[tuple[int, tuple[str, ...]]] = []
        self._extra = {}
        for test in tests:
            for at, line in enumerate(test.lines):
                unit = desk.unit_for(line.unit)
                named = (test.number, test.name) if at == 0 else ("", "")
                rows.append((line.id, (*named, *_words(line, unit, warned=at == 0 and bool(test.warnings)))))
                self._extra[line.id] = Extra(_placed(line), line.after or line.found)
        self.fill(rows)
        if rows:
            self.dataChanged.emit(self.index(0, ZONE), self.index(len(rows) - 1, ZONE))

    def data(self, index: AnyIndex, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if role == Qt.ItemDataRole.DecorationRole and index.isValid() and index.column() == VERDICT:
            extra = self._extra[self.ids[index.row()]]
            return shape_icon(shape_for(extra.reading.verdict)) if extra.reading is not None else None
        if role in (PLACED, SHAPE) and index.isValid():
            extra = self._extra[self.ids[index.row()]]
            return extra.placed if role == PLACED else extra.reading
        return super().data(index, role)


def _words(line: LineRow, unit: str, *, warned: bool) -> tuple[str, ...]:
    found, after = line.found, line.after
    newest = after or found
    verdict = ""
    if newest is not None:
        verdict = (newest.wrong_way and f"does not conform: {newest.wrong_way}") or newest.verdict.value
        verdict += " (look)" if warned else ""
    return (
        line.name,
        line.allowed_short(unit),
        shown_size(found, unit, line.unit) if found else "",
        shown_size(after, unit, line.unit) if after else "",
        verdict,
        "",
    )


def _placed(line: LineRow) -> Placed | None:
    newest = line.after or line.found
    if newest is not None and newest.judgement is not None:
        judged = newest.judgement
        return place(
            Drawn(
                judged.low_mm,
                judged.high_mm,
                0.0 if line.words.sign is LimitSign.EITHER else None,
                newest.value_mm,
                judged.U_mm,
                from_zero=line.words.sign is LimitSign.SIZE,
            )
        )
    low, high = bounds(line.words.sign, line.limit.allowed_mm)
    return place(Drawn(low, high, from_zero=line.words.sign is LimitSign.SIZE))


class ChartTable(PlainTable):
    """The positions of a chart."""

    def __init__(self, parent: QWidget | None = None) -> None:
        self.chart = ChartModel()
        super().__init__("Geometry tests", HEADINGS, parent, model=self.chart, pictures={ZONE: ZONE_WIDTH})
        self.chart.setParent(self)
        self.setItemDelegateForColumn(ZONE, _ZoneDelegate(self))


class _ZoneDelegate(QStyledItemDelegate):
    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        super().paint(painter, option, index)
        placed = index.data(PLACED)
        if isinstance(placed, Placed):
            chosen = bool(option.state & QStyle.StateFlag.State_Selected)
            ink = theme.on_chosen(theme.ink()) if chosen else theme.ink()
            painter.save()
            # One height for every row, beside the first line of its words, however many lines they take.
            cell = QRectF(option.rect).adjusted(2, 2, -6, -2)
            cell.setHeight(min(cell.height(), option.fontMetrics.lineSpacing() + 4))
            draw_cell(painter, cell, placed, ink)
            painter.restore()
