"""The results table of a survey: one row a line, each opening its working."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractItemView, QTreeWidget, QTreeWidgetItem, QWidget

from rebuild.trade.geometry.flatness import line_words
from rebuild.trade.sizes.show import show_length
from rebuild.window.ink.shapes import shape_for, shape_icon
from rebuild.window.layout.plain import plain_tip
from rebuild.window.lists.fitted import FittedColumns
from rebuild.work.surveys.data import LineResult, SurveyResult
from rebuild.work.surveys.told import doubt_words, effect_words, small_words, told

COLUMNS = ("Line", "Deviation", "± U", "Shape", "Verdict", "High spot", "Closure", "Effect on work")


class Results(QTreeWidget):
    """Lines worked out; a line that cannot be is a sentence."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName("Results of the survey")
        self.setHeaderLabels(list(COLUMNS))
        self.setRootIsDecorated(False)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        FittedColumns(self)

    def show_result(self, result: SurveyResult | None, unit: str) -> None:
        """Fill the table; ``unit`` is mm or in."""
        self.clear()
        if result is None:
            return
        if result.trouble:
            self._sentence(result.trouble)
        for words in told(result, unit):
            self._sentence(words)
        for line in result.lines:
            if line.trouble:
                self._sentence(f"{line.line.name}: {line.trouble}")
            elif line.found is not None:
                self._line(line, unit)
            if line.hint:
                self._sentence(f"{line_words(line.line.name)}: {line.hint}")

    def _sentence(self, words: str) -> None:
        item = QTreeWidgetItem([words])
        item.setToolTip(0, plain_tip(words))
        self.addTopLevelItem(item)
        item.setFirstColumnSpanned(True)

    def _line(self, line: LineResult, unit: str) -> None:
        found = line.found
        if found is None or line.heights is None:
            return
        deepest = max(range(len(found.to_remove_mm)), key=lambda at: found.to_remove_mm[at])
        at = line.heights.at_mm[deepest]
        where = f"{small_words(found.to_remove_mm[deepest], unit)} at {show_length(at, unit, 1 if unit == 'mm' else 2)}"
        words = [
            line.line.name,
            small_words(found.deviation_mm, unit),
            doubt_words(line, unit),
            line.shape_words or found.shape.value,
            line.verdict.value,
            where,
            f"{line.closure_um:+.1f} µm" if line.closure_um is not None else "",
            effect_words(line, unit),
        ]
        item = QTreeWidgetItem(words)
        item.setIcon(4, shape_icon(shape_for(line.verdict)))
        if line.judgement is not None:
            item.setToolTip(4, plain_tip(line.judgement.sentence))
        for column in (1, 2, 5, 6):
            item.setTextAlignment(column, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self.addTopLevelItem(item)
