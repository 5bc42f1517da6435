"""A sample of the odd inputs that ``python -m tests.faults.odd_figures 20000`` types; and causes found, one by one."""

from __future__ import annotations

import pytest

from rebuild.errors import RebuildError
from rebuild.trade.figures import all_figures, figure
from rebuild.trade.lubrication.viscosity_index import viscosity_index
from tests.faults.odd_figures import run

#: Two for each entry of each figure.
SAMPLE = 2 * sum(len(one.inputs) for one in all_figures().values())


def test_a_sample_of_odd_inputs_ends_in_finite_answers_or_sentences() -> None:
    found = run(SAMPLE, seed=1)
    faults = [fault for count in found.values() for fault in count.faults]
    assert not faults, "\n\n".join(faults)
    assert all(count.inputs == 2 for count in found.values())
    answered = sum(count.answered for count in found.values())
    refused = sum(count.refused for count in found.values())
    assert answered + refused == SAMPLE
    assert answered > SAMPLE // 10, (
        "hardly anything comes through: the odd values are too odd to reach the figures"
    )
    assert refused > SAMPLE // 10


#: Each of these once ended in a traceback, an endless number or no memory: topic, what differs from its example, words.
MENDED = (
    ("bolt", {"bolt": "3/8-0"}, "Bolt: “3/8-0” has no threads per inch."),
    ("tap-drill", {"thread": "NPT"}, "Thread"),
    ("find-fit", {"count": "0"}, "0"),
    ("press-fit", {"hub-E": "0"}, "0"),
    ("change-gears", {"wheels": "10-3000000000"}, "Wheels: “10-3000000000” is not 1 to 60 wheels"),
    ("change-gears", {"gearbox": "1e-400"}, "Fixed ratio: “1e-400” is not from 1:1000 to 1000:1."),
    ("change-gears", {"lead": "9" * 400 + " mm"}, "is too long for a lead."),
    ("sling", {"load": "1e308"}, "Load: “1e308” is too large."),
    ("sling", {"load": "1e400"}, "“1e400” is not a number."),
    ("scraped-points", {"points": "15", "window": "1e-308"}, "“1e-308” is too small for anything in a shop."),
    ("temperature", {"material": "1e308"}, "Expansion [1e-6/K]: “1e308” is too large."),
    ("oil-at-temperature", {"known-at": "-273.15 C", "second": "8.7"}, "“-273.15” is not above -273.15."),
    ("viscosity-index", {"at-40": "1e8", "at-100": "8.86"}, "“1e+08 mm²/s” lies above 2e+07 mm²/s"),
    ("single-point", {"side": "external", "start": "500"}, "no thread stands so high. Turn it to size first"),
    ("viscosity-index", {"at-40": "9e7", "at-100": "8e7"}, "Viscosity at 100 °C: “8e+07 mm²/s” lies above"),
)  # fmt: skip


@pytest.mark.parametrize(("topic", "differs", "words"), MENDED)
def test_what_once_broke_is_refused_in_a_sentence(topic: str, differs: dict[str, str], words: str) -> None:
    asked = figure(topic)
    asked.run(asked.example or {"points": "15"})
    with pytest.raises(RebuildError) as refused:
        asked.run({**asked.example, **differs})
    assert words in str(refused.value)


@pytest.mark.parametrize(
    ("topic", "entry", "inside", "outside"),
    [
        ("sling", "load", "1e6", "1.1e6"),
        ("rpm", "speed", "10000", "10001"),
        ("temperature", "material", "500", "500.1"),
        ("change-gears", "wheels", "20-79, 127", "20-80"),
        ("viscosity-index", "at-40", "220", "222"),
    ],
)
def test_the_ends_of_the_ranges_from_both_sides(topic: str, entry: str, inside: str, outside: str) -> None:
    asked = figure(topic)
    if topic != "change-gears":
        assert asked.run({**asked.example, entry: inside}).answers
    with pytest.raises(RebuildError):
        asked.run({**asked.example, entry: outside})


def test_the_thickest_oil_of_the_standard_from_both_sides() -> None:
    assert viscosity_index(2e7, 8.86).value.exact < 0
    with pytest.raises(RebuildError, match=r"lies above 2e\+07"):
        viscosity_index(2.1e7, 8.86)
