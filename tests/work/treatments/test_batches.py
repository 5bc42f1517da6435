"""Cleaning and painting follow from what is noted of parts, go together, start their clocks, and are one act each.

What goes in which bath and how long: common practice, no source (``trade/treatments/together.py``).
"""

from __future__ import annotations

import datetime as dt

import pytest

from rebuild.trade.treatments.together import ALONG, Metal, bath_for, metal_of, usual_work
from rebuild.trade.treatments.wanted import wanted
from rebuild.words.decisions import Decision
from rebuild.words.places import PlaceKind
from rebuild.words.readings import FeatureKind
from rebuild.words.steps import TaskKind, TaskState
from rebuild.words.treatments import Treatment
from rebuild.words.work_graph import Holding, Standing
from rebuild.work.decisions.acts import decide
from rebuild.work.editing.acts import edit
from rebuild.work.machines.acts import add_part, put
from rebuild.work.plan.rows_graph import Work, work_graph
from rebuild.work.plan.rows_input import plan_input
from rebuild.work.plan.rows_tonight import Tonight, fits_tonight
from rebuild.work.readings.acts_features import add_feature
from rebuild.work.records.ways_out import Refused
from rebuild.work.steps import acts as steps
from rebuild.work.steps.acts_take_over import take_over
from rebuild.work.treatments import acts
from rebuild.work.treatments.rows import Batch, batches
from rebuild.work.waiting.rows_clocks import clocks
from tests.conftest import Shop
from tests.support import refuses

NOW = dt.datetime(2026, 6, 15, 20, 0)


def part(shop: Shop, name: str, condition: str, finish: str = "", material: str = "cast iron") -> int:
    key = add_part(shop.store, shop.machine, shop.headstock, name, name.upper()[:4])
    edit(shop.store, "part", [key], {"condition": condition, "finish": finish, "material": material})
    return key


def seen(shop: Shop, now: dt.datetime = NOW) -> dict[tuple[str, str], Batch]:
    with shop.store.read() as connection:
        return {(one.treatment.value, one.what): one for one in batches(connection, shop.machine, now)}


def work(shop: Shop, now: dt.datetime = NOW) -> Work:
    with shop.store.read() as connection:
        return work_graph(connection, shop.machine, now)


def state_of(shop: Shop, title: str, now: dt.datetime = NOW) -> Standing:
    graph = work(shop, now).graph
    return next(graph.standing(node.key) for node in graph.nodes if node.title == title and node.open)


@pytest.mark.parametrize(
    ("condition", "finish", "todo"),
    [
        ("", "", ""),
        ("bore worn 0.1", "", ""),
        ("sound, no rust, not dirty", "", ""),
        ("rust-free", "bare", ""),
        ("paint good, greasy", "", "degrease"),
        ("light rust", "bare", "degrease de-rust"),
        ("old paint flaking", "", "degrease strip prime paint"),
        ("old paint flaking", "bare", "degrease strip"),
        ("clean", "grey enamel", "degrease prime paint"),
        ("unpainted, oily", "oiled", "degrease"),
    ],
)
def test_what_is_noted_says_what_is_wanted(condition: str, finish: str, todo: str) -> None:
    assert " ".join(wanted(condition, finish)) == todo


def test_no_bath_that_eats_the_metal() -> None:
    for iron in ("EN-GJL-250", "C45", "16MnCr5", "S235", "cast iron", "42CrMo4"):
        assert metal_of(iron) is Metal.IRON, iron
    assert metal_of("CuSn7Zn4Pb7-C") is Metal.COPPER
    assert metal_of("aluminium casting") is metal_of("die-cast") is Metal.LIGHT
    for metal in (Metal.LIGHT, Metal.COPPER, Metal.SOFT, Metal.UNKNOWN):
        for treatment in (Treatment.DEGREASE, Treatment.DERUST):
            assert "caustic" not in bath_for(treatment, metal).cautions, (treatment, metal)
    assert "electrolysis" not in bath_for(Treatment.DERUST, Metal.SPRING).name.split(" or ")
    assert usual_work(Treatment.PAINT, "bed").likely > usual_work(Treatment.PAINT, "arm").likely


