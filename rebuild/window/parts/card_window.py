"""The part card in a window of its own, over any page: it follows what is chosen."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QVBoxLayout, QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.parts.details import DetailsPane

SIZE = (860, 620)


class PartCardWindow(QDialog):
    """The same card as the bench's."""

    def __init__(self, desk: Desk, parent: QWidget | None) -> None:
        super().__init__(parent)
        self.setWindowTitle("Part card")
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.card = DetailsPane(desk, self)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(6, 6, 6, 6)
        layout.addWidget(self.card)
        self.resize(*SIZE)
        desk.closed.connect(self.close)


def open_card(desk: Desk, parent: QWidget | None) -> PartCardWindow:
    """Open the card of the chosen part; one window is enough."""
    found = parent.findChild(PartCardWindow) if parent is not None else None
    shown = found if isinstance(found, PartCardWindow) else PartCardWindow(desk, parent)
    shown.show()
    shown.raise_()
    shown.activateWindow()
    return shown
