"""The row under the steps that asks why they are opened again; what was noted at the tick stays as an attempt."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from rebuild.errors import RebuildError
from rebuild.window.desk.desk import Desk, Say
from rebuild.window.steps import acts
from rebuild.window.steps.ways_out_row import WaysOutRow
from rebuild.work.records.ways_out import Refused, Way, WayKind


class AgainRow(WaysOutRow):
    """Opens steps again, last first, with one reason for all; ``gone_to`` carries the step a way out leads to."""

    gone_to = Signal(int)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._ids: list[int] = []
        self.taken.connect(self._follow)

    def ask_why(self, task_ids: Sequence[int], title: str) -> None:
        """Ask why these steps are opened again."""
        self._ids = list(task_ids)
        if not self._ids:
            return
        more = f" and {len(self._ids) - 1} more" if len(self._ids) > 1 else ""
        self.show_ways(
            f"Open “{title}”{more} again: say why, then Enter. What was noted stays as an attempt.",
            (Way(WayKind.OPEN_AGAIN, "Open it again", self._ids[-1]),),
        )
        self.reason.setFocus()

    def _follow(self, way: Way) -> None:
        if way.kind is WayKind.GO_TO:
            self.gone_to.emit(way.target)
            return
        if way.target not in self._ids:
            self._ids.append(way.target)
        self._open(way.reason, all_the_same=way.kind is WayKind.ALL_THE_SAME)

    def _open(self, reason: str, *, all_the_same: bool) -> None:
        while self._ids:
            key = self._ids[-1]
            try:
                acts.open_again(self._desk, key, reason, all_the_same=all_the_same)
            except Refused as trouble:
                self._desk.say(str(trouble), Say.ASK)
                self.ask(trouble)
                self.reason.setText(reason)
                return
            except RebuildError as trouble:
                self._desk.say(str(trouble), Say.TROUBLE)
                return
            self._ids.pop()
