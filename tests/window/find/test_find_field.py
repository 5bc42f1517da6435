"""Find in the window: one key, a word, Enter; the very row is chosen where it lies."""

from __future__ import annotations

from pathlib import Path

import pytest
from PIL import Image
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from rebuild.store.entry import driver
from rebuild.store.find import bites
from rebuild.window.bench.page import BenchPage
from rebuild.window.documents.page import ManualsPage
from rebuild.window.find import field as field_module
from rebuild.window.log.bench_log import BenchLogPage
from rebuild.window.log.questions import QuestionsPage
from rebuild.window.photos.page import PhotosPage
from rebuild.window.places.page import PlacesPage
from rebuild.window.shell.frame import Frame
from rebuild.window.teardown.page import TeardownPage
from rebuild.window.waiting.page import WaitingPage
from rebuild.words.photos import MarkKind
from rebuild.work.documents.acts import note
from rebuild.work.documents.rules_files import keep
from rebuild.work.editing.acts import edit
from rebuild.work.log import acts as log
from rebuild.work.machines import acts as identify
from rebuild.work.photos.about import About
from rebuild.work.photos.acts import mark_photo
from rebuild.work.photos.acts_take import take_in
from rebuild.work.readings import acts as measure
from rebuild.work.teardown.acts_line import say_removal
from rebuild.work.waiting import acts as waiting
from tests.conftest import Shop
from tests.window.seen import named
from tests.work.documents.manuals import manual

ENTER, ESC, DOWN = Qt.Key.Key_Return, Qt.Key.Key_Escape, Qt.Key.Key_Down


def seek(qtbot: QtBot, frame: Frame, words: str) -> None:
    """One key, what is sought, and Enter: the whole way to anything."""
    frame.do("find_all")
    field = frame.header.finder
    qtbot.keyClicks(field, words)
    qtbot.keyClick(field, ENTER)


def test_everything_is_found_in_two_acts_and_opened_at_its_row(
    qtbot: QtBot, frame: Frame, shop: Shop, tmp_path: Path
) -> None:
    store = shop.store
    edit(store, "machine", [shop.machine], {"serial": "SB-40717"})
    Image.new("RGB", (40, 30), (90, 80, 70)).save(tmp_path / "gib.png")
    (photo,) = take_in(store, shop.machine, [tmp_path / "gib.png"], About(part_id=shop.cap)).added
    mark_photo(store, photo, MarkKind.LABEL, (0.1, 0.1), (0.1, 0.1), "dowel proud of the face")
    kept = keep(store.path, [manual(tmp_path / "book.pdf")], lambda _share, _words: True)
    note(store, shop.machine, kept)
    identify.add_part(store, shop.machine, shop.headstock, "belt guard")
    other = identify.add_machine(store, "Mill")
    knee = identify.add_part(store, other, None, "knee screw")
    line = "cap u, 4 x M10 x 40 socket, found a nest of swarf, > bag 7"
    removal = say_removal(store, shop.machine, shop.headstock, line, make=True)
    question = log.ask(store, shop.machine, "Which way does the thrust washer face?")
    session = log.log_session(store, shop.machine, {"did": "Scraped the saddle keyways"})
    stock = waiting.add_stock(store, "Silver steel 10 mm")
    measure.record_reading(store, "59.985", measure.Entry(shop.journal, shop.near))

    seek(qtbot, frame, "nest sw")
    page = frame.page("teardown")
    assert isinstance(page, TeardownPage)
    assert (frame.page_shown, page.log.chosen()) == ("teardown", removal)
    seek(qtbot, frame, "thrust washer")
    questions = frame.page("questions")
    assert isinstance(questions, QuestionsPage)
    assert questions._shown == question
    seek(qtbot, frame, "keyways")
    sessions = frame.page("log")
    assert isinstance(sessions, BenchLogPage)
    assert sessions._editing == session
    seek(qtbot, frame, "silver")
    shelf = frame.page("waiting")
    assert isinstance(shelf, WaitingPage)
    assert (shelf.views.shown, shelf.stock.table.chosen()) == (3, stock)
    seek(qtbot, frame, "59.985")
    assert frame.page_shown == "bench"
    assert frame.desk.selection.key == (shop.journal, shop.near)
    seek(qtbot, frame, "2.36161")  # the same value in inches
    assert frame.desk.selection.key == (shop.journal, shop.near)
    seek(qtbot, frame, "dowel proud")
    album = frame.page("photos")
    assert isinstance(album, PhotosPage)
    assert frame.page_shown == "photos"
    assert [row.id for row in (album.current(),) if row is not None] == [photo]
    seek(qtbot, frame, "spindle oil 10")
    manuals = frame.page("manuals")
    assert isinstance(manuals, ManualsPage)
    assert (frame.page_shown, manuals.at) == ("manuals", 1)
    manuals.view.drawer.forget()
    seek(qtbot, frame, "40717")
    assert frame.desk.machine_id == shop.machine
    seek(qtbot, frame, "knee")
    assert (frame.desk.machine_id, frame.desk.selection.part_ids) == (other, (knee,))
    seek(qtbot, frame, "bag 7")
    places = frame.page("places")
    assert isinstance(places, PlacesPage)
    assert frame.page_shown == "places"
    assert places.table.plain.text(places.table.plain.ids.index(places.table.chosen() or 0))[:2] == (
        "7",
        "bag",
    )


