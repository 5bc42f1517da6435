"""What next: which part to make next and why, what can be done now, what waits on what."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QPushButton,
    QSplitter,
    QTreeWidgetItem,
    QVBoxLayout,
    QWidget,
)

from rebuild.trade.schedule.graph import Hold, Node, Ref
from rebuild.trade.sizes.amounts import show_minutes
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.leads import follow
from rebuild.window.desk.live_page import LivePage
from rebuild.window.ink.shapes import Shape, shape_for, shape_icon
from rebuild.window.layout.plain import plain_tip
from rebuild.window.lists.empty_state import EmptyState
from rebuild.window.lists.tree_list import KEY, line, titled, tree_list
from rebuild.window.results.working import WorkingPane
from rebuild.words.work_graph import Holding
from rebuild.work.plan import rows_what_next
from rebuild.work.plan.laying import can_take_over
from rebuild.work.plan.rows_what_next import Candidate, WhatNext, what_next


class WhatNextPane(LivePage):
    """What next, worked out from steps, links and decisions."""

    shows = (rows_what_next,)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, "What next", parent)
        self.candidates = tree_list(
            "Make, rework or buy next",
            ("Part", "Frees at once", "Holds up", "Work", "Can start"),
            opens=True,
        )
        self.now = tree_list("Can be done now", ("Step", "Kind", "Takes"))
        self.waiting = tree_list("Waits", ("Step", "Waits for"), opens=True)
        self.take = QPushButton("&Make it a step of my own")
        self.take.setToolTip(plain_tip("What follows from a decision becomes typed steps, its ties kept"))
        self.take.setEnabled(False)
        self.undecided = tree_list("To be decided or answered", ("What", "Why"))
        EmptyState(
            self.candidates,
            "Parts decided to be made, reworked or bought, the most urgent first.",
            "Decide on a part",
            self._decide,
        )
        EmptyState(self.now, "Steps with nothing in their way.")
        EmptyState(self.waiting, "Steps that wait for others, for a part or for an answer.")
        EmptyState(self.undecided, "Parts measured and not decided on, and open questions.")
        self.why = WorkingPane(desk, empty="Why the chosen part comes next, line by line.")
        self.why.page.setAccessibleName("Why this one next")
        self.why.lie_flush()
        self._lay_out()
        self.candidates.currentItemChanged.connect(self._show_why)
        self.candidates.itemActivated.connect(self._go)
        self.now.currentItemChanged.connect(lambda item, _before: self._offer(item))
        self.take.clicked.connect(self._take_over)
        self.now.itemActivated.connect(self._go)
        self.waiting.itemActivated.connect(self._go)
        self.undecided.itemActivated.connect(self._go)

    def _lay_out(self) -> None:
        left, right = QSplitter(Qt.Orientation.Vertical), QSplitter(Qt.Orientation.Vertical)
        left.addWidget(titled("Make, rework or buy next", self.candidates))
        left.addWidget(self.why)
        for title, widget in (
            ("Can be done now", self.now),
            ("Waits", self.waiting),
            ("To be decided or answered", self.undecided),
        ):
            pane = titled(title, widget)
            if widget is self.now:
                layout_of = pane.layout()
                assert layout_of is not None
                layout_of.addWidget(self.take)
            right.addWidget(pane)
        whole = QSplitter(Qt.Orientation.Horizontal)
        for side, heights in ((left, (5, 3)), (right, (6, 5, 3))):
            side.setChildrenCollapsible(False)
            for place, stretch in enumerate(heights):
                side.setStretchFactor(place, stretch)
            side.setSizes([100 * stretch for stretch in heights])
            whole.addWidget(side)
        whole.setChildrenCollapsible(False)
        whole.setSizes([700, 640])
        whole.setStretchFactor(0, 1)
        whole.setStretchFactor(1, 1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(whole)

    def refresh(self) -> None:
        """Work it out again; the part whose reasons are shown stays chosen."""
        item = self.candidates.currentItem()
        here = item.data(0, KEY) if item is not None else None
        self.candidates.blockSignals(True)
        for widget in (self.candidates, self.now, self.waiting, self.undecided):
            widget.clear()
        if self.machine is not None:
            with self._desk.store.read() as connection:
                found = what_next(connection, self.machine)
            self._fill(found)
            self._stand_on(here.part_id if isinstance(here, Candidate) else None)
        self.candidates.blockSignals(False)
        self._show_why(self.candidates.currentItem())

    def _stand_on(self, part_id: int | None) -> None:
        """Choose a part's line, or the first."""
        rows = map(self.candidates.topLevelItem, range(self.candidates.topLevelItemCount()))
        items = [item for item in rows if item is not None]
        wanted = (item for item in items if item.data(0, KEY).part_id == part_id)
        if items:
            self.candidates.setCurrentItem(next(wanted, items[0]))

    def _fill(self, found: WhatNext) -> None:
        for candidate in found.candidates:
            self.candidates.addTopLevelItem(_candidate_item(candidate))
        for node in found.now:
            item = _step_item(node, (node.title, node.kind.value, _likely(node)))
            self.now.addTopLevelItem(item)
        for held in found.waiting:
            reasons = [_held_by(hold) for hold in held.holds]
            item = _step_item(held.node, (held.node.title, _first_of(reasons)))
            for reason in reasons if len(reasons) > 1 else ():
                item.addChild(line(("", reason)))
            self.waiting.addTopLevelItem(item)
        for part_id, name in found.undecided:
            self.undecided.addTopLevelItem(_plain((name, "measured, not decided"), ("part", part_id)))
        for task_id, text in found.questions:
            self.undecided.addTopLevelItem(_plain((text, "holds up a step"), ("task", task_id)))

    def _decide(self) -> None:
        self._desk.page_asked.emit("decide")

    def _offer(self, item: QTreeWidgetItem | None) -> None:
        chosen = item.data(0, KEY) if item is not None else None
        self.take.setEnabled(isinstance(chosen, Node) and can_take_over(chosen))

    def _take_over(self) -> None:
        """Turn the chosen work into typed steps and stand on the first of them at the bench."""
        from rebuild.work.steps.acts_take_over import take_over

        item, machine = self.now.currentItem(), self.machine
        chosen = item.data(0, KEY) if item is not None else None
        if machine is None or not isinstance(chosen, Node):
            return
        said = f"“{chosen.title}” is a step now: change it like any other."
        made = self._desk.attempt(lambda: take_over(self._desk.store, machine, chosen.key), said)
        if made:
            follow(self._desk, Ref("task", made[0]), subassembly_id=chosen.subassembly_id)

    def _show_why(self, item: QTreeWidgetItem | None) -> None:
        chosen = item.data(0, KEY) if item is not None else None
        if item is not None and item.parent() is not None:
            return
        self.why.show_working(chosen.working if isinstance(chosen, Candidate) else None)

    def _go(self, item: QTreeWidgetItem) -> None:
        chosen = item.data(0, KEY)
        if isinstance(chosen, Candidate):
            self._desk.choose(part_ids=(chosen.part_id,), key=None)
            self._desk.page_asked.emit("bench")
        elif isinstance(chosen, Node):
            follow(self._desk, chosen.ref, part_id=chosen.part_id, subassembly_id=chosen.subassembly_id)
        elif isinstance(chosen, tuple) and chosen[0] == "part":
            self._desk.choose(part_ids=(int(chosen[1]),), key=None)
            self._desk.page_asked.emit("bench")
        elif isinstance(chosen, tuple):
            self._desk.choose(task_ids=(int(chosen[1]),))
            self._desk.page_asked.emit("questions")


