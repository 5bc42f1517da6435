"""The run-in goes up its speeds in order, and a bearing too hot or warming too fast is not called run through."""

from __future__ import annotations

import pytest

from rebuild.store.store import Store
from rebuild.words.gates import Gate
from rebuild.words.run_in import LookWhen, RunState
from rebuild.work.book.rows import read_book
from rebuild.work.editing import acts as editing
from rebuild.work.gates.rows import gone_on
from rebuild.work.machines.acts import add_machine
from rebuild.work.power.rows import holds
from rebuild.work.power.rows_speeds import rungs
from rebuild.work.records.rows import card
from rebuild.work.records.ways_out import Refused
from rebuild.work.run_in import acts as run
from rebuild.work.run_in.rows import RunRow, checks, run_steps
from tests.support import refuses

CALM = ((0, "20 C"), (10, "28 C"), (20, "33 C"))


@pytest.fixture
def lathe(store: Store) -> int:
    """A lathe with everything before power seen to, and its five speeds laid out."""
    machine = add_machine(store, "Lathe", {"kind": "lathe"})
    with store.read() as connection:
        due = [row.id for row in checks(connection, machine) if row.due is LookWhen.BEFORE_POWER]
    for key in due:
        run.check_done(store, key, "the electrician")
    run.lay_out_run(store, machine, 30, 1200)
    return machine


def ladder(store: Store, machine: int) -> list[RunRow]:
    with store.read() as connection:
        return run_steps(connection, machine)


def through(store: Store, step: int, course: tuple[tuple[float, str], ...] = CALM) -> None:
    for minute, warm in course:
        run.read_bearing(store, step, "front", minute, warm)
    run.end_step(store, step, RunState.RUN)


# Seen: top speed marked run with all lower speeds skipped.
def test_top_speed_waits_for_every_lower_one(store: Store, lathe: int) -> None:
    rows = ladder(store, lathe)
    top = rows[-1].id
    said = (
        "“top speed” comes after lower speeds that are not run through: “slowest speed, oil seen” is to run"
    )
    with refuses(store, said, Refused):
        run.begin_step(store, top)
    run.read_bearing(store, top, "front", 0, "20 C")
    with refuses(store, said, Refused):
        run.end_step(store, top, RunState.RUN)
    with refuses(store, said, Refused):
        editing.edit(store, "run_step", [top], {"state": "run"})
    for row in rows[:-1]:
        through(store, row.id)
    through(store, top)
    assert {row.state for row in ladder(store, lathe)} == {RunState.RUN}


def test_the_rows_may_stand_in_any_order_it_is_the_speed_that_counts(store: Store, lathe: int) -> None:
    fast = run.add_step(store, lathe, "fast", {"speed_rpm": "2000"})
    slow = run.add_step(store, lathe, "very slow", {"speed_rpm": "10"})
    through(store, slow)
    with refuses(store, "“fast” comes after lower speeds", Refused):
        run.begin_step(store, fast)


# Seen: a bearing at 75 °C against 60 °C accepted.
def test_a_bearing_over_its_limit_stops_the_step_and_holds_the_next(store: Store, lathe: int) -> None:
    slow, quarter, *_ = ladder(store, lathe)
    run.read_bearing(store, slow.id, "front", 20, "60 C")
    assert ladder(store, lathe)[0].state is RunState.RUNNING, "at the limit is not over it"
    run.read_bearing(store, slow.id, "front", 25, "75 C")
    assert ladder(store, lathe)[0].state is RunState.STOPPED
    with refuses(store, "“slowest speed, oil seen”: front 75 °C is over 60 °C", Refused):
        run.end_step(store, slow.id, RunState.RUN)
    with refuses(store, "“slowest speed, oil seen”: front 75 °C is over 60 °C", Refused):
        run.begin_step(store, quarter.id)


def test_a_bearing_that_warmed_too_fast_is_not_forgotten_when_it_steadies(store: Store, lathe: int) -> None:
    slow = ladder(store, lathe)[0].id
    course = ((0, "20 C"), (10, "40 C"), (25, "41 C"), (40, "41 C"))
    with pytest.raises(Refused, match=r"front rose 20 K in 10 min"):
        through(store, slow, course)


def test_a_speed_without_a_reading_is_not_called_run_through(store: Store, lathe: int) -> None:
    slow = ladder(store, lathe)[0].id
    with refuses(store, "No bearing was read in “slowest speed, oil seen”", Refused):
        run.end_step(store, slow, RunState.RUN)


def test_a_speed_run_again_counts_by_its_newest_try_and_the_first_stays(store: Store, lathe: int) -> None:
    slow, quarter, *_ = ladder(store, lathe)
    with refuses(store, "Run-in step: “slowest speed, oil seen” has not been run yet"):
        run.run_again(store, slow.id, "why not")
    run.read_bearing(store, slow.id, "front", 5, "75 C")
    with refuses(store, "Why again: is empty"):
        run.run_again(store, slow.id, " ")
    second = run.run_again(store, slow.id, "cap eased by one leaf")
    rows = ladder(store, lathe)
    assert [row.id for row in rows[:3]] == [slow.id, second, quarter.id]
    assert rows[0].courses[0].celsius == (75.0,)
    assert rows[1].note == "run again: cap eased by one leaf"
    through(store, second)
    run.begin_step(store, quarter.id)


