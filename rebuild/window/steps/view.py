"""The list the steps stand in: dragged by hand, several chosen at once, wrapped to its width."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractItemView, QListView

from rebuild.window.steps.delegate import StepDelegate
from rebuild.window.steps.lines import StepLine
from rebuild.window.steps.model import StepModel
from rebuild.words.steps import TaskState

CLOSED = (TaskState.DONE, TaskState.LEFT_OUT)


class StepView(QListView):
    """The view of a step model: which step is stood on, which are chosen."""

    def __init__(self, model: StepModel) -> None:
        super().__init__()
        self._steps = model
        self.setAccessibleName("Steps")
        self.setModel(model)
        self.setItemDelegate(StepDelegate(self))
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setResizeMode(QListView.ResizeMode.Adjust)
        # Without this Qt lays its rows anew only when the height changes, and one made wider keeps gaps between them.
        self.setWordWrap(True)
        self.setDragDropMode(QAbstractItemView.DragDropMode.InternalMove)
        self.setDropIndicatorShown(True)
        # Always there: rows are as tall as their wrapped words, so the width must not change under them.
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOn)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)

    def line(self) -> StepLine | None:
        """The line stood on."""
        return self._steps.line(self.currentIndex().row())

    def line_id(self) -> int | None:
        """The step stood on, by id."""
        line = self.line()
        return line.id if line else None

    def chosen(self) -> list[int]:
        """The steps chosen, in their order; the one stood on when none is."""
        indexes = self.selectionModel().selectedIndexes() or [self.currentIndex()]
        rows = sorted(index.row() for index in indexes)
        return [line.id for row in rows if (line := self._steps.line(row))]

    def stand_on(self, task_id: int | None) -> None:
        """Stand on a step, where it is in the list."""
        row = self._steps.row_of(task_id) if task_id is not None else -1
        if row >= 0 and self.currentIndex().row() != row:
            self.setCurrentIndex(self._steps.index(row))

    def choose(self, ids: list[int]) -> None:
        """Choose these steps and stand on the first of them."""
        chooser = self.selectionModel()
        chooser.clearSelection()
        for key in ids:
            row = self._steps.row_of(key)
            if row >= 0:
                chooser.select(self._steps.index(row), chooser.SelectionFlag.Select)
        if ids:
            chooser.setCurrentIndex(
                self._steps.index(self._steps.row_of(ids[0])), chooser.SelectionFlag.Select
            )

    def next_open(self, task_id: int) -> None:
        """Stand on the first step not closed, from this one on."""
        start = self._steps.row_of(task_id)
        for row in range(max(0, start), self._steps.rowCount()):
            line = self._steps.line(row)
            if line and line.row.state not in CLOSED:
                self.setCurrentIndex(self._steps.index(row))
                return

    def show_first_undone(self, led_to: int | None) -> None:
        """Open a list where the work is: its first step not done on top; a step that was ``led_to`` stays in view."""
        if led_to is not None and self._steps.row_of(led_to) >= 0:
            self.scrollTo(self._steps.index(self._steps.row_of(led_to)))
            return
        for place in range(self._steps.rowCount()):
            line = self._steps.line(place)
            if line is not None and line.row.state not in CLOSED:
                self.scrollTo(self._steps.index(place), QListView.ScrollHint.PositionAtTop)
                return
