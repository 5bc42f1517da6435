"""The list the steps stand in: dragged by hand, several chosen at once, wrapped to its width."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractItemView, QListView

from rebuild.window.steps.delegate import StepDelegate
from rebuild.window.steps.model import StepModel


def step_view(model: StepModel) -> QListView:
    """The view of a step model."""
    view = QListView()
    view.setAccessibleName("Steps")
    view.setModel(model)
    view.setItemDelegate(StepDelegate(view))
    view.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
    view.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
    view.setResizeMode(QListView.ResizeMode.Adjust)
    # Without this Qt lays its rows anew only when the height changes, and one made wider keeps gaps between them.
    view.setWordWrap(True)
    view.setDragDropMode(QAbstractItemView.DragDropMode.InternalMove)
    view.setDropIndicatorShown(True)
    # Always there: rows are as tall as their wrapped words, so the width must not change under them.
    view.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOn)
    view.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    view.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
    return view
