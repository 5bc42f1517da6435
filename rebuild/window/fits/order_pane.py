"""The order of making: what may be started tonight, what waits for which measurement, loops by name."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QIcon
from PySide6.QtWidgets import QSplitter, QTreeWidgetItem, QVBoxLayout, QWidget

from rebuild.trade.sizes.amounts import show_minutes
from rebuild.window.ink.shapes import Shape, shape_for, shape_icon
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.empty_state import EmptyState
from rebuild.window.lists.tree_list import KEY, line, titled, tree_list
from rebuild.words.counted import counted
from rebuild.work.making.rows_order import MakeRow, MakingOrder, ToMeasure


class OrderPane(QWidget):
    """Three lists; Enter on a line goes to the part or feature."""

    part_asked = Signal(int, int)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.tonight = tree_list("May be started now", ("Part", "Decided", "Work, likely", "Then"))
        self.waiting = tree_list("Waits", ("Part", "Decided", "For"), opens=True)
        self.measure = tree_list("To be measured first", ("Feature", "Stage", "When", "Waiting for it"))
        self.loops = PlainLabel(self)
        self.loops.setWordWrap(True)
        self.loops.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        left, right = QSplitter(Qt.Orientation.Vertical), QSplitter(Qt.Orientation.Vertical)
        left.addWidget(titled("May be started now: no master, measurement or step is missing", self.tonight))
        right.addWidget(titled("Waits", self.waiting))
        right.addWidget(titled("To be measured first", self.measure))
        whole = QSplitter(Qt.Orientation.Horizontal)
        for side in (left, right):
            side.setChildrenCollapsible(False)
            whole.addWidget(side)
        whole.setStretchFactor(0, 4)
        whole.setStretchFactor(1, 5)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.loops)
        layout.addWidget(whole, 1)
        for tree, words in (
            (
                self.tonight,
                "Parts decided to be made, reworked or bought stand here once nothing holds them.",
            ),
            (self.waiting, "What a part waits for: its master, a reading, a step."),
            (self.measure, "Readings that a part to be made is waiting for."),
        ):
            tree.itemActivated.connect(self._go)
            EmptyState(tree, words)

    def show_order(self, order: MakingOrder | None) -> None:
        """Show what is still to be made."""
        for tree in (self.tonight, self.waiting, self.measure):
            tree.clear()
        said = ["Loop: " + " → ".join(loop) for loop in order.loops] if order is not None else []
        if said:
            said.append(
                "Break it: measure one of them as it is and take it as final, or choose another master."
            )
        self.loops.setText("\n".join(said))
        self.loops.setVisible(bool(said))
        if order is None:
            return
        for row in order.rows:
            if row.tonight:
                self.tonight.addTopLevelItem(_tonight(row))
            else:
                self.waiting.addTopLevelItem(_waiting(row))
        for measurement in order.measurements:
            self.measure.addTopLevelItem(_measurement(measurement))
        self.waiting.expandAll()

    def _go(self, item: QTreeWidgetItem) -> None:
        chosen = item.data(0, KEY)
        if isinstance(chosen, tuple):
            self.part_asked.emit(*chosen)


def _tonight(row: MakeRow) -> QTreeWidgetItem:
    how = f"{row.decision.value}: {row.method}" if row.method else row.decision.value
    unblocks = "unblocks " + ", ".join(row.frees) if row.frees else ""
    words = (row.title, how, show_minutes(row.minutes) if row.minutes else "", unblocks)
    return line(words, (row.part_id, 0), shape_icon_of(row), right=(2,))


def _waiting(row: MakeRow) -> QTreeWidgetItem:
    needs = list(row.needs)
    first = (
        needs[0].sentence if len(needs) == 1 else "is in a loop" if row.loop else counted(len(needs), "thing")
    )
    item = line((row.title, row.decision.value, first), (row.part_id, 0), shape_icon_of(row))
    for need in needs if len(needs) > 1 or row.loop else ():
        key = (need.part_id, need.feature_id) if need.part_id else None
        item.addChild(line(("", need.kind.value, need.sentence), key))
    return item


def _measurement(found: ToMeasure) -> QTreeWidgetItem:
    when = "now" if found.now else "once made"
    stage = found.stage.value if found.stage is not None else ""
    words = (found.title, stage, when, ", ".join(found.waiting))
    icon = shape_icon(Shape.TO_DO if found.now else Shape.WAITS)
    return line(words, (found.part_id, found.feature_id), icon)


def shape_icon_of(row: MakeRow) -> QIcon:
    """The decision's shape as an icon."""
    return shape_icon(shape_for(row.decision))
