"""The bench: part tree, measurement grid with the entry line and the details under it, steps."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QByteArray, QEvent, Qt, QTimer
from PySide6.QtGui import QHideEvent, QResizeEvent
from PySide6.QtWidgets import QSplitter, QVBoxLayout, QWidget

from rebuild.window.commands.pages import ENTRY_LINE, GRID, TASK_LIST
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.leads import STEP_TABLES
from rebuild.window.desk.memory import Memory
from rebuild.window.entry.line import EntryLine
from rebuild.window.parts.details import DetailsPane
from rebuild.window.parts.tree.pane import PartTree
from rebuild.window.readings.grid import MeasurementGrid
from rebuild.window.steps.pane import TaskList

if TYPE_CHECKING:
    from rebuild.window.bench.bench_mode import BenchMode

#: How the page is shared out at first: tree, middle, steps; grid over details.
ACROSS = (0.18, 0.64, 0.18)
DOWN = (0.66, 0.34)
LEAST_WIDTH = 700
#: With large text the grid keeps so many rows more than it must have, before the details get room [lines].
MORE_ROWS = 4


class BenchPage(QWidget):
    """Three panes side by side; the middle one is grid, entry line and details."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.tree = PartTree(desk, self)
        self.grid = GRID.make(desk, self) if GRID.present else None
        self.entry = ENTRY_LINE.make(desk, self) if ENTRY_LINE.present else None
        self.details = DetailsPane(desk, self)
        self.tasks = TASK_LIST.make(desk, self) if TASK_LIST.present else None
        self._shared = False
        self._moved = False  # by hand, or where it stood the last time
        self._desk = desk
        self._bench_mode: BenchMode | None = None
        self.across = QSplitter(Qt.Orientation.Horizontal, self)
        self.down = QSplitter(Qt.Orientation.Vertical, self)
        self._compose()
        desk.field_asked.connect(self.details.show_field)
        if isinstance(self.grid, MeasurementGrid) and isinstance(self.entry, EntryLine):
            self.entry.follow(self.grid)

    def _compose(self) -> None:
        upper = QWidget(self)
        column = QVBoxLayout(upper)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        if self.grid is not None:
            column.addWidget(self.grid, 1)
        if self.entry is not None:
            column.addWidget(self.entry)
        self.down.addWidget(upper)
        self.down.addWidget(self.details)
        # With large text the middle would press the tree to nothing.
        self.tree.setMinimumWidth(self.fontMetrics().averageCharWidth() * 30)
        self.across.addWidget(self.tree)
        self.across.addWidget(self.down)
        if self.tasks is not None:
            self.across.addWidget(self.tasks)
        for splitter, shares in ((self.across, (3, 6, 3)), (self.down, (5, 3))):
            splitter.setHandleWidth(5)
            splitter.setChildrenCollapsible(False)
            for place, share in enumerate(shares[: splitter.count()]):
                splitter.setStretchFactor(place, share)
        self.down.splitterMoved.connect(self._shared_by_hand)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.across)

    def _shared_by_hand(self) -> None:
        self._moved = True

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if not self._shared and self.width() > LEAST_WIDTH:
            self._shared = True
            self.across.setSizes([round(self.width() * share) for share in ACROSS])
            self.down.setSizes([round(self.height() * share) for share in DOWN])
        self._give_room()

    def event(self, event: QEvent) -> bool:
        """A pane that came to need more height is given it: a splitter looks only when it is resized itself."""
        done = super().event(event)
        if event.type() is QEvent.Type.LayoutRequest:
            self._give_room()
        return done

    def _give_room(self) -> None:
        """What the grid and the line need, and some rows more from the details, unless they were shared out by hand."""
        upper, sizes = self.down.widget(0), self.down.sizes()
        if upper is None or len(sizes) < 2 or not self._shared:
            return
        least, whole = upper.minimumSizeHint().height(), sum(sizes)
        wanted = least
        if not self._moved:
            more = round(MORE_ROWS * 1.3 * self.fontMetrics().height())
            wanted = max(least, min(least + more, whole - self.details.minimumSizeHint().height()))
        if 0 < sizes[0] < wanted:
            self.down.setSizes([wanted, max(0, whole - wanted)])

    def panes(self) -> list[QWidget]:
        """The panes F6 goes round, in order."""
        shown = (self.tree.view, self.grid, self.entry, self.details.leaves, self.tasks)
        return [pane for pane in shown if pane is not None]

    def surface_of(self, table: str, *, measured: bool) -> QWidget | None:
        """Where a row stands: among the readings, the steps, or in the tree."""
        if table in STEP_TABLES:
            return self.tasks
        return self.grid if measured else self.tree.view

    def show_row(self, table: str, row_id: int) -> None:
        """Stand on a step of the task list; parts and features are the selection already, and come into view."""
        if table == "task" and isinstance(self.tasks, TaskList):
            self.tasks.go_to(row_id)
        else:
            # Rows of a page just turned to have their heights only once it is laid out.
            QTimer.singleShot(0, self.tree, self.tree.bring_into_view)

    def toggle_bench_mode(self) -> None:
        """Into bench mode, or out of it."""
        if self._bench_mode is not None:
            self._bench_mode.leave()
            self._bench_mode = None
        elif isinstance(self.entry, EntryLine):
            from rebuild.window.bench.bench_mode import BenchMode

            self._bench_mode = BenchMode(self._desk, self.entry)

    def hideEvent(self, event: QHideEvent) -> None:
        if self._bench_mode is not None:
            self.toggle_bench_mode()
        super().hideEvent(event)

    def remember(self, memory: Memory) -> None:
        """Keep where the splitters stand and which leaf is open."""
        memory.put("bench/across", self.across.saveState())
        memory.put("bench/down", self.down.saveState())
        memory.put("bench/leaf", self.details.leaves.chosen)
        if isinstance(self.grid, MeasurementGrid):
            memory.put("bench/grid", self.grid.save_state())
        if isinstance(self.entry, EntryLine):
            self.entry.remember(memory)

    def recall(self, memory: Memory) -> None:
        """Put the splitters where they stood."""
        for splitter, key in ((self.across, "bench/across"), (self.down, "bench/down")):
            state: QByteArray = memory.state(key)
            if not state.isEmpty():
                self._shared = splitter.restoreState(state)
                self._moved = self._shared
        leaf = memory.text("bench/leaf")
        if leaf in {"card", "details", "features", "concessions", "history"}:
            self.details.show_leaf(leaf)
        if isinstance(self.grid, MeasurementGrid):
            self.grid.restore_state(memory.state("bench/grid"))
        if isinstance(self.entry, EntryLine):
            self.entry.recall(memory)
