"""What fits tonight: steps that can start now, by how long, where, warm or cold, alone or not."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QLineEdit, QPushButton, QVBoxLayout, QWidget

from rebuild.errors import RebuildError
from rebuild.trade.schedule.plan_input import PlanInput
from rebuild.trade.sizes.amounts import parse_minutes, show_minutes
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.pane_trouble import PaneTrouble
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.empty_state import EmptyState
from rebuild.window.lists.tree_list import KEY, line, tree_list
from rebuild.work.plan.rows_tonight import Tonight, fits_tonight
from rebuild.work.records.rows_settings import decimal_comma

NO_STEP = "Steps that fit the time there is, the place and the hands. None is open yet."
NONE_FITS = "No open step fits: give it more time, another place or a helper."


class TonightPane(QWidget):
    """A row of what the evening offers, and the steps that suit it."""

    step_chosen = Signal(object)
    print_asked = Signal(object)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self.setAccessibleName("What fits tonight")
        self._given: PlanInput | None = None
        self.minutes = QLineEdit("30 min")
        self.place = QLineEdit()
        self.warm = QCheckBox("&Warm enough")
        self.helper = QCheckBox("&Helper there")
        self.warm.setChecked(True)
        self.print_button = QPushButton("Pr&int day sheet…")
        self._trouble = PaneTrouble(desk, (self.minutes,), self)
        self.steps = tree_list("Steps that fit", ("Step", "Kind", "Likely", "Where"))
        self.empty = EmptyState(self.steps, NO_STEP)
        self._lay_out()
        self.minutes.textChanged.connect(self.refresh)
        self.place.textChanged.connect(self.refresh)
        self.warm.toggled.connect(self.refresh)
        self.helper.toggled.connect(self.refresh)
        self.print_button.clicked.connect(self._ask_to_print)
        self.steps.itemActivated.connect(lambda item: self.step_chosen.emit(int(item.data(0, KEY))))

    def _lay_out(self) -> None:
        self.minutes.setAccessibleName("Time there is")
        self.place.setAccessibleName("Where")
        self.place.setPlaceholderText("anywhere")
        self.minutes.setMaximumWidth(110)
        self.place.setMaximumWidth(200)
        row = QHBoxLayout()
        for widget in (
            PlainLabel("Time"),
            self.minutes,
            PlainLabel("Where"),
            self.place,
            self.warm,
            self.helper,
            self.print_button,
        ):
            row.addWidget(widget)
        row.addWidget(self._trouble, 1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addLayout(row)
        layout.addWidget(self.steps)

    def show_input(self, given: PlanInput | None) -> None:
        """Take the open steps."""
        self._given = given
        self.refresh()

    def _tonight(self) -> Tonight | None:
        """The evening as typed; None, and said, when its time is none."""
        try:
            comma = decimal_comma(self._desk.store) if self._desk.is_open else None
            minutes = parse_minutes(self.minutes.text(), "Time", decimal_comma=comma)
        except RebuildError as trouble:
            self._trouble.tell(trouble)
            return None
        return Tonight(minutes, self.place.text().strip(), self.warm.isChecked(), self.helper.isChecked())

    def _ask_to_print(self) -> None:
        tonight = self._tonight()
        if tonight is not None:
            self.print_asked.emit(tonight)

    def refresh(self) -> None:
        """Choose again."""
        self.steps.clear()
        self._trouble.end()
        if self._given is None:
            return
        tonight = self._tonight()
        if tonight is None:
            return
        self.empty.say(NONE_FITS if self._given.steps else NO_STEP)
        for step in fits_tonight(self._given, tonight):
            likely = show_minutes(step.points.likely) + (" (assumed)" if step.assumed else "")
            self.steps.addTopLevelItem(line((step.title, step.kind.value, likely, step.place), step.key))
