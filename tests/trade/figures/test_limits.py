"""The figures of limits and of measuring: entries as typed, answers, what can be taken further, refusals."""

from __future__ import annotations

import pytest

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.figures import limits, verdicts

FIGURES = {figure.topic: figure for figure in (*limits.FIGURES, *verdicts.FIGURES)}


def answers(topic, **typed):
    return {answer.label: answer.value for answer in FIGURES[topic].run(typed).answers}


def test_topics():
    assert set(FIGURES) == {
        "fit",
        "limits",
        "inch-fit",
        "find-fit",
        "fit-to-mate",
        "verdict",
        "budget",
        "temperature",
    }


@pytest.mark.parametrize("topic", sorted(FIGURES))
def test_example_gives_answers_and_a_working_with_sources(topic):
    figured = FIGURES[topic].run(FIGURES[topic].example)
    assert figured.answers
    assert figured.working.sources()
    assert all(zone.low_mm <= zone.high_mm for zone in figured.zones)


@pytest.mark.parametrize("topic", ["fit", "limits", "inch-fit", "find-fit", "fit-to-mate", "verdict"])
def test_limits_can_be_taken_to_a_spec_and_drawn(topic):
    figured = FIGURES[topic].run(FIGURES[topic].example)
    assert figured.specs
    assert figured.zones
    assert all(spec.low_mm < spec.high_mm for spec in figured.specs)


def test_fit_in_inches_and_in_millimetres_is_the_same():
    assert answers("fit", fit="25.4 H7/g6") == answers("fit", fit="1 in H7/g6")


def test_inch_fit_takes_either_unit():
    assert answers("inch-fit", size="1", **{"class": "RC4"}) == answers(
        "inch-fit", size="25.4 mm", **{"class": "rc 4"}
    )


def test_press_fit_carries_a_caution():
    assert FIGURES["fit"].run({"fit": "25 H7/p6"}).cautions
    assert not FIGURES["fit"].run({"fit": "25 H7/g6"}).cautions


def test_mate_by_range_or_by_fit():
    by_fit = answers("fit-to-mate", mate="hole", actual="25.013", fit="H7/g6", nominal="25")
    by_range = answers("fit-to-mate", mate="hole", actual="25.013", min="0.007", max="0.041")
    assert by_fit == by_range


def test_verdict_of_one_sided_limits():
    # u = √(2.89² + 4.62²) = 5.4 µm, so the guard is 9.0 µm on either side of 0.010.
    got = answers("verdict", reading="0.018", high="0.01", instrument="dial indicator 0.01", reach="1")
    assert got["verdict"] == "undecided"
    got = answers("verdict", reading="0.05", high="0.01", instrument="dial indicator 0.01", reach="1")
    assert got["verdict"] == "does not conform"


def test_verdict_without_an_instrument_is_undecided():
    assert answers("verdict", reading="25", low="24", high="26")["verdict"] == "undecided"


def test_budget_takes_a_material_by_name_or_number():
    typed = {"reading": "100.01; 100.02", "instrument": "caliper 0.02", "temperature": "30"}
    by_name = answers("budget", material="aluminium 6061", **typed)
    by_number = answers("budget", material="23.6", **typed)
    assert by_name == by_number


def test_own_error_limit_replaces_the_default():
    got = answers("budget", reading="25", instrument="as typed below", error="0.01 mm", resolution="0.001")
    assert got["instrument"] == pytest.approx(10 / 3**0.5)


def test_temperature_of_the_instrument_may_be_left_empty():
    same = answers("temperature", length="1000", part="15", material="11.4", scale="15")
    assert answers("temperature", length="1000", part="15", material="11.4") == same


@pytest.mark.parametrize(
    ("topic", "typed"),
    [
        ("fit", {"fit": "25 H7"}), ("fit", {"fit": "H7/g6"}), ("fit", {}), ("limits", {"size": "25"}),
        ("limits", {"size": "25 H7/g6"}), ("inch-fit", {"size": "1", "class": "QQ"}),
        ("fit-to-mate", {"mate": "hole", "actual": "25"}),
        ("fit-to-mate", {"mate": "hole", "actual": "25", "fit": "H7/g6"}),
        ("verdict", {"reading": "abc"}), ("verdict", {"reading": "1", "low": "2", "high": "1"}),
        ("budget", {"reading": "25", "instrument": "as typed below"}),
        ("budget", {"reading": "25", "instrument": "caliper 0.02", "material": "unobtainium"}),
        ("temperature", {"length": "25", "part": "hot", "material": "11.5"}),
    ],
)  # fmt: skip
def test_bad_entries_are_sentences(topic, typed):
    with pytest.raises(BadEntry) as caught:
        FIGURES[topic].run(typed)
    assert str(caught.value).endswith((".", ")"))


@pytest.mark.parametrize(
    ("topic", "typed"),
    [
        ("limits", {"size": "600 g6"}), ("inch-fit", {"size": "20", "class": "RC4"}),
        ("budget", {"reading": "200", "instrument": "outside micrometer 0.01"}),
        ("temperature", {"length": "25", "part": "200", "material": "11.5"}),
    ],
)  # fmt: skip
def test_out_of_range_says_the_range(topic, typed):
    with pytest.raises(OutOfRange, match=r"\d+ to \d+"):
        FIGURES[topic].run(typed)
