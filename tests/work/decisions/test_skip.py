"""If I skip this: what a deferred part costs, from what was read of it; nothing read says so."""

from __future__ import annotations

import pytest

from rebuild.errors import NotThere
from rebuild.trade.wear.skipped import Costs
from rebuild.words.decisions import Decision
from rebuild.words.fits import FitKind, Side
from rebuild.words.readings import FeatureKind
from rebuild.words.steps import TaskKind
from rebuild.words.surveys import SurveyMethod
from rebuild.work.decisions.acts import decide
from rebuild.work.decisions.rows_skip import if_part_skipped
from rebuild.work.editing.acts import edit
from rebuild.work.fits import acts as fits
from rebuild.work.part_card.rows import About, glance
from rebuild.work.readings import acts as measure, acts_features as spec
from rebuild.work.steps import acts as steps
from rebuild.work.surveys.acts import add_survey, enter_run
from rebuild.work.surveys.rows import survey_data
from tests.conftest import Shop
from tests.work.plan.random_machines import NOW


def lines(shop: Shop, part: int) -> list[tuple[Costs, str]]:
    with shop.store.read() as connection:
        return list(if_part_skipped(connection, part).value.lines)


def test_a_loose_fit_of_a_deferred_part_says_what_it_costs(shop: Shop) -> None:
    assert lines(shop, shop.cap) == []
    with shop.store.read() as connection:
        assert "no fit, survey or test read so far" in if_part_skipped(connection, shop.cap).value.sentence
    bore = spec.add_feature(shop.store, shop.cap, "bore", FeatureKind.BORE)
    made = fits.add_fit(
        shop.store, fits.FitEntry(bore, shop.journal, FitKind.RUNNING, master=Side.INNER, name="running")
    )
    fits.set_wanted(shop.store, made, "0.02-0.05")
    measure.record_reading(shop.store, "60.100", measure.Entry(bore))
    for station in (shop.near, shop.far):
        measure.record_reading(shop.store, "59.980", measure.Entry(shop.journal, station))
    decide(shop.store, [shop.cap], Decision.DEFER, reason="later")
    found = [words for costs, words in lines(shop, shop.cap) if costs is Costs.ACCURACY]
    assert found == ["running can move 0.120 mm, 0.070 mm more than the most wanted"]
    with shop.store.read() as connection:
        told = glance(connection, shop.cap, NOW).of(About.SKIPPED)
    assert [(one.words, one.tail) for one in told] == [(found[0], "accuracy")]
    measure.record_reading(shop.store, "60.020", measure.Entry(bore))
    assert [costs for costs, _ in lines(shop, shop.cap)] == [Costs.RISK], (
        "no instrument is named: it cannot be told"
    )


def test_what_is_closed_in_or_suspected_is_a_risk(shop: Shop) -> None:
    edit(shop.store, "part", [shop.cap], {"condition": "old lead paint"})
    steps.add_task(
        shop.store, shop.machine, shop.headstock, "Press the cap on", TaskKind.REFIT, part_id=shop.cap,
        typed={"irreversible": "yes"},
    )  # fmt: skip
    assert lines(shop, shop.cap) == [
        (Costs.RISK, "it may hold lead, and stays in the machine"),
        (Costs.RISK, "after “Press the cap on” it cannot be reached again"),
    ]
    with shop.store.read() as connection, pytest.raises(NotThere, match=r"no\. 999 is no longer there"):
        if_part_skipped(connection, 999)


def test_a_way_surveyed_out_of_what_is_allowed_costs_accuracy(shop: Shop) -> None:
    """Slopes 0, +0.2, -0.2, 0 mm/m over 100 mm steps: heights 0, 0, 0.02, 0, 0, by hand; 0.005 mm is allowed."""
    survey = add_survey(
        shop.store, shop.machine, "Slide way", SurveyMethod.LEVEL, lines=["front"],
        typed={"unit": "mm/m", "step": "100 mm", "allowed": "0.005 mm"},
    )  # fmt: skip
    with shop.store.read() as connection:
        (line,) = survey_data(connection, survey).lines
    for run in (1, 2):
        enter_run(shop.store, line.id, ["0", "0.2", "-0.2", "0"], run)
    edit(shop.store, "survey", [survey], {"part_id": str(shop.cap)})
    ((costs, words),) = lines(shop, shop.cap)
    assert costs is Costs.ACCURACY
    assert words.startswith("Slide way, front reads 0.020 mm, limit 0.005 mm")
