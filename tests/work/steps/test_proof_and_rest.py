"""What a cure, a recoat window and a proof still owed ask of a step, each limit from both sides."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import pytest

from rebuild.trade.waiting.clock import Standing
from rebuild.words.steps import ConstraintKind, TaskState
from rebuild.words.waiting import ClockKind
from rebuild.work.editing import acts as edit
from rebuild.work.log import acts as notes
from rebuild.work.plan.rows_graph import work_graph
from rebuild.work.records.ways_out import Refused
from rebuild.work.steps import acts as tasks, acts_again
from rebuild.work.waiting import acts_clocks as clocks, rows_clocks as clock_rows
from tests.support import refuses

if TYPE_CHECKING:
    from tests.conftest import Shop

AT = dt.datetime(2026, 3, 14, 8, 0)
MINUTE = dt.timedelta(minutes=1)


def hours(number: float) -> dt.datetime:
    return AT + dt.timedelta(hours=number)


def state(shop: Shop, key: int) -> str:
    with shop.store.read() as connection:
        return str(connection.exec_driver_sql(f"SELECT state FROM task WHERE id = {key}").scalar_one())


def open_clocks(shop: Shop, at: dt.datetime) -> list[clock_rows.ClockRow]:
    with shop.store.read() as connection:
        return clock_rows.clocks(connection, shop.machine, at)


@pytest.fixture
def painted(shop: Shop) -> Shop:
    """The strip step is done at eight; its primer is recoated from 4 h and within 24 h."""
    tasks.tick(shop.store, shop.strip, tasks.Done(at=AT))
    clocks.start_clock(
        shop.store, shop.machine, ClockKind.RECOAT, "primer", after=["4 h"], latest="24 h", started=AT,
        about=clocks.About(task_id=shop.strip),
    )  # fmt: skip
    return shop


@pytest.mark.parametrize(
    ("at", "said"),
    [
        (hours(0), "recoat from 14 Mar 12:00, in 4 h"),
        (hours(4) - MINUTE, "recoat from 14 Mar 12:00, in 1 min"),
        (hours(24) + MINUTE, "recoat window closed 15 Mar 08:00, 1 min ago"),
    ],
)
def test_a_recoat_window_holds_what_follows_before_it_opens_and_once_it_is_past(
    painted: Shop, at: dt.datetime, said: str
) -> None:
    with refuses(painted.store, f"“Take the spindle out” {said}", Refused):
        tasks.tick(painted.store, painted.measure, tasks.Done(at=at))
    assert state(painted, painted.measure) == "open"


@pytest.mark.parametrize("at", [hours(4), hours(12), hours(24)])
def test_inside_its_recoat_window_a_step_may_go_on(painted: Shop, at: dt.datetime) -> None:
    tasks.tick(painted.store, painted.measure, tasks.Done(at=at))
    assert state(painted, painted.measure) == "done"


def test_a_recoat_window_and_a_cure_hold_the_plan_and_a_bath_does_not(painted: Shop) -> None:
    for kind in (ClockKind.CURE, ClockKind.BATH):
        clocks.start_clock(
            painted.store, painted.machine, kind, "", after=["6 h"], started=AT,
            about=clocks.About(task_id=painted.strip),
        )  # fmt: skip

    def held(at: dt.datetime) -> list[dt.datetime]:
        with painted.store.read() as connection:
            nodes = work_graph(connection, painted.machine, at).graph.nodes
        return sorted(at + dt.timedelta(minutes=node.points.likely) for node in nodes if node.runs)

    assert held(hours(1)) == [hours(4), hours(6)]
    assert held(hours(4) - MINUTE) == [hours(4), hours(6)]
    assert held(hours(4)) == [hours(6)]
    assert held(hours(6)) == []


@pytest.mark.parametrize("kind", [ClockKind.BATH, ClockKind.RETORQUE, ClockKind.RELEVEL, ClockKind.LOOK])
def test_a_clock_that_only_reminds_holds_no_step(shop: Shop, kind: ClockKind) -> None:
    tasks.tick(shop.store, shop.strip, tasks.Done(at=AT))
    clocks.start_clock(
        shop.store, shop.machine, kind, "", after=["6 h"], started=AT, about=clocks.About(task_id=shop.strip)
    )
    tasks.tick(shop.store, shop.measure, tasks.Done(at=hours(1)))
    assert state(shop, shop.measure) == "done"


def test_a_clock_that_was_seen_to_holds_no_step(painted: Shop) -> None:
    (clock,) = open_clocks(painted, AT)
    clocks.close_clock(painted.store, [clock.id], "rubbed down")
    tasks.tick(painted.store, painted.measure, tasks.Done(at=hours(1)))
    assert state(painted, painted.measure) == "done"


def test_a_step_opened_again_has_no_cure_running_and_undo_starts_it_again(shop: Shop) -> None:
    tasks.add_constraint(shop.store, shop.strip, ConstraintKind.CURE, "epoxy", rest="24 h")
    tasks.tick(shop.store, shop.strip, tasks.Done(at=AT))
    (running,) = open_clocks(shop, hours(1))
    assert (running.standing, running.due) == (Standing.RUNNING, hours(24))
    acts_again.open_again(shop.store, shop.strip, "it came off again")
    assert open_clocks(shop, hours(1)) == []
    with shop.store.read() as connection:
        (closed,) = clock_rows.clocks(connection, shop.machine, hours(1), closed=True)
    assert closed.closed_note == "the step was opened again"
    shop.store.undo()
    assert [clock.id for clock in open_clocks(shop, hours(1))] == [running.id]


def test_a_second_tick_starts_one_cure_anew(shop: Shop) -> None:
    tasks.add_constraint(shop.store, shop.strip, ConstraintKind.CURE, "epoxy", rest="24 h")
    tasks.tick(shop.store, shop.strip, tasks.Done(at=AT))
    tasks.tick(shop.store, shop.strip, tasks.Done(at=hours(5)))
    (only,) = open_clocks(shop, hours(5))
    assert only.due == hours(29)


def test_a_step_is_not_set_open_by_editing_and_its_cure_runs_on(shop: Shop) -> None:
    tasks.add_constraint(shop.store, shop.strip, ConstraintKind.CURE, "epoxy", rest="24 h")
    edit.edit(shop.store, "task", [shop.strip], {"state": "done"})
    assert len(open_clocks(shop, AT)) == 1
    with refuses(shop.store, "is done; calling it open would wipe what was noted then. Open it again in"):
        edit.edit(shop.store, "task", [shop.strip], {"state": "open"})
    assert len(open_clocks(shop, AT)) == 1


@pytest.fixture
def proof(shop: Shop) -> int:
    """Oil must be seen, by a step of its own, before the spindle goes on; that step's id."""
    lines = tasks.add_task(shop.store, shop.machine, shop.headstock, "Connect the oil lines")
    back = {"kind": "refit"}
    edit.edit(shop.store, "task", [shop.refit], back)
    edit.edit(shop.store, "task", [shop.refit], {"part_id": str(shop.spindle)})
    tasks.add_constraint(
        shop.store, lines, ConstraintKind.PROVE_FIRST, "oil seen flowing", part_ids=[shop.spindle]
    )
    for step in (shop.strip, shop.measure, shop.remake):
        tasks.tick(shop.store, step)
    return lines


