"""The entries of one figure as a form: sizes are typed as anywhere, trouble stands under its entry."""

from __future__ import annotations

from html import escape

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QComboBox, QFormLayout, QLineEdit, QScrollArea, QVBoxLayout, QWidget

from rebuild.errors import RebuildError
from rebuild.trade.results.figure import Figure, Input, InputKind
from rebuild.window.entry.gauge import TAKES_GAUGE
from rebuild.window.layout.plain import MarkupLabel, PlainLabel

_UNITS = {InputKind.LENGTH: "in {unit} unless typed otherwise", InputKind.NUMBER: "{unit}"}


class FigureForm(QScrollArea):
    """What was typed for each figure stays while the page lives."""

    typed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName("Entries")
        self.setWidgetResizable(True)
        self.figure: Figure | None = None
        self._fields: dict[str, QLineEdit | QComboBox] = {}
        self._troubles: dict[str, PlainLabel] = {}
        self._kept: dict[str, dict[str, str]] = {}

    def show_figure(self, figure: Figure) -> None:
        """Lay out the entries of a figure, with what was typed there before or its example."""
        if self.figure is not None:
            self._kept[self.figure.topic] = self.entries()
        self.figure = figure
        start = self._kept.get(figure.topic, dict(figure.example))
        self._fields, self._troubles = {}, {}
        body = QWidget()
        form = QFormLayout(body)
        form.setRowWrapPolicy(QFormLayout.RowWrapPolicy.WrapAllRows)
        form.setContentsMargins(10, 6, 10, 6)
        form.addRow(_heading(figure))
        for item in figure.inputs:
            form.addRow(*self._row(item, start.get(item.name, item.default)))
        self.setWidget(body)

    def _row(self, item: Input, text: str) -> tuple[PlainLabel, QWidget]:
        field = self._field(item, text)
        field.setAccessibleName(item.label)
        self._fields[item.name] = field
        trouble = PlainLabel()
        trouble.setWordWrap(True)
        trouble.hide()
        self._troubles[item.name] = trouble
        box = QWidget()
        layout = QVBoxLayout(box)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(1)
        layout.addWidget(field)
        layout.addWidget(trouble)
        label = PlainLabel(item.label if item.required else f"{item.label} (if known)")
        label.setBuddy(field)
        label.setToolTip(item.help)
        field.setToolTip(item.help)
        return label, box

    def _field(self, item: Input, text: str) -> QLineEdit | QComboBox:
        if item.kind is InputKind.CHOICE:
            combo = QComboBox()
            combo.addItems(list(item.choices))
            combo.setCurrentText(text or (item.choices[0] if item.choices else ""))
            combo.currentTextChanged.connect(lambda _text: self.typed.emit())
            return combo
        line = QLineEdit(text)
        line.setProperty(TAKES_GAUGE, True)
        hint = _UNITS.get(item.kind, "").format(unit=item.unit)
        line.setPlaceholderText(item.help if not hint.strip() else hint)
        line.textChanged.connect(lambda _text: self.typed.emit())
        return line

    def entries(self) -> dict[str, str]:
        """What is typed, by entry name."""
        return {
            name: field.currentText() if isinstance(field, QComboBox) else field.text()
            for name, field in self._fields.items()
        }

    def show_trouble(self, trouble: RebuildError | None) -> None:
        """Put a sentence under the entry it names; None clears all."""
        for name, label in self._troubles.items():
            item = next(entry for entry in self.figure.inputs if entry.name == name) if self.figure else None
            mine = trouble is not None and item is not None and trouble.where == item.label
            label.setText(str(trouble) if mine else "")
            label.setVisible(mine)


def _heading(figure: Figure) -> MarkupLabel:
    heading = MarkupLabel()
    about = f"<br>{escape(figure.about)}" if figure.about else ""
    heading.setText(f"<b>{escape(figure.title)}</b>{about}")
    heading.setWordWrap(True)
    return heading
