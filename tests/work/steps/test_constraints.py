"""Constraints: what must be off, on, oiled or cured before a step."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest

from rebuild.errors import BrokenOrder
from rebuild.store.store import Store
from rebuild.words.decisions import Decision
from rebuild.words.steps import ConstraintKind, LinkKind, TaskKind, TaskState
from rebuild.words.teardown import RemovalWay
from rebuild.work.decisions import acts as decide
from rebuild.work.editing import acts as edit, acts_ways_out as ways
from rebuild.work.records.ways_out import Refused, WayKind
from rebuild.work.steps import acts as tasks, acts_again
from rebuild.work.steps.rows import tasks as task_rows
from tests.support import refuses
from tests.work.teardown.bench_apron import NAMES, Apron, drafted, on_the_bench, take_all_off


@pytest.fixture
def apron(store: Store) -> Apron:
    return on_the_bench(store)


@pytest.fixture
def oiling(apron: Apron) -> tuple[Apron, int, int]:
    """The apron put-back drafted, with a step that needs the cover off: its id and the cover's refit."""
    take_all_off(apron)
    drafted(apron)
    cover = apron.step("cover").id
    lines = tasks.add_task(apron.store, apron.machine, apron.group, "Connect the oil lines")
    tasks.add_link(apron.store, lines, cover, LinkKind.WHILE_OFF)
    return apron, lines, cover


def tick_up_to(apron: Apron, task_id: int) -> None:
    for row in apron.steps():
        if row.id == task_id:
            return
        if row.kind is TaskKind.REFIT:
            tasks.tick(apron.store, row.id)


def test_refitting_what_must_still_be_off_is_refused_with_the_chain(oiling: tuple[Apron, int, int]) -> None:
    apron, lines, cover = oiling
    tick_up_to(apron, cover)
    with pytest.raises(Refused, match="can only be done while this is still off") as refused:
        tasks.tick(apron.store, cover)
    assert refused.value.chain == ("Connect the oil lines", "Refit AP-05 cover")
    kinds = [way.kind for way in refused.value.ways]
    assert kinds == [WayKind.GO_TO, WayKind.LEAVE_OUT, WayKind.TAKE_LINK_AWAY, WayKind.ALL_THE_SAME]
    tasks.tick(apron.store, lines)
    tasks.tick(apron.store, cover)
    assert apron.step("cover").state is TaskState.DONE


def test_a_step_that_needs_it_off_is_refused_once_it_is_on_again(oiling: tuple[Apron, int, int]) -> None:
    apron, lines, cover = oiling
    tick_up_to(apron, cover)
    tasks.tick(apron.store, cover, reason="seen at the bench")
    with pytest.raises(Refused, match="it is on again since") as refused:
        tasks.tick(apron.store, lines)
    way = next(way for way in refused.value.ways if way.kind is WayKind.OPEN_AGAIN)
    with refuses(apron.store, "Why again: is empty. Say why"):
        ways.take(apron.store, way)
    assert ways.take(apron.store, replace(way, reason="a line was left out"))
    tasks.tick(apron.store, lines)
    assert apron.step("cover").state is TaskState.OPEN


def test_a_step_that_needs_it_off_is_refused_before_it_has_come_off(apron: Apron) -> None:
    strip = tasks.add_task(
        apron.store, apron.machine, apron.group, "Take the cover off", TaskKind.REMOVE,
        part_id=apron.parts["cover"],
    )  # fmt: skip
    lines = tasks.add_task(apron.store, apron.machine, apron.group, "Connect the oil lines")
    back = tasks.add_task(
        apron.store,
        apron.machine,
        apron.group,
        "Refit the cover",
        TaskKind.REFIT,
        part_id=apron.parts["cover"],
    )
    tasks.add_link(apron.store, lines, back, LinkKind.WHILE_OFF)
    with pytest.raises(Refused, match="has not come off yet"):
        tasks.tick(apron.store, lines)
    tasks.tick(apron.store, strip)
    tasks.tick(apron.store, lines)


def test_every_way_in_obeys(oiling: tuple[Apron, int, int]) -> None:
    apron, _lines, cover = oiling
    with pytest.raises(Refused):
        edit.edit(apron.store, "task", [cover], {"state": "done"})
    assert apron.step("cover").state is TaskState.OPEN
    tick_up_to(apron, cover)
    tasks.tick(apron.store, cover, reason="seen at the bench")
    other = tasks.add_task(apron.store, apron.machine, apron.group, "Blow the drillings out")
    with pytest.raises(Refused, match="on again"):
        tasks.add_link(apron.store, other, cover, LinkKind.WHILE_OFF)
    with pytest.raises(Refused, match="comes after this one is done"):
        acts_again.open_again(apron.store, apron.step("bracket").id, "it came off again")
    with pytest.raises(Refused, match="comes after this one is done"):
        edit.edit(apron.store, "task", [apron.step("bracket").id], {"state": "open"})


