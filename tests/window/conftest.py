"""A desk on a real file for each test; afterwards no window, timer or thread may be left."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtWidgets import QAbstractItemView, QApplication, QMenu, QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.desk.memory import Memory
from rebuild.window.shell.frame import Frame
from tests.conftest import Shop


@pytest.fixture
def desk(qapp: QApplication, shop: Shop) -> Iterator[Desk]:
    """A desk with the small project open (a second store on the same file is ``shop.store``)."""
    made = Desk()
    made.open(shop.path)
    yield made
    close_all_windows()
    made.close()
    made.deleteLater()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


@pytest.fixture
def empty_desk(qapp: QApplication) -> Iterator[Desk]:
    """A desk with no file open."""
    made = Desk()
    yield made
    close_all_windows()
    made.close()
    made.deleteLater()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def close_all_windows() -> None:
    """Close every top-level window and let deferred deletes happen.

    Menus, lists that drop down and hidden bare widgets are left to their owners: a plot keeps its own and dies if they
    go first, and a completer deletes its list a second time.
    """
    for widget in QApplication.topLevelWidgets():
        drops_down = isinstance(widget, QAbstractItemView) and widget.windowType() is Qt.WindowType.Popup
        if isinstance(widget, QMenu) or drops_down or (type(widget) is QWidget and not widget.isVisible()):
            continue
        widget.close()
        widget.deleteLater()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


@pytest.fixture
def frame(desk: Desk, tmp_path: Path) -> Frame:
    """The whole window on the small project, shown, with a memory of its own."""
    made = Frame(desk, Memory(tmp_path / "window.ini"))
    made.show()
    return made
