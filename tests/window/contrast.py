"""The contrast of all that is written on a page and of the edges of its fields, measured on rendered pixels.

    python -m tests.window.contrast

prints the least of each page of the demo, light and dark. Source of the sum and of the limits: WCAG 2.2, relative
luminance, 1.4.3 (text 4.5:1) and 1.4.11 (edges 3:1). What cannot be used now is left out, as there.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from PySide6.QtCore import QModelIndex, QPoint, QRect, Qt
from PySide6.QtGui import QImage
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QAbstractSpinBox,
    QComboBox,
    QLabel,
    QLineEdit,
    QPlainTextEdit,
    QTableView,
    QTreeView,
    QWidget,
)

TEXT, EDGE = 4.5, 3.0
FIELDS = (QLineEdit, QComboBox, QAbstractSpinBox, QPlainTextEdit)
#: Under so many points a rectangle holds no word one could read.
LEAST = 60


@dataclass(frozen=True, slots=True)
class Seen:
    """One text or edge, and its contrast."""

    what: str
    ratio: float
    least: float

    @property
    def weak(self) -> bool:
        return self.ratio < self.least


def luminance(colours: np.ndarray) -> np.ndarray:
    """Relative luminance of colours, rows of red, green and blue from 0 to 255."""
    parts = colours.astype(float) / 255.0
    linear = np.where(parts <= 0.04045, parts / 12.92, ((parts + 0.055) / 1.055) ** 2.4)
    return np.asarray(linear @ np.array([0.2126, 0.7152, 0.0722]))


def pixels(image: QImage) -> np.ndarray:
    """Rows, columns, and red, green, blue."""
    made = image.convertToFormat(QImage.Format.Format_RGB32)
    flat = np.frombuffer(made.constBits(), np.uint8).reshape(made.height(), made.bytesPerLine() // 4, 4)
    return flat[:, : made.width(), 2::-1].copy()


def ratio(one: np.ndarray, other: np.ndarray) -> np.ndarray:
    """Contrast of luminances."""
    return (np.maximum(one, other) + 0.05) / (np.minimum(one, other) + 0.05)


def written(points: np.ndarray) -> float:
    """The contrast of the strongest colour of a rectangle against its commonest."""
    packed = points.reshape(-1, 3) @ np.array([65536, 256, 1])
    found, counts = np.unique(packed, return_counts=True)
    light = luminance(np.stack([found >> 16, found >> 8 & 255, found & 255], axis=1))
    return float(ratio(light, light[counts.argmax()]).max())


def seen(top: QWidget) -> Iterator[Seen]:
    """Every text and every edge of a window in sight."""
    whole = pixels(top.grab().toImage())
    room = QRect(0, 0, whole.shape[1], whole.shape[0])
    for widget in top.findChildren(QWidget):
        if not widget.isVisible() or not widget.isEnabled() or widget.window() is not top:
            continue
        for what, rect in _texts(widget):
            clear = QRect(widget.mapTo(top, rect.topLeft()), rect.size()).intersected(_uncovered(widget, top))
            clear = clear.intersected(room)
            if clear.width() * clear.height() >= LEAST and clear.height() >= 8:
                yield Seen(what, written(_cut(whole, clear)), TEXT)
        if isinstance(widget, FIELDS) and not isinstance(widget.parent(), FIELDS):
            yield from _edge(whole, top, widget)


def _cut(whole: np.ndarray, rect: QRect) -> np.ndarray:
    return whole[rect.top() : rect.bottom() + 1, rect.left() : rect.right() + 1]


def _uncovered(widget: QWidget, top: QWidget) -> QRect:
    """What scrolled areas leave of a widget, in the window's measures."""
    left = QRect(widget.mapTo(top, QPoint(0, 0)), widget.size())
    above = widget.parentWidget()
    while above is not None and above is not top:
        left = left.intersected(QRect(above.mapTo(top, QPoint(0, 0)), above.size()))
        above = above.parentWidget()
    return left


def _texts(widget: QWidget) -> Iterator[tuple[str, QRect]]:
    name = widget.accessibleName() or type(widget).__name__
    words = getattr(widget, "text", lambda: "")() if isinstance(widget, QLabel | QAbstractButton) else ""
    if isinstance(widget, QLineEdit):
        words = widget.text() or widget.placeholderText()
    if words.strip():
        yield f"{name}: {words[:40]!r}", widget.rect().adjusted(3, 3, -3, -3)
    if isinstance(widget, QTableView | QTreeView):
        yield from _cells(name, widget)


def _cells(name: str, view: QAbstractItemView) -> Iterator[tuple[str, QRect]]:
    inside, model = view.viewport().rect(), view.model()
    drawn = getattr(view, "draws", None)  # some views leave words out on purpose
    if model is None:
        return
    for row in range(model.rowCount(QModelIndex())):
        for column in range(model.columnCount(QModelIndex())):
            index = model.index(row, column)
            rect = view.visualRect(index)
            words = str(index.data(Qt.ItemDataRole.DisplayRole) or "")
            if (
                words.strip()
                and inside.contains(rect)
                and not rect.isEmpty()
                and (drawn is None or drawn(index))
            ):
                shift = view.viewport().mapTo(view, QPoint(0, 0))
                yield f"{name}: {words[:40]!r}", rect.translated(shift).adjusted(2, 2, -2, -2)


def _edge(whole: np.ndarray, top: QWidget, field: QWidget) -> Iterator[Seen]:
    """The left edge of a field against what lies left of it."""
    clear = _uncovered(field, top)
    corner = QPoint(clear.left(), clear.center().y())
    if clear.size() != field.size() or corner.x() < 5 or field.hasFocus():
        return
    edge = luminance(whole[corner.y(), corner.x() : corner.x() + 3])
    ground = luminance(whole[corner.y(), corner.x() - 3])
    yield Seen(f"edge of {field.accessibleName()}", float(ratio(edge, ground).max()), EDGE)


def main() -> int:
    """Print the least contrast of each page, light and dark; the exit code is 1 when one is too weak."""
    from pathlib import Path
    from tempfile import TemporaryDirectory

    from rebuild.demo.build import build_demo
    from rebuild.window.desk.desk import Desk
    from rebuild.window.desk.memory import Memory
    from rebuild.window.shell.frame import Frame
    from rebuild.window.shell.start import application
    from tests.pictures import choose_something, scheme
    from tests.window.walk import every_page

    app, weak = application(), 0
    with TemporaryDirectory() as folder:
        path = Path(folder) / "demo.rebuild"
        build_demo(path)
        for name in ("light", "dark"):
            with scheme(name, app):
                desk = Desk()
                frame = Frame(desk, Memory(Path(folder) / f"{name}.ini"))
                frame.resize(1280, 800)
                frame.show()
                desk.open(path)
                choose_something(desk)
                for page in every_page(frame):
                    found = list(seen(frame))
                    for least, kind in ((TEXT, "text"), (EDGE, "edges")):
                        ones = [one for one in found if one.least == least]
                        weak += sum(one.weak for one in ones)
                        if ones:
                            worst = min(ones, key=lambda one: one.ratio)
                            print(
                                f"{name:5} {page:18} {kind:5} {len(ones):4} least {worst.ratio:5.2f}  {worst.what}"
                            )
                frame.close()
    print(f"{weak} too weak (text under {TEXT}, edges under {EDGE})")
    return 1 if weak else 0


if __name__ == "__main__":
    raise SystemExit(main())
