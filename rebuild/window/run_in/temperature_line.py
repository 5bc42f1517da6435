"""The line of the run-in that takes a temperature: of which bearing, at which minute, how warm."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QLineEdit, QPushButton, QWidget

from rebuild.trade.sizes.number import read_number
from rebuild.window.desk.gauge_keys import GIVES_BACK
from rebuild.window.layout.plain import PlainLabel


class TemperatureLine(QWidget):
    """``aimed`` tells that another bearing or minute was named; ``entered`` that the temperature is to be stored."""

    aimed = Signal()
    entered = Signal()

    def __init__(self, store_button: QPushButton, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.bearing = QComboBox()
        self.bearing.setEditable(True)
        self.minute, self.celsius = QLineEdit(), QLineEdit()
        self.celsius.setPlaceholderText("in C or F")
        self.minute.setProperty(GIVES_BACK, True)  # a gauge sends temperatures, no minutes
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        named = (("Bearing", self.bearing, 3), ("Minute", self.minute, 1), ("Temperature", self.celsius, 1))
        for words, widget, share in named:
            label = PlainLabel(words)
            label.setBuddy(widget)
            widget.setAccessibleName(words)
            row.addWidget(label)
            row.addWidget(widget, share)
        row.addWidget(store_button)
        store_button.clicked.connect(self.entered)
        self.bearing.currentTextChanged.connect(self.aimed)
        self.minute.textChanged.connect(self.aimed)
        for edit in (self.minute, self.celsius):
            edit.returnPressed.connect(self.entered)

    def offer(self, bearings: Sequence[str]) -> None:
        """The bearings to read, in their order; the one named stays."""
        typed = self.bearing.currentText()
        self.bearing.clear()
        self.bearing.addItems(list(bearings))
        self.bearing.setEditText(typed or self.bearing.itemText(0))

    def at_minute(self, comma: bool | None) -> float | None:
        """The minute typed, or None. Raises BadEntry."""
        return typed_number(self.minute, "Minute", comma)

    def on_from(self, called: str) -> None:
        """On to the bearing behind this one; behind the last one the minute is asked for again."""
        names = [self.bearing.itemText(at) for at in range(self.bearing.count())]
        at = names.index(called) + 1 if called in names else len(names)
        self.bearing.setEditText(names[at] if at < len(names) else (names or [""])[0])
        if at >= len(names):
            self.minute.clear()

    def next_field(self) -> QLineEdit:
        """Where the next thing is typed: the temperature, once there is a minute."""
        return self.celsius if self.minute.text().strip() else self.minute


def typed_number(edit: QLineEdit, where: str, comma: bool | None) -> float | None:
    """The number in a line, not below zero, or None when it is empty. Raises BadEntry."""
    text = edit.text().strip()
    return read_number(text, where, decimal_comma=comma, at_least=0, ways="Type it as 250.") if text else None