def test_like_parts_go_into_one_bath_and_come_out_together(shop: Shop) -> None:
    iron = [part(shop, "bracket", "greasy"), part(shop, "clamp", "dirty")]
    light = part(shop, "dust cap", "greasy", material="aluminium")
    found = seen(shop)
    wash = found[("degrease", "hot alkaline wash")]
    assert [one.part_id for one in wash.ready] == iron
    assert [one.part_id for one in found[("degrease", "paraffin or a neutral cleaner")].ready] == [light]
    assert "(assumed)" in wash.words
    made = acts.begin(shop.store, shop.machine, Treatment.DEGREASE, iron, at=NOW)
    assert shop.store.undo_label() == "batch begun degrease: 2 parts"
    lying = seen(shop)[("degrease", "hot alkaline wash")]
    assert [one.task_id for one in lying.inside] == made
    assert not lying.ready
    with shop.store.read() as connection:
        running = clocks(connection, shop.machine, NOW)
    assert [(row.part_id, row.source) for row in running] == [(key, acts.ASSUMED) for key in iron]
    assert state_of(shop, "Degrease BRAC bracket") is Standing.HELD, "not before the bath has worked"
    assert state_of(shop, "Degrease BRAC bracket", NOW + dt.timedelta(hours=3)) is Standing.READY
    acts.finish(shop.store, made, at=NOW + dt.timedelta(hours=3))
    assert ("degrease", "hot alkaline wash") not in seen(shop, NOW + dt.timedelta(hours=3))
    for _ in range(2):
        shop.store.undo()
    assert [one.part_id for one in seen(shop)[("degrease", "hot alkaline wash")].ready] == iron


def test_a_coat_starts_its_window_and_the_next_waits_for_it(shop: Shop) -> None:
    guard = part(shop, "guard", "", "grey enamel", "steel")
    bore = add_feature(shop.store, guard, "pivot bore", FeatureKind.BORE)
    assert bore
    lying = acts.begin(shop.store, shop.machine, Treatment.DEGREASE, [guard], at=NOW)
    # Seen: out together before the least time, and nothing was asked.
    with refuses(shop.store, "has not lain for its least time: .* are left", Refused):
        acts.finish(shop.store, lying, at=NOW)
    acts.finish(shop.store, lying, reason="wiped clean already", at=NOW)
    (ready,) = seen(shop)[("prime", "primer")].ready
    assert ready.masks == ("pivot bore",)
    acts.begin(
        shop.store, shop.machine, Treatment.PRIME, [guard], acts.Times("4 h", "2 d", "red oxide"), at=NOW
    )
    held = seen(shop)[("paint", "grey enamel")].held[0].held
    assert "recoat from" in held
    assert seen(shop)[("prime", "primer")].inside[0].clock.startswith("recoat from")
    with refuses(shop.store, "GUAR guard cannot go with them: “Prime GUAR guard” recoat from", Refused):
        acts.begin(shop.store, shop.machine, Treatment.PAINT, [guard], at=NOW)
    late = NOW + dt.timedelta(days=3)
    assert "rub down first" in seen(shop, late)[("paint", "grey enamel")].held[0].held
    then = NOW + dt.timedelta(hours=5)
    acts.begin(shop.store, shop.machine, Treatment.PAINT, [guard], acts.Times(baked=True), at=then)
    with shop.store.read() as connection:
        (cure,) = clocks(connection, shop.machine, then)
    assert (cure.due, cure.latest) == (then + dt.timedelta(minutes=90), None)


def test_painted_before_it_goes_on_and_only_once_it_is_reworked(shop: Shop) -> None:
    arm = part(shop, "arm", "old paint", "green enamel")
    decide(shop.store, [arm], Decision.REWORK, reason="bore worn")
    on = steps.add_task(shop.store, shop.machine, shop.headstock, "Arm on", TaskKind.REFIT, part_id=arm)
    graph = work(shop).graph
    assert any(hold.kind is Holding.TREATED for hold in graph.held_by(on))
    prime = next(node for node in graph.nodes if node.title == "Prime ARM arm")
    assert "ARM arm is not reworked yet" in [hold.sentence for hold in graph.held_by(prime.key)]
    rework = next(node for node in graph.nodes if node.kind is TaskKind.REWORK)
    assert "ARM arm is not clean yet" in [hold.sentence for hold in graph.held_by(rework.key)]
    decide(shop.store, [arm], Decision.REMAKE, reason="cracked")
    assert not any("Prime" in node.title for node in work(shop).graph.nodes)


def test_a_typed_step_takes_the_place_and_one_done_ends_it(shop: Shop) -> None:
    lever = part(shop, "lever", "greasy, rust")
    clean = steps.add_task(
        shop.store, shop.machine, shop.headstock, "Clean the lever", TaskKind.CLEAN, part_id=lever
    )
    assert not seen(shop), "one step of its own, that names no treatment, is for all of it"
    steps.tick(shop.store, clean, steps.Done(at=NOW))
    assert not any("LEVE" in node.title and node.open for node in work(shop).graph.nodes)
    shop.store.undo()
    edit(shop.store, "task", [clean], {"treatment": "degrease"})
    (ready,) = seen(shop)[("degrease", "hot alkaline wash")].ready
    assert ready.task_id == clean
    (typed,) = take_over(
        shop.store, shop.machine, seen(shop)[("de-rust", "chelating rust bath or electrolysis")].held[0].key
    )
    with shop.store.read() as connection:
        step = next(one for one in work_graph(connection, shop.machine, NOW).facts.steps if one.id == typed)
    assert (step.treatment, step.state) == (Treatment.DERUST, TaskState.OPEN)


