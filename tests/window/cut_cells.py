"""Counts the cells of a window whose words are wider or taller than the cell they stand in.

It measures by Qt's own layout of text, not by the way the lists measure.
"""

from __future__ import annotations

from collections.abc import Iterator

from PySide6.QtCore import QModelIndex, QRect, QSize, Qt
from PySide6.QtGui import QFont, QFontMetrics, QTextLayout, QTextOption
from PySide6.QtWidgets import (
    QHeaderView,
    QLineEdit,
    QStyle,
    QStyleOptionFrame,
    QTableView,
    QTreeView,
    QWidget,
)

from rebuild.window.forms.whole_line import WholeLine

#: What Qt's styles keep free at each side of a cell's words at the least [px].
EDGE = 2
AFTER_ICON = 4
_NEEDED: dict[tuple[str, str, int], QSize] = {}


def cut_cells(top: QWidget) -> tuple[list[str], int]:
    """The cells cut, each as a sentence, and how many cells with words were looked at."""
    cut: list[str] = []
    seen = 0
    for kind in (QTableView, QTreeView):
        for view in [*([top] if isinstance(top, kind) else []), *top.findChildren(kind)]:
            if not view.isVisible():
                continue
            for index in _cells(view):
                words = str(index.data() or "")
                if not words or not _drawn(view, index):
                    continue
                seen += 1
                room = room_of(view, index)
                need = needed(words, font_of(view, index), room.width())
                if need.width() > room.width() or need.height() > room.height():
                    cut.append(f"{view.accessibleName()}: {words!r} needs {need}, has {room}")
            cut += _cut_headings(view)
    return cut, seen


def _cells(view: QTableView | QTreeView) -> Iterator[QModelIndex]:
    model = view.model()

    def inside(parent: QModelIndex) -> Iterator[QModelIndex]:
        for row in range(model.rowCount(parent)):
            first = model.index(row, 0, parent)
            hidden = view.isRowHidden(row) if isinstance(view, QTableView) else view.isRowHidden(row, parent)
            if hidden:
                continue
            spanned = isinstance(view, QTreeView) and view.isFirstColumnSpanned(row, parent)
            for column in range(1 if spanned else model.columnCount(parent)):
                if not view.isColumnHidden(column):
                    yield first.siblingAtColumn(column)
            if not isinstance(view, QTreeView) or view.isExpanded(first):
                yield from inside(first)

    yield from inside(QModelIndex())


def _drawn(view: QTableView | QTreeView, index: QModelIndex) -> bool:
    """Some views leave words out on purpose, e.g. a name that stands on the row above."""
    drawn = getattr(view, "draws", None)
    return bool(drawn(index)) if drawn is not None else True


def room_of(view: QTableView | QTreeView, index: QModelIndex) -> QSize:
    """The room for words in a cell; a view with pictures or bands in its cells tells what they take."""
    rect: QRect = view.visualRect(index)
    if isinstance(view, QTableView):
        width, height = view.columnWidth(index.column()), view.rowHeight(index.row())
    else:
        width, height = rect.width(), rect.height()
    taken = getattr(view, "taken", None)
    if taken is not None:
        left, above = taken(index)
        width, height = width - left, height - above
    below = getattr(view, "below", None)
    if below is not None:
        height += below(index)
    icon = index.data(Qt.ItemDataRole.DecorationRole)
    if icon is not None and not getattr(icon, "isNull", lambda: False)():
        size = view.iconSize()
        side = (
            size.width()
            if size.isValid()
            else view.style().pixelMetric(view.style().PixelMetric.PM_SmallIconSize)
        )
        width -= side + AFTER_ICON
    return QSize(width - 2 * EDGE, height)


def font_of(view: QWidget, index: QModelIndex) -> QFont:
    own = index.data(Qt.ItemDataRole.FontRole)
    return QFont(own).resolve(view.font()) if isinstance(own, QFont) else view.font()


def needed(words: str, font: QFont, width: int) -> QSize:
    """What the words need in a width [px], broken between words, inside a word only when it must be.

    Laid out once: the same words stand in the same column on many a page.
    """
    asked = (words, font.key(), width)
    if asked not in _NEEDED:
        _NEEDED[asked] = _laid_out(words, font, width)
    return _NEEDED[asked]


def _laid_out(words: str, font: QFont, width: int) -> QSize:
    option = QTextOption()
    option.setWrapMode(QTextOption.WrapMode.WrapAtWordBoundaryOrAnywhere)
    widest = height = 0
    for paragraph in words.split("\n"):
        layout = QTextLayout(paragraph, font)
        layout.setTextOption(option)
        layout.beginLayout()
        while (line := layout.createLine()).isValid():
            line.setLineWidth(max(1, width))
            widest = max(widest, round(line.naturalTextWidth()))
            height += QFontMetrics(font).height()
        layout.endLayout()
    return QSize(widest, height)


def _cut_headings(view: QTableView | QTreeView) -> list[str]:
    header: QHeaderView = view.horizontalHeader() if isinstance(view, QTableView) else view.header()
    if header.isHidden():
        return []
    cut = []
    for column in range(header.count()):
        words = str(view.model().headerData(column, Qt.Orientation.Horizontal) or "")
        wide = QFontMetrics(header.font()).horizontalAdvance(words)
        if not header.isSectionHidden(column) and wide > header.sectionSize(column) - 2 * EDGE:
            cut.append(
                f"{view.accessibleName()}: heading {words!r} needs {wide}, has {header.sectionSize(column)}"
            )
    return cut


def numbers_broken(top: QWidget) -> list[str]:
    """Cells whose column is narrower than a number in them, so that a number would go over two lines."""
    found = []
    for kind in (QTableView, QTreeView):
        for view in [*([top] if isinstance(top, kind) else []), *top.findChildren(kind)]:
            if not view.isVisible():
                continue
            for index in _cells(view):
                words = str(index.data() or "")
                numbers = [word for word in words.split() if _is_number(word)]
                if not numbers:
                    continue
                metrics, room = QFontMetrics(font_of(view, index)), room_of(view, index).width()
                found += [
                    f"{view.accessibleName()}: {word!r} in {words!r}"
                    for word in numbers
                    if metrics.horizontalAdvance(word) > room
                ]
    return found


def _is_number(word: str) -> bool:
    return word.strip("(),;:").lstrip("+-±").replace(".", "").isdigit()


def cut_lines(top: QWidget) -> list[str]:
    """The lines of forms whose text is wider than they are, and that do not show the rest beneath."""
    cut = []
    for line in top.findChildren(QLineEdit):
        if not line.isVisible() or not line.text() or line.hasFocus():
            continue
        option = QStyleOptionFrame()
        line.initStyleOption(option)
        room = line.style().subElementRect(QStyle.SubElement.SE_LineEditContents, option, line)
        margins = line.textMargins()
        wide = room.width() - margins.left() - margins.right() - 2 * EDGE
        if not _shown_whole(line, wide, room.height()):
            cut.append(f"{line.accessibleName()}: {line.text()!r} has {room.width()}x{room.height()}")
    return cut


def _shown_whole(line: QLineEdit, wide: int, high: int) -> bool:
    """Whether a room [px] shows all of a line: in one, or in those it breaks its text into, no letter left out."""
    metrics = QFontMetrics(line.font())
    if not isinstance(line, WholeLine):
        return metrics.horizontalAdvance(line.text()) <= wide
    every = "".join("".join(line.lines).split()) == "".join(line.text().split())
    fits = all(metrics.horizontalAdvance(words) <= wide for words in line.lines)
    return every and fits and len(line.lines) * metrics.height() <= high + 1
