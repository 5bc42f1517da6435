"""Plain shapes for states, drawn by us: form and fill tell them apart, so they read in grey.

Each kind of state has one outline, and its fill says how far it is settled:

- verdict: *disc* (conforms), *cross* (does not conform), *half disc* (undecided), *short dash* (no spec);
- decision: squares, from hollow (open) to solid (reuse), with strokes for rework, remake, buy and defer;
- task state: flags pointing right, hollow (open), half (under way), *tick* (done), struck (left out);
- identity: diamonds, hollow (unknown), half (suspected), solid (confirmed), crossed (not ours).
"""

from __future__ import annotations

from collections.abc import Callable
from enum import Enum
from functools import lru_cache

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QIcon, QPainter, QPainterPath, QPen, QPixmap, QTransform
from PySide6.QtWidgets import QWidget

from rebuild.trade.limits.judgement import Verdict
from rebuild.window.ink import theme
from rebuild.words.decisions import Decision
from rebuild.words.log import QuestionState
from rebuild.words.parts import Identity
from rebuild.words.steps import TaskState


class Shape(Enum):
    """One plain shape; the value is the word it stands for, for accessible names."""

    CONFORMS = "conforms"
    DOES_NOT = "does not conform"
    UNDECIDED = "undecided"
    NO_SPEC = "no spec"
    OPEN = "open"
    REUSE = "reuse"
    REWORK = "rework"
    REMAKE = "remake"
    BUY = "buy"
    DEFER = "defer"
    TO_DO = "to do"
    WAITS = "waits"
    UNDER_WAY = "under way"
    DONE = "done"
    LEFT_OUT = "left out"
    UNKNOWN = "unknown"
    SUSPECTED = "suspected"
    CONFIRMED = "confirmed"
    NOT_OURS = "not ours"
    ASKED = "open question"
    ASSUMED = "assumed"
    ANSWERED = "answered"
    CAUTION = "caution"
    NO_WAY_BACK = "cannot be undone"


# Kept per kind: a StrEnum compares as its word, and "open" is a word of three lists.
_VERDICTS = {
    Verdict.CONFORMS: Shape.CONFORMS,
    Verdict.DOES_NOT: Shape.DOES_NOT,
    Verdict.UNDECIDED: Shape.UNDECIDED,
    Verdict.NO_SPEC: Shape.NO_SPEC,
}
_DECISIONS = {
    Decision.OPEN: Shape.OPEN,
    Decision.REUSE: Shape.REUSE,
    Decision.REWORK: Shape.REWORK,
    Decision.REMAKE: Shape.REMAKE,
    Decision.BUY: Shape.BUY,
    Decision.DEFER: Shape.DEFER,
}
_TASKS = {
    TaskState.OPEN: Shape.TO_DO,
    TaskState.UNDER_WAY: Shape.UNDER_WAY,
    TaskState.DONE: Shape.DONE,
    TaskState.LEFT_OUT: Shape.LEFT_OUT,
}
_IDENTITIES = {
    Identity.UNKNOWN: Shape.UNKNOWN,
    Identity.SUSPECTED: Shape.SUSPECTED,
    Identity.CONFIRMED: Shape.CONFIRMED,
    Identity.NOT_OURS: Shape.NOT_OURS,
}
_QUESTIONS = {
    QuestionState.OPEN: Shape.ASKED,
    QuestionState.ASSUMED: Shape.ASSUMED,
    QuestionState.ANSWERED: Shape.ANSWERED,
}
_BY_KIND = {
    (type(state), state.value): shape
    for states in (_VERDICTS, _DECISIONS, _TASKS, _IDENTITIES, _QUESTIONS)
    for state, shape in states.items()
}


def shape_for(state: Verdict | Decision | TaskState | Identity | QuestionState) -> Shape:
    """The shape of a verdict, decision, task state, identity or question state."""
    return _BY_KIND[type(state), state.value]


def draw_shape(painter: QPainter, rect: QRectF, shape: Shape, ink: QColor) -> None:
    """Draw a shape in ``ink``, as large as fits square in the middle of ``rect`` [logical px]."""
    side = min(rect.width(), rect.height())
    fill, stroke = _paths(shape, round(side, 1))
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.translate(rect.center().x() - side / 2, rect.center().y() - side / 2)
    if not fill.isEmpty():
        painter.fillPath(fill, ink)
    if not stroke.isEmpty():
        painter.strokePath(stroke, _pen(ink.rgba(), shape, round(side, 1)))
    painter.restore()