def test_a_move_that_breaks_a_constraint_is_refused_with_the_chain(oiling: tuple[Apron, int, int]) -> None:
    apron, lines, cover = oiling
    order = [row.id for row in apron.steps()]
    assert order[-2:] == [
        cover,
        lines,
    ]  # the new step stands last; a wrong order that was there is left alone
    tasks.reorder(apron.store, [lines], 0)
    with pytest.raises(Refused, match="would break a constraint") as refused:
        tasks.reorder(apron.store, [cover], 0)
    assert refused.value.chain[-1] == "Refit AP-05 cover"
    with pytest.raises(Refused) as refused:
        tasks.reorder(apron.store, [apron.step("casting").id], 9)
    assert refused.value.chain == ("Refit AP-01 apron casting", "Refit AP-02 half nuts")


def test_the_whole_chain_back_to_what_can_be_done_now_is_spelled_out(apron: Apron) -> None:
    take_all_off(apron)
    drafted(apron)
    with pytest.raises(BrokenOrder) as refused:
        tasks.tick(apron.store, apron.step("cover").id)
    assert refused.value.chain == tuple(f"Refit AP-0{at} {name}" for at, name in enumerate(NAMES, 1))


def test_closing_an_opening_that_is_still_needed_warns_and_says_which(apron: Apron) -> None:
    apron.off("cover")
    drafted(apron)
    setting = tasks.add_task(apron.store, apron.machine, apron.group, "Set the worm mesh")
    tasks.add_constraint(
        apron.store, setting, ConstraintKind.THROUGH_OPENING, "hand hole", part_ids=[apron.parts["cover"]]
    )
    step = apron.step("cover").id
    with pytest.raises(
        Refused, match=r"closes the opening that “Set the worm mesh” is done through \(hand hole\)"
    ):
        tasks.tick(apron.store, step)
    tasks.tick(apron.store, setting)
    tasks.tick(apron.store, step)


def test_oil_must_be_seen_before_the_slide_goes_on(apron: Apron) -> None:
    apron.off("cover")
    drafted(apron)
    lines = tasks.add_task(apron.store, apron.machine, apron.group, "Connect the oil lines")
    tasks.add_constraint(
        apron.store, lines, ConstraintKind.PROVE_FIRST, "oil seen flowing", part_ids=[apron.parts["cover"]]
    )
    tasks.tick(apron.store, lines)  # connecting them proves nothing yet
    step = apron.step("cover").id
    with pytest.raises(Refused, match=r"not been proved yet \(oil seen flowing\)") as refused:
        tasks.tick(apron.store, step)
    ways.take(
        apron.store,
        next(way for way in refused.value.ways if way.kind is WayKind.PROVE),
        "drips at both ends",
    )
    tasks.tick(apron.store, step)
    assert apron.step("cover").state is TaskState.DONE


def test_a_cure_starts_a_clock_and_holds_what_follows(apron: Apron) -> None:
    bond = tasks.add_task(apron.store, apron.machine, apron.group, "Bond the liner")
    scrape = tasks.add_task(apron.store, apron.machine, apron.group, "Scrape the liner", after=[bond])
    tasks.add_constraint(apron.store, bond, ConstraintKind.CURE, "epoxy", rest="24 h")
    at = dt.datetime(2026, 3, 14, 18, 0)
    tasks.tick(apron.store, bond, tasks.Done(at=at))
    early = tasks.Done(at=at + dt.timedelta(hours=19))
    with pytest.raises(Refused, match="“Bond the liner” cures until 15 Mar 18:00, 5 h left"):
        tasks.tick(apron.store, scrape, early)
    tasks.tick(apron.store, scrape, tasks.Done(at=at + dt.timedelta(hours=25)))
    with apron.store.read() as connection:
        row = next(r for r in task_rows(connection, apron.machine, now=early.at) if r.id == bond)
    assert row.clocks == ("cures until 15 Mar 18:00, 5 h left",)


def test_several_troubles_are_all_said_and_one_insisting_settles_them(apron: Apron) -> None:
    decide.decide(apron.store, [apron.parts["cover"]], Decision.REMAKE, reason="cracked")
    apron.off("cover", RemovalWay.PRESSED, from_end="left")
    apron.off("worm")
    drafted(apron)
    with pytest.raises(Refused) as refused:
        tasks.tick(apron.store, apron.step("cover").id)
    words = str(refused.value)
    assert "A step before this one is still open" in words
    assert "not made yet" in words
    assert "cannot be undone" in words
    tasks.tick(apron.store, apron.step("cover").id, reason="seen at the bench")
