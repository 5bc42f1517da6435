"""The page that says where one was."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from rebuild.trade.schedule.graph import Ref
from rebuild.window.desk.desk import Desk
from rebuild.window.lists.tree_list import KEY
from rebuild.window.plan.what_next import WhatNextPane
from rebuild.window.where_was_i.page import WherePage
from rebuild.words.decisions import Decision
from rebuild.words.joints import Tightness
from rebuild.words.steps import TaskKind
from rebuild.words.waiting import ClockKind, WaitingKind
from rebuild.work.decisions.acts import decide
from rebuild.work.joints import acts as joints
from rebuild.work.log.acts import log_session
from rebuild.work.log.rows import log
from rebuild.work.machines import acts as identify
from rebuild.work.machines.acts import add_part
from rebuild.work.making.rows import open_of
from rebuild.work.run_in import acts as run
from rebuild.work.steps import acts as tasks
from rebuild.work.teardown import acts_line
from rebuild.work.waiting import acts as orders, acts_clocks as clocks
from rebuild.work.where_was_i.rows import where_was_i
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
    bar: list[str] = []
    desk.said.connect(lambda words, _how: bar.append(words))
    qtbot.keyClicks(fields["hours"], "late")
    page.end.store()
    assert "“late”" in page.end.said.text()
    assert bar == [], "said once, under the fields"
    fields["hours"].setText("1:30")
    assert page.end.said.text() == ""
    fields["hours"].clear()
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


def test_with_nothing_to_do_but_parts_to_decide_the_page_says_so(
    qtbot: QtBot, desk: Desk, shop: Shop
) -> None:
    other = identify.add_machine(desk.store, "Bare shaper", {})
    for code in ("BS-01", "BS-02"):
        identify.add_part(desk.store, other, None, "gib", code)
    desk.choose_machine(other)
    page = WherePage(desk, now=lambda: NOW)
    shown(qtbot, page)
    said = page.sections["Next three actions"].body.accessibleName()
    assert "Decide first: 2 parts are to be decided" in said
    assert "everything waits" not in said
    asked: list[str] = []
    desk.page_asked.connect(asked.append)
    page.sections["Next three actions"].body.linkActivated.emit("0")
    assert asked == ["decide"]


# Seen: "Draw up the making sheet of …" only opened the bench.
def test_drawing_up_a_sheet_makes_it_and_turns_to_it(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    asked: list[str] = []
    desk.page_asked.connect(asked.append)
    bush = add_part(desk.store, shop.machine, None, "feed bush")
    decide(desk.store, [bush], Decision.REMAKE, reason="worn oval")
    page = WherePage(desk, now=lambda: NOW)
    shown(qtbot, page)
    assert page.found is not None
    titles = [action.title for action in page.found.next_actions]
    at = titles.index("Draw up the making sheet of feed bush")
    page.sections["Next three actions"].body.linkActivated.emit(str(at))
    assert (asked[-1], desk.selection.part_ids) == ("making", (bush,))
    with desk.store.read() as connection:
        assert open_of(connection, bush) is not None


def test_joints_lying_apart_are_named_beside_those_half_done(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    half = joints.add_joint(desk.store, shop.machine, None, "arbor nut", {"wanted": "snug"})
    joints.set_joints(desk.store, [half], joints.JointState(Tightness.FINGER))
    joints.add_joint(desk.store, shop.machine, None, "cap screws", {"wanted": "snug"})
    page = WherePage(desk, now=lambda: NOW)
    shown(qtbot, page)
    said = page.sections["Not final"].body.text()
    assert "arbor nut" in said
    assert "cap screws" in said


# Seen: a speed still running, and what was gone on with all the same, stood nowhere on this page.
def test_what_runs_and_what_was_gone_on_with_lead_to_their_rows(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    key = run.add_step(desk.store, shop.machine, "slow", {"speed_rpm": "200"})
    run.begin_step(desk.store, key, reason="turned by hand")
    page = WherePage(desk, now=lambda: NOW)
    shown(qtbot, page)
    section = page.sections["Before you touch it"]
    assert "Running: slow" in section.body.text()
    assert "turned by hand" in section.body.text()
    led: list[tuple[str, str, int]] = []
    desk.row_asked.connect(lambda *row: led.append(row))
    for at in (0, 1):
        section.body.linkActivated.emit(str(at))
    assert page.found is not None
    assert led == [("run-in", "run_step", key), ("run-in", "override", page.found.gone_on[0].id)]


def test_what_drives_the_finish_comes_after_the_page_and_is_the_whole_answer(
    qtbot: QtBot, desk: Desk, shop: Shop
) -> None:
    with desk.store.read() as connection:
        whole = where_was_i(connection, shop.machine, NOW)
        early = where_was_i(connection, shop.machine, NOW, drawn=False)
    assert whole.drives
    assert early == replace(whole, drives=())
    page = WherePage(desk, now=lambda: NOW)
    page._can_draw = False  # as at a start, before the library is there
    shown(qtbot, page)
    assert page.found == early
    body = page.sections["What drives the finish"].body
    before = body.text()
    with qtbot.waitSignal(page._library.done, timeout=3000):
        page._load_library()
    assert page.found == whole
    assert whole.drives[0][1] in body.text()
    assert body.text() != before


# Seen: what lies at a shop stood among orders, and a late promise did not say that my old wheel lies there.
def test_what_lies_at_a_shop_has_its_own_heading_and_a_late_order_names_what_lies_there(
    qtbot: QtBot, desk: Desk, shop: Shop
) -> None:
    gone, due = NOW - dt.timedelta(days=60), NOW - dt.timedelta(days=20)
    typed = {"who": "Gear shop", "ordered_at": gone.isoformat(" ")}
    out = orders.add_waiting(
        desk.store,
        shop.machine,
        "old wheel as pattern",
        WaitingKind.SENT_OUT,
        part_id=shop.spindle,
        typed={"who": "Gear shop"},
    )
    orders.mark(desk.store, out, orders.Mark.ORDERED, at=gone)
    new = orders.add_waiting(
        desk.store, shop.machine, "new wheel", typed={**typed, "promised_at": due.isoformat(" ")}
    )
    page = WherePage(desk, now=lambda: NOW)
    shown(qtbot, page)
    assert page.sections["At a shop or lent"].body.accessibleName() == (
        "HS-01 spindle · at Gear shop since 16 Apr 20:00 · no date promised"
    )
    expected = page.sections["Expected and owed"].body.accessibleName()
    assert expected.startswith("new wheel · promised 26 May 20:00, 20 d late · Gear shop"), expected
    assert expected.endswith("there lies HS-01 spindle")
    asked: list[tuple[object, ...]] = []
    desk.row_asked.connect(lambda *row: asked.append(row))
    page.sections["At a shop or lent"].body.linkActivated.emit("0")
    page.sections["Expected and owed"].body.linkActivated.emit("0")
    assert asked == [("waiting", "waiting", out), ("waiting", "waiting", new)]


# Seen: with 45 minutes the first action was a job of 1.5 h, and Plan had the owner's own next seventh.
def test_the_time_there_is_tonight_leaves_what_fits_or_a_part_of_it_and_plan_agrees(
    qtbot: QtBot, desk: Desk, shop: Shop
) -> None:
    for title, kind, minutes in (("Scrape the gib", "rework", "90"), ("Refit the tray", "refit", "90")):
        tasks.add_task(desk.store, shop.machine, None, title, TaskKind(kind), typed={"likely_min": minutes})
    tasks.add_task(desk.store, shop.machine, None, "Oil the cups", typed={"likely_min": "20"})
    log_session(desk.store, shop.machine, {"did": "looked", "next_step": "oil the cups"})
    page, plan = WherePage(desk, now=lambda: NOW), WhatNextPane(desk)
    qtbot.addWidget(plan)
    shown(qtbot, page)
    plan.refresh()

    def actions() -> list[str]:
        assert page.found is not None
        return [f"{one.title}: {one.why}" for one in page.found.next_actions]

    assert actions()[0].startswith("Oil the cups: first because you wrote it as your next")
    assert not page.tonight.minutes.hasFocus(), "a gauge's value would land there"
    qtbot.keyClicks(page.tonight.minutes, "45 min")
    assert plan.evening.minutes.text() == "45 min", "said once, on whichever page"
    told = actions()
    assert told[0].startswith("Oil the cups: 20 min tonight; first because")
    assert any(one.startswith("Scrape the gib: 45 min of its 1.5 h tonight") for one in told), told
    assert not any("Refit the tray" in one for one in told), "a refit is not left half done"
    plan.refresh()
    first = plan.list.topLevelItem(0)
    assert first is not None
    assert first.text(0) == "Oil the cups"
    plan.choose(("step", first.data(0, KEY).goes_to.key))
    assert plan.sentence.text().startswith("First because you wrote it as your next; ")
    assert plan.evening.says.text().startswith("Fits: Oil the cups."), plan.evening.says.text()
    log_session(desk.store, shop.machine, {"did": "looked", "next_step": "refit the spindle"})
    plan.refresh()
    page.refresh()
    assert page.found is not None
    assert page.found.own_next.startswith("You meant to go on with “refit the spindle”; not yet: ")
    assert plan.evening.says.text().endswith(page.found.own_next), "the plan says why not, in the same words"
    log_session(desk.store, shop.machine, {"did": "looked", "next_step": "refit the tray"})
    plan.refresh()
    page.refresh()
    assert page.found.own_next == (
        "You meant to go on with “Refit the tray”; not tonight: it takes 1.5 h and there is 45 min; "
        "what is half on is not safe to leave."
    )
    assert plan.evening.says.text().endswith(page.found.own_next)
    page.tonight.minutes.setText("1 min")
    assert actions() == []
    said = page.sections["Next three actions"].body.accessibleName()
    assert "Nothing fits tonight of 4 pieces of work" in said, said
    page.tonight.minutes.setText("soon")
    assert "“soon”" in page.tonight.trouble.text()
    assert len(actions()) == 3, "an evening that is no time leaves all"
