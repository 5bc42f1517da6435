"""Each figure of tapers and joints runs from its own example, both languages of size, and refuses kindly."""

from __future__ import annotations

import pytest

from rebuild.errors import BadEntry, OutOfRange, RebuildError
from rebuild.trade.figures.joints import FIGURES as JOINTS
from rebuild.trade.figures.tapers import FIGURES as TAPERS
from rebuild.trade.results.figure import Figure
from rebuild.trade.results.input import InputKind

ALL = {one.topic: one for one in (*TAPERS, *JOINTS)}


@pytest.mark.parametrize("one", ALL.values(), ids=list(ALL))
def test_the_example_works_and_shows_its_working(one: Figure) -> None:
    found = one.run(one.example)
    assert found.answers
    assert found.working.steps
    assert found.working.sources()
    assert set(found.working.cautions()) == set(found.cautions)
    for spec in found.specs:
        assert spec.origin
        assert spec.low_mm is None or spec.high_mm is None or spec.low_mm < spec.high_mm


@pytest.mark.parametrize("one", ALL.values(), ids=list(ALL))
def test_empty_and_absurd_entries_come_back_as_sentences(one: Figure) -> None:
    with pytest.raises(RebuildError):
        one.run({item.name: "0" for item in one.inputs if item.kind is not InputKind.CHOICE})
    with pytest.raises(BadEntry):
        one.run({"no-such-entry": "1"})


def _answer(topic: str, label: str, **typed: str) -> float | int | str:
    found = ALL[topic].run({name.replace("_", "-"): value for name, value in typed.items()})
    return next(each.value for each in found.answers if each.label == label)


def test_topics_named_in_the_task_are_there() -> None:
    wanted = {
        "taper", "identify-taper", "sine-bar", "compound-angle", "taper-pin", "taper-pin-for", "key", "step-key",
        "press-fit",
        "shrink-fit", "bush-close-in", "bolt", "set-screw", "dowel",
    }  # fmt: skip
    assert wanted <= set(ALL)


def test_inch_and_metric_entries_agree() -> None:
    metric = _answer("key", "across the shaft, S", shaft="25.4 mm")
    inch = _answer("key", "across the shaft, S", shaft="1 in")
    assert metric == pytest.approx(inch)
    assert inch == pytest.approx(0.859 * 25.4, abs=0.0005 * 25.4)


def test_elastic_constants_can_be_typed() -> None:
    common = {
        "diameter": "50", "interference": "0.04", "length": "40", "hub_outer": "80", "hub": "4140",
        "shaft": "4140", "hub_E": "210", "hub_nu": "0.3", "shaft_E": "210", "shaft_nu": "0.3",
    }  # fmt: skip
    assert _answer("press-fit", "pressure", **common) == pytest.approx(51.1875)
    assert _answer("press-fit", "press force", **common) == pytest.approx(38.5945, abs=1e-4)


def test_sine_bar_of_a_taper_and_back() -> None:
    stack = _answer("sine-bar", "stack", length="5", taper="MT3")
    # Source: published row: 5 in bar, 1.4377 degrees, stack 0.125450 in.
    assert stack == pytest.approx(0.125450 * 25.4, abs=2e-5 * 25.4)
    assert _answer("sine-bar", "angle", length="100 mm", stack="50 mm") == pytest.approx(30.0)


def test_shrink_fit_of_the_published_row() -> None:
    hot = _answer("shrink-fit", "hub temperature", diameter="50", interference="0.04", clearance="0.02")
    assert hot == pytest.approx(124.35, abs=0.005)


def test_refusals_name_the_field() -> None:
    with pytest.raises(OutOfRange, match="Shaft"):
        ALL["key"].run({"shaft": "9 in"})
    with pytest.raises(BadEntry, match="Hub"):
        ALL["press-fit"].run({**ALL["press-fit"].example, "hub": "unobtainium"})
    with pytest.raises(OutOfRange, match="yields"):
        ALL["press-fit"].run({**ALL["press-fit"].example, "interference": "0.5"})
    with pytest.raises(BadEntry, match="Measurements"):
        ALL["identify-taper"].run({})