def _candidate_item(candidate: Candidate) -> QTreeWidgetItem:
    start = "yes" if candidate.startable else _not_yet(candidate.holds[0])
    words = (
        f"{candidate.code} {candidate.name}",
        str(len(candidate.freed)),
        f"{candidate.held_up} {'step' if candidate.held_up == 1 else 'steps'}",
        _minutes(candidate.minutes),
        start,
    )
    icon = shape_icon(shape_for(candidate.decision))
    item = line(words, candidate, icon, tip=f"{candidate.decision.value}: {candidate.reason}")
    why = f"{candidate.decision.value}: {candidate.reason}" if candidate.reason else candidate.decision.value
    item.addChild(line((why,)))
    item.addChild(line((candidate.sentence,)))
    for title in candidate.freed:
        item.addChild(line((f"frees: {title}",)))
    return item


def _step_item(row: Node, words: tuple[str, ...]) -> QTreeWidgetItem:
    return line(words, row, shape_icon(shape_for(row.state)))


def _held_by(hold: Hold) -> str:
    """A step that comes first by its name alone; anything else as a sentence."""
    return hold.title if hold.kind in (Holding.LINK, Holding.WHILE_OFF) else hold.sentence


def _not_yet(hold: Hold) -> str:
    typed = hold.kind in (Holding.LINK, Holding.WHILE_OFF)
    return f"after {hold.title}" if typed else f"no: {hold.sentence}"


def _plain(words: tuple[str, ...], key: tuple[str, int]) -> QTreeWidgetItem:
    return line(words, key, shape_icon(Shape.OPEN if key[0] == "part" else Shape.ASKED))


def _first_of(reasons: list[str]) -> str:
    return reasons[0] if len(reasons) == 1 else f"{reasons[0]} and {len(reasons) - 1} more"


def _likely(node: Node) -> str:
    return show_minutes(node.points.likely) + (" (assumed)" if node.assumed else "")


def _minutes(minutes: float | None) -> str:
    return show_minutes(minutes) if minutes else ""
