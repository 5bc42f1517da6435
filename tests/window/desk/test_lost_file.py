"""The file is renamed or deleted under the window: it stops loudly, keeps what is typed, and offers ways to go on."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import cast

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from rebuild.store.changed import Changed
from rebuild.store.store import Store
from rebuild.window.bench.page import BenchPage
from rebuild.window.desk.desk import Desk, Say
from rebuild.window.desk.lost_file import LostFile
from rebuild.window.entry.line import EntryLine
from rebuild.window.shell.frame import Frame
from rebuild.window.teardown.page import TeardownPage
from rebuild.work.checks.check import check
from rebuild.work.machines import acts as identify
from rebuild.work.records.rows_kept import kept_entries
from tests.conftest import Shop
from tests.store.test_elsewhere import mv, places


def dialog_of(frame: Frame, qtbot: QtBot) -> LostFile:
    qtbot.waitUntil(lambda: any(one.isVisible() for one in frame.findChildren(LostFile)), timeout=5_000)
    return next(one for one in frame.findChildren(LostFile) if one.isVisible())


@pytest.fixture
def alone(frame: Frame, shop: Shop) -> Frame:
    """The window is the only one on the file."""
    shop.close()
    return frame


def test_renamed_under_the_window_it_goes_on_where_the_file_is(
    alone: Frame, shop: Shop, tmp_path: Path, qtbot: QtBot
) -> None:
    desk = alone.desk
    identify.add_place(desk.store, "before")
    renamed = mv(shop.path, tmp_path / "renamed.rebuild")
    dialog = dialog_of(alone, qtbot)
    assert "renamed or moved" in dialog.said.text()
    assert any("renamed or moved" in told for told in alone.messages.troubles)
    assert desk.attempt(lambda: identify.add_place(desk.store, "refused")) is None
    desk.attempt(lambda: desk.store.keep_entry("place", "refused", "the file was renamed"))
    assert dialog.go.text() == "Go on in renamed.rebuild"
    dialog.go.click()
    assert desk.store.path == renamed
    assert "renamed.rebuild" in alone.windowTitle()
    identify.add_place(desk.store, "after")
    with desk.store.read() as connection:
        assert [kept.typed for kept in kept_entries(connection)] == ["refused"]
    desk.close()
    assert places(renamed) == ["before", "after"]
    assert check(renamed) == []
    assert not shop.path.exists()


def test_renamed_under_the_window_everything_stands_where_it_stood(
    alone: Frame, shop: Shop, tmp_path: Path, qtbot: QtBot
) -> None:
    desk = alone.desk
    alone.show()
    bench = cast(BenchPage, alone.page("bench"))
    desk.choose(subassembly_id=shop.headstock, part_ids=(shop.spindle,), key=(shop.journal, shop.near))
    entry = cast(EntryLine, bench.entry)
    entry.take_key("59.985")
    entry.field.entered_now.emit()
    said = entry.answer.sentence.text()
    assert entry.answer.tells_stored, said
    assert len(desk.recent) == 1
    page = cast(TeardownPage, alone.page("teardown"))
    page.off.line.setFocus()
    qtbot.keyClick(page.off.line, Qt.Key.Key_Down)
    qtbot.keyClicks(page.off.line, "l")
    before = (desk.machine_id, desk.selection, desk.recent, alone.page_shown)
    meant, group = page.off.next_part, page.group
    mv(shop.path, tmp_path / "renamed.rebuild")
    dialog = dialog_of(alone, qtbot)
    dialog.go.click()
    qtbot.waitUntil(lambda: not alone.findChildren(LostFile), timeout=5_000)
    assert (desk.machine_id, desk.selection, desk.recent, alone.page_shown) == before
    assert (page.off.next_part, page.group, page.off.line.text()) == (meant, group, "l")
    assert entry.answer.sentence.text() == said
    qtbot.keyClick(page.off.line, Qt.Key.Key_Return)
    with desk.store.read() as connection:
        off = connection.exec_driver_sql("SELECT part_id FROM removal_part").scalars().all()
        assert list(off) == [meant]
        assert kept_entries(connection) == [], "what was stored is not among what was not"


def test_what_another_window_wrote_meanwhile_is_shown(
    alone: Frame, shop: Shop, tmp_path: Path, qtbot: QtBot
) -> None:
    desk = alone.desk
    heard: list[Changed] = []
    renamed = mv(shop.path, tmp_path / "renamed.rebuild")
    dialog = dialog_of(alone, qtbot)
    qtbot.keyClicks(dialog, "7.5")
    qtbot.keyClick(dialog, Qt.Key.Key_Return)
    other = Store.open(renamed)
    made = identify.add_place(other, "meanwhile")
    other.close()
    desk.changed.connect(heard.append)
    dialog.go.click()
    assert heard[0].elsewhere
    assert heard[0].rows("place").added == {made}
    with desk.store.read() as connection:
        assert [(one.typed, one.why) for one in kept_entries(connection)] == [
            ("7.5", "Not stored: the file was not at its path.")
        ]


def test_deleted_under_the_window_it_is_saved_under_a_new_name(
    alone: Frame, shop: Shop, tmp_path: Path, qtbot: QtBot
) -> None:
    desk = alone.desk
    identify.add_place(desk.store, "before")
    shop.path.unlink()
    dialog = dialog_of(alone, qtbot)
    assert not dialog.go.isVisible()
    alone.files.save_under(tmp_path / "saved")
    qtbot.waitUntil(lambda: desk.store.path == tmp_path / "saved.rebuild", timeout=20_000)
    identify.add_place(desk.store, "after")
    desk.close()
    assert places(tmp_path / "saved.rebuild") == ["before", "after"]
    assert check(tmp_path / "saved.rebuild") == []


def test_replaced_under_the_window(alone: Frame, shop: Shop, tmp_path: Path, qtbot: QtBot) -> None:
    desk = alone.desk
    other = Path(shutil.copy(shop.path, tmp_path / "other.tmp"))
    identify.add_place(desk.store, "mine")
    mv(other, shop.path)
    dialog = dialog_of(alone, qtbot)
    assert "was replaced" in dialog.said.text()
    desk.attempt(lambda: desk.store.keep_entry("place", "typed", "the file was replaced"))
    dialog.close_file.click()  # what is open is the last copy: asked once more
    dialog.close_file.click()
    assert not desk.is_open
    assert places(shop.path) == []
    written = list(tmp_path.glob("*not stored*.txt"))
    assert len(written) == 1
    assert "place: typed" in written[0].read_text(encoding="utf-8")


def test_back_at_its_path_it_goes_on_by_itself(
    alone: Frame, shop: Shop, tmp_path: Path, qtbot: QtBot
) -> None:
    away = mv(shop.path, tmp_path / "away.rebuild")
    dialog_of(alone, qtbot)
    mv(away, shop.path)
    qtbot.waitUntil(lambda: not alone.findChildren(LostFile), timeout=5_000)
    assert "back where it was" in alone.messages.sentence
    assert identify.add_place(alone.desk.store, "on")


def test_a_dialog_put_away_comes_again_with_the_next_act(
    alone: Frame, shop: Shop, tmp_path: Path, qtbot: QtBot
) -> None:
    desk = alone.desk
    mv(shop.path, tmp_path / "renamed.rebuild")
    dialog_of(alone, qtbot).reject()
    qtbot.wait(900)
    assert not any(one.isVisible() for one in alone.findChildren(LostFile))
    desk.attempt(lambda: identify.add_place(desk.store, "refused"))
    assert dialog_of(alone, qtbot)


def test_idle_for_a_moment_the_one_file_holds_everything(alone: Frame, shop: Shop, qtbot: QtBot) -> None:
    desk = alone.desk
    desk._idle.setInterval(100)
    identify.add_place(desk.store, "shelf")
    assert places(shop.path) == []
    qtbot.waitUntil(lambda: places(shop.path) == ["shelf"], timeout=5_000)


def test_a_synced_folder_is_told_once(empty_desk: Desk, empty_template: Path, tmp_path: Path) -> None:
    from rebuild.window.desk.memory import Memory

    folder = tmp_path / "Sync"
    folder.mkdir()
    path = Path(shutil.copy(empty_template, folder / "shop.rebuild"))
    frame = Frame(empty_desk, Memory(tmp_path / "window.ini"))
    told: list[str] = []
    empty_desk.said.connect(lambda sentence, how: told.append(sentence) if how is Say.ASK else None)
    assert frame.files.open(path)
    assert len(told) == 1
    assert "synced folder" in told[0]
    empty_desk.close()
    assert frame.files.open(path)
    assert len(told) == 1
