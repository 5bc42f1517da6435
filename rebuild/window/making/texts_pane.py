"""The fields of a sheet, each stored when it is left; what follows from them is worked out again."""

from __future__ import annotations

from functools import partial

from PySide6.QtWidgets import QScrollArea, QVBoxLayout, QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.forms.edit_form import EditForm, Special
from rebuild.window.forms.record_form import fields_named
from rebuild.window.layout.plain import PlainLabel
from rebuild.work.making.acts import change_sheet

WHAT = (
    "shape", "unit", "why", "do_not_copy", "material", "bar_skin", "blank", "blank_at", "stock_across", "stock_long",
    "stock_ends", "thread", "tool_nose", "ball", "taper", "gear",
    "key", "finish", "quantity", "allow_uncertainty",
)  # fmt: skip
AFTER = ("trial_fit", "marked", "settled_by", "settled_note", "note")


class TextsPane(QWidget):
    """Some of the sheet's fields."""

    def __init__(
        self, desk: Desk, names: tuple[str, ...], about: str = "", parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        specials: dict[str, Special] = {name: partial(_change, desk, name) for name in names}
        self.form = EditForm(
            desk,
            "making_sheet",
            self,
            fields=fields_named("making_sheet", names),
            specials=specials,
            most_columns=3,
        )
        self.about = PlainLabel(about, self)
        self.about.setWordWrap(True)
        self.about.setVisible(bool(about))
        scroll = QScrollArea(self)
        scroll.setAccessibleName("What is written on the sheet")
        scroll.setWidget(self.form)
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QScrollArea.Shape.NoFrame)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.about)
        layout.addWidget(scroll, 1)

    def show_sheet(self, sheet_id: int | None, about: str = "", *, changes: bool = True) -> None:
        """Show another sheet; a settled one cannot be changed."""
        self.form.show_record(sheet_id)
        self.form.setEnabled(sheet_id is not None and changes)
        self.about.setText(about)
        self.about.setVisible(bool(about))


def _change(desk: Desk, name: str, _form: EditForm, row_id: int, text: str) -> None:
    change_sheet(desk.store, row_id, {name: text})
