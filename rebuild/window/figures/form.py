"""The entries of one figure as a form: sizes are typed as anywhere, trouble stands under its entry."""

from __future__ import annotations

from functools import partial
from html import escape

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QComboBox, QFormLayout, QLineEdit, QScrollArea, QVBoxLayout, QWidget

from rebuild.errors import RebuildError
from rebuild.trade.figures import figure
from rebuild.trade.figures.at_first import at_first, in_place
from rebuild.trade.results.figure import Figure
from rebuild.trade.results.input import Input, InputKind
from rebuild.trade.sizes.quantity import is_bare
from rebuild.window.entry.gauge import TAKES_GAUGE
from rebuild.window.forms.field_box import Trouble
from rebuild.window.layout.plain import MarkupLabel, PlainLabel

NAMES = {"in": "inches", "mm": "mm"}


class FigureForm(QScrollArea):
    """What was typed for each figure stays while the page lives; until something is, the example stands in grey."""

    typed = Signal()

    asks_only = True

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName("Entries")
        self.setWidgetResizable(True)
        self.figure: Figure | None = None
        self._fields: dict[str, QLineEdit | QComboBox] = {}
        self._boxes: dict[str, QVBoxLayout] = {}
        self._troubles: dict[str, Trouble] = {}
        self._kept: dict[str, dict[str, str]] = {}
        self._unit = ""

    def show_figure(self, shown: Figure) -> None:
        """Lay out the entries of a figure, with what was typed there before, or empty before its example in grey."""
        if self.figure is not None:
            self._kept[self.figure.topic] = self.entries()
        self.figure = shown
        example = at_first(shown, self._unit)
        chosen = {item.name: example[item.name] for item in shown.inputs if item.kind is InputKind.CHOICE}
        start = self._kept.get(shown.topic, chosen)
        self._fields, self._boxes, self._troubles = {}, {}, {}
        body = QWidget()
        form = QFormLayout(body)
        form.setRowWrapPolicy(QFormLayout.RowWrapPolicy.WrapAllRows)
        form.setContentsMargins(10, 6, 10, 6)
        form.addRow(_heading(shown))
        for item in shown.inputs:
            form.addRow(*self._row(item, start.get(item.name, "")))
        self.setWidget(body)
        self._hint_all()

    @property
    def is_example(self) -> bool:
        """Whether nothing is typed yet, so that only the example can be worked out."""
        lines = [field for field in self._fields.values() if isinstance(field, QLineEdit)]
        return bool(lines) and not any(line.text().strip() for line in lines)

    def example(self) -> dict[str, str]:
        """The entries of the example, with what is chosen of the lists."""
        shown = self.figure
        if shown is None:
            return {}
        return at_first(shown, self._unit) | {name: text for name, text in self.entries().items() if text}

    def _hint_all(self) -> None:
        """The example in grey while nothing is typed; after that what an empty box stands for."""
        if self.figure is None:
            return
        example = at_first(self.figure, self._unit) if self.is_example else {}
        for item in self.figure.inputs:
            field = self._fields[item.name]
            if isinstance(field, QLineEdit):
                sample = example.get(item.name, "")
                field.setPlaceholderText(f"example: {sample}" if sample else self._hint(item))

    def _was_typed(self) -> None:
        self._hint_all()
        self.typed.emit()

    def use_unit(self, unit: str) -> None:
        """A size typed without a unit is in ``unit`` from now on (empty: each entry's own); typed ones keep theirs."""
        if unit == self._unit:
            return
        if self.figure is not None:
            self._kept[self.figure.topic] = self.entries()
        for topic, texts in self._kept.items():
            self._kept[topic] = self._named(topic, texts, unit)
        self._unit = unit
        for item in self.figure.inputs if self.figure is not None else ():
            field = self._fields[item.name]
            if isinstance(field, QLineEdit):
                field.setText(self._kept[self.figure.topic][item.name] if self.figure else "")
        self._hint_all()

    def _named(self, topic: str, texts: dict[str, str], unit: str) -> dict[str, str]:
        """What was typed, with the unit it was typed in where a size without one will be in another."""
        inputs = {item.name: item for item in figure(topic).inputs}
        return {
            name: in_place(
                text, inputs[name], inputs[name].unit_here(self._unit), inputs[name].unit_here(unit)
            )
            for name, text in texts.items()
        }

    def _hint(self, item: Input) -> str:
        if item.default:
            unit = item.unit if item.kind is not InputKind.TEXT and is_bare(item.default) else ""
            return f"{item.default} {unit}".strip() + " if left empty"
        if item.kind is InputKind.LENGTH:
            return f"in {NAMES.get(self._unit or item.unit, item.unit)} unless typed otherwise"
        if item.kind is InputKind.AMOUNT:
            return f"in {item.unit_here(self._unit)} unless typed otherwise"
        return item.unit if item.kind is InputKind.NUMBER and item.unit else item.help

    def _row(self, item: Input, text: str) -> tuple[PlainLabel, QWidget]:
        field = self._field(item, text)
        field.setAccessibleName(item.label)
        self._fields[item.name] = field
        box = QWidget()
        layout = QVBoxLayout(box)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(1)
        layout.addWidget(field)
        self._boxes[item.name] = layout
        may_be_empty = not item.required and "if known" not in item.label
        label = PlainLabel(f"{item.label} (if known)" if may_be_empty else item.label)
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
        line.textChanged.connect(lambda _text: self._was_typed())
        return line

    def entries(self) -> dict[str, str]:
        """What is typed, by entry name."""
        return {
            name: field.currentText() if isinstance(field, QComboBox) else field.text()
            for name, field in self._fields.items()
        }

    def show_trouble(self, trouble: RebuildError | None) -> None:
        """Put a sentence under the entry it names, with the readings one may take; None clears all."""
        for old in self._troubles.values():
            old.hide()
            old.deleteLater()
        self._troubles = {}
        for item in self.figure.inputs if self.figure is not None and trouble is not None else ():
            if trouble is not None and trouble.where == item.label:
                said = Trouble(trouble, self)
                said.retyped.connect(partial(self._retype, item.name))
                self._boxes[item.name].addWidget(said)
                self._troubles[item.name] = said

    def _retype(self, name: str, text: str) -> None:
        field = self._fields[name]
        if isinstance(field, QLineEdit):
            field.setText(text)
            field.setFocus()


def _heading(shown: Figure) -> MarkupLabel:
    heading = MarkupLabel()
    about = f"<br>{escape(shown.about)}" if shown.about else ""
    heading.setText(f"<b>{escape(shown.title)}</b>{about}")
    heading.setWordWrap(True)
    return heading
