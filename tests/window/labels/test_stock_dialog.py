"""The tags dialog: of what, how many, on which labels; its preview is the page itself."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QDesktopServices, QImage
from PySide6.QtWidgets import QFileDialog, QLabel

from rebuild.window.desk.desk import Desk
from rebuild.window.labels.stock_dialog import StockDialog, print_bags, print_tags, print_tags_of_place
from rebuild.window.places.page import PlacesPage
from rebuild.window.shell.frame import Frame
from rebuild.words.places import PlaceKind
from rebuild.work.machines.acts import add_place, put
from rebuild.work.places.rows import places
from rebuild.work.teardown.acts_line import say_removal
from tests.conftest import Shop
from tests.window.seen import named


def offered(desk: Desk, frame: Frame) -> list[str]:
    dialog = print_tags(desk, frame)
    found = [dialog.of.itemText(at) for at in range(dialog.of.count())]
    dialog.reject()
    return found


def test_it_says_of_what_how_many_and_on_what_and_shows_the_page(
    frame: Frame, shop: Shop, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    desk = frame.desk
    desk.choose(subassembly_id=shop.headstock, part_ids=(shop.cap,))
    say_removal(shop.store, shop.machine, shop.headstock, "hs1 u, > bag 7", make=True)
    assert offered(desk, frame) == [
        "the chosen part (1)", "every part of HS Headstock (2)", "what is off the machine now (1)",
        "every part of the machine (2)", "what lies in bag 7 (1)",
    ]  # fmt: skip
    dialog = print_tags(desk, frame)
    named(dialog)
    assert dialog.names.text() == "HS-02 bearing cap"
    assert dialog.told.text() == "1 label of 63.5 × 38.1 mm, 3 across and 7 down on A4: 1 page."
    dialog.of.setCurrentIndex(1)
    assert dialog.names.text() == "HS-01 spindle, HS-02 bearing cap"
    dialog.first.setText("21")
    assert dialog.told.text().endswith("on A4: 2 pages.")
    assert inked(dialog.preview.image) == (2, 6), "only the last label of the first sheet is printed"
    dialog.first.setText("1")
    assert inked(dialog.preview.image) == (0, 0)
    dialog.first.setText("22")
    assert "First label: “22” is not on the sheet, which has 21" in dialog.told.text()
    assert (dialog.print_button.isEnabled(), dialog.preview.image.isNull()) == (False, True)
    dialog.first.setText("1")
    dialog.stock.setCurrentText("roll 62 x 29")
    assert dialog.told.text() == "2 labels of 62 × 29 mm, one after another: 2 pages."
    target = tmp_path / "tags.pdf"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_given: (str(target), ""))
    dialog.print_button.click()
    assert target.read_bytes().startswith(b"%PDF")
    assert frame.messages.sentence == f"Saved as tags.pdf in {tmp_path}."
    opened: list[str] = []
    monkeypatch.setattr(QDesktopServices, "openUrl", lambda url: opened.append(url.toLocalFile()) or True)
    assert frame.messages.open_it.isVisibleTo(frame)
    frame.messages.open_it.click()
    assert opened == [str(target)]
    desk.say("Something else.")
    assert not frame.messages.open_it.isVisibleTo(frame)
    assert desk.store.setting("labels") == "roll 62 x 29"
    dialog = print_tags(desk, frame)
    dialog.stock.setCurrentIndex(dialog.stock.findText("A4, 63.5", Qt.MatchFlag.MatchStartsWith))
    assert dialog.first.text() == "1"
    dialog.first.setText("4")
    dialog.of.setCurrentIndex(1)
    dialog.print_button.click()
    dialog = print_tags(desk, frame)
    assert dialog.first.text() == "6", "the sheet begun goes on after its last label"
    dialog.stock.setCurrentText("roll 62 x 29")
    assert dialog.first.text() == "1", "other labels are another sheet"
    dialog.reject()

    desk.choose(subassembly_id=shop.carriage, part_ids=())
    empty = print_tags(desk, frame)
    assert "CA Carriage has no part yet. Nothing is printed." in empty.told.text()
    assert not empty.print_button.isEnabled()
    empty.reject()
    bags = print_bags(desk, frame)
    assert bags.names.text() == "bag 7 HS-01 spindle"
    captions = {one.text(): one.buddy() for one in bags.findChildren(QLabel)}
    assert captions["&First label"] is bags.first, "without a buddy its ampersand is shown"
    bags.reject()
    _of_a_place(frame, shop)


def _of_a_place(frame: Frame, shop: Shop) -> None:
    """Tags of what lies in the chosen place, and of the parts chosen there; labels of the chosen places."""
    put(shop.store, [shop.cap], add_place(shop.store, "A", PlaceKind.TRAY))
    with shop.store.read() as connection:
        bag, tray = (row.id for row in places(connection))
    dialog = print_tags_of_place(frame.desk, frame, tray)
    assert (dialog.of.currentText(), dialog.names.text()) == ("what lies in tray A (1)", "HS-02 bearing cap")
    dialog.reject()
    put(shop.store, [shop.spindle], tray)
    dialog = print_tags_of_place(frame.desk, frame, tray, [shop.spindle, shop.cap])
    assert [dialog.of.itemText(at) for at in (0, 1)] == ["the chosen parts (2)", "what lies in tray A (2)"]
    dialog.reject()
    frame.show_page("places")
    page = frame.page("places")
    assert isinstance(page, PlacesPage)
    page.table.selectAll()
    page.label.click()
    (shown,) = [one for one in page.findChildren(StockDialog) if one.isVisible()]
    assert shown.of.itemText(0) == "the chosen places (2)"
    assert shown.offer.ids == (bag, tray)
    shown.reject()
    page.table.choose(tray)
    page.lies.selectRow(0)
    page.tags.click()
    (shown,) = [one for one in page.findChildren(StockDialog) if one.isVisible()]
    assert [shown.of.itemText(at) for at in (0, 1)] == ["what lies in tray A (2)", "the chosen part (1)"]
    shown.reject()


def test_on_letter_paper_its_labels_come_first(frame: Frame, shop: Shop) -> None:
    frame.desk.store.set_setting("paper", "Letter")
    dialog = print_tags(frame.desk, frame)
    assert dialog.stock.currentText().startswith("Letter, ")
    assert "on Letter" in dialog.told.text()
    dialog.reject()


def inked(image: QImage) -> tuple[int, int]:
    """Column and row of the first label that has ink, of the 3 x 7 on A4."""
    wide, high = image.width(), image.height()
    for row in range(7):
        for column in range(3):
            left, top = (7.2 + column * 66) / 210 * wide, (15.1 + row * 38.1) / 297 * high
            across, down = int(60 / 210 * wide), int(36 / 297 * high)
            if any(
                image.pixelColor(int(left) + x, int(top) + y).lightness() < 90
                for x in range(4, across, 2)
                for y in range(4, down, 2)
            ):
                return column, row
    return -1, -1
