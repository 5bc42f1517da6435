"""Turns the whole window round: every page, every view of it, and every row that leads to other things."""

from __future__ import annotations

import time
from collections.abc import Collection, Iterator

from PySide6.QtCore import QCoreApplication, QEvent, QEventLoop, QModelIndex, Qt, QThreadPool, QTimer
from PySide6.QtGui import QTextDocument
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QComboBox,
    QLabel,
    QLineEdit,
    QListView,
    QPlainTextEdit,
    QTextEdit,
    QWidget,
)

from rebuild.window.desk.job import Job
from rebuild.window.layout.views import Views
from rebuild.window.lists.fitted import FittedColumns
from rebuild.window.shell.frame import Frame

#: Pages that read beside the window before they show anything.
READS_BESIDE = {"plan", "book", "photos"}
#: A page that has not shown what it reads after so long [s] is looked at as it is.
MOST_S = 10.0


def settle(milliseconds: int = 30) -> None:
    """Let layouts, late reads and repaints happen."""
    loop = QEventLoop()
    QTimer.singleShot(milliseconds, loop.quit)
    loop.exec()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def all_measured(frame: Frame) -> None:
    """Until every list in sight has measured its last row: a long one takes some turns."""
    turns = 0
    while any(one.measuring for one in frame.findChildren(FittedColumns)) and turns < 1_000:
        turns += 1
        QCoreApplication.processEvents()


def all_read(frame: Frame) -> None:
    """Until what is read and drawn beside the window is there, and shown."""
    until = time.monotonic() + MOST_S
    while _reads(frame) and time.monotonic() < until:
        settle(10)
    settle()


def _reads(frame: Frame) -> bool:
    pools = frame.findChildren(QThreadPool)
    return any(job.running for job in frame.findChildren(Job)) or not all(
        pool.waitForDone(0) for pool in pools
    )


def every_page(frame: Frame, only: Collection[str] = ()) -> Iterator[str]:
    """Each page and each of its views, shown in turn, or those named ``only``; yields what it is called."""
    for page in frame.pages:
        if only and page.key not in only:
            continue
        widget = frame.page(page.key)
        settle(60)
        if page.key in READS_BESIDE:
            all_read(frame)
        all_measured(frame)
        yield page.key
        views = getattr(widget, "views", None)
        if isinstance(views, Views):
            for place in range(1, views.stack.count()):
                views.show_view(place)
                settle(60)
                all_measured(frame)
                yield f"{page.key}, view {place + 1}"
            views.show_view(0)


def every_subassembly(frame: Frame) -> Iterator[str]:
    """The bench with each subassembly chosen in turn, and the last part in it."""
    frame.show_page("bench")
    with frame.desk.store.read() as connection:
        groups = connection.exec_driver_sql(
            "SELECT subassembly_id, MAX(id) FROM part WHERE machine_id = ? AND subassembly_id IS NOT NULL "
            "GROUP BY subassembly_id",
            (frame.desk.machine_id,),
        ).all()
    for group, part in groups:
        frame.desk.choose(subassembly_id=group, part_ids=(part,), key=None)
        settle()
        yield f"bench, subassembly {group}"


def every_row(frame: Frame, page: str, view: QAbstractItemView) -> Iterator[str]:
    """Each row of one list chosen in turn."""
    model = view.model()

    def inside(parent: QModelIndex) -> Iterator[QModelIndex]:
        for row in range(model.rowCount(parent)):
            index = model.index(row, 0, parent)
            yield index
            yield from inside(index)

    for index in list(inside(QModelIndex())):
        if index.flags() & Qt.ItemFlag.ItemIsSelectable:
            view.setCurrentIndex(index)
            settle(5)
            yield f"{page}, {index.data()}"


def texts(top: QWidget) -> Iterator[tuple[str, str]]:
    """Every text seen under a widget or told by its tips: where, and the words."""
    for widget in [top, *top.findChildren(QWidget)]:
        if not widget.isVisible():
            continue
        name = widget.accessibleName() or type(widget).__name__
        if isinstance(widget, QLabel) and widget.textFormat() is Qt.TextFormat.RichText:
            document = QTextDocument()
            document.setHtml(widget.text())
            yield name, document.toPlainText()
        elif isinstance(widget, (QLabel, QAbstractButton, QLineEdit)):
            yield name, widget.text()
        if isinstance(widget, QLineEdit):
            yield f"{name}, hint", widget.placeholderText()
        if isinstance(widget, (QPlainTextEdit, QTextEdit)):
            yield name, widget.toPlainText()
        if isinstance(widget, QComboBox):
            yield name, widget.currentText()
        if isinstance(widget, QAbstractItemView):
            yield from _cells(name, widget)
        yield f"{name}, tip", widget.toolTip()


def _cells(name: str, view: QAbstractItemView) -> Iterator[tuple[str, str]]:
    model = view.model()
    if model is None:
        return

    def inside(parent: QModelIndex) -> Iterator[tuple[str, str]]:
        for row in range(model.rowCount(parent)):
            for column in range(1 if isinstance(view, QListView) else model.columnCount(parent)):
                index = model.index(row, column, parent)
                yield name, str(index.data() or "")
                yield f"{name}, tip", str(index.data(Qt.ItemDataRole.ToolTipRole) or "")
            yield from inside(model.index(row, 0, parent))

    yield from inside(QModelIndex())
