"""Plots of a survey: residuals of each line over its length, before beside after, with their uncertainty."""

from __future__ import annotations

import pyqtgraph as pg
from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QVBoxLayout, QWidget

from rebuild.trade.geometry.flatness import line_words
from rebuild.trade.sizes.show import in_unit
from rebuild.window.ink import theme
from rebuild.work.surveys.rows import LineResult, SurveyResult

_STYLES = (Qt.PenStyle.SolidLine, Qt.PenStyle.DashLine, Qt.PenStyle.DotLine, Qt.PenStyle.DashDotLine)
_SYMBOLS = ("o", "s", "t", "d", "+", "x", "star", "p")


class Curves(QWidget):
    """Lines told apart by stroke and mark, not by colour; the survey compared with is drawn faint."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName("Plot of the survey")
        self.plot = pg.PlotWidget(enableMenu=False)
        self._legend = self.plot.addLegend(offset=(8, 4), colCount=4)
        self.plot.showGrid(x=True, y=True, alpha=0.18)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.plot)
        self._last: tuple[SurveyResult | None, SurveyResult | None, str] = (None, None, "mm")
        self.show_results(*self._last)

    def show_results(self, now: SurveyResult | None, before: SurveyResult | None, unit: str) -> None:
        """Draw a result, and the one it is compared with; without one an empty sheet."""
        self._last = (now, before, unit)
        self.plot.getPlotItem().setVisible(now is not None)
        scheme = theme.ink()
        self.plot.setBackground(scheme.sheet)
        self.plot.clear()
        self._legend.setLabelTextColor(scheme.ink)
        small, along = ("µm", "mm") if unit == "mm" else ("thou", "in")
        for side, words in (
            ("left", f"from the reference [{small}]"),
            ("bottom", f"along the line [{along}]"),
        ):
            axis = self.plot.getAxis(side)
            axis.setPen(scheme.rule)
            axis.setTextPen(scheme.ink)
            axis.setLabel(words, color=scheme.ink.name())
            axis.enableAutoSIPrefix(False)
        for result, colour, tail in ((before, scheme.faint, " before"), (now, scheme.ink, "")):
            for at, line in enumerate(result.lines if result is not None else ()):
                self._draw(line, at, colour, tail, small, along)
        self._leave_room_for_names()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() is QEvent.Type.PaletteChange and hasattr(self, "_last"):
            self.show_results(*self._last)

    def _leave_room_for_names(self) -> None:
        """All in view, and a strip above the curves for the names."""
        self.plot.autoRange()
        low, high = self.plot.getViewBox().viewRange()[1]
        self.plot.setYRange(low, high + 0.14 * (high - low), padding=0)

    def _draw(self, line: LineResult, at: int, colour: QColor, tail: str, small: str, along: str) -> None:
        heights = line.heights
        if heights is None:
            return
        residual = line.found.residual_mm if line.found is not None else heights.height_mm
        xs = [in_unit(value, along) for value in heights.at_mm]
        ys = [in_unit(value, small) for value in residual]
        pen = pg.mkPen(colour, width=1.6, style=_STYLES[at % len(_STYLES)])
        name = line_words(line.line.name) + tail
        self.plot.plot(xs, ys, pen=pen, symbol=_SYMBOLS[at % len(_SYMBOLS)], symbolSize=6, name=name,
                       symbolPen=pg.mkPen(colour), symbolBrush=None)  # fmt: skip
        if heights.u_mm:
            bars = pg.ErrorBarItem(
                x=_array(xs), y=_array(ys), height=_array([4 * in_unit(value, small) for value in heights.u_mm]),
                pen=pg.mkPen(theme.ink().mark, width=1), beam=0.0,
            )  # fmt: skip
            self.plot.addItem(bars)


def _array(values: list[float]) -> object:
    import numpy as np

    return np.asarray(values)
