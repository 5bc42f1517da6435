"""Whole jobs through the real window: a frame on a real file, and a user's hands at it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, QSize
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from rebuild.window.desk.desk import Desk
from rebuild.window.desk.memory import Memory
from rebuild.window.shell.frame import Frame
from tests.conftest import Shop
from tests.journeys.hands import Hands
from tests.window.conftest import close_all_windows, no_key_is_held as no_key_is_held

Start = Callable[..., Hands]


@pytest.fixture
def start(qapp: QApplication, qtbot: QtBot, tmp_path: Path) -> Iterator[Start]:
    """Starts the window as the program does, on a file or without one; again and again in one journey."""
    desks: list[Desk] = []

    def begin(path: Path | None = None, memory: str = "window.ini") -> Hands:
        desk = Desk()
        desks.append(desk)
        if path is not None:
            desk.open(path)
        frame = Frame(desk, Memory(tmp_path / memory))
        frame.resize(QSize(1280, 800))
        frame.show()
        with qtbot.waitActive(frame):
            frame.activateWindow()
        return Hands(qtbot, frame)

    yield begin
    close_all_windows()
    for desk in desks:
        desk.close()
        desk.deleteLater()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


@pytest.fixture
def hands(start: Start, shop: Shop) -> Hands:
    """A user at the window with the small project open, on the bench, the headstock chosen."""
    user = start(shop.path)
    user.frame.show_page("bench")
    user.frame.desk.choose(subassembly_id=shop.headstock, part_ids=(), key=None)
    return user
