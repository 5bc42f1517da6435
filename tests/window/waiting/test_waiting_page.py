"""The Waiting page: orders, clocks, what is already there, costs."""

from __future__ import annotations

import datetime as dt

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from rebuild.window.desk.desk import Desk
from rebuild.window.forms.edit_form import EditForm
from rebuild.window.forms.editors import ReferenceEditor
from rebuild.window.plan.what_next import WhatNextPane
from rebuild.window.waiting.page import WaitingPage
from rebuild.words.decisions import Decision
from rebuild.words.means import MeansKind
from rebuild.words.treatments import Treatment
from rebuild.work.decisions import acts as decide
from rebuild.work.editing.acts import edit
from rebuild.work.machines import acts as identify
from rebuild.work.means import acts as means
from rebuild.work.plan.treatments_in_work import row_of
from rebuild.work.records.rows import card
from rebuild.work.waiting import acts as waiting
from rebuild.work.waiting.rows import Stand, waiting as waiting_rows
from tests.conftest import Shop
from tests.window.seen import named, shown

ENTER = Qt.Key.Key_Return


NOW = dt.datetime(2026, 6, 15, 20, 0)


@pytest.fixture
def waits(qtbot: QtBot, desk: Desk, shop: Shop) -> WaitingPage:
    made = WaitingPage(desk, now=lambda: NOW)
    shown(qtbot, made)
    return made


def test_what_the_shop_already_has_is_shown_before_an_order(
    qtbot: QtBot, waits: WaitingPage, desk: Desk, shop: Shop
) -> None:
    waiting.add_stock(desk.store, "taper pins No. 4", {"quantity": "24", "counted_in": "pcs"})
    line = waits.orders.line
    qtbot.keyClicks(line.line, "taper pin no. 4")
    qtbot.keyClick(line.line, ENTER)
    assert line.found.plain.text(0)[0] == "taper pins No. 4"
    assert "Already have it?" in line.said.text()
    with desk.store.read() as connection:
        assert waiting_rows(connection, shop.machine, NOW) == []
    qtbot.keyClick(line.line, ENTER)
    with desk.store.read() as connection:
        (row,) = waiting_rows(connection, shop.machine, NOW)
    assert (row.what, row.stand) == ("taper pin no. 4", Stand.WANTED)
    assert line.line.text() == ""


def test_what_is_to_be_bought_stands_over_the_orders_and_goes_to_the_line(
    waits: WaitingPage, desk: Desk, shop: Shop
) -> None:
    """Three reasons to buy, each gone from the list once it is on an order."""
    assert not waits.orders.to_buy.isVisible()
    store, listed = desk.store, waits.orders.to_buy
    decide.decide(store, [shop.cap], Decision.BUY, reason="split")
    gasket = identify.add_part(store, shop.machine, shop.headstock, "cover gasket")
    tap = means.add_means(store, "tap Tr 30x6", MeansKind.TOOL)
    unnamed = means.add_means(store, "left-hand reamer", MeansKind.TOOL)
    means.name_means(store, shop.measure, "tap Tr 30x6")
    waits.refresh()
    assert unnamed
    told = [(row.record, row.id, row.why) for row in listed._rows]
    assert told == [
        ("part", shop.cap, "decided: buy"),
        ("part", gasket, "put in new whenever it was out"),
        ("means", tap, "tool: the shop has none"),
    ]
    assert listed.isVisible()
    assert listed.said.text() == "3 things to buy, not ordered yet"
    listed.table.choose(0)
    listed.take.click()
    assert waits.orders.line.line.text().endswith("bearing cap")
    waits.orders.line.add()
    waits.orders.line.add()
    waits.refresh()
    listed.table.choose(1)
    listed.take.click()
    waits.refresh()
    assert [row.id for row in listed._rows] == [gasket]
    with store.read() as connection:
        stands = {row.stand for row in waiting_rows(connection, shop.machine, NOW)}
    assert stands == {Stand.WANTED}


def test_one_press_notes_ordered_arrived_and_checked(waits: WaitingPage, desk: Desk, shop: Shop) -> None:
    waiting.add_waiting(desk.store, shop.machine, "drive belt")
    said: list[str] = []
    desk.said.connect(lambda sentence, _how: said.append(sentence))
    waits.orders.mark(waiting.Mark.CHECKED)
    assert "Say when it arrived before it is checked" in said[-1]
    for mark in (waiting.Mark.ORDERED, waiting.Mark.ARRIVED, waiting.Mark.CHECKED):
        waits.orders.mark(mark)
    assert waits.orders.list.table.plain.text(0)[0] == "checked 15 Jun 20:00"


