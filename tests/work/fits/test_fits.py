"""Fits through the acts: what they are now, what is missing, what has changed, what is refused."""

from __future__ import annotations

import pytest

from rebuild.errors import Ambiguous, BadEntry, Implausible, NotThere
from rebuild.trade.fits.pairing import Pairing
from rebuild.trade.limits.verdict import Verdict
from rebuild.words.decisions import Decision
from rebuild.words.fits import Adjuster, FitJoint, FitKind, Side, WantedOrigin
from rebuild.words.readings import FeatureKind, Stage
from rebuild.work.decisions import acts as decide
from rebuild.work.editing import acts as edit
from rebuild.work.fits import acts as fits, rows as lookup
from rebuild.work.fits.acts import FitEntry
from rebuild.work.fits.rows import FitRow, FitState
from rebuild.work.machines import acts as identify
from rebuild.work.readings import acts as measure, acts_features as spec
from tests.work.teardown.apron import Apron


@pytest.fixture
def apron(small_apron: Apron) -> Apron:
    return small_apron


def row(shop: Apron, fit_id: int) -> FitRow:
    with shop.store.read() as connection:
        return lookup.fit(connection, fit_id)


def test_a_fit_without_a_reading_says_which_side_is_missing(apron: Apron) -> None:
    found = row(apron, apron.press)
    assert found.state is FitState.NO_READING
    assert found.missing == ("AP-12 apron bush, outside has no reading yet",)


def test_a_fit_is_the_difference_of_its_sides_with_their_uncertainties_combined(apron: Apron) -> None:
    apron.read("outside", "0.8138", Stage.AS_MADE)
    now = row(apron, apron.press).now
    assert now is not None
    pair = now.pairs[0]
    assert pair.value_mm / 25.4 == pytest.approx(-0.0010)
    assert pair.inner is not None
    assert pair.budget.u_mm**2 == pytest.approx(pair.outer.budget.u_mm**2 + pair.inner.budget.u_mm**2)
    assert now.verdict is Verdict.CONFORMS


def test_kinds_and_joints_are_guessed_from_the_features(apron: Apron) -> None:
    found = row(apron, apron.screw_fit)
    assert (found.joint, found.kind) == (FitJoint.NUT_AND_SCREW, FitKind.THREAD)


def test_one_nut_is_set_against_every_station_of_its_screw(apron: Apron) -> None:
    apron.read("nut thread", "0.3860")
    for station, size in zip(apron.stations("screw thread"), ("0.3830", "0.3590", "0.3828"), strict=True):
        apron.read("screw thread", size, station=station)
    found = row(apron, apron.screw_fit)
    assert found.now is not None
    assert found.now.pairing is Pairing.ONE_WITH_ALL
    assert found.now.most.station == "4 in"
    assert found.after_adjusting is not None
    assert found.after_adjusting.remains_mm / 25.4 == pytest.approx(0.0240)
    assert found.after_adjusting.axial_mm == pytest.approx(0.0240 * 25.4 * 0.25862, rel=1e-4)
    assert found.after_adjusting.verdict is Verdict.DOES_NOT
    assert any("an adjustable nut cannot take up" in remark for remark in found.remarks)
    screw = next(side for side in found.sides if side.feature == "screw thread")
    assert screw.stages_said == "as found"
    apron.read("screw thread", "0.3588", Stage.CLEANED, station=apron.stations("screw thread")[1])
    screw = next(side for side in row(apron, apron.screw_fit).sides if side.feature == "screw thread")
    assert screw.stages_said == "1 cleaned, 2 as found", "one station does not speak for the others"


def test_once_made_anew_the_worn_piece_no_longer_speaks(apron: Apron) -> None:
    apron.read("journal A", "0.6211")
    apron.read("bore", "0.6260")
    apron.read("journal A", "0.6247", Stage.AS_MADE)
    found = row(apron, apron.running)
    assert found.now is not None
    assert found.found is not None
    assert found.now.least.value_mm / 25.4 == pytest.approx(0.0013)
    assert found.found.least.value_mm / 25.4 == pytest.approx(0.0049)


def test_a_new_reading_makes_it_stale_and_says_from_what_to_what(apron: Apron) -> None:
    apron.read("journal A", "0.6211")
    fits.look(apron.store, [apron.running])
    assert row(apron, apron.running).stale == ()
    apron.read("journal A", "0.6247", Stage.AS_MADE)
    (said,) = row(apron, apron.running).stale
    assert said.startswith("AP-11 pinion shaft, journal A: measured again 0.6247 in as made, ")
    assert "was 0.6211 in as found" in said
    fits.look(apron.store, [apron.running])
    assert row(apron, apron.running).stale == ()


