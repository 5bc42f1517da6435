"""The removal log at its edges: pins, places, steps under way, two attempts, and words kept."""

from __future__ import annotations

import datetime as dt

import pytest

from rebuild.store.store import Store
from rebuild.words.decisions import Decision
from rebuild.words.places import PlaceKind
from rebuild.words.run_in import RunState
from rebuild.words.steps import TaskKind
from rebuild.words.teardown import RemovalWay
from rebuild.work.decisions.acts import decide
from rebuild.work.decisions.rows_proposals import to_decide
from rebuild.work.editing import acts as edit
from rebuild.work.machines import acts as identify
from rebuild.work.records.wall_clock import now
from rebuild.work.run_in import acts as run_in
from rebuild.work.steps import acts as tasks
from rebuild.work.teardown import acts as teardown, acts_attempts as attempts, acts_line
from rebuild.work.teardown.off import NotYetThere
from tests.support import refuses
from tests.work.teardown.bench_apron import Apron, on_the_bench


@pytest.fixture
def apron(store: Store) -> Apron:
    return on_the_bench(store)


def cell(apron: Apron, table: str, key: int, column: str) -> object:
    with apron.store.read() as connection:
        return connection.exec_driver_sql(f"SELECT {column} FROM {table} WHERE id = {key}").scalar_one()


def test_what_is_driven_out_says_from_which_end_and_what_is_pressed_need_not(apron: Apron) -> None:
    with refuses(apron.store, "From which end: is empty. A pin goes back the way it came"):
        apron.off("worm", RemovalWay.DRIVEN, from_end="  ")
    apron.off("worm", RemovalWay.DRIVEN, from_end="small end")
    apron.off("cover", RemovalWay.PRESSED)
    with refuses(apron.store, "What came off: is empty. Choose a part, or say what it was"):
        teardown.log_removal(apron.store, apron.machine, apron.group, teardown.Off(what=" "))


@pytest.mark.parametrize(
    ("state", "then"), [("open", "done"), ("under way", "done"), ("left out", "left out")]
)
def test_the_step_that_meant_to_take_it_off_is_done_with_it(apron: Apron, state: str, then: str) -> None:
    steps = {
        kind: tasks.add_task(
            apron.store, apron.machine, apron.group, "The cover", kind, part_id=apron.parts["cover"]
        )
        for kind in (TaskKind.REMOVE, TaskKind.CLEAN)
    }
    edit.edit(apron.store, "task", list(steps.values()), {"state": state})
    apron.off("cover")
    assert cell(apron, "task", steps[TaskKind.REMOVE], "state") == then
    assert cell(apron, "task", steps[TaskKind.CLEAN], "state") == state


def test_nothing_comes_off_a_machine_that_runs(apron: Apron) -> None:
    """Isolate, lock, try: common practice, no source. What came off before is written down whenever."""
    step = run_in.add_step(apron.store, apron.machine, "slow, 60 rpm", {"speed_rpm": "60"})
    run_in.begin_step(apron.store, step, reason="guards stand, nobody near", by="me")
    with refuses(apron.store, "What came off: cannot come off while “slow, 60 rpm” is on. End it first"):
        apron.off("cover")
    yesterday = now() - dt.timedelta(days=1)
    teardown.log_removal(apron.store, apron.machine, apron.group, teardown.Off(what="belt", at=yesterday))
    run_in.end_step(apron.store, step, RunState.STOPPED, noise="a knock")
    apron.off("cover")


def test_a_part_that_came_off_is_no_longer_on_the_machine_wherever_it_went(apron: Apron) -> None:
    on, shelf = (
        identify.add_place(apron.store, kind.value, kind)
        for kind in (PlaceKind.ON_THE_MACHINE, PlaceKind.SHELF)
    )
    parts = apron.parts
    identify.put(apron.store, [parts["cover"], parts["worm"]], on)
    identify.put(apron.store, [parts["half nuts"]], shelf)
    apron.off("cover")
    apron.off("worm", place_id=apron.bag)
    apron.off("half nuts")
    placed = [cell(apron, "part", parts[name], "place_id") for name in ("cover", "worm", "half nuts")]
    assert placed == [None, apron.bag, shelf]


