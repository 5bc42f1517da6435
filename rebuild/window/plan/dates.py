"""The Dates pane: the steps on the calendar, how sure the finish is, and what drives it."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QSplitter, QVBoxLayout, QWidget

from rebuild.trade.schedule.idle import Idle, idle_in
from rebuild.trade.schedule.plan import Plan
from rebuild.window.layout.plain import PlainLabel, plain_tip
from rebuild.window.lists.empty_state import EmptyState
from rebuild.window.lists.tree_list import line, titled, tree_list
from rebuild.window.plan.answer import Answer
from rebuild.window.plan.calendar_view import CalendarView, told
from rebuild.window.plan.days import day_month
from rebuild.window.plan.finish_picture import FinishPicture
from rebuild.words.counted import counted

#: So many empty stretches are explained.
_MOST_IDLE = 2


class DatesPane(QWidget):
    """Shows what was worked out beside the window."""

    step_chosen = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.heading = PlainLabel()
        self.heading.setWordWrap(True)
        self.calendar = CalendarView()
        self.about = PlainLabel()
        self.about.setWordWrap(True)
        self.picture = FinishPicture()
        self.drivers = tree_list("What drives the finish", ("Step", "% critical"))
        EmptyState(self.drivers, "Which steps drive the finish.")
        self._lay_out()
        self.calendar.chosen.connect(self._tell)
        self.calendar.chosen.connect(self.step_chosen)

    def _lay_out(self) -> None:
        side = QSplitter()
        side.setOrientation(side.orientation().Vertical)
        side.addWidget(titled("When it may be finished", self.picture))
        side.addWidget(titled("What drives the finish", self.drivers))
        side.setSizes([300, 220])
        whole = QSplitter()
        whole.addWidget(self.calendar)
        whole.addWidget(side)
        whole.setSizes([850, 420])
        whole.setStretchFactor(0, 2)
        whole.setStretchFactor(1, 1)
        for splitter in (side, whole):
            splitter.setChildrenCollapsible(False)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.heading)
        layout.addWidget(whole, 1)
        layout.addWidget(self.about)

    def show_answer(self, answer: Answer) -> None:
        """Fill the pane."""
        self.drivers.clear()
        self.calendar.set_plan(answer.plan)
        planned = answer.plan is not None and bool(answer.plan.dated)
        self.picture.set_chances(answer.chances if planned else None)
        self.about.clear()
        if answer.plan is None or answer.chances is None:
            self.heading.setText(answer.trouble)
            return
        self.heading.setText(_heading(answer.plan))
        self.heading.setToolTip(plain_tip(f"Finished {answer.plan.finish:%a %Y-%m-%d %H:%M}"))
        for name, share in answer.chances.drivers:
            self.drivers.addTopLevelItem(line((name, f"{share * 100:.0f} %"), right=(1,)))

    def _tell(self, key: int) -> None:
        row = next((row for row in self.calendar.rows if row.step.key == key), None)
        self.about.setText(told(row) if row is not None else "")


def _heading(plan: Plan) -> str:
    if not plan.dated:
        return "No open steps: a step typed on the bench is dated here."
    week = "" if plan.week_is_set else " The week is assumed; set yours under Week."
    lacking = (
        f" {counted(plan.without_estimate, 'step')} without an estimate: an assumed one stands in."
        if plan.without_estimate
        else ""
    )
    return (
        f"{plan.finish.day} {plan.finish:%B %Y} by the mean durations: {counted(len(plan.dated), 'step')}, "
        f"{plan.bench_minutes / 60:.0f} h at the bench, {len(plan.critical)} on the longest way to the finish."
        f"{lacking}{week}{''.join(map(_idle, idle_in(plan)[:_MOST_IDLE]))}"
    )


def _idle(stretch: Idle) -> str:
    """Why the calendar is empty for so long."""
    why = (
        f"all that is left waits for “{stretch.ended_by}”" if stretch.ended_by else "no hours are given then"
    )
    return f" Nothing is done from {day_month(stretch.since)} to {day_month(stretch.until)}: {why}."
