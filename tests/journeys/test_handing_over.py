"""The machine's book for the next owner, and everything as plain files."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt

from rebuild.window.book.page import BookPage
from tests.conftest import Shop
from tests.journeys.hands import Hands


def test_the_book_is_built_beside_the_window(hands: Hands, shop: Shop, tmp_path: Path) -> None:
    """Book: what it will hold is listed; where it goes is typed; it is built on another thread while the bench takes
    a reading; the PDF is there, and building it again gives the same bytes."""
    user = hands
    user.frame.desk.choose(part_ids=(shop.spindle,), key=(shop.journal, shop.near))
    user.line.focus_entry()
    user.person("59.985\r")
    page = user.page("book")
    assert isinstance(page, BookPage)
    user.bot.waitUntil(lambda: page.holds.plain.rowCount() > 3, timeout=10_000)
    first, second = tmp_path / "book.pdf", tmp_path / "again.pdf"
    for path in (first, second):
        user.tab_to("Where the book is written")
        user.replace(str(path))
        user.tab_to("Build the book")
        user.press(Qt.Key.Key_Space)
        user.frame.show_page("bench")
        user.bot.waitUntil(path.exists, timeout=60_000)
        user.page("book")
        user.bot.waitUntil(page.build.isEnabled, timeout=60_000)
    assert first.read_bytes().startswith(b"%PDF")
    assert first.read_bytes() == second.read_bytes()
    assert page.says.text()
