"""The row under the steps that says why a move was refused, and tries it again once a way out was taken."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from rebuild.errors import RebuildError
from rebuild.window.desk.desk import Desk, Say
from rebuild.window.steps.acts import take
from rebuild.window.steps.ways_out_row import WaysRow
from rebuild.work.records.ways_out import Refused, Way, WayKind


class Refusals(WaysRow):
    """Does acts that the order of work may refuse; ``gone_to`` carries the step a way out leads to."""

    gone_to = Signal(int)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._act: Callable[[], object] | None = None
        self.taken.connect(self._follow)

    def attempt(self, act: Callable[[], object]) -> bool:
        """Do an act; when it is refused, show why with its ways out."""
        self.clear()
        try:
            act()
        except Refused as trouble:
            self._act = act
            self._desk.say(str(trouble), Say.ASK)
            self.ask(trouble)
            return False
        except RebuildError as trouble:
            self._desk.say(str(trouble), Say.TROUBLE)
            return False
        return True

    def _follow(self, way: Way) -> None:
        if way.kind is WayKind.GO_TO:
            self.gone_to.emit(way.target)
        elif self._desk.attempt(lambda: take(self._desk.store, way)) and self._act is not None:
            self.attempt(self._act)
