"""True and oiled: a survey, the chart, the oil card, the gate before power."""

from __future__ import annotations

from pathlib import Path

import pytest
from PIL import Image
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication

from rebuild.window.charts.page import ChartPage
from rebuild.window.lubrication.page import LubricationPage
from rebuild.window.photos.page import PhotosPage
from rebuild.window.results.working_window import WorkingWindow
from rebuild.window.run_in.page import RunInPage
from rebuild.window.surveys.page import SurveyPage
from rebuild.work.lubrication import acts as lubricate
from rebuild.work.photos.rows import Which, marks, photos
from tests.conftest import Shop
from tests.journeys.hands import Hands


def test_a_bed_is_surveyed(hands: Hands, shop: Shop) -> None:
    """The bed under the level.

    1. Survey > New survey: name, line, unit, bridge length and allowed deviation, all by keyboard.
    2. A column of readings comes from a spreadsheet by Ctrl+V; one more is typed.
    3. The results say how far from straight and which way; Working opens in a window of its own, Esc closes it.
    4. One Undo takes the last reading back, and the result follows.
    """
    user = hands
    page = user.page("survey")
    assert isinstance(page, SurveyPage)
    user.click(user.button("New survey…"))
    dialog = user.dialog("New survey")
    user.tab_to("Name")
    user.type("Bed")
    user.tab_to("Lines")
    user.type("front V")
    user.tab_to("Unit of the readings")
    user.type("mm/m")
    user.tab_to("Step (bridge length)")
    user.type("200 mm")
    user.tab_to("Limit of deviation")
    user.type("0.02 mm")
    user.enter()
    assert not dialog.isVisible(), user.said
    page.table.setFocus()
    page.table.setCurrentIndex(page.model.index(0, 0))
    QGuiApplication.clipboard().setText("0.04\n0.02\n-0.02\n")
    user.ctrl(Qt.Key.Key_V)
    page.table.setCurrentIndex(page.model.index(3, 0))
    user.press(Qt.Key.Key_F2)
    user.type("-0.04")
    user.enter()
    user.bot.waitUntil(lambda: page.model.data(page.model.index(3, 0)) == "-0.04", timeout=1000)
    item = page.results.topLevelItem(0)
    assert item is not None
    assert (item.text(0), item.text(1), item.text(3)) == ("front V", "12.0 µm", "convex")
    user.click(user.button("Working"))
    window = user.dialog("Working")
    assert isinstance(window, WorkingWindow)
    assert "200" in window.pane.page.toPlainText()
    user.press(Qt.Key.Key_Escape)
    assert not window.isVisible()
    user.menu("Edit", "Undo")
    again = page.results.topLevelItem(0)
    assert again is not None
    assert again.text(1) != "12.0 µm"


def test_chart_oil_and_power(hands: Hands, shop: Shop) -> None:
    """Before the first power.

    1. Chart: the usual tests come with one press; a reading typed without its sign is asked about, a click answers;
       the verdict stands in its row with the limit's origin.
    2. Lubrication: a blocked branch says what starves behind it; proving the pipe, then the point, clears them.
    3. Run-in > Before power: what is not proved is listed with the caution and to whom it defers; an electrical look
       wants the name of licensed hands.
    """
    user = hands
    store = user.frame.desk.store
    chart = user.page("chart")
    assert isinstance(chart, ChartPage)
    user.click(user.button("Usual tests"))
    table = chart.tests.table
    row = next(at for at in range(table.plain.rowCount()) if table.plain.text(at)[0] == "6")
    user.click_item(table, table.plain.index(row, 0))
    entry = chart.tests.panel.entry
    user.click(entry.value)
    user.type("0.012")
    user.enter()
    assert "has no sign" in entry.trouble
    user.click(user.button("-0.012"))
    assert table.plain.text(row)[5] == "-0.012 mm"

    pipe = lubricate.add_point(store, shop.machine, "pipe to the rear", typed={"number": "P"})
    lubricate.add_point(store, shop.machine, "rear bearing", typed={"number": "2", "fed_by_id": str(pipe)})
    oil = user.page("lubrication")
    assert isinstance(oil, LubricationPage)
    user.click_item(oil.table, oil.table.plain.index(0, 0))
    user.click(user.button("Blocked"))
    assert "starves" in oil.table.plain.text(1)[7]
    for at in (0, 1):
        user.click_item(oil.table, oil.table.plain.index(at, 0))
        if at == 0:
            run_in = user.page("run-in")
            assert isinstance(run_in, RunInPage)
            assert "16 open: do not power it on" in run_in.gate.heading.text()
            user.page("lubrication")
        user.click(user.button("Oil seen"))
    assert "proved" in oil.table.plain.text(1)[7]
    run_in = user.page("run-in")
    assert isinstance(run_in, RunInPage)
    assert run_in.gate.heading.text() == "14 open: do not power it on", (
        "the list of checks laid out with the machine"
    )


@pytest.fixture
def camera(tmp_path: Path) -> Path:
    folder = tmp_path / "camera"
    folder.mkdir()
    for at in range(3):
        Image.new("RGB", (320, 240), (60 * at, 90, 120)).save(folder / f"{at}.png")
    return folder


def test_photos_are_sorted_with_one_key(hands: Hands, shop: Shop, camera: Path) -> None:
    """Three photos from a camera: taken in, the spindle chosen, P puts one to it; a mark is drawn and labelled;
    what it shows is typed; the file beside the project holds them by content, and the originals are untouched."""
    user = hands
    page = user.page("photos")
    assert isinstance(page, PhotosPage)
    before = {path.name: path.read_bytes() for path in camera.iterdir()}
    page.take(sorted(camera.glob("*.png")))
    assert page.model.rowCount() == 3
    user.frame.desk.choose(part_ids=(shop.spindle,))
    page.list.setFocus()
    page.list.setCurrentIndex(page.model.index(1))
    user.press(Qt.Key.Key_P)
    with user.frame.desk.store.read() as connection:
        sorted_to = photos(connection, shop.machine, Which.CHOSEN, part_ids=(shop.spindle,))
    assert len(sorted_to) == 1
    page.tool.setCurrentText("label")
    page.words.setFocus()
    user.type("1-1")
    user.click(page.sheet, page.sheet.rect().center())
    photo = page.current()
    assert photo is not None
    with user.frame.desk.store.read() as connection:
        assert [mark.text for mark in marks(connection, photo.id)] == ["1-1"]
    assert {path.name: path.read_bytes() for path in camera.iterdir()} == before
    page.model.stop()