def shape_pixmap(shape: Shape, side: int, ink: QColor, ratio: float = 1.0) -> QPixmap:
    """The shape as a picture ``side`` logical px square, kept per size, ink and pixel ratio."""
    return _pixmap(shape, side, ink.rgba(), ratio)


def shape_icon(shape: Shape, ink: QColor | None = None, side: int = 16) -> QIcon:
    """The shape as an icon in ``ink`` (that in force), for menus and item views; sharp on fine screens.

    On a chosen line it is drawn in the ink of what is chosen.
    """
    scheme = theme.ink()
    return _icon(shape, side, (ink or scheme.ink).rgba(), scheme.chosen_ink.rgba())


class ShapeMark(QWidget):
    """A small widget showing one shape in the ink in force; the word goes beside it, not in it."""

    def __init__(self, shape: Shape | None = None, parent: QWidget | None = None, side: int = 14) -> None:
        super().__init__(parent)
        self._shape = shape
        self._side = side
        self.setFixedSize(QSize(side, side))
        self.setAccessibleName(shape.value if shape is not None else "")

    @property
    def shape(self) -> Shape | None:
        """What is shown, or None."""
        return self._shape

    def show_shape(self, shape: Shape | None) -> None:
        """Show another shape, or nothing."""
        self._shape = shape
        self.setAccessibleName(shape.value if shape is not None else "")
        self.update()

    def paintEvent(self, event: object) -> None:
        if self._shape is not None:
            painter = QPainter(self)
            draw_shape(painter, QRectF(0, 0, self._side, self._side), self._shape, theme.ink().ink)
            painter.end()


# Each shape is made of two paths in a square of side 1: one filled, one stroked.

_Paths = tuple[QPainterPath, QPainterPath]
_LOW, _HIGH, _MID = 0.12, 0.88, 0.5


def _lines(*runs: tuple[tuple[float, float], ...], close: bool = False) -> QPainterPath:
    path = QPainterPath()
    for run in runs:
        path.moveTo(*run[0])
        for point in run[1:]:
            path.lineTo(*point)
        if close:
            path.closeSubpath()
    return path


def _none() -> QPainterPath:
    return QPainterPath()


def _disc() -> QPainterPath:
    path = QPainterPath()
    path.addEllipse(QPointF(_MID, _MID), 0.38, 0.38)
    return path


def _half_disc() -> QPainterPath:
    path = QPainterPath()
    path.moveTo(_MID, _HIGH)
    path.arcTo(QRectF(_LOW, _LOW, 0.76, 0.76), -90, -180)
    path.closeSubpath()
    return path


def _square() -> QPainterPath:
    path = QPainterPath()
    path.addRect(QRectF(0.14, 0.14, 0.72, 0.72))
    return path


def _bars(*bars: tuple[float, float, float, float]) -> QPainterPath:
    path = QPainterPath()
    path.setFillRule(Qt.FillRule.WindingFill)
    for bar in bars:
        path.addRect(QRectF(*bar))
    return path


def _flag() -> QPainterPath:
    return _lines(((0.2, _LOW), (0.9, _MID), (0.2, _HIGH)), close=True)


def _diamond() -> QPainterPath:
    return _lines(((_MID, 0.06), (0.94, _MID), (_MID, 0.94), (0.06, _MID)), close=True)


def _with(*paths: QPainterPath) -> QPainterPath:
    whole = QPainterPath()
    for path in paths:
        whole.addPath(path)
    return whole


_CROSS = ((0.18, 0.18), (0.82, 0.82)), ((0.18, 0.82), (0.82, 0.18))
_UPRIGHT = ((_MID, 0.06), (0.95, 0.86), (0.05, 0.86))