def test_lead_paint_is_tested_and_a_part_away_fetched_first(shop: Shop) -> None:
    door = part(shop, "door", "old lead paint", "")
    held = seen(shop)[("strip", "paint stripper")].held[0]
    graph = work(shop).graph
    kinds = {edge.kind for key in (held.key,) for edge in graph.edges_into(key)}
    assert Holding.HAZARD in kinds
    with refuses(shop.store, "DOOR door cannot go with them: DOOR door may hold lead", Refused):
        acts.begin(shop.store, shop.machine, Treatment.DEGREASE, [door], at=NOW)
    knob = part(shop, "knob", "greasy")
    from rebuild.work.machines.acts import add_place

    put(shop.store, [knob], add_place(shop.store, "the chromer", PlaceKind.AT_A_SHOP))
    (away,) = seen(shop)[("degrease", "hot alkaline wash")].held[-1:]
    assert "the chromer" in away.held


def test_refusals_name_the_field_and_write_nothing(shop: Shop) -> None:
    cap = part(shop, "felt", "greasy", "grey enamel", "felt")
    with refuses(shop.store, "Parts: is none."):
        acts.begin(shop.store, shop.machine, Treatment.DEGREASE, [])
    with refuses(shop.store, "Latest after: “1 h” is before the soonest."):
        acts.begin(shop.store, shop.machine, Treatment.DEGREASE, [cap], acts.Times("2 h", "1 h"))
    with refuses(shop.store, "must not be baked: wood, felt, leather and plastics."):
        acts.begin(shop.store, shop.machine, Treatment.PAINT, [cap], acts.Times(baked=True))
    with refuses(shop.store, "nothing says that it wants “strip” now", Refused):
        acts.begin(shop.store, shop.machine, Treatment.STRIP, [cap])
    with refuses(shop.store, "lies in no bath."):
        acts.finish(shop.store, [shop.strip])
    with refuses(shop.store, "Parts: is none."):
        acts.finish(shop.store, [])


def test_tonight_offers_what_can_be_cleaned_and_the_dates_know_its_usual_time(shop: Shop) -> None:
    part(shop, "bracket", "greasy")
    with shop.store.read() as connection:
        given = plan_input(connection, shop.machine, NOW)
    (node,) = [one for one in fits_tonight(given, Tonight(60)) if one.title == "Degrease BRAC bracket"]
    assert (node.assumed, node.points.likely) == (True, 15)


def test_ticking_the_step_alone_takes_it_out_of_the_bath(shop: Shop) -> None:
    bracket = part(shop, "bracket", "greasy")
    (step,) = acts.begin(shop.store, shop.machine, Treatment.DEGREASE, [bracket], at=NOW)
    with refuses(shop.store, "“Degrease BRAC bracket” in the bath since", Refused):
        steps.tick(shop.store, step, steps.Done(at=NOW))
    later = NOW + dt.timedelta(hours=3)
    steps.tick(shop.store, step, steps.Done(at=later))
    with shop.store.read() as connection:
        assert not clocks(connection, shop.machine, later)


# Seen: four parts in one bath counted four times in every duration.
def test_a_bath_is_made_ready_once_for_all_that_go_in_together(shop: Shop) -> None:
    """One whole usual time, of the longest, and for each other what one more takes (common practice, no source)."""
    for name in ("quill", "collet", "rack", "pawl"):
        part(shop, name, "greasy")
    (bath,) = [one for one in seen(shop).values() if one.treatment is Treatment.DEGREASE]
    alone = usual_work(Treatment.DEGREASE, "quill").likely
    assert len(bath.ready) == 4
    assert bath.minutes == pytest.approx(alone * (1 + 3 * ALONG))
    away = part(shop, "yoke", "greasy")
    steps.add_task(
        shop.store, shop.machine, shop.headstock, "Take the yoke off", TaskKind.REMOVE, part_id=away
    )
    brass = part(shop, "bush", "greasy", material="brass")
    by_part = {node.part_id: node.points.likely for node in work(shop).graph.nodes if node.key < 0}
    assert (by_part[away], by_part[brass]) == (alone, alone), "another time, another bath"
