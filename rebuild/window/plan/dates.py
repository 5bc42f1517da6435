"""The Dates pane: strips on the calendar, the probable finish, what drives it, what each part would save."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QSplitter, QTreeWidgetItem, QVBoxLayout, QWidget

from rebuild.trade.schedule.plan import Plan, Saving
from rebuild.trade.sizes.amounts import show_minutes
from rebuild.window.desk.desk import Desk
from rebuild.window.ink.shapes import shape_for, shape_icon
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.empty_state import EmptyState
from rebuild.window.lists.tree_list import KEY, line, tree_list
from rebuild.window.plan.answer import Answer
from rebuild.window.plan.bars import StripView
from rebuild.window.plan.finish_picture import FinishPicture
from rebuild.words.counted import counted


class DatesPane(QWidget):
    """Shows what was worked out beside the window."""

    step_chosen = Signal(object)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self.heading = PlainLabel()
        self.heading.setWordWrap(True)
        self.strips = StripView()
        self.picture = FinishPicture()
        self.savings = tree_list(
            "What each part would save", ("Ready today", "Saves", "Frees", "Work", "Wait")
        )
        self.drivers = tree_list("What drives the finish", ("On the longest path", "Share of plans"))
        EmptyState(self.savings, "What each part would save, were it ready today.")
        EmptyState(self.drivers, "Which steps drive the finish.")
        self._lay_out()
        self.strips.chosen.connect(self.step_chosen)
        self.savings.itemActivated.connect(self._show_working)

    def _lay_out(self) -> None:
        lower = QSplitter(Qt.Orientation.Horizontal)
        for widget, stretch in ((self.savings, 4), (self.picture, 4), (self.drivers, 3)):
            lower.addWidget(widget)
            lower.setStretchFactor(lower.count() - 1, stretch)
        lower.setSizes([480, 440, 300])
        whole = QSplitter(Qt.Orientation.Vertical)
        for part, stretch in ((self.strips, 5), (lower, 3)):
            whole.addWidget(part)
            whole.setStretchFactor(whole.count() - 1, stretch)
        for splitter in (lower, whole):
            splitter.setChildrenCollapsible(False)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.heading)
        layout.addWidget(whole, 1)

    def show_answer(self, answer: Answer) -> None:
        """Fill the pane."""
        self.savings.clear()
        self.drivers.clear()
        self.strips.set_plan(answer.plan)
        planned = answer.plan is not None and bool(answer.plan.dated)
        self.picture.set_chances(answer.chances if planned else None)
        if answer.plan is None or answer.chances is None:
            self.heading.setText(answer.trouble)
            return
        self.heading.setText(_heading(answer.plan))
        for saving in answer.plan.savings:
            self.savings.addTopLevelItem(_saving_item(saving))
        for name, share in answer.chances.drivers:
            self.drivers.addTopLevelItem(line((name, f"{share:.0%}")))

    def _show_working(self, item: QTreeWidgetItem) -> None:
        saving = item.data(0, KEY)
        if isinstance(saving, Saving):
            self._desk.ask_working(saving.working)


def _heading(plan: Plan) -> str:
    if not plan.dated:
        return "No open steps: a step typed on the bench is dated here."
    week = "" if plan.week_is_set else " The week is assumed; set yours under Week."
    lacking = (
        f" {plan.without_estimate} steps have no estimate; theirs are assumed."
        if plan.without_estimate
        else ""
    )
    return (
        f"{plan.finish.day} {plan.finish:%B %Y} by the mean durations: {counted(len(plan.dated), 'step')}, "
        f"{plan.bench_minutes / 60:.0f} h at the bench, {len(plan.critical)} on the critical path."
        f"{lacking}{week}"
    )


def _saving_item(saving: Saving) -> QTreeWidgetItem:
    words = [
        f"{saving.name} ({saving.decision.value})",
        f"{saving.days:.1f} d",
        str(len(saving.frees)),
        show_minutes(saving.work_min) if saving.work_min else "",
        show_minutes(saving.wait_min) if saving.wait_min else "",
    ]
    icon = shape_icon(shape_for(saving.decision))
    return line(words, saving, icon, tip=f"{words[0]}; Enter shows how it was worked out")
