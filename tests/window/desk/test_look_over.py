"""A large file is looked over beside the window: nobody waits, and nothing of it is left when the file closes."""

from __future__ import annotations

import sqlite3
from pathlib import Path
from threading import Event, get_ident

import pytest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from rebuild.store.store import Store
from rebuild.store.unreadable import unreadable
from rebuild.window.desk import left_as_is
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.memory import Memory
from rebuild.window.shell.last_resort import last_resort
from rebuild.window.shell.start import frame_for
from tests.conftest import Shop
from tests.store.test_unreadable import spoil
from tests.window.conftest import close_all_windows


@pytest.fixture(autouse=True)
def every_file_is_large(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(left_as_is, "QUICK_BYTES", 0)


def test_bad_cells_are_found_on_another_thread_and_said(
    shop: Shop, qtbot: QtBot, qapp: QApplication, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = shop.store.path
    shop.store.close()
    spoil(path, "UPDATE part SET decision = 'perhaps' WHERE id = 1")
    threads: list[int] = []

    def noted(raw: sqlite3.Connection) -> object:
        threads.append(get_ident())
        return unreadable(raw)

    monkeypatch.setattr("rebuild.store.look_over.unreadable", noted)
    frame = frame_for(path, Memory(tmp_path / "window.ini"))
    desk = frame.desk
    assert set(threads) <= {get_ident()}, "only a page that stumbled may look on the window's thread"
    if not threads:
        assert not desk.store.looked_over
        with qtbot.waitSignal(desk.looking.found, timeout=5000) as said:
            desk.looking.begin(desk.store)
        assert said.args is not None
        assert "“perhaps”" in said.args[0]
        assert len(threads) == 1
        assert threads[0] != get_ident()
    assert desk.store.unreadable
    desk.looking.begin(desk.store)
    assert not desk.looking.running, "a file looked over is not looked over again"
    close_all_windows()
    desk.close()


def test_a_sound_file_says_nothing_and_closing_does_not_wait_for_the_look(
    shop: Shop, qapp: QApplication, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    path, begun = shop.store.path, Event()
    shop.store.close()

    def long(raw: sqlite3.Connection) -> object:
        """A statement that never ends by itself."""
        begun.set()
        raw.execute(
            "WITH RECURSIVE n(x) AS (SELECT 1 UNION ALL SELECT x + 1 FROM n) SELECT count(*) FROM n"
        ).fetchone()
        return []

    desk = Desk()
    desk.open(path, looked_over=False)
    monkeypatch.setattr("rebuild.store.look_over.unreadable", long)
    desk.looking.begin(desk.store)
    assert begun.wait(5)
    desk.close()
    assert not desk.looking.running
    monkeypatch.undo()
    store = Store.open(path)
    assert store.looked_over
    assert store.unreadable == ()
    store.close()
    assert not path.with_name(f"{path.name}-wal").exists()


def test_a_page_that_stumbles_before_has_the_file_looked_over(
    shop: Shop, qapp: QApplication, tmp_path: Path
) -> None:
    """It was shown as a fault of the program, and the page stayed half read."""
    path = shop.store.path
    shop.store.close()
    spoil(path, "UPDATE instrument SET kind = 'perhaps' WHERE id = 1")
    said: list[str] = []
    with last_resort() as faults:
        frame = frame_for(path, Memory(tmp_path / "window.ini"))
        faults.look_over = frame.desk.look_over_at_once
        frame.desk.looking.found.connect(said.append)
        frame.show()
        for page in frame.pages:
            if not frame.desk.store.looked_over:
                frame.show_page(page.key)
                qapp.processEvents()
        assert frame.desk.store.looked_over
        assert faults.reports == {}
    assert len(said) == 1
    assert "instrument no. 1, kind: “perhaps”" in said[0]
    close_all_windows()
    frame.desk.close()


def test_a_fault_in_a_sound_file_stays_a_fault(shop: Shop, qapp: QApplication) -> None:
    path = shop.store.path
    shop.store.close()
    desk = Desk()
    desk.open(path, looked_over=False)
    with last_resort() as faults:
        faults.look_over = desk.look_over_at_once
        faults.hear(KeyError("nobody foresaw it"))
        assert len(faults.reports) == 1
    assert desk.store.looked_over
    assert not desk.look_over_at_once()
    desk.close()
