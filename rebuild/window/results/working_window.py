"""The working in a window of its own, for pages that have no pane for it."""

from __future__ import annotations

from PySide6.QtWidgets import QDialog, QDialogButtonBox, QVBoxLayout, QWidget

from rebuild.trade.results.working import Working
from rebuild.window.desk.desk import Desk
from rebuild.window.results.working import WorkingPane

WIDTH, HEIGHT = 680, 460


class WorkingWindow(QDialog):
    """Stays beside the frame, shows what is asked for next as well, and closes with Esc."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self.setWindowTitle("Working")
        self.pane = WorkingPane(desk, self)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close, self)
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.addWidget(self.pane, 1)
        layout.addWidget(buttons)
        self.resize(WIDTH, HEIGHT)
        desk.closed.connect(self.close)


def show_elsewhere(desk: Desk, frame: QWidget, working: Working) -> None:
    """Show a working in its own window, unless a pane that can be seen shows it already."""
    panes = [pane for pane in frame.findChildren(WorkingPane) if pane.window() is frame]
    if not desk.is_open or any(pane.isVisible() and pane.working is working for pane in panes):
        return
    window = frame.findChild(WorkingWindow) or WorkingWindow(desk, frame)
    window.pane.show_working(working)
    window.show()
    window.raise_()
    window.activateWindow()
    window.pane.page.setFocus()
