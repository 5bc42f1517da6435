"""Words shown as they are typed: no name, note or path is ever read as markup.

Qt guesses: a label or a tip whose text looks like markup is drawn as markup, and then a part named after a
picture's tag loads the file it names. These are the only labels of the window and the only way to a tip.
"""

from __future__ import annotations

import re
from html import escape

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QHelpEvent
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
        return tell_days(self, self.text(), event) or super().event(event)


class MarkupLabel(QLabel):
    """A label of markup we wrote ourselves; every word of the user's in it went through ``html.escape``."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setTextFormat(Qt.TextFormat.RichText)

    def event(self, event: QEvent) -> bool:
        """A day said in it is told exactly on hover, where it has no tip of its own."""
        return tell_days(self, _TAG.sub(" ", self.text()), event) or super().event(event)


def tell_days(widget: QWidget, text: str, event: QEvent) -> bool:
    """Answer a hover over a widget that says days and has no tip; whether it was answered."""
    if not isinstance(event, QHelpEvent) or event.type() != QEvent.Type.ToolTip or widget.toolTip():
        return False
    told = exact_days(text, now())
    if told:
        QToolTip.showText(event.globalPos(), told, widget)
    return bool(told)


_TAG = re.compile(r"<[^>]*>")


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
