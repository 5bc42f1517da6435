"""The network around the step in hand: what comes before it and after it, so many steps away; or the whole of it."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox, QComboBox, QHBoxLayout, QPushButton, QSpinBox, QVBoxLayout, QWidget

from rebuild.trade.schedule.plan import Plan
from rebuild.trade.schedule.plan_input import PlanInput
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.plan.network_picture import NetworkPicture

_FAR = 2


class NetworkPane(QWidget):
    """``opened``: go to a step. A click or an arrow key takes another step in hand."""

    opened = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._given: PlanInput | None = None
        self._plan: Plan | None = None
        self.step = QComboBox()
        self.step.setAccessibleName("Step in hand")
        self.step.setMinimumContentsLength(44)
        self.step.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.far = QSpinBox()
        self.far.setAccessibleName("Steps away")
        self.far.setRange(1, 9)
        self.far.setValue(_FAR)
        self.far.setSuffix(" steps away")
        self.whole = QCheckBox("&Whole network")
        self.fit = QPushButton("&Fit")
        self.fit.setToolTip("Show all that is drawn at once")
        self.open = QPushButton("&Go to it")
        self.picture = NetworkPicture()
        row = QHBoxLayout()
        for widget in (PlainLabel("Around"), self.step, self.far, self.whole, self.fit, self.open):
            row.addWidget(widget)
        row.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addLayout(row)
        layout.addWidget(self.picture, 1)
        self.step.currentIndexChanged.connect(lambda _at: self._draw())
        self.far.valueChanged.connect(lambda _far: self._draw())
        self.whole.toggled.connect(lambda _on: self._draw())
        self.fit.clicked.connect(self.picture.fit)
        self.open.clicked.connect(lambda: self.opened.emit(self.step.currentData()))
        self.picture.chosen.connect(self.stand_on)
        self.picture.opened.connect(self.opened)

    def show_plan(self, given: PlanInput, plan: Plan | None, wanted: int | None = None) -> None:
        """Show a plan; the step in hand stays, else it is ``wanted``, else the first."""
        self._given, self._plan = given, plan
        here = wanted if wanted is not None else self.step.currentData()
        self.step.blockSignals(True)
        self.step.clear()
        linked = {key for link in given.links for key in link}
        for row in plan.dated if plan is not None else ():
            if row.step.key in linked:
                self.step.addItem(row.step.title, row.step.key)
        self.step.setCurrentIndex(max(0, self.step.findData(here)))
        self.step.blockSignals(False)
        self._draw()

    def stand_on(self, key: int) -> None:
        """Take a step in hand."""
        at = self.step.findData(key)
        if at >= 0:
            self.step.setCurrentIndex(at)

    def _draw(self) -> None:
        key = self.step.currentData()
        for widget in (self.step, self.fit, self.open):
            widget.setEnabled(key is not None)
        self.far.setEnabled(key is not None and not self.whole.isChecked())
        if self._given is None:
            return
        near = (
            None
            if self.whole.isChecked() or key is None
            else around(self._given.links, key, self.far.value())
        )
        self.picture.show_plan(self._given, self._plan, near, key)


def around(links: tuple[tuple[int, int], ...], key: int, far: int) -> frozenset[int]:
    """The steps no more than ``far`` ties before or after one, and itself.

    >>> sorted(around(((1, 2), (2, 3), (3, 4), (9, 3)), 2, 1))
    [1, 2, 3]
    """
    found = {key}
    for way in (links, tuple((after, before) for before, after in links)):
        edge = {key}
        for _ in range(far):
            edge = {second for first, second in way if first in edge} - found
            found |= edge
    return frozenset(found)
