"""The Photos page: taking in, sorting by key, marking by dragging."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from PIL import Image
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QAbstractItemModelTester
from pytestqt.qtbot import QtBot

from rebuild.window.desk.desk import Desk
from rebuild.window.photos.page import PhotosPage
from rebuild.words.photos import MarkKind
from rebuild.work.photos.rows import Which, marks, photos
from tests.conftest import Shop


@pytest.fixture
def page(qtbot: QtBot, desk: Desk, tmp_path: Path) -> Iterator[PhotosPage]:
    made = PhotosPage(desk)
    made.resize(1100, 640)
    with qtbot.waitExposed(made):
        made.show()
    for at in range(3):
        Image.new("RGB", (320, 240), (60 * at, 90, 120)).save(tmp_path / f"{at}.png")
    made.take(sorted(tmp_path.glob("*.png")))
    yield made
    made.model.stop()


def test_the_model_keeps_qt_s_rules(page: PhotosPage) -> None:
    tester = QAbstractItemModelTester(page.model, QAbstractItemModelTester.FailureReportingMode.Fatal, page)
    page.refresh()
    assert tester.model() is page.model
    assert page.model.rowCount() == 3


def test_a_key_sorts_to_the_chosen_part(qtbot: QtBot, page: PhotosPage, desk: Desk, shop: Shop) -> None:
    desk.choose(part_ids=(shop.spindle,))
    page.list.setFocus()
    page.list.setCurrentIndex(page.model.index(1))
    qtbot.keyClick(page.list, Qt.Key.Key_P)
    with desk.store.read() as connection:
        assert len(photos(connection, shop.machine, Which.CHOSEN, part_ids=(shop.spindle,))) == 1
    page.which.setCurrentText(Which.CHOSEN.value)
    assert page.model.rowCount() == 1


def test_sorting_to_nothing_asks_for_a_part_and_takes_it_by_its_code(
    qtbot: QtBot, page: PhotosPage, desk: Desk, shop: Shop
) -> None:
    said: list[str] = []
    desk.said.connect(lambda words, _how: said.append(words))
    page.list.setCurrentIndex(page.model.index(0))
    desk.choose(part_ids=())
    page.list.actions()[0].trigger()
    assert "Choose a part" in said[-1]
    line = page.hand.line()
    qtbot.keyClicks(line, "no such")
    qtbot.keyClick(line, Qt.Key.Key_Return)
    assert said[-1].startswith("“no such” is no part of this machine")
    line.clear()
    qtbot.keyClicks(line, "hs-02")
    qtbot.keyClick(line, Qt.Key.Key_Return)
    assert desk.selection.part_ids == (shop.cap,)
    assert page.hand.currentText().startswith("HS-02")
    page.list.setCurrentIndex(page.model.index(0))
    page.list.actions()[0].trigger()
    assert said[-1] == f"1 photo filed to {page.hand.currentText()}."
    line.setFocus()
    line.selectAll()
    qtbot.keyClicks(line, "bearing")
    qtbot.keyClick(line, Qt.Key.Key_Return)
    assert page.hand.currentText() == "HS-02 bearing cap", "the only part these words fit is meant"
    desk.choose(part_ids=(shop.spindle,))
    page.list.setFocus()
    assert page.hand.currentText().startswith("HS-01")


def test_an_arrow_is_dragged_onto_the_photo(qtbot: QtBot, page: PhotosPage, desk: Desk) -> None:
    page.list.setCurrentIndex(page.model.index(0))
    page.tool.setCurrentText(MarkKind.ARROW.value)
    field = page.sheet.field()
    start = QPoint(int(field.left() + field.width() * 0.25), int(field.top() + field.height() * 0.5))
    end = QPoint(int(field.left() + field.width() * 0.75), int(field.top() + field.height() * 0.5))
    qtbot.mousePress(page.sheet, Qt.MouseButton.LeftButton, pos=start)
    qtbot.mouseMove(page.sheet, end)
    qtbot.mouseRelease(page.sheet, Qt.MouseButton.LeftButton, pos=end)
    photo = page.current()
    assert photo is not None
    with desk.store.read() as connection:
        mark = marks(connection, photo.id)[0]
    assert mark.kind is MarkKind.ARROW
    assert mark.x == pytest.approx(0.25, abs=0.01)
    assert mark.x2 == pytest.approx(0.75, abs=0.01)


def test_a_label_without_words_says_so_and_stores_nothing(qtbot: QtBot, page: PhotosPage, desk: Desk) -> None:
    said: list[str] = []
    desk.said.connect(lambda words, _how: said.append(words))
    page.tool.setCurrentText(MarkKind.LABEL.value)
    qtbot.mousePress(page.sheet, Qt.MouseButton.LeftButton, pos=page.sheet.rect().center())
    qtbot.mouseRelease(page.sheet, Qt.MouseButton.LeftButton, pos=page.sheet.rect().center())
    assert "Words: is empty." in said[-1]


def test_small_pictures_come_from_the_other_thread(qtbot: QtBot, page: PhotosPage) -> None:
    index = page.model.index(0)

    def there() -> bool:
        pixmap = page.model.data(index, Qt.ItemDataRole.DecorationRole)
        return getattr(pixmap, "height", lambda: 0)() == 111  # 148 wide, 4:3

    qtbot.waitUntil(there, timeout=4000)


def test_what_it_shows_is_stored_when_the_field_is_left(
    qtbot: QtBot, page: PhotosPage, desk: Desk, shop: Shop
) -> None:
    page.proves.setText("oil hole up")
    page.proves.editingFinished.emit()
    with desk.store.read() as connection:
        assert "oil hole up" in [row.proves for row in photos(connection, shop.machine)]


def test_a_missing_file_is_said(page: PhotosPage, desk: Desk) -> None:
    photo = page.current()
    assert photo is not None
    photo.path(desk.store.path).unlink()
    page._show()
    assert "is missing or cannot be read" in page.sheet._empty
