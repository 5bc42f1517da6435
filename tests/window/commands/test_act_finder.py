"""One key, any words: every act of the menus and of the page shown is found and done; F1 speaks of the page shown."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QTextCursor
from PySide6.QtWidgets import QApplication, QTextBrowser
from pytestqt.qtbot import QtBot

from rebuild.window.commands.act_finder import ActFinder, doables
from rebuild.window.commands.also_said import OF_ACTS, OF_PAGES
from rebuild.window.commands.groups import GROUPS
from rebuild.window.commands.help_sheets import HelpSheet
from rebuild.window.commands.menu_lines import ACTIONS
from rebuild.window.commands.pages import PAGES
from rebuild.window.shell.frame import Frame
from rebuild.words.glossary import GLOSSARY
from tests.conftest import Shop


def _finder(frame: Frame) -> ActFinder:
    frame.do("act_finder")
    return next(one for one in frame.findChildren(ActFinder) if one.isVisible())


def test_every_line_of_the_menus_and_every_page_is_found_by_its_words(frame: Frame, shop: Shop) -> None:
    frame.show_page("bench")
    listed = doables(frame)
    words = {one.words for one in listed}
    for row in ACTIONS:
        if row.key not in ("", "undo", "redo"):  # these two carry the name of the act they take back
            assert row.text.replace("&", "").rstrip("…") in words, row.key
    for group in GROUPS:
        assert group.name in words
    for page in frame.pages:
        assert any(one.words.endswith(f": {page.name}") for one in listed), page.key
    in_panes = {one.words for one in listed if one.where.startswith("in ")}
    assert {"Edit spec", "Delete entry", "Constraint", "Means"} <= in_panes
    assert any(one.where == "on this page" for one in listed)


def test_words_typed_lead_to_the_page_and_enter_goes_there(frame: Frame, shop: Shop, qtbot: QtBot) -> None:
    frame.show_page("bench")
    finder = _finder(frame)
    qtbot.keyClicks(finder.asked, "oil points")
    shown = [finder.table.plain.text(row)[0] for row in range(finder.table.plain.rowCount())]
    assert shown[0] == "Up: Lubrication"
    qtbot.keyClick(finder.asked, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: frame.page_shown == "lubrication")


#: Words heard at a bench, none of them the name of a page, and the page each is meant for (common practice, no source).
SHOP_WORDS = (
    ("shim", "Down: Removal log"), ("shimming", "Down: Removal log"), ("dismantle", "Down: Removal log"),
    ("tenths", "Bench: Bench"), ("endplay", "Bench: Bench"), ("indicate", "Bench: Bench"),
    ("blueing", "Prove: Survey"), ("surface plate", "Prove: Survey"), ("straightedge", "Prove: Survey"),
    ("scrape", "Prove: Survey"), ("tram", "Prove: Test chart"), ("runout", "Prove: Test chart"),
    ("vfd", "Prove: Run-in"), ("motor", "Prove: Run-in"), ("phase", "Prove: Run-in"), ("lockout", "Prove: Run-in"),
    ("weld", "Make: Decide"), ("worn", "Make: Decide"), ("harden", "Make: Making"), ("hone", "Make: Making"),
    ("reamer", "Make: Means"), ("mandrel", "Make: Means"), ("setscrew", "Up: Joints"), ("threadlock", "Up: Joints"),
    ("spanner", "Up: Joints"), ("way oil", "Up: Lubrication"), ("coolant", "Up: Lubrication"),
    ("derust", "Now: Waiting"), ("primer", "Now: Waiting"), ("invoice", "Now: Waiting"), ("drawer", "Now: Places"),
    ("lever", "Prove: Controls"), ("diary", "Keep: Bench log"), ("mystery", "Down: Unknown"),
)  # fmt: skip


def test_names_come_before_what_is_told_and_the_shop_s_words_lead_there(
    frame: Frame, shop: Shop, qtbot: QtBot
) -> None:
    frame.show_page("bench")
    finder = _finder(frame)

    def found(asked: str) -> list[str]:
        finder.asked.setText(asked)
        return [finder.table.plain.text(row)[0] for row in range(finder.table.plain.rowCount())]

    assert found("paper dark")[0] == "Ink and paper dark"
    assert found("buy")[0] == "Print what is to buy"
    assert "Make: Means" in found("buy")[1:4]
    assert "Now: Waiting" in found("shopping")
    assert found("undo")[0].startswith("Undo")
    assert found("search")[0] in ("Find anything", "Find a part")
    assert found("delete")[0] in ("Remove", "Delete entry")
    for asked, page in (
        ("borrow", "Make: Means"),
        ("order", "Now: Waiting"),
        ("arrived", "Now: Waiting"),
        ("tote", "Now: Places"),
        ("torque", "Up: Joints"),
        ("rework", "Make: Decide"),
    ):
        assert page in found(asked)[:12], (asked, found(asked))
    lost = [(asked, page) for asked, page in SHOP_WORDS if page not in found(asked)[:6]]
    assert lost == [], "words a machinist would type"
    finder.reject()
    assert set(OF_PAGES) == {page.key for page in PAGES}, "each page says what else it is called"
    assert set(OF_ACTS) <= {row.key for row in ACTIONS}


def test_an_act_without_what_it_needs_says_so_and_does_nothing(
    frame: Frame, shop: Shop, qtbot: QtBot
) -> None:
    frame.desk.choose(subassembly_id=shop.headstock, part_ids=())
    finder = _finder(frame)
    qtbot.keyClicks(finder.asked, "concession")
    qtbot.keyClick(finder.asked, Qt.Key.Key_Return)
    assert finder.isVisible()
    assert "cannot be done now" in finder.said.text()
    finder.asked.setText("words of no act")
    assert finder.table.plain.rowCount() == 0
    finder.do_chosen()
    assert finder.isVisible()
    finder.reject()


def _sheet(frame: Frame, qapp: QApplication) -> str:
    frame.do("keys")
    sheet = next(one for one in frame.findChildren(HelpSheet) if one.isVisible())
    told = sheet.findChild(QTextBrowser)
    assert isinstance(told, QTextBrowser)
    words = told.toPlainText()
    sheet.close()
    qapp.processEvents()
    return words


def test_f1_shows_the_keys_of_the_page_and_what_the_words_mean(
    frame: Frame, shop: Shop, qapp: QApplication
) -> None:
    frame.show_page("bench")
    bench = _sheet(frame, qapp)
    frame.show_page("photos")
    photos = _sheet(frame, qapp)
    assert "Measurement grid" in bench
    assert "back to the inbox" not in bench
    assert photos.startswith("Photos")
    assert "back to the inbox" in photos
    assert "Measurement grid" not in photos
    for words in (bench, photos):
        assert "run home by hand, not tightened" in words
        assert "On every page" in words


def test_f1_finds_while_one_types_and_says_what_is_not_there(frame: Frame, shop: Shop) -> None:
    frame.show_page("bench")
    frame.do("keys")
    sheet = next(one for one in frame.findChildren(HelpSheet) if one.isVisible())
    meaning = GLOSSARY[-1]
    sheet.sought.setText(meaning.word[:4])
    found = sheet.text.textCursor()
    assert found.selectedText().casefold() == meaning.word[:4].casefold()
    sheet.sought.setText(meaning.word)
    cursor = sheet.text.textCursor()
    assert cursor.block().text() == meaning.word
    cursor.movePosition(QTextCursor.MoveOperation.NextBlock)
    assert cursor.block().text() == meaning.line
    cursor.movePosition(QTextCursor.MoveOperation.EndOfBlock)
    view = sheet.text.viewport().rect()
    assert view.contains(sheet.text.cursorRect(cursor).center()), "its whole meaning is in view"
    sheet.sought.setText("zzgrub")
    assert "“zzgrub” does not stand in this sheet" in sheet.said.text()
    sheet.sought.setText(meaning.word)
    assert sheet.said.text() == ""
    sheet.close()
