"""The tree's view: keys of its own, dragging, and which line is chosen."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent, QItemSelection, QItemSelectionModel, QModelIndex, Qt
from PySide6.QtGui import QKeyEvent, QKeySequence, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTreeView, QWidget

from rebuild.window.parts.tree.delegate import TreeDelegate
from rebuild.window.parts.tree.lines import Kind, kind_of
from rebuild.window.parts.tree.model import PLACE, STEPS, TreeModel

#: What a heading needs beside its word.
HEADING_EDGES = 12
ROOM_FOR_STEPS = 48
ROOM_FOR_PLACE = 66

Keys = dict[str, Callable[[], None]]


class TreeView(QTreeView):
    """A dense tree. ``keys`` maps key sequences to what they do, while the tree has the focus."""

    def __init__(self, model: TreeModel, delegate: TreeDelegate, keys: Keys, parent: QWidget) -> None:
        super().__init__(parent)
        self.tree = model
        self._delegate = delegate
        self._keys = {QKeySequence(text): act for text, act in keys.items()}
        self.setModel(model)
        self.setItemDelegate(delegate)
        self.setAccessibleName("Parts")
        self.setUniformRowHeights(False)
        self.setIndentation(11)
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setEditTriggers(QAbstractItemView.EditTrigger.EditKeyPressed)
        self.setDragDropMode(QAbstractItemView.DragDropMode.DragDrop)
        self.setDefaultDropAction(Qt.DropAction.MoveAction)
        self.setDropIndicatorShown(True)
        self.setAutoExpandDelay(500)
        self.setFrameShape(QTreeView.Shape.NoFrame)
        self.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        self._size_columns()

    def _size_columns(self) -> None:
        header = self.header()
        header.setStretchLastSection(False)
        header.setSectionsMovable(False)
        header.setMinimumSectionSize(34)
        unit = self.fontMetrics().averageCharWidth()
        for column, width in ((1, 11), (2, 15), (3, 6)):
            header.setSectionResizeMode(column, QHeaderView.ResizeMode.Interactive)
            words = (
                str(self.model().headerData(column, Qt.Orientation.Horizontal) or "") if self.model() else ""
            )
            room = self.fontMetrics().horizontalAdvance(words) + HEADING_EDGES
            header.resizeSection(column, max(width * unit, room))
        header.setSectionResizeMode(0, QHeaderView.ResizeMode.Stretch)
        header.sectionResized.connect(self.scheduleDelayedItemsLayout)
        header.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)

    def chosen_nodes(self) -> list[int]:
        """The chosen nodes in the order they stand."""
        rows = self.selectionModel().selectedRows()
        return [self.tree.node_at(index) for index in sorted(rows, key=self._path)]

    def _path(self, index: QModelIndex) -> tuple[int, ...]:
        rows: list[int] = []
        while index.isValid():
            rows.append(index.row())
            index = index.parent()
        return tuple(reversed(rows))

    def choose_nodes(self, nodes: list[int]) -> None:
        """Choose exactly these nodes and bring the first into view."""
        shown = [node for node in nodes if node in self.tree]
        selection = QItemSelection()
        for node in shown:
            here = self.tree.index_of(node)
            selection.select(here, here)
        flags = QItemSelectionModel.SelectionFlag
        self.selectionModel().select(selection, flags.ClearAndSelect | flags.Rows)
        if shown:
            first = self.tree.index_of(shown[0])
            self.selectionModel().setCurrentIndex(first, flags.NoUpdate)
            self.bring(first)

    def bring(self, line: QModelIndex) -> None:
        """Scroll a line into view: among lines of several heights Qt's least scroll may stop short of it."""
        self.scrollTo(line)
        shown = self.visualRect(line)
        if not self.viewport().rect().contains(shown.topLeft()) or shown.bottom() > self.viewport().height():
            self.scrollTo(line, QAbstractItemView.ScrollHint.PositionAtCenter)

    def rename(self) -> None:
        """Edit the name of the current line."""
        index = self.currentIndex().siblingAtColumn(0)
        if index.isValid() and kind_of(index.internalId()) is not Kind.BOX:
            self.setCurrentIndex(index)
            self.edit(index)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        # In a narrow tree the names need the room; the place stands in the details, the steps in their own list.
        room = self.width() / self.fontMetrics().averageCharWidth()
        self.header().setSectionHidden(PLACE, room < ROOM_FOR_PLACE)
        self.header().setSectionHidden(STEPS, room < ROOM_FOR_STEPS)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        act = self._keys.get(QKeySequence(event.keyCombination()))
        if act is not None and self.state() is not QAbstractItemView.State.EditingState:
            event.accept()
            act()
            return
        super().keyPressEvent(event)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            self._delegate.recolour()
            self.viewport().update()
