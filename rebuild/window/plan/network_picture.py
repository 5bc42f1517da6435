"""The network of open steps, left to right by what comes before what; the longest way to the finish in heavy line."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSizeF, Qt, QTimer, Signal
from PySide6.QtGui import (
    QColor,
    QFontMetrics,
    QFontMetricsF,
    QPainter,
    QPainterPath,
    QPen,
    QResizeEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import (
    QGraphicsObject,
    QGraphicsScene,
    QGraphicsSceneMouseEvent,
    QGraphicsView,
    QStyleOptionGraphicsItem,
    QWidget,
)

from rebuild.trade.schedule.graph import Node
from rebuild.trade.schedule.plan import Plan
from rebuild.trade.schedule.plan_input import PlanInput
from rebuild.window.ink import theme
from rebuild.window.ink.picture import Lines
from rebuild.window.layout.plain import plain_tip
from rebuild.window.lists.wrapped import wrapped

_WAYS = {
    Qt.Key.Key_Left: (-1, 0), Qt.Key.Key_Right: (1, 0), Qt.Key.Key_Up: (0, -1), Qt.Key.Key_Down: (0, 1),
}  # fmt: skip
GAP_X, GAP_Y = 46.0, 12.0
#: A box holds so many lines of so many letters: it grows with the text.
LINES, LETTERS = 3, 25
#: What the edges of a box and the hatch of a waiting take of it [px].
SIDES, ABOVE, HATCH = 6, 2, 7


def box_size(metrics: QFontMetricsF) -> QSizeF:
    """How large a box is for the letters in force [px]."""
    return QSizeF(
        LETTERS * metrics.averageCharWidth() + 2 * SIDES, LINES * metrics.lineSpacing() + 2 * ABOVE + HATCH
    )


class _Box(QGraphicsObject):
    """One step as a plain rectangle with its words."""

    clicked = Signal(object)
    opened = Signal(object)

    def __init__(self, step: Node, size: QSizeF, *, critical: bool, in_hand: bool) -> None:
        super().__init__()
        self._step, self._critical, self._in_hand = step, critical, in_hand
        self._size = size
        self.setToolTip(plain_tip(step.title))
        self.setAcceptedMouseButtons(Qt.MouseButton.LeftButton)

    def boundingRect(self) -> QRectF:
        return QRectF(-1, -1, self._size.width() + 2, self._size.height() + 2)

    def paint(
        self, painter: QPainter, _option: QStyleOptionGraphicsItem, _widget: QWidget | None = None
    ) -> None:
        scheme = theme.ink()
        painter.setPen(QPen(scheme.ink, 2.0 if self._critical else 0.8))
        painter.setBrush(scheme.chosen if self._in_hand else scheme.sheet)
        wide, high = self._size.width(), self._size.height()
        painter.drawRect(QRectF(0, 0, wide, high))
        if self._step.elapsed:
            painter.fillRect(QRectF(1, high - HATCH, wide - 2, HATCH - 1), Qt.BrushStyle.BDiagPattern)
        painter.setPen(QPen(scheme.chosen_ink if self._in_hand else scheme.ink))
        space = QRectF(
            SIDES, ABOVE, wide - 2 * SIDES, high - 2 * ABOVE - (HATCH if self._step.elapsed else 0)
        )
        words = "\n".join(shown_lines(self._step.title, space.width(), painter.fontMetrics()))
        painter.drawText(space, int(Qt.AlignmentFlag.AlignVCenter), words)

    def mousePressEvent(self, _event: QGraphicsSceneMouseEvent) -> None:
        self.clicked.emit(self._step.key)

    def mouseDoubleClickEvent(self, _event: QGraphicsSceneMouseEvent) -> None:
        self.opened.emit(self._step.key)


def shown_lines(title: str, room: float, metrics: QFontMetrics) -> tuple[str, ...]:
    """The lines of a title that a box has room for [px]; the last one ends in … where more is in the tip."""
    lines = wrapped(title, int(room), metrics)
    if len(lines) <= LINES:
        return lines
    rest = " ".join(lines[LINES - 1 :])
    return (*lines[: LINES - 1], metrics.elidedText(rest, Qt.TextElideMode.ElideRight, int(room)))


class NetworkPicture(Lines, QGraphicsView):
    """Pan by dragging, zoom with Ctrl and the wheel or + and -; arrows take a step before, after or beside in hand."""

    chosen = Signal(object)
    opened = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        QGraphicsView.__init__(self, parent)
        self.setAccessibleName("Network of steps")
        self._places: dict[int, QPointF] = {}
        self._in_hand: int | None = None
        self._box = box_size(QFontMetricsF(self.font()))
        self.setScene(QGraphicsScene(self))
        self.setDragMode(QGraphicsView.DragMode.ScrollHandDrag)
        self.setRenderHint(QPainter.RenderHint.Antialiasing)

    def show_plan(
        self,
        given: PlanInput,
        plan: Plan | None,
        near: frozenset[int] | None = None,
        in_hand: int | None = None,
    ) -> None:
        """Lay the network out: of the steps ``near``, or all of them; what is drawn is fitted into view."""
        scene = self.scene()
        scene.clear()
        scene.setBackgroundBrush(theme.ink().paper)
        self._places, self._in_hand = {}, in_hand
        if plan is None or not plan.dated:
            scene.addText("No open steps.")
            return
        critical = set(plan.critical)
        linked = {key for link in given.links for key in link} if near is None else near
        steps = [row.step for row in plan.dated if row.step.key in linked]
        size = self._box = box_size(QFontMetricsF(self.font()))
        places = self._places = _places(steps, given.links, size)
        for before, after in given.links:
            if before in places and after in places:
                self._draw_link(places[before], places[after], heavy=before in critical and after in critical)
        for step in steps:
            node = _Box(step, size, critical=step.key in critical, in_hand=step.key == in_hand)
            node.setPos(places[step.key])
            node.clicked.connect(self._choose_later)
            node.opened.connect(self.opened)
            scene.addItem(node)
        self.setSceneRect(scene.itemsBoundingRect().adjusted(-30, -30, 30, 30))
        self.fit() if near is not None else self._look_at_hand()

    def _choose_later(self, key: int) -> None:
        """The box pressed is drawn anew: not before its own event is over."""
        QTimer.singleShot(0, self, lambda: self.chosen.emit(key))

    def no_lines(self) -> bool:
        return not self._places

    def render_lines(self, painter: QPainter) -> None:
        """The whole network, also what is out of sight."""
        self.scene().render(painter, QRectF(self.rect()), self.sceneRect())

    def fit(self) -> None:
        """Show all that is drawn, no larger than it is."""
        self.resetTransform()
        room, whole = self.viewport().rect(), self.sceneRect()
        if whole.width() > 0 and whole.height() > 0:
            by = min(1.0, room.width() / whole.width(), room.height() / whole.height())
            self.scale(by, by)
            self.centerOn(whole.center())

    def _look_at_hand(self) -> None:
        self.resetTransform()
        there = self._places.get(self._in_hand) if self._in_hand is not None else None
        half = QPointF(self._box.width() / 2, self._box.height() / 2)
        self.centerOn(there + half if there is not None else QPointF(0, 0))

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if self._places:
            self.fit()

    def _draw_link(self, start: QPointF, end: QPointF, *, heavy: bool) -> None:
        scheme = theme.ink()
        colour: QColor = scheme.ink if heavy else scheme.faint
        half = self._box.height() / 2
        a, b = start + QPointF(self._box.width(), half), end + QPointF(0, half)
        path = QPainterPath(a)
        bend = max(18.0, (b.x() - a.x()) / 2)
        path.cubicTo(a + QPointF(bend, 0), b - QPointF(bend, 0), b)
        path.moveTo(b + QPointF(-7, -3.5))
        path.lineTo(b)
        path.lineTo(b + QPointF(-7, 3.5))
        self.scene().addPath(path, QPen(colour, 2.0 if heavy else 0.8))

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Ctrl and the wheel zoom; the wheel alone scrolls."""
        if event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self._zoom(1.15 if event.angleDelta().y() > 0 else 1 / 1.15)
            return
        super().wheelEvent(event)

    def keyPressEvent(self, event: object) -> None:
        """+ and - zoom, arrows take another step in hand, Enter goes to it."""
        text, key = getattr(event, "text", lambda: "")(), Qt.Key(getattr(event, "key", lambda: 0)())
        if text in ("+", "-"):
            self._zoom(1.15 if text == "+" else 1 / 1.15)
        elif key in _WAYS and self._in_hand in self._places:
            self._step_beside(*_WAYS[key])
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self._in_hand is not None:
            self.opened.emit(self._in_hand)
        else:
            super().keyPressEvent(event)  # type: ignore[arg-type]

    def _step_beside(self, across: int, down: int) -> None:
        """The nearest step drawn on that side of the one in hand."""
        if self._in_hand is None:
            return
        here = self._places[self._in_hand]
        aside: list[tuple[float, int]] = []
        for key, at in self._places.items():
            away = at - here
            ahead = away.x() * across + away.y() * down
            if key != self._in_hand and ahead > 0:
                aside.append((ahead + 2 * abs(away.y() if across else away.x()), key))
        if aside:
            self.chosen.emit(min(aside)[1])

    def _zoom(self, by: float) -> None:
        if 0.15 < self.transform().m11() * by < 3:
            self.scale(by, by)


