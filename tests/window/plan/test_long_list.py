"""A machine of many hundred steps: lines are made as they are looked at, and no turn does all of the work."""

from __future__ import annotations

import pytest
from pytestqt.qtbot import QtBot
from sqlalchemy import insert

from rebuild.model.records.steps import Task
from rebuild.store.act import Act
from rebuild.window.desk.desk import Desk
from rebuild.window.plan import ahead
from rebuild.window.plan.page import PlanPage
from rebuild.window.plan.what_next import LINES
from rebuild.window.where_was_i.page import WherePage
from rebuild.words.steps import TaskKind
from rebuild.work.editing.acts import edit
from rebuild.work.plan.rows_graph import Work
from rebuild.work.plan.rows_input import MOST_DRAWN
from tests.conftest import Shop
from tests.window.seen import shown

MANY = MOST_DRAWN + 100


@pytest.fixture
def many(shop: Shop) -> int:
    """The first of many steps more; each asks for an hour."""
    with shop.store.act(Act.IMPORT, "many steps") as tx:
        made = tx.connection.execute(
            insert(Task).returning(Task.id),
            [
                {"machine_id": shop.machine, "title": f"Scrape {at}", "position": 100 + at,
                 "kind": TaskKind.OTHER, "likely_min": 60.0}
                for at in range(MANY)
            ],
        )  # fmt: skip
        return min(made.scalars())


def test_lines_are_made_as_they_are_looked_at(qtbot: QtBot, desk: Desk, shop: Shop, many: int) -> None:
    page = PlanPage(desk)
    shown(qtbot, page)
    pane = page.what_next
    qtbot.waitUntil(lambda: pane.list.topLevelItemCount() > 0)

    def told() -> list[str]:
        items = [pane.list.topLevelItem(at) for at in range(pane.list.topLevelItemCount())]
        return [item.text(0) for item in items if item is not None]

    every = pane.listed_now()
    assert len(every) > MANY
    assert pane.count.text().startswith(f"{len(every)} of "), "all are counted, those not made yet too"
    assert told() == every[:LINES]
    qtbot.waitUntil(lambda: pane.list.verticalScrollBar().maximum() > 0)
    bar = pane.list.verticalScrollBar()
    bar.setValue(bar.maximum())
    assert told() == every[: 2 * LINES], "more come as the last comes into view"
    pane.choose(("step", many + MANY - 1))
    chosen = pane.chosen()
    assert chosen is not None
    assert chosen.what == f"Scrape {MANY - 1}", "a line not made yet is made when it is gone to"
    assert pane.list.currentItem().text(0) == chosen.what
    pane.filter.setText(f"scrape {MANY - 2}")
    assert told() == [f"Scrape {MANY - 2}"], "the filter looks at all of them"
    pane.filter.clear()
    assert told() == every[: len(told())]
    assert pane.chosen() is not None


def test_no_turn_does_all_of_a_change(
    qtbot: QtBot, desk: Desk, shop: Shop, many: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Counted, not timed: the act lays the work, the turns after it rank it, tell it and show it."""
    done: list[str] = []
    planned, next_of = ahead.planned, ahead.next_of

    def ranked(work: Work) -> object:
        done.append("ranked")
        return planned(work)

    def told(work: Work) -> object:
        done.append("told")
        return next_of(work)

    monkeypatch.setattr(ahead, "planned", ranked)
    monkeypatch.setattr(ahead, "next_of", told)
    page, where = PlanPage(desk), WherePage(desk)
    shown(qtbot, page)
    pane = page.what_next
    qtbot.waitUntil(lambda: pane.list.topLevelItemCount() > 0)
    assert done == ["ranked", "told"]
    # Whatever of the step is changed, the line follows.
    for field, typed, column, words in (
        ("title", "Scrape it all", 0, "Scrape it all"),
        ("likely_min", "9 h", 2, "9 h"),
    ):
        done.clear()
        pane.choose(("step", many))
        edit(desk.store, "task", [many], {field: typed})
        qtbot.waitUntil(lambda: bool(done))
        qtbot.waitUntil(
            lambda column=column, words=words: (
                pane.chosen() is not None  # type: ignore[misc]
                and pane.list.currentItem().text(column) == words
            )
        )
        assert done[:2] == ["ranked", "told"]
    page.hide()
    shown(qtbot, where)
    qtbot.waitUntil(lambda: where.found is not None)
    assert where.found is not None
    assert where.found.offered > MANY
