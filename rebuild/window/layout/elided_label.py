"""A label of one line that gives way where there is no room."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QFontMetrics, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from rebuild.window.layout.plain import PlainLabel, plain_tip

#: What stands between the pieces of a line: part, feature, station, stage.
BETWEEN = "  ·  "


def cut_to(text: str, metrics: QFontMetrics, room: int, where: Qt.TextElideMode, *, first_gives: bool) -> str:
    """A line cut to a room [px]; with ``first_gives`` the first piece is cut before any other."""
    first, between, rest = text.partition(BETWEEN)
    if first_gives and rest and metrics.horizontalAdvance(text) > room:
        left = room - metrics.horizontalAdvance(between + rest)
        least = metrics.horizontalAdvance("…")
        if left >= least:
            return metrics.elidedText(first, Qt.TextElideMode.ElideRight, left) + between + rest
        return metrics.elidedText(rest, where, room)
    return metrics.elidedText(text, where, room)


class ElidedLabel(PlainLabel):
    """One line that gives way in the middle when there is no room; the whole text is its tip.

    ``first_gives``: what stands before the first ``BETWEEN`` is cut before anything else.
    """

    def __init__(
        self,
        parent: QWidget | None = None,
        where: Qt.TextElideMode = Qt.TextElideMode.ElideMiddle,
        *,
        first_gives: bool = False,
    ) -> None:
        super().__init__(parent)
        self._where, self._first_gives = where, first_gives
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)

    def minimumSizeHint(self) -> QSize:
        return QSize(40, self.fontMetrics().height())

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setPen(self.palette().color(self.foregroundRole()))
        text = cut_to(
            self.text(), self.fontMetrics(), self.width(), self._where, first_gives=self._first_gives
        )
        self.setToolTip(plain_tip(self.text()) if text != self.text() else "")
        painter.drawText(self.rect(), int(Qt.AlignmentFlag.AlignVCenter), text)
        painter.end()
