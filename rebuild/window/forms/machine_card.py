"""A machine's own details, edited in place."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QFrame, QScrollArea, QVBoxLayout, QWidget

from rebuild.window.desk import Desk
from rebuild.window.forms.edit_form import EditForm


class MachineCard(QDialog):
    """All fields of the chosen machine."""

    def __init__(self, desk: Desk, machine_id: int, parent: QWidget | None) -> None:
        super().__init__(parent)
        self.setWindowTitle("Machine")
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.form = EditForm(desk, "machine", self, most_columns=2)
        scroll = QScrollArea(self)
        scroll.setWidget(self.form)
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close, self)
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.addWidget(scroll)
        layout.addWidget(buttons)
        self.resize(720, 460)
        desk.closed.connect(self.close)
        self.form.show_record(machine_id)

    def done(self, result: int) -> None:
        self.form.settle_all()
        if not any(box.trouble for box in self.form.boxes.values()):
            super().done(result)


def machine_card(desk: Desk, parent: QWidget | None) -> MachineCard:
    """Open the card of the machine shown."""
    card = MachineCard(desk, desk.machine_id or 0, parent)
    card.open()
    return card
