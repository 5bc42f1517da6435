"""Plain field rows for a page's own form: a label, the field, and its trouble beneath."""

from __future__ import annotations

from PySide6.QtWidgets import QFormLayout, QLineEdit, QPlainTextEdit, QVBoxLayout, QWidget

from rebuild.errors import RebuildError
from rebuild.window.layout.plain import PlainLabel
from rebuild.work.records.field import Field, FieldKind


class FieldRows(QWidget):
    """Text fields of a record in a form; ``typed()`` gives them back, ``show_trouble`` marks one."""

    def __init__(self, fields: tuple[Field, ...], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._fields = {field.name: field for field in fields}
        self._edits: dict[str, QLineEdit | QPlainTextEdit] = {}
        self._troubles: dict[str, PlainLabel] = {}
        form = QFormLayout(self)
        form.setContentsMargins(0, 0, 0, 0)
        form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.AllNonFixedFieldsGrow)
        for field in fields:
            form.addRow(*self._row(field))

    def _row(self, field: Field) -> tuple[PlainLabel, QWidget]:
        edit: QLineEdit | QPlainTextEdit
        if field.kind is FieldKind.LONG_TEXT:
            edit = QPlainTextEdit()
            edit.setTabChangesFocus(True)
            edit.setFixedHeight(edit.fontMetrics().lineSpacing() * 3 + 14)
        else:
            edit = QLineEdit()
        edit.setAccessibleName(field.label)
        self._edits[field.name] = edit
        trouble = PlainLabel()
        trouble.setWordWrap(True)
        trouble.hide()
        self._troubles[field.name] = trouble
        box = QWidget()
        layout = QVBoxLayout(box)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(1)
        layout.addWidget(edit)
        layout.addWidget(trouble)
        label = PlainLabel(field.label)
        label.setBuddy(edit)
        return label, box

    def typed(self) -> dict[str, str]:
        """What stands in the fields, by name."""
        return {
            name: edit.toPlainText() if isinstance(edit, QPlainTextEdit) else edit.text()
            for name, edit in self._edits.items()
        }

    def show_texts(self, texts: dict[str, str]) -> None:
        """Fill the fields; names not given are emptied."""
        for name, edit in self._edits.items():
            text = texts.get(name, "")
            edit.setPlainText(text) if isinstance(edit, QPlainTextEdit) else edit.setText(text)
        self.show_trouble(None)

    def show_trouble(self, trouble: RebuildError | None) -> None:
        """Put a sentence under the field it names, and the cursor into it."""
        for name, label in self._troubles.items():
            mine = trouble is not None and trouble.where == self._fields[name].label
            label.setText(str(trouble) if mine else "")
            label.setVisible(mine)
            if mine:
                self._edits[name].setFocus()

    def focus_first(self) -> None:
        """Put the cursor into the first field."""
        next(iter(self._edits.values())).setFocus()
