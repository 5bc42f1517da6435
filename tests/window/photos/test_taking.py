"""Photos taken in beside the window, a watched folder, a camera's clock, and photos where the work is."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from pathlib import Path
from threading import get_ident

import pytest
from PIL import Image
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from rebuild.window.desk.desk import Desk, Say
from rebuild.window.ink.thumbnail import read_scaled
from rebuild.window.photos import sheet, taking, thumbs
from rebuild.window.photos.page import PhotosPage
from rebuild.window.photos.taking import read_all
from rebuild.window.teardown.back_pane import BackPane
from rebuild.window.teardown.detail import RemovalDetail
from rebuild.work.machines.acts import add_part
from rebuild.work.photos import acts_take
from rebuild.work.photos.acts import show_on
from rebuild.work.photos.acts_take import TakenIn, take_in
from rebuild.work.photos.rows import Which, photos
from rebuild.work.photos.rows_shown import clocks, of_removal
from rebuild.work.photos.rules_pictures import read_picture
from rebuild.work.teardown.acts import log_removal
from rebuild.work.teardown.off import Off
from rebuild.work.teardown.rows_removals import attempts, removals
from tests.conftest import Shop


def pictures(folder: Path, count: int, side: int = 40) -> list[Path]:
    folder.mkdir(exist_ok=True)
    paths = [folder / f"{at:03}.jpg" for at in range(count)]
    for at, path in enumerate(paths):
        exif = Image.Exif()
        exif[272], exif[306] = "Invented phone", f"2026:05:02 20:{at % 60:02}:00"
        Image.new("RGB", (side, side), (at * 5 % 255, at % 255, 90)).save(path, exif=exif)
    return paths


def test_many_are_read_on_a_thread_with_progress_and_a_bad_one_costs_only_itself(
    qtbot: QtBot, desk: Desk, shop: Shop, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(taking, "AT_ONCE_BYTES", 0)
    page = PhotosPage(desk)
    qtbot.addWidget(page)
    paths = pictures(tmp_path / "card", 30)
    paths[7].write_bytes(b"no photo at all")
    shares: list[float] = []
    said: list[tuple[str, Say]] = []
    page.taking.job.progressed.connect(lambda share, _words: shares.append(share))
    desk.said.connect(lambda words, how: said.append((words, how)))
    with qtbot.waitSignal(page.taking.ended, timeout=20_000) as ended:
        page.take(paths)
        assert page.taking.job.running, "the window goes on while they are read"
    done = ended.args[0] if ended.args else None
    assert isinstance(done, TakenIn)
    assert (len(done.added), len(done.refused)) == (29, 1)
    assert shares == sorted(shares)
    assert len(shares) == 30
    assert said[-1][1] is Say.TROUBLE
    assert "29 photos taken in" in said[-1][0]
    assert "“007.jpg” is not a photo" in said[-1][0]
    assert page.taking.isHidden()
    assert desk.store.undo_label()
    desk.store.undo()
    with desk.store.read() as connection:
        assert photos(connection, shop.machine) == []
    page.model.stop()


def test_stopped_half_way_what_was_read_is_whole_and_the_rest_is_counted(shop: Shop, tmp_path: Path) -> None:
    paths = pictures(tmp_path / "card", 6)
    told: list[str] = []

    def tell(_share: float, words: str) -> bool:
        told.append(words)
        return len(told) <= 4

    read = read_all(shop.store.path, paths, tell)
    assert (len(read.kept), read.left, told[0]) == (4, 2, "1 of 6: 000.jpg")


def test_a_watched_folder_gives_whole_new_files_once_and_says_when_it_is_gone(
    qtbot: QtBot, desk: Desk, shop: Shop, tmp_path: Path
) -> None:
    page = PhotosPage(desk)
    qtbot.addWidget(page)
    folder = tmp_path / "phone"
    pictures(folder, 1)
    page.watch.begin(folder)
    new = pictures(tmp_path / "elsewhere", 3)[2]
    content = new.read_bytes()
    growing = folder / "late.jpg"
    growing.write_bytes(content[:100])
    page.watch.look()
    growing.write_bytes(content)
    page.watch.look()
    with desk.store.read() as connection:
        assert photos(connection, shop.machine) == [], "it has not stopped growing"
    page.watch.look()
    page.watch.look()
    with desk.store.read() as connection:
        assert [row.file_name for row in photos(connection, shop.machine)] == ["late.jpg"]
    said: list[str] = []
    desk.said.connect(lambda words, _how: said.append(words))
    folder.rename(tmp_path / "unplugged")
    page.watch.look()
    assert "is not a folder" in said[-1]
    assert page.watch.folder is None
    page.model.stop()


def test_a_camera_s_clock_is_put_right_from_the_page(
    qtbot: QtBot, desk: Desk, shop: Shop, tmp_path: Path
) -> None:
    page = PhotosPage(desk)
    qtbot.addWidget(page)
    page.take(pictures(tmp_path / "card", 1))
    page.refresh()
    dialog = page.set_clock()
    assert dialog is not None
    said: list[str] = []
    desk.said.connect(lambda words, _how: said.append(words))
    page.show()
    qtbot.waitUntil(page.isVisible)
    assert "20:00" in page.about.text()
    dialog.form.boxes["at"].widget.setText("2026-05-02 19:00")  # type: ignore[attr-defined]
    dialog.add_button.click()
    with desk.store.read() as connection:
        assert clocks(connection) == {"Invented phone": 3600.0}
    assert said[-1] == "Invented phone is 1 h fast; 1 photo put right."
    assert "19:00" in page.about.text(), "the header says the shop's hour at once"
    assert "2026-05-02 19:00" in str(page.model.index(0).data(Qt.ItemDataRole.AccessibleTextRole))
    page.list.selectAll()
    page.offer()
    assert said[-1].startswith("0 photos filed to what was in hand; 1 stay: nothing was noted near its time")
    clamp = add_part(desk.store, shop.machine, None, "clamp", "ZZ-01")
    log_removal(desk.store, shop.machine, None, Off((clamp,), at=dt.datetime(2026, 5, 2, 19, 5)))
    page.refresh()
    page.list.selectAll()
    page.offer()
    assert said[-1] == "1 photo filed to what was in hand: 1 to ZZ-01 clamp."
    dialog.close()
    page.model.stop()


def test_photos_lie_at_the_removal_and_at_the_step_that_puts_it_back(
    qtbot: QtBot, desk: Desk, shop: Shop, tmp_path: Path
) -> None:
    log_removal(desk.store, shop.machine, shop.headstock, Off(part_ids=(shop.cap,)))
    with desk.store.read() as connection:
        row = removals(connection, attempts(connection, shop.machine)[0].id)[0]
    detail, back = RemovalDetail(desk), BackPane(desk)
    for pane in (detail, back):
        qtbot.addWidget(pane)
    detail.show_row(row)
    assert detail.photos.shown() == []
    detail.take(pictures(tmp_path / "card", 2))
    with desk.store.read() as connection:
        keys = [one.id for one in of_removal(connection, shop.machine, row.id)]
        assert len(keys) == 2
        assert len(photos(connection, shop.machine, Which.CHOSEN, part_ids=(shop.cap,))) == 2
    detail.show_row(row)
    assert detail.photos.shown() == keys
    desk.choose(task_ids=(shop.refit,))
    assert back.photos.shown() == []
    show_on(desk.store, keys[:1], "task", shop.refit)
    desk.choose(task_ids=())
    desk.choose(task_ids=(shop.refit,))
    assert back.photos.shown() == keys[:1]
    assert back.way_round.text() == "This way round: 1 photo."
    QApplication.clipboard().setImage(detail.grab().toImage())
    detail.photos.strip.paste()
    with desk.store.read() as connection:
        assert len(of_removal(connection, shop.machine, row.id)) == 3
    for strip in (detail.photos.strip, back.photos):
        strip.model.stop()


def test_photos_of_a_removed_thing_stay_and_show_it_no_longer(shop: Shop, tmp_path: Path) -> None:
    from rebuild.work.editing.acts import remove

    photo = take_in(shop.store, shop.machine, pictures(tmp_path / "card", 1)).added[0]
    gib = add_part(shop.store, shop.machine, None, "gib")
    show_on(shop.store, [photo], "part", gib)
    remove(shop.store, "part", [gib])
    with shop.store.read() as connection:
        assert [row.id for row in photos(connection, shop.machine)] == [photo]
        assert photos(connection, shop.machine, Which.CHOSEN, part_ids=(gib,)) == []
    shop.store.undo()
    with shop.store.read() as connection:
        assert len(photos(connection, shop.machine, Which.CHOSEN, part_ids=(gib,))) == 1


def test_large_photos_are_read_beside_the_window(
    qtbot: QtBot, desk: Desk, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Taken in, small in the grid and shown large: no picture is read on the window's thread.

    How long that thread is held by the rest is measured by ``tests.window.photos.five_hundred``.
    """
    read_by: list[tuple[str, int]] = []

    def noting(name: str, read: Callable[..., object]) -> Callable[..., object]:
        def noted(*given: object) -> object:
            read_by.append((name, get_ident()))
            return read(*given)

        return noted

    monkeypatch.setattr(acts_take, "read_picture", noting("taken", read_picture))
    monkeypatch.setattr(thumbs, "read_scaled", noting("small", read_scaled))
    monkeypatch.setattr(sheet, "read_scaled", noting("large", read_scaled))
    folder = tmp_path / "card"
    folder.mkdir()
    for at in range(2):
        noise = Image.effect_noise((1000, 750), 60 + at)
        noise.resize((2600, 1950)).save(folder / f"{at}.jpg", quality=92)
    page = PhotosPage(desk)
    page.resize(900, 600)
    qtbot.addWidget(page)
    with qtbot.waitExposed(page):
        page.show()
    with qtbot.waitSignal(page.taking.ended, timeout=60_000):
        page.take(sorted(folder.iterdir()))
    page.list.setCurrentIndex(page.model.index(0))
    qtbot.waitUntil(lambda: not page.sheet._image.isNull(), timeout=60_000)
    qtbot.waitUntil(lambda: {"taken", "small", "large"} == {name for name, _ in read_by}, timeout=60_000)
    assert get_ident() not in {thread for _, thread in read_by}
    page.model.stop()
    page.sheet.job.drop()
