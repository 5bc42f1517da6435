"""What next: the part to make, its reasons, what can be done now, what holds the rest up."""

from __future__ import annotations

from pytestqt.qtbot import QtBot

from rebuild.window.desk.desk import Desk
from rebuild.window.plan.page import PlanPage
from rebuild.words.decisions import Decision
from rebuild.work.decisions.acts import decide
from rebuild.work.log.acts import ask
from rebuild.work.records.ways_out import Refused
from rebuild.work.steps.acts import tick
from rebuild.work.steps.rows import tasks
from tests.conftest import Shop
from tests.support import refuses
from tests.window.seen import shown


def test_plan_names_the_part_to_remake_and_its_working(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    page = PlanPage(desk)
    shown(qtbot, page)
    item = page.what_next.candidates.topLevelItem(0)
    assert item is not None
    assert item.text(0) == "HS-02 bearing cap"
    assert item.text(1) == "0", "the refit also waits for an answer"
    assert item.text(4) == "after Measure the journals"
    assert page.what_next.candidates.currentItem() is item, "the first is chosen, its reasons stand beside it"
    why = page.what_next.why
    assert why.isVisible()
    assert why.title.text() == "Why HS-02 bearing cap next"
    assert "held up in all" in why.page.toPlainText()


def test_plan_lists_what_can_be_done_now_and_what_waits(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    page = PlanPage(desk)
    shown(qtbot, page)
    now = [
        page.what_next.now.topLevelItem(at).text(0) for at in range(page.what_next.now.topLevelItemCount())
    ]
    assert now == ["Take the spindle out"]
    waiting = {
        page.what_next.waiting.topLevelItem(at).text(0): page.what_next.waiting.topLevelItem(at)
        for at in range(page.what_next.waiting.topLevelItemCount())
    }
    assert waiting["Measure the journals"].text(1) == "Take the spindle out"
    assert waiting["Refit the spindle"].childCount() == 2, "a step and an open question hold it"


def to_settle(page: PlanPage) -> list[str]:
    found = page.what_next.undecided
    return [found.topLevelItem(at).text(0) for at in range(found.topLevelItemCount())]


def test_a_question_on_a_done_step_holds_nothing_up(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    ask(desk.store, shop.machine, "Was it blued first?", task_id=shop.strip)
    page = PlanPage(desk)
    shown(qtbot, page)
    assert "Was it blued first?" in to_settle(page)
    with refuses(desk.store, "An answer is wanted first: Was it blued first", Refused):
        tick(desk.store, shop.strip)
    tick(desk.store, shop.strip, sure=True)
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
    rows = [pane.now.topLevelItem(at) for at in range(pane.now.topLevelItemCount())]
    typed = next(item for item in rows if item.text(0) == "Take the spindle out")
    pane.now.setCurrentItem(typed)
    assert not pane.take.isEnabled(), "a step is one already"
    pane.now.setCurrentItem(next(item for item in rows if "else order it" in item.text(0)))
    pane.take.click()
    assert asked[-1] == "bench"
    (step,) = desk.selection.task_ids
    assert desk.store.undo_label() == (
        "taking work over “Look whether HS-01 spindle is there already, else order it” and 1 more"
    )
    with desk.store.read() as connection:
        made = next(row for row in tasks(connection, shop.machine) if row.id == step)
    assert (made.kind.value, made.part_id) == ("buy", shop.spindle)
