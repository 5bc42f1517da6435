"""The figures of bushes, gears, lubricants and the shop, run from typed text as a user would."""

from __future__ import annotations

from math import isfinite

import pytest

from rebuild.errors import BadEntry, OutOfRange, RebuildError
from rebuild.trade.figures import bushes, gears, lifting, lubricants, shop
from rebuild.trade.results.figured import Figured
from rebuild.trade.results.input import InputKind
from rebuild.trade.results.working import Status

ALL = {
    figure.topic: figure for module in (bushes, gears, lubricants, shop, lifting) for figure in module.FIGURES
}
PROMISED = (
    "bush", "bearing", "identify-gear", "gear", "gear-span", "over-pins", "rack", "worm", "change-gears",
    "viscosity", "old-oil", "viscosity-index", "oil-at-temperature", "rpm", "blank", "weight", "sling",
    "drill-point", "way-drop", "backlash",
)  # fmt: skip


def _run(topic: str, **typed: str) -> Figured:
    figure = ALL[topic]
    return figure.run({**figure.example, **{name.replace("_", "-"): value for name, value in typed.items()}})


def _answer(figured: Figured, label: str) -> float | int | str:
    return next(answer.value for answer in figured.answers if answer.label == label)


def test_the_promised_topics_are_there() -> None:
    assert set(PROMISED) <= set(ALL)


@pytest.mark.parametrize("topic", sorted(ALL))
def test_every_example_runs_and_shows_its_working(topic: str) -> None:
    found = ALL[topic].run(ALL[topic].example)
    assert found.answers
    assert found.working.steps
    assert found.cautions == found.working.cautions()
    for spec in found.specs:
        assert spec.low_mm is not None
        assert spec.high_mm is not None
        assert spec.low_mm <= spec.high_mm
    for zone in found.zones:
        assert zone.low_mm <= zone.high_mm
        assert zone.role in ("hole", "shaft", "limit", "reading")


@pytest.mark.parametrize("topic", sorted(ALL))
def test_an_empty_form_asks_by_label(topic: str) -> None:
    figure = ALL[topic]
    if not any(item.required and not item.default for item in figure.inputs):
        pytest.skip("everything has a default")
    with pytest.raises(BadEntry, match="is not filled in"):
        figure.run({})


@pytest.mark.parametrize("topic", sorted(ALL))
@pytest.mark.parametrize("rubbish", ["rubbish", "-7", "0", "nan", "1e9", "/"])
def test_rubbish_is_a_sentence_never_a_traceback(topic: str, rubbish: str) -> None:
    figure = ALL[topic]
    for item in figure.inputs:
        if item.kind is InputKind.CHOICE and rubbish in item.choices:
            continue
        said = ""
        try:
            found = figure.run({**figure.example, item.name: rubbish})
        except RebuildError as error:
            said = str(error)
        else:
            assert all(isfinite(a.value) for a in found.answers if isinstance(a.value, float))
            continue
        assert len(said) > 10


def test_inch_and_metric_typing_agree() -> None:
    inch = _run("bush")
    metric = _run(
        "bush", housing="20.64512", shaft="15.86738", clearance_low="0.0254", clearance_high="0.0381"
    )
    assert _answer(inch, "finished bore, low") == pytest.approx(_answer(metric, "finished bore, low"))


def test_a_gear_is_identified_from_typed_readings() -> None:
    found = _run("identify-gear", teeth="24", outside="54.95", spans="2: 9.83; 3: 16.27")
    assert found.answers[0].label == "DP 12, 14.5°"
    with pytest.raises(BadEntry, match=r"3: 19\.53"):
        _run("identify-gear", spans="nonsense")
    with pytest.raises(BadEntry, match=r"4\.32: 57\.6"):
        _run("identify-gear", pins="nonsense")


def test_change_gears_find_127() -> None:
    found = _run("change-gears")
    assert found.answers[0].note == "exact"
    assert "127" in found.answers[0].label
    with pytest.raises(BadEntry, match="ratio"):
        _run("change-gears", gearbox="x")


def test_old_oil_shows_the_gap() -> None:
    text = str(_answer(_run("old-oil"), "today"))
    assert "falls between VG 46 (to 50.6) and VG 68 (from 61.2)" in text


def test_oil_at_temperature_by_index_and_by_two_readings() -> None:
    two = _run("oil-at-temperature", at="80 C")
    assert _answer(two, "viscosity") == pytest.approx(14.723, abs=0.001)
    figure = ALL["oil-at-temperature"]
    one = figure.run({"at": "80 C", "known": "68", "index": "99.2586"})
    assert _answer(one, "viscosity") == pytest.approx(14.72, abs=0.01)


def test_viscosity_units() -> None:
    found = _run("viscosity", value="100", given="cSt", at="100 F", wanted="SUS")
    assert _answer(found, "SUS") == pytest.approx(463.46, abs=0.01)


def test_a_sling_carries_its_cautions_and_refuses_flat_legs() -> None:
    found = _run("sling", load="1000", legs="2", angle="30")
    assert _answer(found, "each leg carries") == pytest.approx(1000.0)
    assert len(found.cautions) == 2
    with pytest.raises(OutOfRange, match="do not lift"):
        _run("sling", angle="25")
    by_hooks = ALL["sling"].run({"load": "500", "leg": "1000", "spread": "1000"})
    assert _answer(by_hooks, "angle from the horizontal") == pytest.approx(60.0)
    rated = _run("sling", load="1000", angle="45", rated="500")
    assert _answer(rated, "leg") == "over its rating: do not lift"


def test_rpm_and_the_machine_s_own_speeds() -> None:
    found = _run("rpm")
    assert _answer(found, "turns") == pytest.approx(458.4, abs=0.1)
    assert _answer(found, "set the machine to") == 430
    with pytest.raises(BadEntry, match="list of speeds"):
        _run("rpm", speeds="fast slow")


def test_way_drop_is_the_worked_one() -> None:
    assert _answer(_run("way-drop"), "by 2 w H / B") == pytest.approx(0.009645 * 25.4, abs=1e-4)


def test_stamped_bearings_and_measured_ones() -> None:
    stamped = ALL["bearing"].run({"stamped": "6203-2RS"})
    assert _answer(stamped, "bore") == 17.0
    measured = _run("bearing")
    assert measured.answers[0].label == "6203"
    seat = _run("bearing-seat", seat="housing", size="52", load="inner-still")
    assert _answer(seat, "class") == "N7"
    assert {zone.role for zone in seat.zones} == {"hole", "shaft"}


def test_weights_in_feet_and_inches() -> None:
    found = _run("weight", shape="round", sizes="1 in x 1 ft", material="steel")
    assert found.answers[1].unit == "lb"
    assert found.answers[1].value == pytest.approx(2.67, abs=0.01)


def test_values_from_memory_are_shown_as_such() -> None:
    for topic in ("gear", "backlash", "oil-duty"):
        found = ALL[topic].run(ALL[topic].example)
        assert any(source.status is Status.FROM_MEMORY for source in found.working.sources()), topic
    assert "from memory" in ALL["backlash"].run(ALL["backlash"].example).working.text()
