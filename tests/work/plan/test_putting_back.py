"""A part that is off and decided is work to put back, with or without a draft; the log backwards is the order.

Common practice, no source.
"""

from __future__ import annotations

import datetime as dt

import pytest

from rebuild.store.store import Store
from rebuild.words.decisions import Decision
from rebuild.words.steps import TaskKind
from rebuild.words.work_graph import Holding
from rebuild.work.decisions import acts as decide
from rebuild.work.plan.rows_graph import Work, work_graph
from rebuild.work.plan.rows_input import planned
from rebuild.work.plan.rows_tonight import Tonight, fits_tonight
from rebuild.work.steps import acts as tasks
from rebuild.work.where_was_i.rows import where_was_i
from rebuild.work.where_was_i.rows_taken_off import taken_off
from tests.work.plan.test_derived import NOW
from tests.work.teardown.bench_apron import Apron, drafted, on_the_bench


@pytest.fixture
def apron(store: Store) -> Apron:
    return on_the_bench(store)


def reuse(apron: Apron, *names: str) -> None:
    decide.decide(apron.store, [apron.parts[name] for name in names], Decision.REUSE, reason="sound")


def work(apron: Apron) -> Work:
    with apron.store.read() as connection:
        return work_graph(connection, apron.machine, NOW)


def back(apron: Apron) -> list[tuple[str, str]]:
    """What is to be put back, and how it stands."""
    graph = work(apron).graph
    return [(node.title, graph.standing(node.key).value) for node in graph.nodes if node.open and node.derived
            and node.kind is TaskKind.REFIT]  # fmt: skip


# Seen: the guard in a tray, decided reuse, and "Nothing fits tonight", until a draft was made.
def test_a_part_off_and_decided_is_offered_tonight_and_the_draft_takes_its_place(apron: Apron) -> None:
    apron.off("cover", place_id=apron.bag)
    assert back(apron) == [], "nobody knows yet what becomes of it"
    reuse(apron, "cover")
    assert back(apron) == [("Put back on: AP-05 cover", "ready")]
    with apron.store.read() as connection:
        tonight = fits_tonight(planned(work_graph(connection, apron.machine, NOW)), Tonight(90))
        seen = where_was_i(connection, apron.machine, NOW)
    assert [node.title for node in tonight] == ["Put back on: AP-05 cover"]
    assert [(one.title, one.ref.table, one.ref.id) for one in seen.next_actions] == [
        ("Put back on: AP-05 cover", "attempt", apron.attempt().id)
    ]
    assert [(row.part, row.place) for row in seen.off] == [("AP-05 cover", "in bag 4 apron screws")]
    drafted(apron)
    assert back(apron) == []
    tasks.tick(apron.store, apron.step("cover").id)
    with apron.store.read() as connection:
        assert where_was_i(connection, apron.machine, NOW).off == ()
    assert back(apron) == []


def test_the_log_backwards_is_the_order_and_a_making_holds_it(apron: Apron) -> None:
    for name in ("cover", "worm", "half nuts"):
        apron.off(name)
    reuse(apron, "cover", "half nuts")
    decide.decide(apron.store, [apron.parts["worm"]], Decision.REMAKE, reason="worn")
    graph = work(apron).graph
    of = {node.title: node for node in graph.nodes}
    cover, worm = of["Put back on: AP-05 cover"], of["Put back on: AP-03 worm"]
    assert back(apron) == [
        ("Put back on: AP-05 cover", "held"), ("Put back on: AP-03 worm", "held"),
        ("Put back on: AP-02 half nuts", "ready"),
    ]  # fmt: skip
    assert {hold.title for hold in graph.held_by(cover.key) if hold.kind is Holding.CHAIN} == {worm.title}
    assert Holding.MAKING in {hold.kind for hold in graph.held_by(worm.key)}
    assert not graph.loops


def test_a_step_that_takes_a_part_off_is_a_removal_though_nothing_was_logged(apron: Apron) -> None:
    def off() -> list[str]:
        with apron.store.read() as connection:
            return [row.part for row in taken_off(connection, apron.machine)]

    def step(words: str, kind: TaskKind, at: int) -> None:
        part = apron.parts["cover"]
        key = tasks.add_task(apron.store, apron.machine, apron.group, words, kind, part_id=part)
        tasks.tick(apron.store, key, tasks.Done(at=NOW + dt.timedelta(minutes=at)))

    step("Cover off", TaskKind.REMOVE, 1)
    assert off() == ["AP-05 cover"]
    step("Cover on", TaskKind.REFIT, 2)
    assert off() == []
    apron.off("cover", at=NOW + dt.timedelta(minutes=3))
    drafted(apron)
    tasks.tick(apron.store, apron.step("Refit AP-05").id, tasks.Done(at=NOW + dt.timedelta(minutes=4)))
    assert off() == []
    step("Cover off once more", TaskKind.REMOVE, 5)
    assert off() == ["AP-05 cover"]
