"""A list whose lines may open into others: its columns, its lines, and the heading it stands under."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtGui import QIcon
from PySide6.QtWidgets import (
    QAbstractItemView,
    QTreeWidget,
    QTreeWidgetItem,
    QVBoxLayout,
    QWidget,
)

from rebuild.window.layout.plain import PlainLabel, plain_tip
from rebuild.window.lists.fitted import FittedColumns
from rebuild.window.lists.said import exact

#: Where a line keeps what it stands for.
KEY = Qt.ItemDataRole.UserRole


def tree_list(
    name: str,
    columns: Sequence[str],
    *,
    opens: bool = False,
    yields: Sequence[int] = (),
) -> QTreeWidget:
    """An empty list.

    Args:
        name: what a screen reader calls it.
        columns: the headings.
        opens: whether lines have others inside them.
        yields: columns that give way first where all cannot stand on one line.
    """
    tree = QTreeWidget()
    tree.setAccessibleName(name)
    tree.setHeaderLabels(list(columns))
    tree.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
    tree.setRootIsDecorated(opens)
    tree.setAlternatingRowColors(True)
    FittedColumns(tree, yields=yields)
    return tree


def line(
    words: Sequence[str],
    key: object = None,
    icon: QIcon | None = None,
    *,
    icon_at: int = 0,
    tip: str = "",
    right: Sequence[int] = (),
) -> QTreeWidgetItem:
    """One line: ``key`` is what it stands for; each column tells its words in full, the first also ``tip``.

    ``right`` are the columns of numbers, whose decimals stand under each other.
    """
    item = QTreeWidgetItem(list(words))
    if icon is not None:
        item.setIcon(icon_at, icon)
    item.setData(0, KEY, key)
    for column, text in enumerate(words):
        item.setToolTip(column, plain_tip(exact(text)))
    for column in right:
        item.setTextAlignment(column, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
    if tip:
        item.setToolTip(0, plain_tip(tip))
    return item


def rewrite(item: QTreeWidgetItem, words: Sequence[str], key: object, icon: QIcon) -> None:
    """The same line with other words: only the columns that differ are measured again."""
    item.setIcon(0, icon)
    item.setData(0, KEY, key)
    for column, text in enumerate(words):
        if item.text(column) != text:
            item.setText(column, text)
            item.setToolTip(column, plain_tip(exact(text)))


def titled(title: str, widget: QWidget) -> QWidget:
    """A widget under its heading."""
    box = QWidget()
    layout = QVBoxLayout(box)
    layout.setContentsMargins(0, 0, 0, 0)
    layout.setSpacing(3)
    heading = PlainLabel(title)
    font = heading.font()
    font.setBold(True)
    heading.setFont(font)
    heading.setBuddy(widget)
    layout.addWidget(heading)
    layout.addWidget(widget)
    return box
