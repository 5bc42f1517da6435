"""The removal log: what came off, how, with what, and where it went."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from rebuild.errors import BadEntry
from rebuild.store.store import Store
from rebuild.words.steps import TaskKind, TaskState
from rebuild.words.teardown import RemovalWay
from rebuild.work.machines import acts as identify
from rebuild.work.records.ways_out import Refused, WayKind
from rebuild.work.steps import acts as tasks
from rebuild.work.teardown import acts as teardown, acts_line
from tests.support import refuses
from tests.work.teardown.bench_apron import Apron, on_the_bench


@pytest.fixture
def apron(store: Store) -> Apron:
    return on_the_bench(store)


def test_three_keystrokes_log_the_next_part_of_the_tree(apron: Apron) -> None:
    for line in ("l", "u", "w"):  # each with Enter and nothing else
        acts_line.say_removal(apron.store, apron.machine, apron.group, line)
    assert [(row.called, row.how) for row in apron.log()] == [
        ("AP-01 apron casting", RemovalWay.LIFTED),
        ("AP-02 half nuts", RemovalWay.UNSCREWED),
        ("AP-03 worm", RemovalWay.PULLED),
    ]


def test_a_spoken_line_stores_fasteners_shims_marks_and_where_it_went(apron: Apron) -> None:
    line = "ap5 u, 4x 3/8-16 x 1-3/4 socket, finger, shims left 0.009 + 2 x 0.003, mark two dots, found brass, > bag 4"
    acts_line.say_removal(apron.store, apron.machine, apron.group, line)
    row = apron.log()[0]
    assert (row.called, row.match_mark, row.found, row.place) == (
        "AP-05 cover", "two dots", "brass", "bag 4 apron screws",
    )  # fmt: skip
    assert row.fasteners[0].words == "4 × 3/8-16 × 1-3/4 in socket screw, finger"
    assert row.fasteners[0].thread_known
    assert row.shims[0].total.value == pytest.approx(0.015 * 25.4, abs=1e-12)
    assert row.shims[0].thick == "0.0150 in (0.381 mm) in 3 leaves"
    assert row.shims[0].words == f"left: {row.shims[0].thick}"


def test_a_driven_pin_must_say_from_which_end(apron: Apron) -> None:
    with pytest.raises(BadEntry, match="From which end"):
        apron.off("worm", RemovalWay.DRIVEN)
    apron.off("worm", RemovalWay.DRIVEN, from_end="small end")
    assert apron.log()[0].way == "driven out from the small end"


def test_logging_puts_the_part_away_and_ticks_the_step_that_meant_to(apron: Apron) -> None:
    meant = tasks.add_task(
        apron.store, apron.machine, apron.group, "Take the cover off", TaskKind.REMOVE,
        part_id=apron.parts["cover"],
    )  # fmt: skip
    apron.off("cover", place_id=apron.bag)
    assert next(row for row in apron.steps() if row.id == meant).state is TaskState.DONE
    with apron.store.read() as connection:
        from rebuild.work.machines.rows_tree import parts

        assert {row.name: row.place for row in parts(connection, apron.machine)}[
            "cover"
        ] == "bag 4 apron screws"


def test_a_part_removed_twice_is_refused_with_ways_out(apron: Apron) -> None:
    apron.off("cover")
    with pytest.raises(Refused, match=r"AP-05 cover is off already: no\. 1 of AP Apron, lifted") as refused:
        apron.off("cover")
    assert [way.kind for way in refused.value.ways] == [WayKind.ALIKE, WayKind.NEW_ATTEMPT]
    again = teardown.Off((apron.parts["cover"],))
    teardown.log_removal(apron.store, apron.machine, apron.group, again, again=teardown.Again.ALIKE)
    assert (apron.attempt().number, len(apron.log())) == (1, 2)
    assert [row.called for row in apron.log()] == ["AP-05 cover", "AP-06 cover 2"], "a part of its own"
    assert "refitted" not in apron.store.undo_label()
    new = teardown.Again.NEW_ATTEMPT
    with refuses(apron.store, "What stopped attempt 1: is empty"):
        teardown.log_removal(apron.store, apron.machine, apron.group, again, again=new)
    teardown.log_removal(apron.store, apron.machine, apron.group, again, again=new, why="it leaked")
    assert (apron.attempt().number, len(apron.log())) == (2, 1)


def test_words_that_could_be_several_parts_are_listed(apron: Apron) -> None:
    identify.add_part(apron.store, apron.machine, apron.group, "cover plate", "AP-06")
    with pytest.raises(BadEntry, match="could be AP-05 cover, AP-06 cover plate"):
        acts_line.say_removal(apron.store, apron.machine, apron.group, "cov l")
    acts_line.say_removal(apron.store, apron.machine, apron.group, "Cover l")
    assert apron.log()[0].called == "AP-05 cover", "a name said exactly is not several"


def test_undo_of_a_removal_restores_everything(
    apron: Apron, contents: Callable[[Path], dict[str, list[tuple[object, ...]]]]
) -> None:
    before = contents(apron.store.path)
    line = "ap5 u, 4x 3/8-16 x 1-3/4, shims left 0.009, > bag 4"
    acts_line.say_removal(apron.store, apron.machine, apron.group, line)
    assert contents(apron.store.path) != before
    apron.store.undo()
    assert contents(apron.store.path) == before
