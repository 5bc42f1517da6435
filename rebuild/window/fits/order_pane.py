"""The order of making: what may be started tonight, what waits for which measurement, loops by name."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QIcon
from PySide6.QtWidgets import (
    QHeaderView,
    QLabel,
    QSplitter,
    QTreeWidget,
    QTreeWidgetItem,
    QVBoxLayout,
    QWidget,
)

from rebuild.trade.sizes.amounts import show_minutes
from rebuild.window.ink.shapes import Shape, shape_for, shape_icon
from rebuild.work.making.rows_order import MakeRow, MakingOrder, ToMeasure

_ROLE = Qt.ItemDataRole.UserRole


class OrderPane(QWidget):
    """Three lists; Enter on a line goes to the part or feature."""

    part_asked = Signal(int, int)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.tonight = _list("May be started now", ("Part", "Decided", "Work", "Then"), 1)
        self.waiting = _list("Waits", ("Part", "Decided", "For"), 2)
        self.measure = _list("Measurements wanted", ("Feature", "Stage", "When", "Waiting for it"), 3)
        self.loops = QLabel(self)
        self.loops.setWordWrap(True)
        self.loops.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        left, right = QSplitter(Qt.Orientation.Vertical), QSplitter(Qt.Orientation.Vertical)
        left.addWidget(_titled("May be started now: no master, measurement or step is missing", self.tonight))
        right.addWidget(_titled("Waits", self.waiting))
        right.addWidget(_titled("Measurements wanted", self.measure))
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
        for tree in (self.tonight, self.waiting, self.measure):
            tree.itemActivated.connect(self._go)

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
        chosen = item.data(0, _ROLE)
        if isinstance(chosen, tuple):
            self.part_asked.emit(*chosen)


def _tonight(row: MakeRow) -> QTreeWidgetItem:
    how = f"{row.decision.value}: {row.method}" if row.method else row.decision.value
    frees = "frees " + ", ".join(row.frees) if row.frees else ""
    item = QTreeWidgetItem([row.title, how, show_minutes(row.minutes) if row.minutes else "", frees])
    return _marked(item, shape_icon_of(row), (row.part_id, 0))


def _waiting(row: MakeRow) -> QTreeWidgetItem:
    needs = list(row.needs)
    first = needs[0].sentence if len(needs) == 1 else "is in a loop" if row.loop else f"{len(needs)} things"
    item = QTreeWidgetItem([row.title, row.decision.value, first])
    _marked(item, shape_icon_of(row), (row.part_id, 0))
    for need in needs if len(needs) > 1 or row.loop else ():
        child = QTreeWidgetItem(["", need.kind.value, need.sentence])
        item.addChild(_marked(child, None, (need.part_id, need.feature_id) if need.part_id else None))
    return item


def _measurement(found: ToMeasure) -> QTreeWidgetItem:
    when = "now" if found.now else "once made"
    stage = found.stage.value if found.stage is not None else ""
    item = QTreeWidgetItem([found.title, stage, when, ", ".join(found.waiting)])
    icon = shape_icon(Shape.TO_DO if found.now else Shape.WAITS)
    return _marked(item, icon, (found.part_id, found.feature_id))


def shape_icon_of(row: MakeRow) -> QIcon:
    """The decision's shape as an icon."""
    return shape_icon(shape_for(row.decision))


def _marked(item: QTreeWidgetItem, icon: QIcon | None, key: tuple[int, int] | None) -> QTreeWidgetItem:
    if icon is not None:
        item.setIcon(0, icon)
    item.setData(0, _ROLE, key)
    for column in range(item.columnCount()):
        item.setToolTip(column, item.text(column))
    return item


def _titled(title: str, widget: QWidget) -> QWidget:
    box = QWidget()
    layout = QVBoxLayout(box)
    layout.setContentsMargins(0, 0, 0, 0)
    layout.setSpacing(3)
    heading = QLabel(title)
    font = heading.font()
    font.setBold(True)
    heading.setFont(font)
    heading.setBuddy(widget)
    layout.addWidget(heading)
    layout.addWidget(widget)
    return box


def _list(name: str, columns: tuple[str, ...], wide_one: int) -> QTreeWidget:
    widget = QTreeWidget()
    widget.setAccessibleName(name)
    widget.setHeaderLabels(list(columns))
    widget.setUniformRowHeights(True)
    widget.setAlternatingRowColors(True)
    widget.setRootIsDecorated(name == "Waits")
    header = widget.header()
    header.setStretchLastSection(False)
    for column in range(len(columns)):
        wide = column == wide_one
        fixed, stretch = QHeaderView.ResizeMode.ResizeToContents, QHeaderView.ResizeMode.Stretch
        header.setSectionResizeMode(column, stretch if wide else fixed)
    return widget
