"""The Book page: it counts, builds beside the window, can be stopped, and says where the book lies."""

from __future__ import annotations

from pathlib import Path

import pytest
from pypdf import PdfReader
from pytestqt.qtbot import QtBot

from rebuild.sheets.book import build
from rebuild.window.book.page import BookPage
from rebuild.window.desk.desk import Desk
from rebuild.work.machines.acts import add_part
from tests.conftest import Shop


@pytest.fixture
def page(desk: Desk, qtbot: QtBot) -> BookPage:
    made = BookPage(desk)
    with qtbot.waitExposed(made):
        made.show()
    qtbot.waitUntil(lambda: made.holds.plain.rowCount() > 0)
    return made


def held(page: BookPage) -> dict[str, str]:
    return dict(page.holds.plain.text(row) for row in range(page.holds.plain.rowCount()))


def test_it_says_what_the_book_will_hold_and_follows_the_file(
    page: BookPage, shop: Shop, qtbot: QtBot
) -> None:
    assert held(page)["Subassemblies and parts"] == "2 parts"
    assert held(page)["Bench log"] == "1 session"
    assert "Photos" not in held(page)
    title = dict(page.title.plain.text(row) for row in range(page.title.plain.rowCount()))
    assert title["Kind"] == "lathe"
    assert title["Serial number"] == "not noted, left out"
    add_part(page._desk.store, shop.machine, shop.headstock, "key", "HS-03")
    qtbot.waitUntil(lambda: held(page).get("Subassemblies and parts") == "3 parts")


def test_it_builds_the_book_beside_the_window(page: BookPage, shop: Shop, qtbot: QtBot) -> None:
    assert Path(page.target.text()) == shop.path.parent / "Toolroom lathe.pdf"
    told: list[float] = []
    page.job.progressed.connect(lambda share, _words: told.append(share))
    with qtbot.waitSignal(page.job.done, timeout=20_000):
        page.build.click()
        assert not page.build.isEnabled()
        assert page.cancel.isEnabled()
        assert page.bar.isVisible()
    target = shop.path.parent / "Toolroom lathe.pdf"
    assert page.says.text() == f"Written: {target}"
    assert page.show_book.isEnabled()
    assert page.build.isEnabled()
    assert told[0] == 0.0
    assert told == sorted(told)
    assert "Toolroom lathe" in PdfReader(target).pages[0].extract_text()


def test_what_is_ticked_is_what_is_built(page: BookPage, qtbot: QtBot) -> None:
    assert page.options().printed is None
    for box in (page.cost, page.photos, page.log, page.dated):
        box.click()
    page.paper.setCurrentText("Letter")
    options = page.options()
    assert (options.cost, options.photos, options.log, options.paper) == (True, True, False, "Letter")
    assert options.printed is not None


def test_it_can_be_stopped_and_leaves_nothing(
    page: BookPage, shop: Shop, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    composed = build.compose

    def slowly(*given: object) -> object:
        page.cancel.click()
        return composed(*given)  # type: ignore[arg-type]

    monkeypatch.setattr(build, "compose", slowly)
    with qtbot.waitSignal(page.job.failed, timeout=20_000):
        page.build.click()
    assert "stopped before it was whole" in page.says.text()
    assert not list(shop.path.parent.glob("*.pdf*"))
    assert page.build.isEnabled()
    assert not page.show_book.isEnabled()


def test_a_folder_that_is_not_there_is_said_and_the_text_stays(page: BookPage, qtbot: QtBot) -> None:
    said: list[str] = []
    page._desk.said.connect(lambda sentence, _how: said.append(sentence))
    page.target.setText("/nowhere/at/all/book.pdf")
    page.build.click()
    assert "is not a folder" in said[0]
    assert page.target.text() == "/nowhere/at/all/book.pdf"
    assert not page.job.running


def test_everything_has_a_name_and_nothing_is_left_when_the_file_closes(page: BookPage, qtbot: QtBot) -> None:
    for widget in (page.paper, page.target, page.bar, page.holds):
        assert widget.accessibleName()
    page.build.click()
    page._desk.close()
    assert not page.build.isEnabled()
    assert page.holds.plain.rowCount() == 0
