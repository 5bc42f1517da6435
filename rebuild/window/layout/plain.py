"""Words shown as they are typed: no name, note or path is ever read as markup.

Qt guesses: a label or a tip whose text looks like markup is drawn as markup, and then a part named after a
picture's tag loads the file it names. These are the only labels of the window and the only way to a tip.
"""

from __future__ import annotations

from html import escape

from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QHelpEvent, QTextDocument
from PySide6.QtWidgets import QLabel, QToolTip, QWidget

from rebuild.trade.waiting.days_said import exact_days
from rebuild.work.records.wall_clock import now


class PlainLabel(QLabel):
    """A label that shows its text letter by letter."""

    def __init__(self, text: str | QWidget | None = None, parent: QWidget | None = None) -> None:
        super().__init__(text if isinstance(text, QWidget) else parent)
        self.setTextFormat(Qt.TextFormat.PlainText)
        if isinstance(text, str):
            self.setText(text)

    def event(self, event: QEvent) -> bool:
        """A day said in it is told exactly on hover, where it has no tip of its own."""
        return tell_days(self, event) or super().event(event)


class MarkupLabel(QLabel):
    """A label of markup we wrote ourselves; every word of the user's in it went through ``html.escape``."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setTextFormat(Qt.TextFormat.RichText)

    def event(self, event: QEvent) -> bool:
        """A day said in it is told exactly on hover, where it has no tip of its own."""
        return tell_days(self, event) or super().event(event)


def tell_days(label: QLabel, event: QEvent) -> bool:
    """Answer a hover over a line that says days, of a label without a tip; whether it was answered."""
    if not isinstance(event, QHelpEvent) or event.type() != QEvent.Type.ToolTip or label.toolTip():
        return False
    told = exact_days(_line_at(label, event.pos()), now())
    if told:
        QToolTip.showText(event.globalPos(), told, label)
    return bool(told)


def _line_at(label: QLabel, at: QPoint) -> str:
    """The line of a label's text that lies there, laid out again as the label does."""
    room = label.contentsRect().adjusted(*[label.margin()] * 2, *[-label.margin()] * 2)
    laid = QTextDocument()
    laid.setDocumentMargin(0)
    laid.setDefaultFont(label.font())
    if label.textFormat() == Qt.TextFormat.RichText:
        laid.setHtml(label.text())
    else:
        laid.setPlainText(label.text())
    laid.setTextWidth(room.width() if label.wordWrap() else -1)
    spare = room.height() - laid.size().height()
    down = spare if label.alignment() & Qt.AlignmentFlag.AlignBottom else spare / 2
    top = 0.0 if label.alignment() & Qt.AlignmentFlag.AlignTop else down
    point = QPointF(at.x() - room.left(), at.y() - room.top() - top)
    found = laid.documentLayout().hitTest(point, Qt.HitTestAccuracy.FuzzyHit)
    block = laid.findBlock(max(0, found))
    before, after = block.text()[: found - block.position()], block.text()[found - block.position() :]
    return before.rpartition(_BREAK)[2] + after.partition(_BREAK)[0]


#: How a line broken inside its paragraph is kept.
_BREAK = "\u2028"


def plain_tip(text: str) -> str:
    """A text as a tip shows it letter by letter; only one with a mark that could begin markup is changed.

    >>> plain_tip("left way, 12 in")
    'left way, 12 in'
    >>> plain_tip("<b>cap</b>")
    '<span style="white-space:pre-wrap">&lt;b&gt;cap&lt;/b&gt;</span>'
    """
    if "<" not in text:
        return text
    return f'<span style="white-space:pre-wrap">{escape(text)}</span>'
