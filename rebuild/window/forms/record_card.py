"""Any one record's fields in a dialog of its own, stored as they are typed."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QFrame, QScrollArea, QVBoxLayout, QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.forms.edit_form import EditForm
from rebuild.work.records.fields import called


class RecordCard(QDialog):
    """The fields of one record; it closes only when nothing typed is left unstored."""

    def __init__(self, desk: Desk, record: str, row_id: int, parent: QWidget | None) -> None:
        super().__init__(parent)
        self.setWindowTitle(called(record).capitalize())
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.form = EditForm(desk, record, self, most_columns=2)
        scroll = QScrollArea(self)
        scroll.setAccessibleName("Fields of the chosen record")
        scroll.setWidget(self.form)
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close, self)
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.addWidget(scroll)
        layout.addWidget(buttons)
        self.resize(920, 460)
        desk.closed.connect(self.close)
        self.form.show_record(row_id)

    def done(self, result: int) -> None:
        """Store what is still being typed; a field in trouble keeps the dialog open."""
        self.form.settle_all()
        if not any(box.trouble for box in self.form.boxes.values()):
            super().done(result)


def edit_record(desk: Desk, record: str, row_id: int, parent: QWidget | None) -> RecordCard:
    """Open the card of one record."""
    card = RecordCard(desk, record, row_id, parent)
    card.open()
    return card
