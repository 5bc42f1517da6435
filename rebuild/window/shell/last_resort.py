"""The window's last resort: a fault nobody foresaw is told in a sentence with a report, and the program goes on."""

from __future__ import annotations

import sys
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import (
    QApplication,
    QDialog,
    QDialogButtonBox,
    QPlainTextEdit,
    QVBoxLayout,
    QWidget,
)
from shiboken6 import isValid

from rebuild.fault_report import SENTENCE, keep_report, report_of
from rebuild.window.desk.look_over import STUMBLED
from rebuild.window.layout.plain import PlainLabel

WIDTH, HEIGHT = 680, 420
GO_ON = "You can go on. To have it mended, copy the report below; it holds nothing of your file."
AGAIN = "The same fault of the program again; “rebuild --trouble” in a terminal prints its report."
MOST_REPORTS = 20


class LastResort(QObject):
    """Hears every fault, on any thread, and shows its report.

    A fault in a painting or a timer comes back for ever: its report is shown once, and when it has been closed the
    fault is only said (``again``, a sentence for the message line).
    """

    caught = Signal(str)
    again = Signal(str)
    beside = Signal(object)  #: what a thread beside the window stumbled over, to be heard on the window's own

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.reports: dict[str, int] = {}  #: each report, and how often it came
        self.window: ReportWindow | None = None
        #: Looks the open file over if that was not done; True when cells that cannot be read were what was met.
        self.look_over: Callable[[], bool] = lambda: False
        # Queued: a fault may come from a painting or from another thread, where no window may be made.
        self.caught.connect(self._show, Qt.ConnectionType.QueuedConnection)
        self.beside.connect(self.hear, Qt.ConnectionType.QueuedConnection)

    def hear(self, error: BaseException | None) -> None:
        """Keep the report of a fault and have it shown; Ctrl-C in the terminal closes the program instead.

        What a bad cell of the file brought about is no fault: it is said, and the pages read again.
        """
        if isinstance(error, STUMBLED):
            if threading.current_thread() is not threading.main_thread():
                self.beside.emit(error)
                return
            if self.look_over():
                return
        if isinstance(error, Exception):
            report = report_of(error)
            self._count(report)
            self.caught.emit(report)
        elif isinstance(error, KeyboardInterrupt):
            QApplication.quit()

    def _count(self, report: str) -> None:
        first = report not in self.reports
        if first and len(self.reports) >= MOST_REPORTS:
            return
        self.reports[report] = self.reports.get(report, 0) + 1
        if first:
            keep_report(self.text())

    def text(self) -> str:
        """All reports of this run, the first fault first: later ones often come from it."""
        return "\n\n".join(
            report if times == 1 else f"{report}\n({times} times)" for report, times in self.reports.items()
        )

    def _show(self, report: str) -> None:
        there = self.window if self.window is not None and isValid(self.window) else None
        if there is None or not there.isVisible():
            if self.reports.get(report, 0) > 1:
                self.again.emit(AGAIN)
                return
            # A dialog that waits for an answer would hold back a window that is not its own child.
            there = self.window = ReportWindow(
                QApplication.activeModalWidget() or QApplication.activeWindow()
            )
        there.show_report(self.text())

    def end(self) -> None:
        """Take the report's window away."""
        if self.window is not None and isValid(self.window):
            self.window.close()
            self.window.deleteLater()
        self.window = None
        self.deleteLater()


class ReportWindow(QDialog):
    """The sentence, the report to copy, and on with the work; it never waits for an answer."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle("A fault of the program")
        words = PlainLabel(f"{SENTENCE}\n\n{GO_ON}", self)
        words.setTextFormat(Qt.TextFormat.PlainText)
        words.setWordWrap(True)
        self.report = QPlainTextEdit(self)
        self.report.setReadOnly(True)
        self.report.setAccessibleName("Report")
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close, self)
        self.copy_button = buttons.addButton("&Copy the report", QDialogButtonBox.ButtonRole.ActionRole)
        self.copy_button.clicked.connect(self._copy)
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        for widget in (words, self.report, buttons):
            layout.addWidget(widget)
        self.resize(WIDTH, HEIGHT)

    def show_report(self, text: str) -> None:
        """Show the reports so far."""
        self.report.setPlainText(text)
        self.show()
        self.raise_()

    def _copy(self) -> None:
        QGuiApplication.clipboard().setText(self.report.toPlainText())


@contextmanager
def last_resort() -> Iterator[LastResort]:
    """While the window runs, what no one caught in a slot, a painting, a thread or a finaliser comes here."""
    heard = LastResort()
    before = sys.excepthook, threading.excepthook, sys.unraisablehook
    sys.excepthook = lambda _kind, error, _at: heard.hear(error)
    threading.excepthook = lambda met: heard.hear(met.exc_value)
    sys.unraisablehook = lambda met: heard.hear(met.exc_value)
    try:
        yield heard
    finally:
        sys.excepthook, threading.excepthook, sys.unraisablehook = before
        heard.end()
