"""The working pane: how a number was reached, line by line, to be checked with a pencil and copied."""

from __future__ import annotations

from html import escape

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QGuiApplication, QKeySequence, QShortcut
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QTextBrowser, QVBoxLayout, QWidget

from rebuild.trade.results.in_inch import in_inch
from rebuild.trade.results.working import Step, StepKind, Working
from rebuild.trade.sizes.length_units import INCH_UNITS
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.machine_unit import machine_unit
from rebuild.window.ink import theme
from rebuild.window.layout.plain import PlainLabel

#: What the pane says before anything was asked.
EMPTY = "Enter on a number the program worked out shows here how it was reached."


class WorkingText(QTextBrowser):
    """One working as a ruled table; repainted when the scheme changes."""

    def __init__(self, parent: QWidget | None = None, empty: str = "") -> None:
        super().__init__(parent)
        self._empty = empty
        self.working: Working | None = None
        self.setOpenLinks(False)
        self.setAccessibleName("Working")
        self.document().setDocumentMargin(8)
        self.show_working(None)

    def show_working(self, working: Working | None) -> None:
        """Show a working; None shows the words for an empty one."""
        self.working = working
        if working is None:
            self.setPlainText(self._empty)
        else:
            self.setHtml(as_html(working, theme.ink()))

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() is QEvent.Type.PaletteChange and getattr(self, "working", None) is not None:
            self.show_working(self.working)


class WorkingPane(QWidget):
    """Shows the working last asked for: inputs as read, equations, table rows, sources, cautions."""

    def __init__(self, desk: Desk, parent: QWidget | None = None, empty: str = EMPTY) -> None:
        super().__init__(parent)
        self._desk = desk
        self._working: Working | None = None
        self.title = PlainLabel(self)
        self.title.setFont(theme.large(self.font(), 1.25))
        self.title.setWordWrap(True)
        self.copy_button = QPushButton("Cop&y", self)
        self.copy_button.setToolTip("Copy the whole working as text")
        self.page = WorkingText(self, empty)
        top = QHBoxLayout()
        top.addWidget(self.title, 1)
        top.addWidget(self.copy_button)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(6, 6, 6, 6)
        layout.setSpacing(4)
        layout.addLayout(top)
        layout.addWidget(self.page, 1)
        self.setFocusProxy(self.page)
        self.copy_button.clicked.connect(self.copy)
        whole = QShortcut(QKeySequence("Ctrl+Shift+C"), self)
        whole.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        whole.activated.connect(self.copy)
        desk.working_asked.connect(self.show_working)
        desk.closed.connect(self._forget)
        desk.unit_changed.connect(self._show_again)
        self.show_working(None)

    @property
    def working(self) -> Working | None:
        """What was asked for; it is shown in the unit of the machine."""
        return self._working

    def lie_flush(self) -> None:
        """Take no margin of its own, where the pane stands among lists."""
        layout = self.layout()
        if layout is not None:
            layout.setContentsMargins(0, 2, 0, 0)

    def show_working(self, working: Working | None) -> None:
        """Show a working, on an inch machine in inches first; None empties the pane."""
        self._working = working
        self.copy_button.setEnabled(working is not None)
        self.title.setText(working.title if working is not None else "Working")
        self.page.show_working(working if working is None else self._in_own_unit(working))

    def _in_own_unit(self, working: Working) -> Working:
        own = self._desk.unit_for(machine_unit(self._desk))
        return in_inch(working) if own in INCH_UNITS else working

    def _show_again(self) -> None:
        self.show_working(self._working)

    def _forget(self) -> None:
        self.show_working(None)

    def copy(self) -> None:
        """Put the working on the clipboard as plain lines."""
        if self.page.working is not None:
            QGuiApplication.clipboard().setText(self.page.working.text())
            self._desk.say("The working is copied.")


def as_html(working: Working, ink: theme.Ink) -> str:
    """The working as a ruled table: what the line is, the line, and its source under it."""
    rows = "".join(_row(step, ink) for step in working.steps)
    return (
        f'<body style="color:{ink.ink.name()}">'
        f'<table width="100%" cellspacing="0" cellpadding="4">{rows}</table></body>'
    )


def _row(step: Step, ink: theme.Ink) -> str:
    strong = step.kind in (StepKind.RESULT, StepKind.CAUTION)
    label = f"<b>{escape(step.label)}</b>" if step.label else ""
    text = escape(step.text)
    line = (
        f"{label}: {text}"
        if label and step.kind is StepKind.INPUT
        else f"{label}&nbsp; {text}"
        if label
        else text
    )
    if strong:
        line = f"<b>{line}</b>"
    source = ""
    if step.source is not None:
        source = f'<br/><span style="color:{ink.faint.name()}">{escape(step.source.cite())}</span>'
    rule = f"border-top:1px solid {ink.rule.name()};"
    return (
        f'<tr><td width="92" valign="top" style="{rule}color:{ink.faint.name()}">{escape(step.kind.value)}</td>'
        f'<td valign="top" style="{rule}">{line}{source}</td></tr>'
    )
