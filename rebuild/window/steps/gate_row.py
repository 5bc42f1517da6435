"""A row under a list: does an act that a gate may refuse, says what stands, and tries again as a way out was taken."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from rebuild.errors import RebuildError
from rebuild.trade.schedule.graph import Ref
from rebuild.window.desk.desk import Desk, Say
from rebuild.window.desk.leads import follow
from rebuild.window.desk.pane_trouble import PaneTrouble
from rebuild.window.steps.acts import take
from rebuild.window.steps.ways_out_row import WaysOutRow
from rebuild.work.records.ways_out import Refused, RowLead, Way, WayKind


class GateRow(WaysOutRow):
    """``attempt`` takes an act of one argument: the reason it is done all the same with, empty at first.

    ``trouble`` says what is wrong with the pane's own fields; without one the desk says it. A reason typed stays until
    the act is done. ``gone_to`` carries the step a way out leads to.
    """

    gone_to = Signal(int)

    def __init__(self, desk: Desk, parent: QWidget | None = None, trouble: PaneTrouble | None = None) -> None:
        super().__init__(parent)
        self._desk, self._trouble = desk, trouble
        self._refused: Refused | None = None
        self._act: Callable[[str], object] | None = None
        self._after: Callable[[], object] | None = None
        self.follows_rows = True
        self.taken.connect(self._follow)
        self.led.connect(self._go_to_row)

    def attempt(self, act: Callable[[str], object], after: Callable[[], object] | None = None) -> bool:
        """Do an act; when it is refused, show why with its ways. ``after`` follows once it was done."""
        self._act, self._after, self._refused = act, after, None
        return self._try("")

    def _try(self, reason: str) -> bool:
        self.clear()
        if self._act is None:
            return False
        try:
            self._act(reason)
        except Refused as trouble:
            self._desk.say(str(trouble), Say.ASK)
            self._refused = trouble
            self.ask(trouble)
            return False
        except RebuildError as trouble:
            self._tell(trouble, reason)
            return False
        self._act = None
        if self._after is not None:
            self._after()
        return True

    def _tell(self, trouble: RebuildError, reason: str) -> None:
        if self._refused is not None:
            self.ask(self._refused)
            self.reason.setText(reason)
        if self._trouble is not None:
            self._trouble.tell(trouble)
        else:
            self._desk.say(str(trouble), Say.TROUBLE)

    def _go_to_row(self, row: RowLead) -> None:
        follow(self._desk, Ref(row.table, row.id), page=row.page)

    def _follow(self, way: Way) -> None:
        if way.kind is WayKind.GO_TO:
            self.gone_to.emit(way.target)
        elif way.kind is WayKind.ALL_THE_SAME:
            self._try(way.reason)
        elif self._desk.attempt(lambda: take(self._desk.store, way)):
            self._try("")