def test_a_run_as_found_holds_nothing_once_the_ladder_began_below_it(store: Store) -> None:
    machine = add_machine(store, "Lathe", {"kind": "lathe"})
    found = run.add_step(store, machine, "as found", {"speed_rpm": "250", "limit_c": "60 C"})
    run.read_bearing(store, found, "front", 20, "71 C")
    with store.read() as connection:
        due = [row.id for row in checks(connection, machine) if row.due is LookWhen.BEFORE_POWER]
    for key in due:
        run.check_done(store, key, "the electrician")
    run.lay_out_run(store, machine, 30, 1200)
    _, slow, quarter, *_ = ladder(store, machine)
    through(store, slow.id)
    through(store, quarter.id)


def test_going_on_at_a_speed_is_noted_with_what_stood_against_it(store: Store, lathe: int) -> None:
    slow, *_ = ladder(store, lathe)
    run.read_bearing(store, slow.id, "front", 20, "63 C")
    run.end_step(store, slow.id, RunState.RUN, reason="the stove stands beside it", by="owner")
    assert store.undo_label() == "going on all the same slowest speed, oil seen: run"
    with store.read() as connection:
        (gone,) = gone_on(connection, lathe)
    assert (gone.gate, gone.run_step_id) == (Gate.SPEED, slow.id)
    assert "63 °C is over 60 °C" in gone.against


# Seen: one reason at the run-through of a hot speed let every speed above it begin without a word.
def test_a_reason_at_a_hot_speed_lets_no_other_speed_begin(store: Store, lathe: int) -> None:
    slow, quarter, half, *_ = ladder(store, lathe)
    run.read_bearing(store, slow.id, "front", 20, "63 C")
    run.end_step(store, slow.id, RunState.RUN, reason="the stove stands beside it", by="owner")
    hot = "“slowest speed, oil seen”: front 63 °C is over 60 °C"
    with refuses(store, hot, Refused):
        run.begin_step(store, quarter.id)
    with store.read() as connection:
        assert [one.target for one in holds(connection, lathe) if one.run_step_id == quarter.id] == [slow.id]
    run.begin_step(store, quarter.id, reason="felt by hand, cool again")
    for minute, warm in CALM:
        run.read_bearing(store, quarter.id, "front", minute, warm)
    with refuses(store, hot, Refused):
        run.end_step(store, quarter.id, RunState.RUN)
    run.end_step(store, quarter.id, RunState.RUN, reason="cool all through")
    with refuses(store, hot, Refused):
        run.begin_step(store, half.id)
    with store.read() as connection:
        said = {gone.run_step_id: gone.covers for gone in gone_on(connection, lathe)}
    assert said == {slow.id: (f"heat {slow.id}",), quarter.id: (f"run {slow.id}",)}
    through(store, run.run_again(store, slow.id, "cap eased by one leaf"))
    run.begin_step(store, half.id)


def test_a_shaper_has_strokes_and_no_spindle(store: Store) -> None:
    machine = add_machine(store, "Shaper", {"kind": "shaper"})
    run.lay_out_run(store, machine, 12, 90)
    with store.read() as connection:
        words = " ".join(row.text for row in checks(connection, machine))
        names = [row.name for row in run_steps(connection, machine)]
    assert "troke" in words
    assert not any(word in words.lower() for word in ("chuck", "spindle"))
    assert names[0] == "slowest stroke rate, oil seen"


# Seen: begun all the same, the table said "running", the form and the next speed's refusal "to run"; Begin asked again.
def test_a_speed_begun_is_running_everywhere_and_no_other_begins_meanwhile(store: Store) -> None:
    mill = add_machine(store, "Mill", {"kind": "mill"})
    run.lay_out_run(store, mill, 60, 600)
    with store.read() as connection:
        slow, half, *_ = run_steps(connection, mill)
    run.begin_step(store, slow.id, reason="guards stand, nobody near")
    with store.read() as connection:
        assert run_steps(connection, mill)[0].state is RunState.RUNNING
        assert card(connection, "run_step", slow.id).fields["state"] == "running"
        assert next(one.words for one in rungs(connection, mill)) == f"“{slow.name}” is running"
        (row,) = [one for one in read_book(connection, mill).tried.run if one.id == slow.id]
        assert (row.state.value, row.now) == ("running", "running, all the same")
    with refuses(store, "is running already"):
        run.begin_step(store, slow.id)
    for reason in ("", "in a hurry"):
        with refuses(store, f"cannot begin while “{slow.name}” is running"):
            run.begin_step(store, half.id, reason=reason)
    with refuses(store, f"cannot begin while “{slow.name}” is running"):
        editing.edit(store, "run_step", [half.id], {"state": "running"})
    run.end_step(store, slow.id, RunState.STOPPED)
    with refuses(store, "is stopped already"):
        run.begin_step(store, slow.id)
    run.begin_step(store, half.id, reason="in a hurry")
    editing.edit(store, "run_step", [half.id], {"state": "to run"})
    with store.read() as connection:
        again = next(one for one in run_steps(connection, mill) if one.id == half.id)
    assert (again.state, again.started_at) == (RunState.TO_RUN, None)
