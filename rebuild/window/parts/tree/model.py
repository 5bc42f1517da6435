"""Qt's view of the tree: integer nodes, prepared lines, and small steps when something changes."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import (
    QAbstractItemModel,
    QMimeData,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    Qt,
    Signal,
)
from PySide6.QtGui import QFont

from rebuild.window.layout.plain import plain_tip
from rebuild.window.parts.tree.lines import BOX, ROOT, Kind, Line, Lines, kind_of
from rebuild.window.parts.tree.moves import Hands, rearrange

AnyIndex = QModelIndex | QPersistentModelIndex
NOWHERE = QModelIndex()
HEADINGS = ("Part", "Decision", "Place", "Steps")
HELP = (
    "Code and name", "What is to become of it", "Where it lies, and whether it is off the machine", "Steps still open",
)  # fmt: skip
PLACE, STEPS = 2, 3
MIME = "application/x-rebuild-tree-nodes"
LINE_ROLE = Qt.ItemDataRole.UserRole
_NUMBER = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter


class TreeModel(QAbstractItemModel):
    """The nodes of one machine. The view calls the acts; the model only shows and is never written to."""

    dropped = Signal(object, object, int)

    def __init__(self, bold: QFont, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._children: dict[int, list[int]] = {ROOT: []}
        self._parent: dict[int, int] = {}
        self._lines: dict[int, Line] = {}
        self._bold = bold
        self._drafts: dict[int, str] = {}

    # What is shown

    def show(self, lines: Lines) -> None:
        """Show another tree altogether."""
        self.beginResetModel()
        self._children, self._lines, self._parent = lines.children, lines.lines, lines.parents()
        self._drafts.clear()
        self.endResetModel()

    def follow(self, lines: Lines) -> None:
        """Bring the shown tree to ``lines`` row by row; what is chosen and open stays so."""
        old = self._lines
        self._lines = {**old, **lines.lines}
        rearrange(self._children, lines.children, ROOT, Hands(self._insert, self._remove, self._move))
        self._lines = lines.lines
        for node, line in lines.lines.items():
            if old.get(node) not in (None, line) and node in self._parent:
                self._repaint(node)

    def _repaint(self, node: int) -> None:
        here = self.index_of(node)
        self.dataChanged.emit(here, here.siblingAtColumn(len(HEADINGS) - 1))

    def _insert(self, node: int, parent: int, row: int) -> None:
        self.beginInsertRows(self.index_of(parent), row, row)
        self._children.setdefault(parent, []).insert(row, node)
        self._parent[node] = parent
        self.endInsertRows()

    def _remove(self, parent: int, row: int) -> None:
        self.beginRemoveRows(self.index_of(parent), row, row)
        self._forget(self._children[parent].pop(row))
        self.endRemoveRows()

    def _forget(self, node: int) -> None:
        self._parent.pop(node, None)
        self._drafts.pop(node, None)
        for child in self._children.pop(node, ()):
            self._forget(child)

    def _move(self, old: int, row: int, new: int, at: int) -> None:
        # Qt counts the target among the rows before the move.
        target = at + 1 if old == new and at > row else at
        self.beginMoveRows(self.index_of(old), row, row, self.index_of(new), target)
        node = self._children[old].pop(row)
        self._children.setdefault(new, []).insert(at, node)
        self._parent[node] = new
        self.endMoveRows()

    # Finding

    def index_of(self, node: int, column: int = 0) -> QModelIndex:
        """The index of a node; invalid for the root or a node not shown."""
        parent = self._parent.get(node)
        if parent is None:
            return QModelIndex()
        return self.createIndex(self._children[parent].index(node), column, node)

    def node_at(self, index: AnyIndex) -> int:
        """The node of an index; the root for an invalid one."""
        return index.internalId() if index.isValid() else ROOT

    def line_of(self, node: int) -> Line | None:
        """What is shown of a node."""
        return self._lines.get(node)

    def children_of(self, node: int) -> Sequence[int]:
        """The nodes under a node, in order."""
        return self._children.get(node, ())

    def parent_of(self, node: int) -> int:
        """The node a node lies under."""
        return self._parent.get(node, ROOT)

    def nodes(self) -> Sequence[int]:
        """Every node shown."""
        return list(self._parent)

    def __contains__(self, node: int) -> bool:
        return node in self._parent

    # Qt

    def index(self, row: int, column: int, parent: AnyIndex = NOWHERE) -> QModelIndex:
        listed = self._children.get(self.node_at(parent), ())
        if not 0 <= row < len(listed) or not 0 <= column < len(HEADINGS) or parent.column() > 0:
            return QModelIndex()
        return self.createIndex(row, column, listed[row])

    def parent(self, index: AnyIndex = NOWHERE) -> QModelIndex:  # type: ignore[override]
        if not index.isValid():
            return QModelIndex()
        return self.index_of(self._parent.get(index.internalId(), ROOT))

    def rowCount(self, parent: AnyIndex = NOWHERE) -> int:
        return 0 if parent.column() > 0 else len(self._children.get(self.node_at(parent), ()))

    def columnCount(self, parent: AnyIndex = NOWHERE) -> int:
        return len(HEADINGS)

    def data(self, index: AnyIndex, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        line = self._lines.get(index.internalId()) if index.isValid() else None
        if line is None:
            return None
        if role == Qt.ItemDataRole.DisplayRole:
            return line.texts[index.column()]
        if role == LINE_ROLE:
            return line
        if role == Qt.ItemDataRole.EditRole:
            return self._drafts.get(index.internalId(), line.name)
        if role == Qt.ItemDataRole.ToolTipRole:
            return plain_tip(line.spoken)
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return line.spoken if index.column() == 0 else line.texts[index.column()]
        if role == Qt.ItemDataRole.FontRole and line.decision is None:
            return self._bold
        if role == Qt.ItemDataRole.TextAlignmentRole and index.column() == 3:
            return _NUMBER
        return None

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> object:
        if orientation is Qt.Orientation.Horizontal and 0 <= section < len(HEADINGS):
            if role == Qt.ItemDataRole.DisplayRole:
                return HEADINGS[section]
            if role == Qt.ItemDataRole.ToolTipRole:
                return HELP[section]
        return None

    def flags(self, index: AnyIndex) -> Qt.ItemFlag:
        flag = Qt.ItemFlag
        if not index.isValid():
            return flag.ItemIsDropEnabled
        shown = flag.ItemIsEnabled | flag.ItemIsSelectable
        kind = kind_of(index.internalId())
        if kind is not Kind.PART:
            shown |= flag.ItemIsDropEnabled
        if kind is not Kind.BOX:
            shown |= flag.ItemIsDragEnabled
            if index.column() == 0:
                shown |= flag.ItemIsEditable
        return shown

    # Renaming keeps what was typed when it is refused

    def draft(self, node: int, text: str | None) -> None:
        """Keep a name that was refused, for the editor to open with again."""
        if text is None:
            self._drafts.pop(node, None)
        else:
            self._drafts[node] = text

    # Dragging

    def supportedDropActions(self) -> Qt.DropAction:
        return Qt.DropAction.MoveAction

    def mimeTypes(self) -> list[str]:
        return [MIME]

    def mimeData(self, indexes: Sequence[QModelIndex]) -> QMimeData:
        nodes = dict.fromkeys(index.internalId() for index in indexes)
        made = QMimeData()
        made.setData(MIME, " ".join(map(str, nodes)).encode())
        return made

    def canDropMimeData(
        self, data: QMimeData, action: Qt.DropAction, row: int, column: int, parent: AnyIndex
    ) -> bool:
        node = self.node_at(parent)
        return data.hasFormat(MIME) and (node in (ROOT, BOX) or kind_of(node) is Kind.SUBASSEMBLY)

    def dropMimeData(
        self, data: QMimeData, action: Qt.DropAction, row: int, column: int, parent: AnyIndex
    ) -> bool:
        if self.canDropMimeData(data, action, row, column, parent):
            self.dropped.emit(dragged(data), self.node_at(parent), row)
        # The act moves the rows and the store reports it; the view must not remove anything itself.
        return False


def dragged(data: QMimeData) -> list[int]:
    """The nodes a drag carries."""
    return [int(word) for word in bytes(data.data(MIME).data()).split()]