def test_a_decision_a_limit_or_another_feature_makes_it_stale(apron: Apron) -> None:
    decide.decide(apron.store, [apron.parts["XS-03"]], Decision.REMAKE, reason="worn mid-travel")
    assert row(apron, apron.screw_fit).stale == ("XS-03 cross screw decided remake, was reuse",)
    fits.look(apron.store, [apron.screw_fit])
    spec.set_spec(apron.store, [apron.features["screw thread"]], "0.3821-0.3850")
    assert "limits now 0.3821-0.3850, were none" in row(apron, apron.screw_fit).stale[0]
    spare = identify.add_part(apron.store, apron.machine, None, "bronze nut", "XS-14")
    other = spec.add_feature(apron.store, spare, "thread", FeatureKind.THREAD, unit="in")
    fits.look(apron.store, [apron.screw_fit])
    fits.replace_side(apron.store, apron.screw_fit, Side.OUTER, other)
    said = row(apron, apron.screw_fit).stale[0]
    assert said == "the outer side is now XS-14 bronze nut, thread, was XS-04 cross nut, nut thread"


def test_a_part_is_named_whole_whatever_its_feature_is_called(apron: Apron) -> None:
    edit.edit(apron.store, "part", [apron.parts["XS-03"]], {"name": "screw: cross, long"})
    edit.edit(apron.store, "feature", [apron.features["screw thread"]], {"name": "thread, worn part"})
    fits.look(apron.store, [apron.screw_fit])
    decide.decide(apron.store, [apron.parts["XS-03"]], Decision.REMAKE, reason="worn mid-travel")
    assert row(apron, apron.screw_fit).stale == ("XS-03 screw: cross, long decided remake, was reuse",)


def test_undoing_the_reading_undoes_the_staleness(apron: Apron) -> None:
    apron.read("outside", "0.8138", Stage.AS_MADE)
    assert row(apron, apron.press).stale
    apron.store.undo()
    assert row(apron, apron.press).stale == ()


def test_striking_a_reading_is_said(apron: Apron) -> None:
    reading = apron.read("outside", "0.8138", Stage.AS_MADE)
    fits.look(apron.store, [apron.press])
    measure.strike_reading(apron.store, reading, "dirt")
    assert "no longer speaks" in row(apron, apron.press).stale[0]


def test_a_side_to_be_remade_is_not_final_before_it_is_measured_as_made(apron: Apron) -> None:
    apron.read("journal A", "0.6211")
    apron.read("bore", "0.6260")
    decide.decide(apron.store, [apron.parts["AP-11"]], Decision.REMAKE, reason="step")
    found = row(apron, apron.running)
    assert found.state is FitState.WAITS
    assert found.inner.wait is not None
    assert found.inner.wait.sentence == (
        "AP-11 pinion shaft, journal A is to be remade and is not measured as made yet"
    )
    apron.read("journal A", "0.6247", Stage.AS_MADE)
    assert row(apron, apron.running).inner.final


def test_a_chosen_stage_speaks_alone_and_keeps_the_fit_looked_at(apron: Apron) -> None:
    apron.read("journal A", "0.6211")
    apron.read("journal A", "0.6247", Stage.AS_MADE)
    apron.read("bore", "0.6260")
    fits.look(apron.store, [apron.running])
    fits.change_fit(apron.store, apron.running, {"inner_stage": "as found"})
    found = row(apron, apron.running)
    assert found.now is not None
    assert found.now.least.value_mm / 25.4 == pytest.approx(0.0049)
    assert found.stale == ()


def test_a_gap_read_directly_speaks_when_it_is_newer(apron: Apron) -> None:
    store, f = apron.store, apron.features
    lift = spec.add_feature(store, apron.parts["AP-02"], "lift", FeatureKind.GAP, unit="in")
    other = spec.add_feature(
        store, apron.parts["AP-11"], "journal B", FeatureKind.OUTSIDE_DIAMETER, unit="in"
    )
    apron.features |= {"lift": lift, "journal B": other}
    apron.read("journal B", "0.8100")
    key = fits.add_fit(store, FitEntry(f["housing"], other, FitKind.RUNNING, gap_id=lift))
    assert row(apron, key).now.pairing is Pairing.BY_STATION  # type: ignore[union-attr]
    apron.read("lift", "0.0021")
    found = row(apron, key)
    assert found.now is not None
    assert found.now.pairing is Pairing.DIRECT
    assert found.now.most.value_mm / 25.4 == pytest.approx(0.0021)


def test_backlash_is_the_pitch_less_both_teeth(apron: Apron) -> None:
    import math

    store = apron.store
    for name, code in (("wheel", "AP-11"), ("pinion", "AP-12")):
        apron.features[name] = spec.add_feature(
            store, apron.parts[code], name, FeatureKind.GEAR, unit="in", typed={"thread": "DP 8"}
        )
    apron.read("wheel", "0.1940")
    apron.read("pinion", "0.1930")
    key = fits.add_fit(store, FitEntry(apron.features["wheel"], apron.features["pinion"]))
    found = row(apron, key)
    assert found.joint is FitJoint.GEAR_MESH
    assert found.now is not None
    assert found.now.most.value_mm / 25.4 == pytest.approx(math.pi / 8 - 0.1940 - 0.1930)


