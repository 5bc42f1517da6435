"""One line of what the evening offers, and the steps that suit it in a sentence."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox, QLineEdit, QPushButton, QVBoxLayout, QWidget

from rebuild.errors import RebuildError
from rebuild.trade.sizes.amounts import parse_minutes
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.pane_trouble import PaneTrouble
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.layout.wrapped_row import WrappedRow
from rebuild.work.plan.rows_tonight import Tonight
from rebuild.work.records.rows_settings import decimal_comma

_NAMED = 3
NONE_FITS = "No open step fits: give it more time, another place or a helper."


class EveningRow(QWidget):
    """``changed``: it offers something else now. ``print_asked`` carries the evening of a day sheet."""

    changed = Signal()
    print_asked = Signal(object)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self.setAccessibleName("Tonight")
        self.minutes = QLineEdit(desk.evening or "2 h")
        self.place = QLineEdit()
        self.warm = QCheckBox("Warm enough")
        self.helper = QCheckBox("Helper there")
        self.hoist = QCheckBox("Hoist there")
        self.quiet = QCheckBox("Quiet work only")
        self.warm.setChecked(True)
        self.print_button = QPushButton("Pr&int day sheet…")
        self.says = PlainLabel()
        self.says.setWordWrap(True)
        self.trouble = PaneTrouble(desk, (self.minutes,), self)
        self._lay_out()
        self.minutes.textChanged.connect(lambda _text: self.changed.emit())
        self.minutes.textEdited.connect(desk.say_evening)
        desk.evening_changed.connect(self._hear_evening)
        self.place.textChanged.connect(lambda _text: self.changed.emit())
        self.warm.toggled.connect(lambda _on: self.changed.emit())
        for box in (self.helper, self.hoist, self.quiet):
            box.toggled.connect(lambda _on: self.changed.emit())
        self.print_button.clicked.connect(self._ask_to_print)

    def _lay_out(self) -> None:
        self.minutes.setAccessibleName("Time there is tonight")
        self.place.setAccessibleName("Where")
        self.place.setPlaceholderText("anywhere")
        letter = self.fontMetrics().averageCharWidth()
        self.minutes.setFixedWidth(letter * 12)
        self.place.setFixedWidth(letter * 22)
        row = WrappedRow()
        for widget in (PlainLabel("Tonight"), self.minutes, PlainLabel("where"), self.place,
                       self.warm, self.helper, self.hoist, self.quiet, self.print_button):  # fmt: skip
            row.addWidget(widget)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 2)
        layout.setSpacing(2)
        layout.addLayout(row)
        layout.addWidget(self.trouble)
        layout.addWidget(self.says)

    def _hear_evening(self) -> None:
        """The time of tonight was typed on another page."""
        if self._desk.evening and self._desk.evening != self.minutes.text():
            self.minutes.setText(self._desk.evening)

    def tonight(self) -> Tonight | None:
        """The evening as typed; None, and said, when its time is none."""
        try:
            comma = decimal_comma(self._desk.store) if self._desk.is_open else None
            minutes = parse_minutes(self.minutes.text(), "Time", decimal_comma=comma)
        except RebuildError as trouble:
            self.says.clear()
            self.trouble.tell(trouble)
            return None
        self.trouble.end()
        return Tonight(
            minutes,
            self.place.text().strip(),
            warm=self.warm.isChecked(),
            helper=self.helper.isChecked(),
            quiet=self.quiet.isChecked(),
            hoist=self.hoist.isChecked(),
        )

    def tell(self, titles: list[str], alone: list[str], *, any_open: bool, own: str = "") -> None:
        """Say what together fits the time, as the day sheet has it, then what would fit alone instead.

        ``own`` says why what the owner meant to go on with is not among it.
        """
        if not titles:
            said = NONE_FITS if any_open else "No step is open yet."
            self.says.setText(f"{said} {own}".strip())
            return
        fits = "Fits together" if len(titles) > 1 else "Fits"
        instead = f" Alone instead: {_named(alone)}." if alone else ""
        self.says.setText(f"{fits}: {_named(titles)}.{instead} {own}".strip())

    def _ask_to_print(self) -> None:
        tonight = self.tonight()
        if tonight is not None:
            self.print_asked.emit(tonight)


def _named(titles: list[str]) -> str:
    """The first by name, the rest by their count."""
    more = f"; and {len(titles) - _NAMED} more" if len(titles) > _NAMED else ""
    return "; ".join(titles[:_NAMED]) + more
