"""At the step that puts a part back: how it sat, its match mark, the state of its fits, what is fitted there."""

from __future__ import annotations

from dataclasses import replace

from rebuild.words.decisions import Decision
from rebuild.words.fitting import FittingKind
from rebuild.words.readings import Stage
from rebuild.words.steps import TaskKind
from rebuild.work.decisions import acts as decide
from rebuild.work.editing.acts import edit
from rebuild.work.editing.acts_ways_out import take
from rebuild.work.making import acts as making, acts_as_made as as_made
from rebuild.work.making.acts_fittings import add_fitting, finish_fitting
from rebuild.work.making.acts_sizes import set_size
from rebuild.work.making.rows_fittings import fittings
from rebuild.work.making.rows_sheet import sheet_page
from rebuild.work.records.ways_out import Refused, WayKind
from rebuild.work.steps.acts import add_task, tick
from rebuild.work.steps.rows_at_refit import at_refit
from tests.support import enter_as_made, refuses, tick_steps
from tests.work.teardown.apron import Apron


def told(shop: Apron) -> dict[int, tuple[str, ...]]:
    with shop.store.read() as connection:
        return at_refit(connection, shop.machine)


def test_a_press_step_shows_how_the_part_sits_and_how_its_fits_stand(small_apron: Apron) -> None:
    shop, part = small_apron, small_apron.parts["AP-12"]
    step = add_task(shop.store, shop.machine, None, "Press in the apron bush", TaskKind.REFIT, part_id=part)
    assert told(shop).get(step, ()) == ()
    edit(shop.store, "part", [part], {"orientation": "oil hole up", "match_mark": "1-1"})
    assert told(shop)[step] == ("sits oil hole up", "match mark 1-1")
    edit(shop.store, "task", [step], {"irreversible": "yes"})
    assert "AP-12 outside in AP-02 apron casting: not measured" in told(shop)[step]
    key = add_fitting(
        shop.store, part, FittingKind.REAM, "bore", {"condition": "the shaft turns", "task_id": str(step)}
    )
    assert told(shop)[step][-1] == "ream in place: bore, until the shaft turns"
    finish_fitting(shop.store, key, "0.6258")
    assert "ream in place" not in " ".join(told(shop)[step])


def test_a_change_upstream_reaches_an_accepted_sheet(small_apron: Apron) -> None:
    shop = small_apron
    decide.decide(shop.store, [shop.parts["AP-12"], shop.parts["AP-11"]], Decision.REMAKE, reason="worn oval")
    shop.read("journal A", "0.6247", Stage.AS_MADE)
    sheet = making.start_sheet(shop.store, shop.parts["AP-12"])
    with shop.store.read() as connection:
        sizes = sheet_page(connection, sheet).sizes
    set_size(shop.store, next(size.id for size in sizes if size.name == "length"), "1.250 ±0.010")
    making.release(shop.store, sheet)
    making.begin(shop.store, sheet)
    with shop.store.read() as connection:
        sizes = sheet_page(connection, sheet).sizes
    for size in sizes:  # as they stand now, its length typed
        if size.feature_id is not None and size.measure.low_mm is not None:
            enter_as_made(shop.store, size.id, f"{size.measure.at_mm / 25.4:.5f}", shop.micrometer)
    tick_steps(shop.store, sheet)
    as_made.finish(shop.store, sheet, sure=True)
    as_made.accept(shop.store, sheet)
    with shop.store.read() as connection:
        assert sheet_page(connection, sheet).course.since_accepted == ()
    shop.read("journal A", "0.6241", Stage.AS_MADE)
    with shop.store.read() as connection:
        course = sheet_page(connection, sheet).course
    assert course.stale == (), "there is nothing to refresh"
    (changed,) = course.since_accepted
    assert "0.6241" in changed


def test_the_step_that_closes_a_fit_at_assembly_waits_for_what_came_out(small_apron: Apron) -> None:
    shop, part = small_apron, small_apron.parts["AP-12"]
    decide.decide(shop.store, [part], Decision.REUSE, reason="sound")
    step = add_task(shop.store, shop.machine, None, "Put the bush back", TaskKind.REFIT, part_id=part)
    here = {"condition": "the shaft turns", "start": "0.6240", "allowance": "0.0020"}
    add_fitting(shop.store, part, FittingKind.REAM, "bore", here)  # of no step: whatever puts the part on
    scraped = add_task(shop.store, shop.machine, None, "Bed the cap", TaskKind.TRIAL_FIT)
    add_fitting(
        shop.store,
        part,
        FittingKind.SCRAPE,
        "cap",
        {"condition": "it bears all round", "task_id": str(scraped)},
    )
    with refuses(shop.store, "ends what is still to be fitted: scrape to bearing: cap", Refused) as refused:
        tick(shop.store, scraped)
    assert "ream" not in str(refused.value)
    asked = "ream in place: bore, from 0.6240, 0.0020 left on, until the shaft turns"
    with refuses(shop.store, asked, Refused) as refused:
        tick(shop.store, step)
    way = next(way for way in refused.value.ways if way.kind is WayKind.CAME_OUT)
    assert way.wants_reason
    with refuses(shop.store, "Came out: is empty"):
        take(shop.store, way)
    assert take(shop.store, replace(way, reason="0.6258, turns by hand"))
    assert shop.store.undo_label() == "step done bore: 0.6258, turns by hand"
    tick(shop.store, step)
    tick(shop.store, scraped, reason="bedded, written on paper")
    with shop.store.read() as connection:
        assert [row.came_out for row in fittings(connection, part)] == ["0.6258, turns by hand", ""]
