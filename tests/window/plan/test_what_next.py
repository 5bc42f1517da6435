"""What next: the part to make, its reasons, what can be done now, what holds the rest up."""

from __future__ import annotations

import pytest
from pytestqt.qtbot import QtBot

from rebuild.window.desk.desk import Desk
from rebuild.window.ink import theme
from rebuild.window.ink.shapes import Shape
from rebuild.window.lists.tree_list import KEY
from rebuild.window.plan.listed import Listed, Sort
from rebuild.window.plan.page import PlanPage
from rebuild.window.steps.delegate import shape_of
from rebuild.words.decisions import Decision
from rebuild.work.decisions.acts import decide
from rebuild.work.editing.acts import edit
from rebuild.work.log.acts import ask
from rebuild.work.records.ways_out import Refused
from rebuild.work.steps.acts import tick
from rebuild.work.steps.rows import tasks
from tests.conftest import Shop
from tests.support import refuses
from tests.window.seen import shown


def lines(page: PlanPage, sort: Sort | None = None) -> dict[str, Listed]:
    """What is listed, by its first words, under a filter."""
    pane = page.what_next
    pane.which.setCurrentIndex(pane.which.findData(sort))
    items = [pane.list.topLevelItem(at) for at in range(pane.list.topLevelItemCount())]
    rows = [item.data(0, KEY) for item in items if item is not None]
    return {row.part if row.sort is Sort.PARTS else row.what: row for row in rows}


def test_plan_names_the_part_to_remake_and_its_working(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    page = PlanPage(desk)
    shown(qtbot, page)
    cap = lines(page, Sort.PARTS)["HS-02 bearing cap"]
    assert cap.unblocks == "0", "the refit also waits for an answer"
    assert cap.held_by == "Measure the journals"
    pane = page.what_next
    assert pane.chosen() == cap, "the first is chosen, its reason stands beside it"
    assert pane.sentence.text().startswith("remake: cracked through. Not yet: ")
    assert pane.why.isVisible()
    assert pane.why.title.text() == "Why HS-02 bearing cap next"
    assert "held up in all" in pane.why.page.toPlainText()


def test_one_list_holds_what_can_be_done_what_is_held_and_why(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    page = PlanPage(desk)
    shown(qtbot, page)
    assert list(lines(page, Sort.NOW)) == ["Take the spindle out"]
    held = lines(page, Sort.HELD)
    assert held["Measure the journals"].held_by == "Take the spindle out"
    assert held["Refit the spindle"].held_by.endswith(" and 1 more"), "a step and an open question hold it"
    every = lines(page)
    assert next(iter(every)) == "Take the spindle out", "what can be begun stands first"
    assert {*lines(page, Sort.NOW), *held, *lines(page, Sort.ASKED)} == set(every)
    assert not any(row.sort is Sort.PARTS for row in every.values()), (
        "a part to be had stands there by its steps"
    )
    shapes = (every["Take the spindle out"].shape, every["Measure the journals"].shape)
    assert shapes == (Shape.TO_DO, Shape.WAITS), "held is seen by its shape"
    with desk.store.read() as connection:
        seen = {row.id: shape_of(row) for row in tasks(connection, shop.machine)}
    assert (seen[shop.strip], seen[shop.measure]) == shapes
    page.what_next.which.setCurrentIndex(0)
    page.what_next.filter.setText("measure journals")
    assert page.what_next.count.text().startswith("2 of ")
    page.what_next.filter.setText("spindle out")
    assert page.what_next.list.topLevelItem(0).text(0) == "Take the spindle out"


def test_tonight_is_one_line_and_a_filter(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    page = PlanPage(desk)
    shown(qtbot, page)
    evening = page.what_next.evening
    assert evening.says.text() == "Fits: Take the spindle out."
    page.what_next.fits.setChecked(True)
    assert [item.what for item in lines(page).values()] == ["Take the spindle out"]
    evening.minutes.setText("1 min")
    assert evening.says.text().startswith("No open step fits")
    assert not lines(page)
    evening.minutes.setText("soon")
    assert "“soon”" in evening.trouble.text()
    assert evening.minutes.text() == "soon"


def test_lines_that_stay_are_written_again_only_where_they_differ(
    qtbot: QtBot, desk: Desk, shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = PlanPage(desk)
    shown(qtbot, page)
    pane = page.what_next
    every = lines(page)
    there = [pane.list.topLevelItem(at) for at in range(pane.list.topLevelItemCount())]
    written: list[tuple[int, int]] = []
    pane.list.model().dataChanged.connect(lambda first, _last: written.append((first.row(), first.column())))
    edit(desk.store, "task", [shop.measure], {"likely_min": "4 h"})
    qtbot.waitUntil(lambda: "4 h" in lines(page)["Measure the journals"].time)
    at = list(every).index("Measure the journals")
    assert [pane.list.topLevelItem(place) for place in range(len(there))] == there, "no line was made anew"
    assert {row for row, _ in written} == {at}
    assert pane.list.topLevelItem(at).text(2) == "4 h"
    pane.choose(("step", shop.measure))
    assert pane.chosen() is not None
    assert pane.sentence.text() == pane.chosen().sentence
    dark = theme.DARK if theme.ink() is theme.LIGHT else theme.LIGHT
    monkeypatch.setattr(theme, "ink", lambda: dark)
    pane.refresh()
    assert pane.list.topLevelItem(0) is not there[0], "shapes are drawn again in the ink of another scheme"
    decide(desk.store, [shop.spindle], Decision.BUY, reason="bent")
    qtbot.waitUntil(lambda: len(lines(page)) > len(every))
    assert [row.what for row in lines(page).values()] == [
        pane.list.topLevelItem(place).text(0) for place in range(pane.list.topLevelItemCount())
    ]


def to_settle(page: PlanPage) -> list[str]:
    return list(lines(page, Sort.ASKED))


def test_a_question_on_a_done_step_holds_nothing_up(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    ask(desk.store, shop.machine, "Was it blued first?", task_id=shop.strip)
    page = PlanPage(desk)
    shown(qtbot, page)
    assert "Was it blued first?" in to_settle(page)
    with refuses(desk.store, "An answer is wanted first: Was it blued first", Refused):
        tick(desk.store, shop.strip)
    tick(desk.store, shop.strip, reason="blued, as the log says")
    page.refresh()
    page.what_next.refresh()
    assert "Was it blued first?" not in to_settle(page)


def test_work_that_follows_is_made_a_step_and_found_at_the_bench(
    qtbot: QtBot, desk: Desk, shop: Shop
) -> None:
    decide(desk.store, [shop.spindle], Decision.BUY, reason="bent")
    asked: list[str] = []
    desk.page_asked.connect(asked.append)
    page = PlanPage(desk)
    shown(qtbot, page)
    pane = page.what_next
    now = lines(page, Sort.NOW)
    pane.choose(now["Take the spindle out"].key)
    assert not pane.take.isEnabled(), "a step is one already"
    assert pane.take_why.text() == "It is one already."
    pane.choose(next(row.key for what, row in now.items() if "else order it" in what))
    pane.take.click()
    assert asked[-1] == "bench"
    (step,) = desk.selection.task_ids
    assert desk.store.undo_label() == (
        "taking work over “Look whether HS-01 spindle is there already, else order it” and 1 more"
    )
    with desk.store.read() as connection:
        made = next(row for row in tasks(connection, shop.machine) if row.id == step)
    assert (made.kind.value, made.part_id) == ("buy", shop.spindle)