def test_two_units_on_one_fit_are_told_and_counted_alike(apron: Apron) -> None:
    pin = identify.add_part(apron.store, apron.machine, None, "metric pin", "AP-20")
    key = spec.add_feature(apron.store, pin, "pin", FeatureKind.OUTSIDE_DIAMETER, unit="mm")
    apron.features["pin"] = key
    apron.read("pin", "20.62")
    fit_id = fits.add_fit(apron.store, FitEntry(apron.features["housing"], key, FitKind.RUNNING))
    found = row(apron, fit_id)
    assert found.now is not None
    assert found.now.least.value_mm == pytest.approx(0.8128 * 25.4 - 20.62)
    assert any("both are counted in mm" in remark for remark in found.remarks)


def test_a_reading_in_the_wrong_unit_is_noticed(apron: Apron) -> None:
    apron.read("outside", "0.8138 mm", Stage.AS_MADE)
    assert any("more than a fifth apart" in remark for remark in row(apron, apron.press).remarks)


def test_a_standard_fit_and_a_rule_of_the_trade_are_taken_with_their_source(apron: Apron) -> None:
    apron.read("journal A", "0.6247", Stage.AS_MADE)
    fits.set_wanted(apron.store, apron.running, "rule slow")
    found = row(apron, apron.running)
    assert found.wanted_origin is WantedOrigin.RULE
    assert found.low_mm == pytest.approx(0.6247e-3 * 25.4)
    assert "common practice" in found.wanted_note
    fits.set_wanted(apron.store, apron.running, "RC4")
    assert row(apron, apron.running).wanted_origin is WantedOrigin.STANDARD
    fits.set_wanted(apron.store, apron.running, "")
    assert row(apron, apron.running).low_mm is None


@pytest.mark.parametrize(
    ("entry", "error", "words"),
    [
        ({"inner": "housing"}, BadEntry, "is the same feature as the other side"),
        ({"outer": "journal A", "inner": "housing"}, BadEntry, "Swap the two"),
        ({"wanted": "-0.001 to 0.001"}, BadEntry, "a running fit cannot work with an interference"),
        ({"wanted": "0.001-0.002", "kind": FitKind.PRESS}, Ambiguous, "may be the interference of this press fit"),
        ({"wanted": "0.002"}, BadEntry, "is one size, not a range"),
        ({"wanted": "0.004-0.002"}, Ambiguous, "0.002 to 0.004 .the smaller one first"),
        ({"wanted": "0.02-0.04"}, Implausible, "millimetres typed for inches"),
        ({"wanted": "a little"}, BadEntry, "is not a range"),
    ],
)  # fmt: skip
def test_what_cannot_be_a_fit_is_refused_in_a_sentence(
    apron: Apron, entry: dict[str, object], error: type[BadEntry], words: str
) -> None:
    keys = {
        side: apron.features[str(entry.get(side, name))]
        for side, name in (("outer", "housing"), ("inner", "journal A"))
    }
    kind = entry.get("kind", FitKind.RUNNING)
    assert isinstance(kind, FitKind)
    before = apron.store.undo_label()
    with pytest.raises(error, match=words):
        fits.add_fit(
            apron.store, FitEntry(keys["outer"], keys["inner"], kind, wanted=str(entry.get("wanted", "")))
        )
    assert apron.store.undo_label() == before


def test_a_fit_across_two_machines_or_a_second_time_is_refused(apron: Apron) -> None:
    other = identify.add_machine(apron.store, "Shaper")
    part = identify.add_part(apron.store, other, None, "pin", "SH-01")
    foreign = spec.add_feature(apron.store, part, "pin", FeatureKind.OUTSIDE_DIAMETER)
    with pytest.raises(BadEntry, match="on another machine"):
        fits.add_fit(apron.store, FitEntry(apron.features["housing"], foreign))
    with pytest.raises(BadEntry, match="is a fit already"):
        fits.add_fit(apron.store, FitEntry(apron.features["bore"], apron.features["journal A"]))


def test_a_kind_that_does_not_suit_the_range_is_refused(apron: Apron) -> None:
    with pytest.raises(BadEntry, match="a press fit holds by interference alone"):
        fits.change_fit(apron.store, apron.running, {"kind": "press"})
    fits.change_fit(apron.store, apron.running, {"adjuster": "ream", "note": "in line with the other end"})
    assert row(apron, apron.running).adjuster is Adjuster.REAM


def test_removing_a_feature_takes_its_fits_and_undo_brings_them_back(apron: Apron) -> None:
    edit.remove(apron.store, "feature", [apron.features["bore"]])
    with pytest.raises(NotThere):
        row(apron, apron.running)
    apron.store.undo()
    assert row(apron, apron.running).name == "Shaft in bush"