def test_what_was_refused_in_one_field_stays_when_the_next_is_stored(
    qtbot: QtBot, waits: WaitingPage, desk: Desk, shop: Shop
) -> None:
    key = waiting.add_waiting(desk.store, shop.machine, "drive belt")
    form = waits.orders.list.form
    price, who = form.boxes["price"], form.boxes["who"]
    qtbot.keyClicks(price.widget, "about 30")
    qtbot.keyClick(price.widget, ENTER)
    assert "“about 30” is not a number" in price.trouble
    qtbot.keyClicks(who.widget, "the belt man")
    qtbot.keyClick(who.widget, ENTER)
    with desk.store.read() as connection:
        assert card(connection, "waiting", key).fields["who"] == "the belt man"
    assert price.editor.typed() == "about 30"
    assert "“about 30” is not a number" in price.trouble


def test_a_clock_is_started_from_its_line_and_closed(qtbot: QtBot, waits: WaitingPage) -> None:
    pane = waits.clocks
    waits.views.show_view(1)
    pane.kind.setCurrentIndex(pane.kind.findText("re-level"))
    qtbot.keyClicks(pane.what, "bed")
    qtbot.keyClicks(pane.soonest, "4 h, 3 d, 30 d")
    qtbot.keyClicks(pane.latest, "1 h")
    qtbot.keyClick(pane.latest, ENTER)
    assert "before the soonest" in pane.said.text()
    assert pane.what.text() == "bed"
    pane.latest.clear()
    qtbot.keyClick(pane.latest, ENTER)
    assert pane.list.table.plain.rowCount() == 3
    assert pane.list.table.plain.text(0)[2] == "re-level from 16 Jun, in 4 h"
    pane.close_chosen()
    assert pane.list.table.plain.rowCount() == 2
    named(waits)


def test_costs_add_up(waits: WaitingPage, desk: Desk, shop: Shop) -> None:
    waiting.add_waiting(desk.store, shop.machine, "felts", part_id=shop.cap, typed={
        "price": "28", "ordered_at": "2026-05-01", "arrived_at": "2026-05-10",
    })  # fmt: skip
    table = waits.cost.groups.plain
    assert [table.text(row) for row in range(table.rowCount())] == [
        ("HS Headstock", "28.00", "0.00", "0.0"),
        ("unallocated", "0.00", "0.00", "3.0"),
        ("in all", "28.00", "0.00", "3.0"),
    ]  # fmt: skip


def test_what_is_called_exactly_as_a_part_is_for_that_part_not_for_the_one_in_hand(
    qtbot: QtBot, waits: WaitingPage, desk: Desk, shop: Shop
) -> None:
    belt = identify.add_part(desk.store, shop.machine, shop.headstock, "Drive belt", "DR-01")
    decide.decide(desk.store, [belt], Decision.BUY, reason="cracked")
    identify.add_part(desk.store, shop.machine, shop.headstock, "Drive belt", "DR-02")
    desk.choose(part_ids=(shop.cap,), key=None)
    line = waits.orders.line
    assert line.buys == ["DR-01 Drive belt"]
    for text, part in (("drive belt", belt), ("DR-01", belt), ("felt for the cap", None)):
        qtbot.keyClicks(line.line, text)
        qtbot.keyClick(line.line, ENTER)
        with desk.store.read() as connection:
            row = next(one for one in waiting_rows(connection, shop.machine, NOW) if one.what == text)
        assert row.part_id == part, text
    assert line.buys == [], "it is ordered"
    decide.decide(desk.store, [belt + 1], Decision.BUY, reason="cracked, too")
    assert line.buys == ["DR-02 Drive belt"]
    qtbot.keyClicks(line.line, "Drive belt")
    qtbot.keyClick(line.line, ENTER)
    if not line.said.text().startswith("▸ Which one"):
        qtbot.keyClick(line.line, ENTER)
    assert line.said.text().startswith("▸ Which one: DR-01 Drive belt or DR-02 Drive belt? Type its code.")
    assert desk.store.undo_label() != "new order or loan Drive belt"
    line.line.clear()
    form = EditForm(desk, "waiting")
    qtbot.addWidget(form)
    form.show_record(row.id)
    editor = form.boxes["part_id"].widget
    assert isinstance(editor, ReferenceEditor)
    for text, part in (("DR-01", belt), ("dr-02", belt + 1)):
        editor.line().selectAll()
        qtbot.keyClicks(editor.line(), text)
        form.commit("part_id")
        with desk.store.read() as connection:
            assert card(connection, "waiting", row.id).references["part_id"] == part
    assert ReferenceEditor.typed(editor) == str(belt + 1)
    editor.setEditText("Drive belt")
    assert editor.typed() == "Drive belt", "two are called so: it is refused, not guessed"


