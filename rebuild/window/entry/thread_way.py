"""How a thread is measured, beside the entry line: over wires, between pins, by micrometer, gauge or mate."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QLineEdit, QWidget

from rebuild.errors import RebuildError
from rebuild.trade.sizes.show import show_both
from rebuild.trade.threads.taken import HowTaken, pitch_diameter_of, read_how
from rebuild.window.layout.plain import plain_tip
from rebuild.words.readings import TakenAs

NOT_SAID = "not said how"
_SIZED = {TakenAs.WIRES: "over {} wires", TakenAs.PINS: "between {} pins"}


class ThreadWay(QWidget):
    """Shown while a thread is the row in hand; what is chosen stays for the next one."""

    changed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.way = QComboBox(self)
        self.way.setAccessibleName("How the thread is measured")
        self.way.addItem(NOT_SAID)
        for way in TakenAs:
            self.way.addItem(way.value)
        self.way.setToolTip(
            plain_tip(
                "Over wires and between pins the number becomes the pitch diameter; it can also stand behind it"
            )
        )
        self.way.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToContents)
        self.way.setMinimumWidth(self.way.sizeHint().width())
        self.wire = QLineEdit(self)
        self.wire.setAccessibleName("Wire or pin")
        self.wire.setPlaceholderText("wire")
        self.wire.setFixedWidth(self.fontMetrics().horizontalAdvance("0.06450 in") + 14)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.way)
        layout.addWidget(self.wire)
        self._unit, self._thread = "mm", ""
        self.way.currentIndexChanged.connect(self._chosen)
        self.wire.textChanged.connect(self.changed)
        self._chosen()
        self.hide()

    def _chosen(self) -> None:
        self.wire.setVisible(self._kind in _SIZED)
        self.changed.emit()

    @property
    def _kind(self) -> TakenAs | None:
        place = self.way.currentIndex()
        return list(TakenAs)[place - 1] if place > 0 else None

    @property
    def text(self) -> str:
        """What goes with the next value: ``over 0.0645 wires``; empty when nothing is said or no thread is in hand."""
        if self.isHidden() or self._kind is None:
            return ""
        return _SIZED.get(self._kind, self._kind.value).format(self.wire.text().strip())

    def show_thread(self, thread: str | None, unit: str) -> None:
        """Another row is in hand: the thread written on it, or None where it is no thread."""
        self._thread, self._unit = thread or "", unit or "mm"
        hidden = thread is None
        if hidden is not self.isHidden():
            self.setVisible(not hidden)
            self.changed.emit()

    def meaning(self, raw_mm: float, behind: str, comma: bool | None) -> str:
        """What a number means as a pitch diameter, as far as it can be told; empty where it is one already."""
        if self.isHidden():
            return ""
        try:
            how = read_how(behind or self.text, self._unit, comma)
            if how is None:
                return ""
            return self._told(raw_mm, how)
        except RebuildError:
            return ""

    def _told(self, raw_mm: float, how: HowTaken) -> str:
        value = pitch_diameter_of(raw_mm, how, self._thread, "Thread").value
        return f"= pitch diameter {show_both(value, self._unit)}, {how.words}"
