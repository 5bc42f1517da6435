"""The page that says where one was."""

from __future__ import annotations

import datetime as dt

from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from rebuild.trade.schedule.graph import Ref
from rebuild.window.desk.desk import Desk
from rebuild.window.where_was_i.page import WherePage
from rebuild.words.waiting import ClockKind
from rebuild.work.log.rows import log
from rebuild.work.steps import acts as tasks
from rebuild.work.teardown import acts_line
from rebuild.work.waiting import acts_clocks as clocks
from tests.conftest import Shop
from tests.window.seen import named, shown

ENTER = Qt.Key.Key_Return


NOW = dt.datetime(2026, 6, 15, 20, 0)


def test_the_page_says_what_waits_and_leads_there(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    asked: list[str] = []
    desk.page_asked.connect(asked.append)
    about = clocks.About(part_id=shop.cap)
    clocks.start_clock(
        desk.store,
        shop.machine,
        ClockKind.BATH,
        "cap",
        started=NOW - dt.timedelta(days=3),
        about=about,
    )
    page = WherePage(desk, now=lambda: NOW)
    shown(qtbot, page)
    assert "Take the spindle out" in page.sections["Next three actions"].body.text()
    assert "in the bath since 12 Jun 20:00, 3 d" in page.sections["Baths and clocks"].body.text()
    assert "Which oil did the maker print?" in page.sections["Open questions"].body.text()
    assert "Stripped the headstock" in page.sections["Last sessions"].body.accessibleName()
    assert page.found is not None
    at = [action.ref for action in page.found.next_actions].index(Ref("task", shop.strip))
    page.sections["Next three actions"].body.linkActivated.emit(str(at))
    assert (asked[-1], desk.selection.task_ids, desk.selection.subassembly_id) == (
        "bench", (shop.strip,), shop.headstock,
    )  # fmt: skip


def test_words_of_the_user_are_never_read_as_mark_up(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    from rebuild.work.editing import acts as edit

    edit.edit(desk.store, "task", [shop.strip], {"title": "Take <b>it</b> & go"})
    page = WherePage(desk, now=lambda: NOW)
    shown(qtbot, page)
    assert "Take &lt;b&gt;it&lt;/b&gt; &amp; go" in page.sections["Next three actions"].body.text()


def test_a_session_ends_with_three_lines_and_trouble_keeps_them(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    page = WherePage(desk, now=lambda: NOW)
    shown(qtbot, page)
    fields = page.end.fields
    fields["did"].setFocus()
    for name, words in (("did", "spindle in"), ("left", "caps finger tight"), ("next_step", "re-lift")):
        qtbot.keyClicks(fields[name], words)
        qtbot.keyClick(fields[name], ENTER)
    qtbot.keyClicks(fields["split"], "ZZ 1")
    page.end.store()
    assert "“ZZ” is no code" in page.end.said.text()
    assert fields["did"].text() == "spindle in"
    fields["split"].setText("HS 1")
    page.end.store()
    assert fields["did"].text() == ""
    with desk.store.read() as connection:
        row = next(row for row in log(connection, shop.machine) if row.did == "spindle in")
    assert (row.left_on_bench, row.next_step, row.hours) == ("caps finger tight", "re-lift", 1.0)
    named(page)


def test_a_page_not_seen_is_read_when_it_is_seen_again(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    page = WherePage(desk, now=lambda: NOW)
    shown(qtbot, page)
    page.hide()
    acts_line.say_removal(desk.store, shop.machine, shop.headstock, "cap l")
    tasks.tick(desk.store, shop.strip)
    shown(qtbot, page)
    assert "Measure the journals" in page.sections["Next three actions"].body.text()
