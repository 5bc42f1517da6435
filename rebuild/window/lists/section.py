"""A section of the page: a heading on a rule, and lines beneath it that lead to what they speak of."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QPalette
from PySide6.QtWidgets import QSizePolicy, QVBoxLayout, QWidget

from rebuild.trade.schedule.graph import Ref
from rebuild.window.layout.plain import MarkupLabel, PlainLabel


@dataclass(frozen=True, slots=True)
class Lead:
    """Where a line leads: the page, and what is chosen there; ``ref`` is the very row, ``field`` one of the part's."""

    page: str
    task_id: int | None = None
    part_id: int | None = None
    subassembly_id: int | None = None
    ref: Ref | None = None
    field: str = ""


#: A line: its text, a fainter tail, and where it leads.
Line = tuple[str, str, Lead | None]


class Section(QWidget):
    """Heading and lines; ``followed`` carries where a line leads. Links are reached with Tab and Enter."""

    followed = Signal(object)

    def __init__(self, heading: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(heading)
        self._name = heading
        self._leads: tuple[Lead | None, ...] = ()
        self._shown: tuple[Sequence[Line], str] | None = None
        self.heading = PlainLabel(heading, self)
        font = self.heading.font()
        font.setBold(True)
        self.heading.setFont(font)
        self.body = MarkupLabel(self)
        self.body.setWordWrap(True)
        self.body.setTextInteractionFlags(
            Qt.TextInteractionFlag.TextBrowserInteraction | Qt.TextInteractionFlag.LinksAccessibleByKeyboard
        )
        self.body.setAlignment(Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft)
        self.body.linkActivated.connect(self._follow)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Preferred)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 6, 0, 6)
        layout.setSpacing(5)
        layout.addWidget(self.heading)
        layout.addWidget(self.body)

    def show_lines(self, lines: Sequence[Line], *, nothing: str = "", count: int | None = None) -> None:
        """Show lines; without any the sentence ``nothing``, or no section at all."""
        self.setVisible(bool(lines) or bool(nothing))
        self.heading.setText(f"{self._name} ({count})" if count else self._name)
        self._shown = (tuple(lines), nothing)
        self._write(lines, nothing)

    def _write(self, lines: Sequence[Line], nothing: str) -> None:
        faint = self.palette().color(QPalette.ColorRole.PlaceholderText).name()
        link = self.palette().color(QPalette.ColorRole.WindowText).name()
        self._leads = tuple(leads for _, _, leads in lines)
        rows = [_row(at, line, faint, link) for at, line in enumerate(lines)] or [
            f'<span style="color:{faint}">{escape(nothing)}</span>'
        ]
        self.body.setText("".join(f'<div style="margin-bottom:3px">{row}</div>' for row in rows))
        self.body.setAccessibleName("; ".join(" ".join(filter(None, line[:2])) for line in lines) or nothing)

    def changeEvent(self, event: QEvent) -> None:
        """Light or dark: the words are coloured anew, once the section's own palette is there."""
        super().changeEvent(event)
        shown: tuple[Sequence[Line], str] | None = getattr(self, "_shown", None)
        if event.type() is QEvent.Type.PaletteChange and shown is not None:
            self._write(*shown)

    def _follow(self, number: str) -> None:
        self.followed.emit(self._leads[int(number)])

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setPen(self.palette().color(QPalette.ColorRole.Mid))
        y = self.heading.geometry().bottom() + 2
        painter.drawLine(0, y, self.width(), y)
        painter.end()


def _row(at: int, line: Line, faint: str, link: str) -> str:
    text, tail, leads = line
    words = escape(text).replace("\n", "<br>")
    if leads is not None:
        words = f'<a href="{at}" style="color:{link}">{words}</a>'
    return words + (f' <span style="color:{faint}">{escape(tail)}</span>' if tail else "")
