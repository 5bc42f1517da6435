"""The bar over the grid: which rows are shown. It follows the tree, or shows the whole machine."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from enum import Enum

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QKeySequence, QResizeEvent, QShortcut
from PySide6.QtWidgets import QCheckBox, QComboBox, QHBoxLayout, QLineEdit, QToolButton, QVBoxLayout, QWidget

from rebuild.trade.limits.judgement import Verdict
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.layout.wrapped_row import WrappedRow
from rebuild.words.decisions import Decision
from rebuild.words.readings import STAGES, Stage
from rebuild.work.readings.rows_grid import Asked

_TYPING_MS = 180


class Reach(Enum):
    """How much of the machine the grid shows."""

    SUBASSEMBLY = "this subassembly"
    PARTS = "this part"
    MACHINE = "whole machine"


_VERDICTS: tuple[tuple[str, frozenset[Verdict] | None], ...] = (
    ("any verdict", None),
    ("not conforming or undecided", frozenset({Verdict.DOES_NOT, Verdict.UNDECIDED})),
    *((verdict.value, frozenset({verdict})) for verdict in Verdict),
)


class FilterBar(QWidget):
    """Filter by words, verdict, decision and stage; ``changed`` says when to ask again."""

    changed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.reach = _combo("Rows of", [(reach.value, reach) for reach in Reach])
        self.reach.setMinimumContentsLength(15)
        self.text = QLineEdit()
        self.text.setPlaceholderText("Filter: part, feature, station")
        self.text.setClearButtonEnabled(True)
        self.text.setAccessibleName("Filter the rows by words")
        self.verdict = _combo("Verdict", _VERDICTS)
        self.decision = _combo("Decision", [("any decision", None), *((d.value, d) for d in Decision)])
        self.stage = _combo("Stage", [("any stage", None), *((stage.value, stage) for stage in STAGES)])
        self.unread = QCheckBox("unread only")
        self.unread.setToolTip(
            "Only rows without a reading at the chosen stage (at any stage, when none is chosen)"
        )
        self.more = QToolButton()
        self.all = QToolButton()
        self.all.setText("Show all")
        self.all.setToolTip("Take every filter off")
        self.count = PlainLabel()
        self._typing = QTimer(self)
        self._typing.setSingleShot(True)
        self._typing.setInterval(_TYPING_MS)
        self._lay_out()
        self._connect()

    def _lay_out(self) -> None:
        """One row: what is rarely used stands in it only where there is room, or when asked for."""
        self.more.setText("More")
        self.more.setCheckable(True)
        self.more.setAccessibleName("More filters")
        self.more.setToolTip("Filter by decision and stage too")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(4, 3, 4, 3)
        layout.setSpacing(3)
        self._first, self._second = WrappedRow((self.text,)), QHBoxLayout()
        for widget in (self.reach, self.text, self.verdict, self.unread, self.more, self.all, self.count):
            self._first.addWidget(widget)
        for row in (self._first, self._second):
            row.setSpacing(5)
            layout.addLayout(row)
        self.text.setMinimumWidth(self.fontMetrics().averageCharWidth() * 14)
        self._rare = (self.decision, self.stage)
        self._arrange()

    def _connect(self) -> None:
        self._typing.timeout.connect(self.changed)
        self.text.textChanged.connect(self._typing.start)
        self.text.returnPressed.connect(self._at_once)
        for combo in (self.reach, self.verdict, self.decision, self.stage):
            combo.currentIndexChanged.connect(self._at_once)
        self.unread.toggled.connect(self._at_once)
        self.all.clicked.connect(self.clear)
        self.more.toggled.connect(self._arrange)
        away = QShortcut(
            QKeySequence(Qt.Key.Key_Escape), self.text, context=Qt.ShortcutContext.WidgetShortcut
        )
        away.activated.connect(self.text.clear)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._arrange()

    def _arrange(self) -> None:
        """Put the rare filters into the row, under it, or away."""
        asked = self.more.isChecked() or any(combo.currentIndex() for combo in self._rare)
        wanted = sum(
            widget.sizeHint().width() + 6 for widget in (*self._rare, self.reach, self.verdict, self.unread)
        )
        roomy = self.width() > wanted + 300
        for combo in self._rare:
            self._first.removeWidget(combo)
            self._second.removeWidget(combo)
        for at, combo in enumerate(self._rare):
            if roomy:
                self._first.insertWidget(3 + at, combo)
            else:
                self._second.insertWidget(at, combo)
            combo.setVisible(roomy or asked)
        self.more.setVisible(not roomy)

    def _at_once(self) -> None:
        self._typing.stop()
        self.changed.emit()

    def clear(self) -> None:
        """Take every filter off; how much of the machine is shown stays."""
        was = self.blockSignals(True)
        self.text.clear()
        for combo in (self.verdict, self.decision, self.stage):
            combo.setCurrentIndex(0)
        self.unread.setChecked(False)
        self.blockSignals(was)
        self._at_once()

    @property
    def filtering(self) -> bool:
        """Whether any filter hides rows."""
        chosen = (self.verdict.currentIndex(), self.decision.currentIndex(), self.stage.currentIndex())
        return bool(self.text.text().strip() or any(chosen) or self.unread.isChecked())

    def show_count(self, rows: int) -> None:
        """Say how many rows are shown."""
        self.count.setText(f"{rows} row" if rows == 1 else f"{rows} rows")
        self.all.setEnabled(self.filtering)

    def apply(self, asked: Asked) -> Asked:
        """The question with this bar's words, verdict, decision and stage put in."""
        stage: Stage | None = self.stage.currentData()
        decision: Decision | None = self.decision.currentData()
        return replace(
            asked,
            text=self.text.text().strip(),
            verdicts=_VERDICTS[self.verdict.currentIndex()][1],
            decisions=None if decision is None else frozenset({Decision(decision)}),
            stage=None if stage is None else Stage(stage),
            unread=self.unread.isChecked(),
        )


def _combo(name: str, choices: Sequence[tuple[str, object]]) -> QComboBox:
    combo = QComboBox()
    combo.setAccessibleName(name)
    combo.setToolTip(name)
    for word, value in choices:
        combo.addItem(word, value)
    combo.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
    combo.setMinimumContentsLength(9)
    return combo
