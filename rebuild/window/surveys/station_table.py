"""The table of stations: metal to remove from each line, how far off it is, and what the ways do to the work there."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractItemView, QTreeWidget, QTreeWidgetItem, QWidget

from rebuild.trade.sizes.show import in_unit, show_length
from rebuild.window.lists.fitted import FittedColumns
from rebuild.work.surveys.data import SurveyResult
from rebuild.work.surveys.stations import Column, stations_of


class StationTable(QTreeWidget):
    """A row a station, a column a quantity."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName("Stations of the survey")
        self.setRootIsDecorated(False)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        FittedColumns(self)

    def show_result(self, result: SurveyResult | None, unit: str) -> None:
        """Fill the table; ``unit`` is mm or in."""
        self.clear()
        found = stations_of(result) if result is not None else None
        columns = found.columns if found is not None else ()
        small = "µm" if unit == "mm" else "thou"
        names = [f"{one.name} [{'mm/m' if one.slope else small}]" for one in columns]
        self.setColumnCount(1 + len(names))
        self.setHeaderLabels(["Station", *names])
        for row, at in enumerate(found.at_mm if found is not None else ()):
            where = f"{row + 1}, at {show_length(at, unit, 0 if unit == 'mm' else 2)}"
            item = QTreeWidgetItem([where, *(_cell(one, row, small) for one in columns)])
            for column in range(1, len(names) + 1):
                item.setTextAlignment(column, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
            self.addTopLevelItem(item)


def _cell(column: Column, row: int, small: str) -> str:
    value = column.values[row]
    if value is None:
        return ""
    shown = value if column.slope else in_unit(value, small)
    places = 3 if column.slope else 1 if small == "µm" else 2
    sign = "+" if column.signed else ""
    return f"{round(shown, places) + 0.0:{sign}.{places}f}"
