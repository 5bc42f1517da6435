"""The choice among the attempts at one subassembly, newest first, or the logs of all subassemblies together."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QWidget

from rebuild.window.layout.plain import plain_tip
from rebuild.work.records.field import show_day, show_moment
from rebuild.work.teardown.rows_removals import AttemptRow

#: The choice among the attempts that shows the logs of all subassemblies together.
_EVERY = "Every subassembly, in order of time"


class AttemptChooser(QComboBox):
    """An attempt that has only just begun is the one shown; else what was chosen stays so."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.rows: list[AttemptRow] = []
        self._newest: int | None = None

    def offer(self, rows: Sequence[AttemptRow], *, of_the_whole: bool) -> None:
        """The attempts to choose from; ``of_the_whole`` machine, with all subassemblies together before them."""
        self.rows = sorted(rows, key=lambda row: -row.number)
        shown = self.currentData()
        every = of_the_whole and (shown is None or self.currentText() == _EVERY)
        self.clear()
        if of_the_whole:
            self.addItem(_EVERY, None)
        for row in self.rows:
            self.addItem(f"Attempt {row.number}, {show_day(row.began_at)}", row.id)
            tip = plain_tip(show_moment(row.began_at))
            self.setItemData(self.count() - 1, tip, Qt.ItemDataRole.ToolTipRole)
        if not self.count():
            self.addItem("Not taken down yet", None)
        newest = self.rows[0].id if self.rows else None
        keep = shown if any(row.id == shown for row in self.rows[1:]) and not self._fresh(newest) else newest
        self.setCurrentIndex(0 if every else max(0, self.findData(keep)))
        self._newest = newest

    @property
    def chosen(self) -> AttemptRow | None:
        """The attempt chosen; None while none is, or those of every subassembly are."""
        key = self.currentData()
        return next((row for row in self.rows if row.id == key), None)

    @property
    def every_chosen(self) -> bool:
        """Whether the logs of all subassemblies together are chosen."""
        return self.currentText() == _EVERY

    def _fresh(self, newest: int | None) -> bool:
        """Whether the newest attempt has only just begun: then it is the one to show."""
        return newest is not None and newest != self._newest