def _places(steps: list[Node], links: tuple[tuple[int, int], ...], size: QSizeF) -> dict[int, QPointF]:
    """Columns by the longest chain before a step; in a column, near the middle of what comes before."""
    keys = {step.key for step in steps}
    before: dict[int, list[int]] = {}
    for first, second in links:
        if first in keys and second in keys:
            before.setdefault(second, []).append(first)
    column: dict[int, int] = {}
    waiting = list(steps)
    while waiting:
        later = []
        for step in waiting:
            ones = before.get(step.key, [])
            if all(one in column for one in ones):
                column[step.key] = max((column[one] + 1 for one in ones), default=0)
            else:
                later.append(step)
        waiting = later
    rows: dict[int, float] = {}
    columns: dict[int, list[Node]] = {}
    for step in steps:
        columns.setdefault(column[step.key], []).append(step)
    for at in sorted(columns):
        wished = {step.key: _middle(before.get(step.key, []), rows) for step in columns[at]}
        taken = -1.0
        for step in sorted(columns[at], key=lambda one: wished[one.key]):
            taken = max(taken + 1, wished[step.key])
            rows[step.key] = taken
    wide, high = size.width() + GAP_X, size.height() + GAP_Y
    return {key: QPointF(column[key] * wide, rows[key] * high) for key in column}


def _middle(ones: list[int], rows: dict[int, float]) -> float:
    known = [rows[one] for one in ones if one in rows]
    return sum(known) / len(known) if known else 0.0
