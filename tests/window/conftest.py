"""A desk on a real file for each test; afterwards no window, timer or thread may be left."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog, QMenu, QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.desk.memory import Memory
from rebuild.window.shell.frame import Frame
from tests.conftest import Shop


def _unasked(*_given: object, **_more: object) -> object:
    raise AssertionError("a chooser of files was opened, and the test does not say what it answers")


@pytest.fixture(autouse=True)
def no_chooser_waits(monkeypatch: pytest.MonkeyPatch) -> None:
    """A chooser of files waits for a person for ever: a test that opens one says what it answers, or fails."""
    for name in ("getSaveFileName", "getOpenFileName", "getOpenFileNames", "getExistingDirectory"):
        monkeypatch.setattr(QFileDialog, name, _unasked)


@pytest.fixture(autouse=True)
def no_key_is_held(qapp: QApplication) -> None:
    """Qt believes Ctrl is down after a test that pressed Ctrl+Z last; a row then chosen would be toggled."""
    if qapp.keyboardModifiers() != Qt.KeyboardModifier.NoModifier:
        hand = QWidget()
        QTest.keyClick(hand, Qt.Key.Key_Escape)
        hand.deleteLater()
    assert qapp.keyboardModifiers() == Qt.KeyboardModifier.NoModifier


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

    Menus, popups and hidden bare widgets are left to their owners: a plot or a completer keeps its own and the
    whole run dies if they go first.
    """
    for widget in QApplication.topLevelWidgets():
        popup = isinstance(widget, QMenu) or widget.windowType() == Qt.WindowType.Popup
        if popup or (type(widget) is QWidget and not widget.isVisible()):
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