@pytest.mark.parametrize("how", ["open", "under way", "done"])
def test_a_proof_still_owed_holds_whatever_closes_it(shop: Shop, proof: int, how: str) -> None:
    edit.edit(shop.store, "task", [proof], {"state": how})
    with refuses(shop.store, r"closes what has not been proved yet \(oil seen flowing\)", Refused):
        tasks.tick(shop.store, shop.refit)
    assert state(shop, shop.refit) == TaskState.OPEN


def test_a_step_left_out_asks_for_no_proof(shop: Shop, proof: int) -> None:
    edit.edit(shop.store, "task", [proof], {"state": "left out"})
    with refuses(shop.store, "An answer is wanted first: Which oil did the maker print\\?", Refused):
        tasks.tick(shop.store, shop.refit)
    notes.answer(shop.store, shop.question, "the thin one")
    tasks.tick(shop.store, shop.refit)
    assert state(shop, shop.refit) == TaskState.DONE


def test_a_proof_without_parts_is_asked_of_the_step_itself_and_given_once(shop: Shop) -> None:
    key = tasks.add_constraint(shop.store, shop.strip, ConstraintKind.PROVE_FIRST, "turns freely")
    with refuses(shop.store, "turns freely", Refused) as refusal:
        tasks.tick(shop.store, shop.strip)
    assert refusal.value.chain == ("Take the spindle out",)  # type: ignore[attr-defined]
    tasks.prove(shop.store, key, "a full turn", at=AT)
    tasks.tick(shop.store, shop.strip)
    assert state(shop, shop.strip) == TaskState.DONE
