"""The Places page: what lies where, found by the thing's name, and a part put there by keyboard."""

from __future__ import annotations

import datetime as dt

from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from rebuild.store.store import Store
from rebuild.window.desk.desk import Desk
from rebuild.window.places.page import PlacesPage
from rebuild.words.places import PlaceKind
from rebuild.work.machines.acts import add_place, put
from rebuild.work.waiting.acts import add_stock
from tests.conftest import Shop
from tests.window.seen import named, shown

NOW = dt.datetime(2026, 6, 15, 20, 0)
ENTER = Qt.Key.Key_Return


def test_what_lies_where_is_found_put_and_followed(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    page = PlacesPage(desk, now=lambda: NOW)
    shown(qtbot, page)
    assert page.table.plain.rowCount() == 0
    tray = add_place(desk.store, "tray 2", PlaceKind.TOTE)
    grinder = add_place(desk.store, "grinding shop", PlaceKind.AT_A_SHOP)
    put(desk.store, [shop.spindle], grinder, at=NOW - dt.timedelta(days=12))
    add_stock(desk.store, "felt strip", {"place_id": str(tray)})
    assert page.table.plain.rowCount() == 2
    page.table.choose(grinder)
    assert page.heading.text() == "grinding shop: 1 thing"
    assert page.lies.plain.text(0) == ("HS-01 spindle", "part", "Toolroom lathe", "3 Jun 20:00, 12 d")
    page.table.choose(tray)
    page.line.setFocus()
    qtbot.keyClicks(page.line, "spanner")
    qtbot.keyClick(page.line, ENTER)
    assert page.line.text() == "spanner", "what is not known stays in the line"
    page.line.clear()
    qtbot.keyClicks(page.line, "hs1")
    qtbot.keyClick(page.line, ENTER)
    assert [page.lies.plain.text(at)[0] for at in range(2)] == ["HS-01 spindle", "felt strip"]
    assert page.line.text() == ""
    page.table.choose(grinder)
    assert page.heading.text() == "grinding shop: nothing lies here"
    assert page.before.plain.text(0)[0] == "HS-01 spindle"
    assert page.before.plain.text(0)[2] == "sent out: HS-01 spindle"
    qtbot.keyClicks(page.find_line, "felt")
    assert (page.table.plain.ids, page.table.chosen()) == ([tray], tray)
    page.find_line.clear()
    desk.undo()
    asked: list[str] = []
    desk.page_asked.connect(asked.append)
    desk.choose(part_ids=(shop.spindle,), key=None)
    assert page.table.chosen() == grinder, "a part chosen elsewhere shows its place"
    page.lies.selectRow(0)
    page.lies.activated.emit(page.lies.plain.index(0, 0))
    assert (asked, desk.selection.part_ids) == (["bench"], (shop.spindle,))
    other = Store.open(shop.path)
    put(other, [shop.cap], grinder, at=NOW)
    other.close()
    desk._look_elsewhere()
    assert page.lies.plain.rowCount() == 2, "another window's act is heard"
    named(page)