_DRAWN: dict[Shape, Callable[[], _Paths]] = {
    Shape.CONFORMS: lambda: (_disc(), _none()),
    Shape.DOES_NOT: lambda: (_none(), _lines(*_CROSS)),
    Shape.UNDECIDED: lambda: (_half_disc(), _disc()),
    Shape.NO_SPEC: lambda: (_none(), _lines(((0.3, _MID), (0.7, _MID)))),
    Shape.OPEN: lambda: (_none(), _square()),
    Shape.REUSE: lambda: (_square(), _square()),
    Shape.REWORK: lambda: (_lines(((0.14, 0.86), (0.86, 0.86), (0.86, 0.14)), close=True), _square()),
    Shape.REMAKE: lambda: (_bars((0.26, 0.42, 0.48, 0.16), (0.42, 0.26, 0.16, 0.48)), _square()),
    Shape.BUY: lambda: (
        _lines(((0.3, 0.34), (0.7, 0.34), (_MID, 0.7)), close=True),
        _square(),
    ),
    Shape.DEFER: lambda: (_bars((0.28, 0.42, 0.44, 0.16)), _square()),
    Shape.TO_DO: lambda: (_none(), _flag()),
    Shape.WAITS: lambda: (_none(), _with(
        _lines(((0.08, 0.22), (0.62, _MID), (0.08, 0.78)), close=True), _lines(((0.86, _LOW), (0.86, _HIGH)))
    )),
    Shape.UNDER_WAY: lambda: (_lines(((0.2, _LOW), (0.55, 0.31), (0.55, 0.69), (0.2, _HIGH)), close=True), _flag()),
    Shape.DONE: lambda: (_none(), _lines(((_LOW, 0.55), (0.4, 0.82), (_HIGH, 0.18)))),
    Shape.LEFT_OUT: lambda: (_none(), _with(_flag(), _lines(((0.08, 0.92), (0.92, 0.08))))),
    Shape.UNKNOWN: lambda: (_none(), _diamond()),
    Shape.SUSPECTED: lambda: (_lines(((_MID, 0.06), (_MID, 0.94), (0.06, _MID)), close=True), _diamond()),
    Shape.CONFIRMED: lambda: (_diamond(), _diamond()),
    Shape.NOT_OURS: lambda: (
        _none(),
        _with(_diamond(), _lines(((0.34, 0.34), (0.66, 0.66)), ((0.34, 0.66), (0.66, 0.34)))),
    ),
    Shape.ASKED: lambda: (_none(), _bubble()),
    Shape.ASSUMED: lambda: (_lines(((0.1, 0.42), (0.9, 0.42), (0.9, 0.68), (0.1, 0.68)), close=True), _bubble()),
    Shape.ANSWERED: lambda: (_bubble(), _bubble()),
    Shape.CAUTION: lambda: (
        _none(),
        _with(_lines(_UPRIGHT, close=True), _lines(((_MID, 0.36), (_MID, 0.58)), ((_MID, 0.7), (_MID, 0.73)))),
    ),
    Shape.NO_WAY_BACK: lambda: (
        _lines(((0.42, 0.26), (0.76, _MID), (0.42, 0.74)), close=True),
        _lines(((0.06, _MID), (0.5, _MID)), ((0.86, 0.14), (0.86, 0.86))),
    ),
}  # fmt: skip


def _bubble() -> QPainterPath:
    corners = ((0.1, 0.16), (0.9, 0.16), (0.9, 0.68), (0.46, 0.68), (0.26, 0.92), (0.26, 0.68), (0.1, 0.68))
    return _lines(corners, close=True)


@lru_cache(maxsize=256)
def _paths(shape: Shape, side: float) -> _Paths:
    scale = QTransform.fromScale(side, side)
    fill, stroke = _DRAWN[shape]()
    return scale.map(fill), scale.map(stroke)


@lru_cache(maxsize=256)
def _pen(rgba: int, shape: Shape, side: float) -> QPen:
    heavy = shape in (Shape.DOES_NOT, Shape.DONE, Shape.NO_SPEC)
    width = max(1.1, side * (0.17 if heavy else 0.085))
    pen = QPen(QColor.fromRgba(rgba), width)
    pen.setCapStyle(Qt.PenCapStyle.FlatCap if heavy else Qt.PenCapStyle.SquareCap)
    pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
    return pen


@lru_cache(maxsize=256)
def _pixmap(shape: Shape, side: int, rgba: int, ratio: float) -> QPixmap:
    picture = QPixmap(round(side * ratio), round(side * ratio))
    picture.setDevicePixelRatio(ratio)
    picture.fill(Qt.GlobalColor.transparent)
    painter = QPainter(picture)
    draw_shape(painter, QRectF(0, 0, side, side), shape, QColor.fromRgba(rgba))
    painter.end()
    return picture


@lru_cache(maxsize=256)
def _icon(shape: Shape, side: int, rgba: int, chosen: int) -> QIcon:
    icon = QIcon()
    for ratio in (1.0, 2.0, 3.0):
        icon.addPixmap(_pixmap(shape, side, rgba, ratio))
        icon.addPixmap(_pixmap(shape, side, chosen, ratio), QIcon.Mode.Selected)
    return icon
