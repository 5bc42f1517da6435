"""The Plan page: one row of views over the same open steps."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtWidgets import QVBoxLayout, QWidget

from rebuild.trade.schedule.graph import Node
from rebuild.trade.schedule.plan_input import PlanInput
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.job import Job, Tell
from rebuild.window.desk.live_page import LivePage
from rebuild.window.labels.printing import print_of, wanted_now
from rebuild.window.layout.views import Views
from rebuild.window.plan.ahead import Ahead
from rebuild.window.plan.answer import Answer, Dated, work_out
from rebuild.window.plan.dates import DatesPane
from rebuild.window.plan.drawing import Drawing
from rebuild.window.plan.network_pane import NetworkPane
from rebuild.window.plan.to_work import to_work
from rebuild.window.plan.week_form import WeekPane
from rebuild.window.plan.what_next import WhatNextPane
from rebuild.work.plan import rows_input
from rebuild.work.plan.rows_graph import work_graph
from rebuild.work.plan.rows_input import planned
from rebuild.work.plan.rows_tonight import Tonight
from rebuild.work.records.wall_clock import now


class PlanPage(LivePage):
    """What next, with tonight · Dates · Network · Week."""

    shows = (rows_input,)
    soon_ms = 60
    by_the_clock = True

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, "Plan", parent)
        self._given: PlanInput | None = None
        self._dated: Dated | None = None
        self._in_hand: int | None = None
        self.what_next = WhatNextPane(desk)
        self.dates = DatesPane()
        self.network = NetworkPane()
        self.week = WeekPane(desk)
        self.job = Job(self)
        self.drawing = Drawing(self)
        self.ahead = Ahead(self)
        self.views = Views(
            [
                ("What next", self.what_next),
                ("Dates", self.dates),
                ("Network", self.network),
                ("Week", self.week),
            ],
            self,
        )
        self._lay_out()
        self._wire()

    @property
    def candidates(self) -> QWidget:
        """The list of what comes next."""
        return self.what_next.list

    def _lay_out(self) -> None:
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 4, 8, 8)
        layout.addWidget(self.views)

    def _wire(self) -> None:
        self.views.turned.connect(lambda _at: self.refresh())
        self.job.done.connect(self._show_dated)
        self.dates.step_chosen.connect(self._point_at)
        self.network.opened.connect(self._go)
        self.what_next.step_chosen.connect(self._take_in_hand)
        self.what_next.evening.print_asked.connect(self._print_day)
        self._desk.closed.connect(self.job.drop)
        self._desk.closed.connect(self.drawing.drop)
        self._desk.closed.connect(self.ahead.drop)
        self.ahead.came.connect(self.look_again)
        self.drawing.came.connect(self.what_next.refresh)

    def _print_day(self, tonight: Tonight) -> None:
        print_of(self._desk, self, "day", replace(wanted_now(self._desk), tonight=tonight))

    def put_by(self) -> None:
        """Hand hours not stored to the kept entries."""
        self.week.put_by()

    def show_view(self, at: int) -> None:
        """Show one of the views."""
        self.views.show_view(at)

    def refresh(self) -> None:
        """Read the open steps again; dates are worked out beside the window."""
        if self.machine is None:
            self._given = None
            self.dates.show_answer(Answer(None, None, "No machine yet."))
            return
        with self._desk.store.read() as connection:
            work = work_graph(connection, self.machine)
            if not self.ahead.look(work):
                return
            self._given = planned(work)
        self.drawing.look(work)
        if self.views.stack.currentWidget() in (self.dates, self.network):
            self._work_out(self._given)

    def _work_out(self, given: PlanInput) -> None:
        """The same work is dated again only once a quarter of an hour has gone by."""
        begun = now()
        if self._dated is not None and self._dated.stands(given, begun):
            self._show_answer(self._dated.answer)
            return

        def work(_tell: Tell) -> object:
            return Dated(given, begun, work_out(given, begun))

        self.job.ask(work)

    def _show_dated(self, dated: Dated) -> None:
        self._dated = dated
        self._show_answer(dated.answer)

    def _show_answer(self, answer: Answer) -> None:
        self.dates.show_answer(answer)
        if self._given is not None and self.views.stack.currentWidget() is self.network:
            wanted, self._in_hand = self._in_hand, None
            self.network.show_plan(self._given, answer.plan, wanted)

    def _step(self, key: int) -> Node | None:
        steps = self._given.steps if self._given is not None else ()
        return next((step for step in steps if step.key == key), None)

    def _take_in_hand(self, key: int) -> None:
        """The step chosen in the list is the one the network is drawn around."""
        self._in_hand = key

    def _point_at(self, key: int) -> None:
        """Choose a step without leaving the dates."""
        step = self._step(key)
        if step is not None and step.ref.table == "task":
            self._desk.choose(subassembly_id=step.subassembly_id, task_ids=(step.ref.id,))

    def _go(self, key: int) -> None:
        step = self._step(key)
        if step is not None:
            to_work(self._desk, step)