def test_removals_of_two_attempts_are_not_put_in_one_order(apron: Apron) -> None:
    first, second = apron.off("cover"), apron.off("worm")
    attempts.begin_attempt(apron.store, apron.machine, apron.group, stopped_by="no puller")
    third = apron.off("cover")
    with refuses(apron.store, "Removals: are of two attempts. Move those of one at a time"):
        teardown.reorder_removals(apron.store, [first, third], 0)
    teardown.reorder_removals(apron.store, [second], 0)
    assert [cell(apron, "removal", key, "position") for key in (first, second, third)] == [1, 0, 0]


def test_attempts_are_numbered_and_keep_what_stopped_them(apron: Apron) -> None:
    apron.off("cover")
    one = apron.attempt().id
    edit.edit(apron.store, "attempt", [one], {"stopped_by": "no puller", "changed": "the pin"})
    two = attempts.begin_attempt(apron.store, apron.machine, apron.group, stopped_by=" ", changed="")
    assert [cell(apron, "attempt", one, name) for name in ("stopped_by", "changed")] == [
        "no puller",
        "the pin",
    ]
    three = attempts.begin_attempt(apron.store, apron.machine, apron.group, stopped_by="supper")
    assert [cell(apron, "attempt", key, "number") for key in (one, two, three)] == [1, 2, 3]
    assert cell(apron, "attempt", two, "stopped_by") == "supper"


def test_a_line_makes_what_it_names_only_when_told_to(apron: Apron) -> None:
    line = "spring hook l, > bag 7"
    with refuses(apron.store, "the part “spring hook” and bag 7 are not there yet", NotYetThere):
        acts_line.say_removal(apron.store, apron.machine, apron.group, line)
    with refuses(apron.store, "Stored in: “tote” does not say which"):
        acts_line.say_removal(apron.store, apron.machine, apron.group, "new cover l, > tote", make=True)
    acts_line.say_removal(apron.store, apron.machine, apron.group, line, make=True)
    acts_line.say_removal(apron.store, apron.machine, apron.group, "new cover l, > bag 7", make=True)
    assert [(row.called, row.place) for row in apron.log()] == [
        ("AP-06 spring hook", "bag 7"), ("AP-07 cover", "bag 7"),
    ]  # fmt: skip
    assert len(apron.store.undo_label() or "") > 0


def test_a_part_that_broke_and_was_to_be_used_again_is_decided_anew(apron: Apron) -> None:
    part, worm = apron.parts["cover"], apron.parts["worm"]
    decide(apron.store, [part, worm], Decision.REUSE)
    apron.off("worm", typed={"found": "brass"})
    apron.off("cover", typed={"broke": "one ear"})
    assert [cell(apron, "part", key, "decision") for key in (part, worm)] == ["open", "reuse"]
    with apron.store.read() as connection:
        listed = to_decide(connection, apron.machine)
    assert (listed[0].title, listed[0].why) == ("AP-05 cover", ("one ear (coming off)",))
    apron.store.undo()
    assert cell(apron, "part", part, "decision") == "reuse"


def test_a_comma_after_the_name_of_a_new_part_is_no_part_of_it(apron: Apron) -> None:
    """Typed at the bench: “Rack, l from the tailstock end” was listed as “Rack,”."""
    for line in ("Rack stop, l from the rear, > bag 1", "new cover, l, > bag 1", "Gib, tapered, l, > bag 1"):
        acts_line.say_removal(apron.store, apron.machine, apron.group, line, make=True)
    with apron.store.read() as connection:
        names = connection.exec_driver_sql("SELECT name FROM part ORDER BY id DESC LIMIT 3").scalars().all()
    assert names == ["Gib, tapered", "cover", "Rack stop"]
