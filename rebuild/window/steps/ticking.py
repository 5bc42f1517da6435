"""A step ticked off: the strip asks what the tick needs, and offers the ways out of a refusal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer, Signal

from rebuild.errors import RebuildError
from rebuild.trade.schedule.graph import Ref
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.leads import follow
from rebuild.window.steps import acts
from rebuild.window.steps.acts import take
from rebuild.window.steps.tick_panel import TickPanel
from rebuild.window.steps.view import StepView
from rebuild.words.steps import TaskState
from rebuild.work.joints.rows_put_on import pins_alone
from rebuild.work.records.ways_out import Refused, RowLead, Way, WayKind

if TYPE_CHECKING:
    from rebuild.work.steps.acts import Done


class Ticking(QObject):
    """``asking`` tells that the strip came or went; ``gone_to`` that a way out leads to another step."""

    asking = Signal()
    gone_to = Signal(int)

    def __init__(self, desk: Desk, view: StepView, panel: TickPanel, parent: QObject) -> None:
        super().__init__(parent)
        self._desk = desk
        self._view = view
        self._panel = panel
        panel.confirmed.connect(self._tick)
        panel.given_up.connect(self._put_away)
        panel.way_taken.connect(self._take_way)
        panel.led.connect(self._go_to_row)

    def ask(self) -> None:
        """Open the strip for the step stood on; a done step is said to be done."""
        line = self._view.line()
        if line is None:
            return
        if line.row.state is TaskState.DONE:
            self._desk.say(f"“{line.row.title}” is done already; Shift+Space opens it again.")
            return
        with self._desk.store.read() as connection:
            pins = pins_alone(connection, line.row.id)
        self._panel.ask(line.row, line.told.attempts, pins=pins)
        self.asking.emit()
        # The strip takes room from the list; the step it is about stays in sight.
        QTimer.singleShot(0, self._view, lambda: self._view.scrollTo(self._view.currentIndex()))

    def _tick(self, task_id: int, done: Done, *, confirmed: bool = False, reason: str = "") -> None:
        try:
            acts.tick(self._desk, task_id, done, confirmed=confirmed, reason=reason)
        except Refused as trouble:
            self._panel.show_trouble(str(trouble), ways=trouble.ways, rows=trouble.rows)
        except RebuildError as trouble:
            self._panel.show_trouble(str(trouble))
        else:
            self._panel.stored()
            self.asking.emit()
            self._view.next_open(task_id)
            self._view.setFocus()

    def _take_way(self, task_id: int, done: Done, way: Way) -> None:
        """Follow a way out of a refusal; where it clears the road, the tick is tried again."""
        if way.kind is WayKind.GO_TO:
            self._put_away()
            self.gone_to.emit(way.target)
        elif way.kind is WayKind.CONFIRM:
            self._tick(task_id, done, confirmed=True)
        elif way.kind is WayKind.ALL_THE_SAME:
            self._tick(task_id, done, confirmed=True, reason=way.reason)
        elif self._desk.attempt(lambda: take(self._desk.store, way)):
            self._tick(task_id, done)

    def _go_to_row(self, row: RowLead) -> None:
        """Turn to a row that holds the step; the strip waits with what was typed."""
        follow(self._desk, Ref(row.table, row.id), page=row.page)

    def _put_away(self) -> None:
        self._panel.hide()
        self.asking.emit()
        self._view.setFocus()
