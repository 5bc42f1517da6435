"""The refit draft: the log read backwards."""

from __future__ import annotations

import pytest

from rebuild.store.store import Store
from rebuild.words.decisions import Decision
from rebuild.words.places import PlaceKind
from rebuild.words.steps import ConstraintKind, TaskKind, TaskState
from rebuild.words.teardown import RemovalWay
from rebuild.work.decisions import acts as decide
from rebuild.work.editing import acts as edit
from rebuild.work.machines import acts as identify
from rebuild.work.records.ways_out import Refused
from rebuild.work.refit.acts import Drafted
from rebuild.work.steps import acts as tasks
from rebuild.work.steps.rows import links
from rebuild.work.teardown import acts as teardown
from tests.work.teardown.bench_apron import NAMES, Apron, drafted, on_the_bench, take_all_off


@pytest.fixture
def apron(store: Store) -> Apron:
    return on_the_bench(store)


def test_the_log_read_backwards_becomes_linked_refit_steps(apron: Apron) -> None:
    take_all_off(apron)
    report = drafted(apron)
    assert (report.made, report.links) == (5, 4)
    assert [row.title for row in apron.steps()] == [
        f"Refit AP-0{at} {name}" for at, name in enumerate(NAMES, 1)
    ]
    assert all(row.kind is TaskKind.REFIT for row in apron.steps())
    assert [len(row.waits_for) for row in apron.steps()] == [0, 1, 1, 1, 1]


def test_drafting_again_keeps_the_user_s_edits(apron: Apron) -> None:
    take_all_off(apron)
    drafted(apron)
    worm, cover = apron.step("worm"), apron.step("cover")
    edit.edit(apron.store, "task", [worm.id], {"title": "Worm in, pinion up", "likely_min": "20 min"})
    edit.remove(apron.store, "task", [cover.id])
    with apron.store.read() as connection:
        gone = next(key for key, _, after in links(connection, apron.machine) if after == worm.id)
    edit.remove(apron.store, "link", [gone])
    first = apron.log()[0]
    edit.edit(apron.store, "removal", [first.id], {"hard": "rusted solid"})
    extra = identify.add_part(apron.store, apron.machine, apron.group, "wiper", "AP-07")
    teardown.log_removal(apron.store, apron.machine, apron.group, teardown.Off((extra,)))
    report = drafted(apron)
    titles = [row.title for row in apron.steps()]
    assert (report.made, titles[0]) == (1, "Refit AP-07 wiper")
    assert "Worm in, pinion up" in titles
    assert not any("cover" in title for title in titles)
    assert not next(row for row in apron.steps() if row.title.startswith("Worm")).waits_for


def test_a_detail_added_to_the_log_reaches_a_step_still_as_drafted(apron: Apron) -> None:
    take_all_off(apron)
    drafted(apron)
    worm = next(row for row in apron.log() if "worm" in row.called)
    edit.edit(apron.store, "removal", [worm.id], {"orientation": "boss to the operator"})
    assert drafted(apron).rewritten == 1
    assert "Sat: boss to the operator" in apron.step("worm").note
    edit.edit(apron.store, "task", [apron.step("worm").id], {"note": "my own words"})
    edit.edit(apron.store, "removal", [worm.id], {"orientation": "boss down"})
    drafted(apron)
    assert apron.step("worm").note == "my own words"


def test_a_removal_struck_from_the_log_takes_its_untouched_step_with_it(apron: Apron) -> None:
    take_all_off(apron)
    drafted(apron)
    edit.remove(apron.store, "removal", [apron.log()[2].id])
    report = drafted(apron)
    assert (report.taken_away, len(apron.steps())) == (1, 4)
    assert [len(row.waits_for) for row in apron.steps()] == [0, 1, 1, 1]


def test_a_link_of_the_user_s_that_goes_the_other_way_stands(apron: Apron) -> None:
    apron.off("cover")
    apron.off("worm")
    drafted(apron)
    worm, cover = apron.step("worm"), apron.step("cover")
    with apron.store.read() as connection:
        link = links(connection, apron.machine)[0][0]
    edit.remove(apron.store, "link", [link])
    tasks.add_link(apron.store, cover.id, worm.id, reason="cover carries the bush")
    report = drafted(apron)
    with apron.store.read() as connection:
        assert [(before, after) for _, before, after in links(connection, apron.machine)] == [
            (cover.id, worm.id)
        ]
    assert report.links == 0


def test_presses_and_pins_cannot_be_undone_and_heavy_things_want_help(apron: Apron) -> None:
    apron.off("cover", RemovalWay.PRESSED, from_end="left")
    apron.off("apron casting", typed={"hard": "heavy, took the hoist"})
    drafted(apron)
    assert apron.step("cover").irreversible
    casting = apron.step("casting")
    assert casting.constraints[0][0] is ConstraintKind.TWO_PEOPLE
    assert not casting.irreversible
    assert casting.cautions


def test_a_refit_waits_for_the_making_of_its_part_and_is_refused_until_made(apron: Apron) -> None:
    worm = apron.parts["worm"]
    decide.decide(apron.store, [worm], Decision.REMAKE, reason="hooked teeth")
    making = tasks.add_task(
        apron.store, apron.machine, apron.group, "Hob a new worm", TaskKind.MAKE, part_id=worm
    )
    apron.off("worm")
    drafted(apron)
    step = apron.step("Refit AP-03")
    assert step.waits_for == ((making, "Hob a new worm"),)
    with pytest.raises(Refused, match="AP-03 worm is decided remake and not made yet: Hob a new worm"):
        tasks.tick(apron.store, step.id)
    tasks.tick(apron.store, making)
    tasks.tick(apron.store, step.id)
    assert apron.step("Refit AP-03").state is TaskState.DONE


def test_a_part_at_a_shop_cannot_be_refitted(apron: Apron) -> None:
    apron.off("worm")
    drafted(apron)
    shop = identify.add_place(apron.store, "gear cutting, by post", PlaceKind.AT_A_SHOP)
    identify.put(apron.store, [apron.parts["worm"]], shop)
    with pytest.raises(Refused, match="lies at the shop gear cutting"):
        tasks.tick(apron.store, apron.step("worm").id)


def test_one_step_drafted_is_one() -> None:
    assert Drafted(made=1, links=1).sentence() == "1 step drafted, 1 link."
    assert Drafted(made=2).sentence() == "2 steps drafted, 0 links."