def test_what_is_found_is_in_hand_with_the_keyboard_on_its_surface(
    qtbot: QtBot, frame: Frame, shop: Shop
) -> None:
    """A burst once went into the Find field behind the word sought: "spindle64.98", and was lost."""
    store = shop.store
    measure.record_reading(store, "59.985", measure.Entry(shop.journal, shop.near))
    question = log.ask(store, shop.machine, "Which way does the thrust washer face?")
    field, bench = frame.header.finder, frame.page("bench")
    assert isinstance(bench, BenchPage)
    assert question
    for words, pane in (
        ("59.985", bench.grid),
        ("spindle", bench.tree.view),
        ("measure", bench.tasks),
        ("thrust washer", frame.page("questions")),
    ):
        frame.show_page("bench")
        seek(qtbot, frame, words)
        focus = QApplication.focusWidget()
        assert focus is not field, words
        assert focus is pane or (focus and pane and pane.isAncestorOf(focus)), (words, focus)
    for key in ("bench", "questions", "history", "plan", "figures"):
        frame.show_page(key)
        frame.do("find_all")
        qtbot.keyClicks(field, "spi")
        qtbot.keyClick(field, ESC)
        assert (field.text(), field.hasFocus(), field.panel.isVisible()) == ("", False, False), key


def test_the_field_shows_what_it_found_and_leads_back(qtbot: QtBot, frame: Frame, shop: Shop) -> None:
    field = frame.header.finder
    tree = frame.page("bench")
    tree.setFocus()
    frame.do("find_all")
    qtbot.keyClicks(field, "spindl")
    field.search()
    assert field.panel.isVisible()
    assert field.panel.table.plain.text(0)[:2] == ("part", "HS-01 spindle")
    rows = field.panel.table.plain.rowCount()
    assert field.panel.count.text().startswith(f"{rows} rows. Enter goes there")
    qtbot.keyClick(field, DOWN)
    assert field.panel.table.chosen() == 1
    qtbot.keyClick(field, ESC)
    assert not field.panel.isVisible()
    frame.do("find_all")
    field.clear()
    qtbot.keyClicks(field, "zzz <b>")
    field.search()
    assert field.panel.count.text().startswith("Nothing in this file has “zzz <b>”.")
    qtbot.keyClick(field, ENTER)
    assert frame.page_shown == "bench"
    named(field.panel)
    frame.do("close_file")
    assert (field.text(), field.panel.isVisible()) == ("", False)


def test_the_words_of_a_large_file_come_by_and_by_and_the_panel_says_so(
    qtbot: QtBot, frame: Frame, shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Seen: the first second after opening a file of a million readings the window stood still for twelve."""
    monkeypatch.setattr(bites.bite, "__defaults__", (1,))
    monkeypatch.setattr(field_module, "_WITHIN", 0.0)
    frame.desk.store._on_disk().beside_the_journal(lambda one: driver(one).execute("DELETE FROM find_mark"))
    frame.do("find_all")
    field = frame.header.finder
    field.setText("spindle")
    field.search()
    assert field.panel.count.text() == (
        "Nothing yet has “spindle”. The words of this file are still being read: more may come by itself."
    )
    qtbot.waitUntil(lambda: bool(field.found), timeout=8_000)
    qtbot.waitUntil(lambda: not field.panel.more_to_come, timeout=8_000)
    assert "still being read" not in field.panel.count.text()
    assert any(one.title == "HS-01 spindle" for one in field.found)


def test_enter_before_the_words_are_read_goes_there_when_they_are(
    qtbot: QtBot, frame: Frame, shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Seen on a busy machine: Enter found nothing yet, and was gone."""
    monkeypatch.setattr(bites.bite, "__defaults__", (1,))
    monkeypatch.setattr(field_module, "_WITHIN", 0.0)
    monkeypatch.setattr(field_module, "_ENTER_WITHIN", 0.0)
    frame.desk.store._on_disk().beside_the_journal(lambda one: driver(one).execute("DELETE FROM find_mark"))
    seek(qtbot, frame, "bearing cap")
    assert frame.desk.selection.part_ids != (shop.cap,)
    qtbot.waitUntil(lambda: frame.desk.selection.part_ids == (shop.cap,), timeout=8_000)
