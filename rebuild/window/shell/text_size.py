"""How large the text of the window is: 80 to 200 %, at once and remembered."""

from __future__ import annotations

from collections.abc import Callable
from typing import cast

from PySide6.QtCore import QCoreApplication, QEvent, QObject
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QApplication, QWidget

from rebuild.window.lists.wrapped import forget_widths

#: The sizes offered [% of the system's own].
SIZES = (80, 90, 100, 110, 125, 150, 175, 200)
USUAL = 100
_BASE = "usual_points"


class TextSize(QObject):
    """The size in force. ``changed`` is called after a change, to make anew what keeps widths and fonts."""

    def __init__(self, changed: Callable[[int], object], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._changed = changed

    @property
    def percent(self) -> int:
        """The size in force [%]."""
        app = _app()
        return round(100 * app.font().pointSizeF() / _usual_points(app))

    def choose(self, percent: int) -> None:
        """Write everything so large [%]; what lies outside ``SIZES`` is taken to the nearest of them."""
        nearest = min(SIZES, key=lambda size: abs(size - percent))
        before = self.percent
        if nearest != before:
            _scale(_app(), nearest, nearest / before)
            self._changed(nearest)

    def step(self, steps: int) -> None:
        """So many sizes larger, or smaller; at the end of the row it stays."""
        here = min(range(len(SIZES)), key=lambda at: abs(SIZES[at] - self.percent))
        self.choose(SIZES[max(0, min(len(SIZES) - 1, here + steps))])


def _app() -> QApplication:
    return cast(QApplication, QApplication.instance())


def _usual_points(app: QApplication) -> float:
    """The size the system asked for [pt], kept from before the first change."""
    kept = app.property(_BASE)
    if isinstance(kept, float):
        return kept
    points = app.font().pointSizeF()
    app.setProperty(_BASE, points)
    return points


def _scale(app: QApplication, percent: int, times: float) -> None:
    own = [
        (widget, widget.font().pointSizeF())
        for widget in app.allWidgets()
        if isinstance(widget, QWidget) and widget.font().resolveMask() & _SIZE_SET
    ]
    font = QFont(app.font())
    font.setPointSizeF(_usual_points(app) * percent / 100)
    app.setFont(font)
    forget_widths()
    # Qt tells its widgets later, and a page made before it has told them would measure the old size.
    QCoreApplication.sendPostedEvents(None, QEvent.Type.ApplicationFontChange)
    # A heading has a size of its own, which does not follow.
    for widget, points in own:
        large = QFont(widget.font())
        large.setPointSizeF(points * times)
        widget.setFont(large)


_SIZE_SET = 0x0002