def test_a_batch_goes_in_and_comes_out_by_one_press_each(
    qtbot: QtBot, waits: WaitingPage, desk: Desk, shop: Shop
) -> None:
    """Seen: cleaning and paint, over a third of the hours, had no home."""
    for name, condition, finish in (
        ("bracket", "greasy", ""),
        ("clamp", "dirty", ""),
        ("guard", "", "grey enamel"),
    ):
        key = identify.add_part(desk.store, shop.machine, shop.headstock, name)
        edit(desk.store, "part", [key], {"condition": condition, "finish": finish, "material": "steel"})
    pane = waits.batches
    waits.show_row("batch", row_of(key, Treatment.DEGREASE))
    assert waits.views.view_shown is pane
    item = pane.tree.currentItem()
    assert item is not None
    assert item.text(0) == "guard"
    item.setCheckState(0, Qt.CheckState.Unchecked)
    assert "hot alkaline wash" in pane.told.text()
    assert "Caustic" in pane.told.text()
    assert pane.soonest.placeholderText() == "2 h, assumed"
    qtbot.keyClicks(pane.soonest, "two days?")
    pane.begin()
    assert "two days?" in pane.said.text()
    assert pane.soonest.text() == "two days?"
    pane.soonest.clear()
    pane.begin()
    assert desk.store.undo_label() == "batch begun degrease: 2 parts"
    assert pane.batch is not None
    assert [one.part for one in pane.batch.inside] == ["bracket", "clamp"]
    assert [one.part for one in pane.batch.ready] == ["guard"]
    assert pane.ticked() == [], "what was unticked stays so"
    named(waits)
    pane.tree.setCurrentItem(pane.tree.topLevelItem(0))
    pane.take_out()
    assert "has not lain for its least time" in pane.gate.sentence.text()
    qtbot.keyClicks(pane.gate.reason, "clean as it is")
    qtbot.keyClick(pane.gate.reason, Qt.Key.Key_Return)
    assert desk.store.undo_label() == "batch out of the bath degrease: 2 parts out"


# Seen: “Look whether ... is there already, else order it” led to the part on the bench.
def test_go_to_it_fills_the_order_line_with_the_part_and_then_leads_to_its_order(
    qtbot: QtBot, waits: WaitingPage, desk: Desk, shop: Shop
) -> None:
    decide.decide(desk.store, [shop.spindle], Decision.BUY, reason="bent")
    desk.page_asked.connect(lambda key: key == "waiting" and waits.views.show_view(1))
    desk.row_asked.connect(lambda key, *row: key == "waiting" and waits.show_row(*row))
    plan = WhatNextPane(desk)
    qtbot.addWidget(plan)
    plan.refresh()

    def go() -> None:
        at = next(
            at
            for at in range(plan.list.topLevelItemCount())
            if "order it" in plan.list.topLevelItem(at).text(0)
        )
        plan.list.setCurrentItem(plan.list.topLevelItem(at))
        plan.go.click()

    line = waits.orders.line.line
    line.setText("grease")
    go()
    assert line.text() == "grease", "what was typed is not lost"
    assert "come back for HS-01 spindle" in waits.orders.line.said.text()
    line.clear()
    go()
    assert (waits.views.shown, line.text()) == (0, "HS-01 spindle")
    waits.orders.line.add()
    with desk.store.read() as connection:
        (row,) = waiting_rows(connection, shop.machine, NOW)
    assert (row.what, row.part_id, row.stand) == ("HS-01 spindle", shop.spindle, Stand.WANTED)
    waits.orders.list.table.clearSelection()
    plan.refresh()
    go()
    assert waits.orders.list.table.chosen() == row.id
    assert line.text() == "", "its order stands on the list already"
