"""The results table of a survey: one row a line, each opening its working."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractItemView, QTreeWidget, QTreeWidgetItem, QWidget

from rebuild.trade.sizes.show import show_length
from rebuild.window.ink.shapes import shape_for, shape_icon
from rebuild.window.layout.plain import plain_tip
from rebuild.window.lists.fitted import FittedColumns
from rebuild.work.surveys.rows import LineResult, SurveyResult, shape_refused, verdict_word

COLUMNS = ("Line", "Deviation", "± (k=2)", "Shape", "Verdict", "High spot", "Closure", "Effect on work")


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
        if result.twist_mm_per_m is not None:
            self._sentence(f"Twist {result.twist_mm_per_m:.3f} mm/m over the length read.")
        if result.plate is not None:
            closure = max(abs(value) for value in result.plate.closure_mm.values())
            self._sentence(
                f"Flat within {_small(result.plate.flatness_mm, unit)}; closure {_small(closure, unit)} "
                "at the middle of the centre lines."
            )
        for line in result.lines:
            if line.trouble:
                self._sentence(f"{line.line.name}: {line.trouble}")
            elif line.found is not None:
                self._line(result, line, unit)

    def _sentence(self, words: str) -> None:
        item = QTreeWidgetItem([words])
        item.setToolTip(0, plain_tip(words))
        self.addTopLevelItem(item)
        item.setFirstColumnSpanned(True)

    def _line(self, result: SurveyResult, line: LineResult, unit: str) -> None:
        found = line.found
        if found is None or line.heights is None:
            return
        deepest = max(range(len(found.to_remove_mm)), key=lambda at: found.to_remove_mm[at])
        at = line.heights.at_mm[deepest]
        where = f"{_small(found.to_remove_mm[deepest], unit)} at {show_length(at, unit, 1 if unit == 'mm' else 2)}"
        refused = shape_refused(result.data, found)
        verdict = verdict_word(line)
        words = [
            line.line.name,
            _small(found.deviation_mm, unit),
            _small(2 * line.u_mm, unit) if line.u_mm is not None else "one run only",
            f"{found.shape.value}, not allowed" if refused else found.shape.value,
            verdict.value,
            where,
            f"{line.closure_um:+.1f} µm" if line.closure_um is not None else "",
            f"{_small(line.drop.diameter_error_mm, unit)} on diameter" if line.drop is not None else "",
        ]
        item = QTreeWidgetItem(words)
        item.setIcon(4, shape_icon(shape_for(verdict)))
        if line.judgement is not None:
            item.setToolTip(4, plain_tip(line.judgement.sentence))
        for column in (1, 2, 5, 6):
            item.setTextAlignment(column, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self.addTopLevelItem(item)
        if line.hint:
            self._sentence(f"{line.line.name}: {line.hint}")


def _small(mm: float, unit: str) -> str:
    return show_length(mm, "µm") if unit == "mm" else show_length(mm, "in", 5)
