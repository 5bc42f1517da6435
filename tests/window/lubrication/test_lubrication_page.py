"""The Lubrication page through the window: points, the map by mouse and keyboard, proofs, and what starves."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QLineF, QPoint, Qt
from PySide6.QtGui import QPixmap
from PySide6.QtTest import QAbstractItemModelTester
from pytestqt.qtbot import QtBot

from rebuild.window.desk.desk import Desk
from rebuild.window.lubrication.map_view import RING
from rebuild.window.lubrication.page import LubricationPage
from rebuild.words.lubrication import FlowProof, OilPointKind
from rebuild.work.lubrication import acts as lubricate
from rebuild.work.lubrication.rows import oil_card


@pytest.fixture
def page(qtbot: QtBot, desk: Desk) -> LubricationPage:
    machine = desk.machine_id
    assert machine is not None
    pipe = lubricate.add_point(desk.store, machine, "pipe", OilPointKind.LINE, {"number": "L"}, at=(0.5, 0.5))
    typed = {"fed_by_id": str(pipe), "old_oil": "300 SUS machine oil"}
    lubricate.add_point(desk.store, machine, "cross nut", OilPointKind.BALL_OILER, typed, at=(0.25, 0.25))
    lubricate.add_point(desk.store, machine, "rear bearing", OilPointKind.FLIP_LID_WICK)
    made = LubricationPage(desk)
    qtbot.addWidget(made)
    made.resize(1200, 700)
    with qtbot.waitExposed(made):
        made.show()
    return made


def rows(page: LubricationPage) -> list[tuple[str, ...]]:
    return [page.table.plain.text(row) for row in range(page.table.plain.rowCount())]


def point(desk: Desk, number: str) -> tuple[float | None, float | None]:
    with desk.store.read() as connection:
        row = next(row for row in oil_card(connection, desk.machine_id or 0).rows if row.number == number)
    return row.x, row.y


def test_points_stand_with_todays_oil(page: LubricationPage) -> None:
    QAbstractItemModelTester(page.table.plain, QAbstractItemModelTester.FailureReportingMode.Fatal)
    assert [cells[0] for cells in rows(page)] == ["L", "2", "3"]
    assert rows(page)[1][2:5] == ("· cross nut", "300 SUS machine oil", "ISO VG 68")


def test_a_point_is_dragged_and_its_place_kept(page: LubricationPage, desk: Desk, qtbot: QtBot) -> None:
    row = page.map._card.rows[1] if page.map._card is not None else None
    assert row is not None
    spot = page.map.spot_of(row)
    assert spot is not None
    start = spot.toPoint()
    qtbot.mousePress(page.map, Qt.MouseButton.LeftButton, pos=start)
    qtbot.mouseMove(page.map, start + QPoint(40, 20))
    page.map._dragged = (row.id, spot + QPoint(60, 30))
    qtbot.mouseRelease(page.map, Qt.MouseButton.LeftButton, pos=start + QPoint(60, 30))
    x, y = point(desk, "2")
    assert x is not None
    assert y is not None
    assert x > 0.3
    assert y > 0.27
    assert page.table.chosen() == row.id
    desk.undo()
    assert point(desk, "2") == (0.25, 0.25)


def test_the_keyboard_places_and_moves(page: LubricationPage, desk: Desk, qtbot: QtBot) -> None:
    page.choose(page.table.plain.ids[2])
    qtbot.keyClick(page.map, Qt.Key.Key_Return)
    assert point(desk, "3") == (0.5, 0.5)
    qtbot.keyClick(page.map, Qt.Key.Key_Right)
    qtbot.keyClick(page.map, Qt.Key.Key_Up, Qt.KeyboardModifier.ShiftModifier)
    assert point(desk, "3") == (0.51, 0.45)


def test_blocked_and_seen_by_button(page: LubricationPage, desk: Desk) -> None:
    page.choose(page.table.plain.ids[0])
    page.buttons["blocked"].click()
    assert rows(page)[1][7] == "starves: L pipe is blocked"
    assert "L pipe is blocked: 2 cross nut starves." in page.findings.text()
    page.choose(page.table.plain.ids[1])
    said: list[str] = []
    desk.said.connect(lambda words, _how: said.append(words))
    page.buttons["seen"].click()
    assert "cannot get oil" in said[-1]
    page.lacking.setChecked(True)
    assert len(rows(page)) == 3


def test_a_field_is_edited_in_place(page: LubricationPage, desk: Desk) -> None:
    page.choose(page.table.plain.ids[2])
    box = page.form.boxes["duty"]
    box.editor.put("frying")
    box.is_touched = True
    page.form.commit("duty")
    assert "is not a duty" in box.trouble
    box.editor.put("spindle")
    box.is_touched = True
    page.form.commit("duty")
    assert rows(page)[2][4].startswith("L-FC or L-FD")


def test_a_picture_can_be_the_map(
    page: LubricationPage, desk: Desk, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    picture = QPixmap(200, 100)
    picture.fill(Qt.GlobalColor.gray)
    target = desk.store.path.parent / "front.png"
    assert picture.save(str(target))
    monkeypatch.setattr(
        "rebuild.window.lubrication.page.QFileDialog.getOpenFileName", lambda *_given: (str(target), "")
    )
    page.buttons["picture"].click()
    assert desk.store.setting(page._map_key()) == "front.png"
    sheet = page.map.sheet()
    assert sheet.width() / sheet.height() == pytest.approx(2.0, rel=0.02)


def test_another_windows_proof_appears(page: LubricationPage, desk: Desk) -> None:
    page.choose(page.table.plain.ids[2])
    key = page.table.chosen()
    assert key is not None
    lubricate.prove_flow(desk.store, [key], FlowProof.PROVED)
    assert rows(page)[2][7].startswith("flow proved")


def test_the_card_is_printed_where_the_user_says(
    page: LubricationPage, desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    target = desk.store.path.parent / "card"
    monkeypatch.setattr(
        "rebuild.window.exchange.sheet_saving.QFileDialog.getSaveFileName", lambda *_given: (str(target), "")
    )
    page.buttons["print"].click()
    assert target.with_suffix(".pdf").read_bytes().startswith(b"%PDF")


def test_numbers_stand_outside_the_outline_and_keep_apart(page: LubricationPage, desk: Desk) -> None:
    card = page.map._card
    assert card is not None
    for at, row in enumerate(card.rows):
        lubricate.put_on_map(desk.store, row.id, (0.5 + 0.01 * at, 0.5))
    page.refresh()
    card = page.map._card
    assert card is not None
    places = [page.map.place_of(row) for row in card.rows]
    assert len(places) >= 2
    assert not any(page.map.sheet().contains(place) for place in places)
    assert all(page.map.rect().contains(place.toPoint()) for place in places)
    apart = [QLineF(one, other).length() for at, one in enumerate(places) for other in places[:at]]
    assert min(apart) >= 2 * page.map.radius + RING, "the chosen one's ring meets no neighbour"
    large = page.map.font()
    large.setPointSizeF(large.pointSizeF() * 2)
    page.map.setFont(large)
    assert 2 * page.map.radius > page.map.fontMetrics().horizontalAdvance("27"), (
        "numbers stand in their rings"
    )
    assert page.map.point_at(places[0]) == card.rows[0]
