"""What a figure reads from typed numbers: doubtful commas, signs and ranges of physics, half-given pairs, the echo."""

from __future__ import annotations

import contextlib

import pytest

from rebuild.errors import Ambiguous, BadEntry, OutOfRange, RebuildError
from rebuild.trade.figures import all_figures, figure
from rebuild.trade.results.figure_text import answers_text, as_data
from rebuild.trade.results.figured import Figured
from rebuild.trade.results.input import InputKind


def _run(topic: str, comma: bool | None = None, **typed: str) -> Figured:
    chosen = figure(topic)
    given = {name.replace("_", "-"): text for name, text in typed.items()}
    return chosen.run({**chosen.example, **given}, comma=comma)


def test_a_load_with_a_doubtful_comma_is_never_lifted_on_a_guess() -> None:
    with pytest.raises(Ambiguous) as question:
        _run("sling", load="1,500 kg", legs="2", rated="1000 kg")
    assert str(question.value).startswith("Load: “1,500 kg” has a comma that may mark decimals or thousands.")
    assert [retyped for _, retyped in question.value.readings] == ["1.500 kg", "1500 kg"]
    # Source: a two-leg sling at 45° carries load / (2 sin 45°) a leg; 1500 kg gives 1060.7 kg.
    settled = _run("sling", comma=False, load="1,500 kg", legs="2", rated="1000 kg")
    assert settled.answers[1].value == pytest.approx(1060.66, abs=0.01)
    assert settled.answers[-1].value == "over its rating: do not lift"


@pytest.mark.parametrize(
    ("topic", "entry", "text"),
    [
        ("old-oil", "oil", "5,000 cSt"),
        ("old-oil", "oil", "1,500 SUS at 100 F"),
        ("rpm", "speed", "1,500"),
        ("rpm", "speeds", "55 110 1,500"),
        ("straightness", "readings", "0.02 1,500 0.02"),
        ("change-gears", "lead", "1,500 mm"),
        ("change-gears", "tolerance", "2,000"),
        ("sine-bar", "angle", "14,500"),
        ("weight", "sizes", "50 x 1,000"),
        ("temperature", "part", "1,025"),
        ("temperature", "material", "11,500"),
        ("viscosity-index", "at-40", "1,500"),
        ("oil-at-temperature", "at", "1,020 C"),
    ],
)
def test_a_doubtful_comma_is_asked_about_in_every_kind_of_entry(topic: str, entry: str, text: str) -> None:
    chosen = figure(topic)
    with pytest.raises(Ambiguous) as question:
        chosen.run({**chosen.example, entry: text})
    assert "or" in str(question.value)
    assert len(question.value.readings) == 2


def test_a_whole_number_with_a_comma_is_asked_with_what_it_can_be() -> None:
    for text, readings in (("1,200", ["1200"]), ("1,000", ["1", "1000"])):
        with pytest.raises(Ambiguous) as question:
            _run("gear", teeth=text)
        assert [retyped for _, retyped in question.value.readings] == readings


def test_a_sling_is_not_worked_out_of_two_angles_or_from_one_slanting_leg() -> None:
    with pytest.raises(
        BadEntry, match=r"“45” is not the 60\.0° that the leg and the distance of the hooks give"
    ):
        _run("sling", leg="1000", spread="1000")
    assert _run("sling", leg="1000", spread="1000", angle="60.4").answers[0].value == pytest.approx(60.0)
    with pytest.raises(BadEntry, match="hangs straight under the hook, not at 45°"):
        _run("sling", legs="1")
    assert _run("sling", legs="1", angle="90").answers[0].value == 90.0
    assert dict(_run("sling", load="410 lbs").read)["Load"] == "410 lb (186 kg)"
    with pytest.raises(BadEntry, match="Type a number and its unit: kg"):
        _run("sling", load="410 mm")


def test_a_temperature_the_old_figure_does_not_give_is_said() -> None:
    for oil in ("300 SUS", "300 ssu @ 100"):
        assert str(_run("old-oil", oil=oil).answers[0].value).startswith("taken as at 100 °F: about 57.9")
    assert str(_run("old-oil", oil="300 SUS at 100 °F").answers[0].value).startswith("about 57.9")
    with pytest.raises(Ambiguous) as question:
        _run("old-oil", oil="5 °E @ 50")
    assert [retyped for _, retyped in question.value.readings] == ["5 °E @ 50 °C", "5 °E @ 50 °F"]


def test_an_interference_just_too_large_is_told_from_the_largest() -> None:
    with pytest.raises(OutOfRange) as refusal:
        _run("press-fit", diameter="2 mm", interference="0.00334", length="1", hub_outer="3")
    assert "“3.34 µm” is too much" in str(refusal.value)
    assert "the elastic formulas hold to 3.31 µm" in str(refusal.value)


@pytest.mark.parametrize("text", ["nan", "inf", "1e400", "1e999", "-inf"])
@pytest.mark.parametrize("topic", sorted(all_figures()))
def test_nothing_endless_is_worked_with(topic: str, text: str) -> None:
    chosen = figure(topic)
    for item in chosen.inputs:
        if item.kind in (InputKind.NUMBER, InputKind.WHOLE, InputKind.LENGTH):
            # An entry this figure does not ask for beside the others is not read at all.
            with contextlib.suppress(RebuildError):
                read = dict(chosen.run({**chosen.example, item.name: text}).read)
                assert item.label not in read


#: Lengths a minus has a meaning for: clearances, limits, drops and depths to either side of a line.
SIGNED = {
    ("find-fit", "min"), ("find-fit", "max"), ("fit-to-mate", "min"), ("fit-to-mate", "max"), ("verdict", "low"),
    ("verdict", "high"), ("taper", "depth"), ("gauge-taper", "first"), ("squareness", "first"),
    ("squareness", "turned"), ("way-drop", "drop"), ("carriage-drop", "drop"), ("tailstock-height", "off"),
    ("pipe-gauging", "stand-off"), ("hole-circle", "x"), ("hole-circle", "y"), ("both-ways", "front"),
    ("both-ways", "rear"), ("both-ways", "sideways"),
}  # fmt: skip


def test_only_these_lengths_may_be_below_nought() -> None:
    found = {(one.topic, item.name) for one in all_figures().values() for item in one.inputs if item.signed}
    assert found == SIGNED


@pytest.mark.parametrize("topic", sorted(all_figures()))
def test_a_length_below_nought_is_refused_where_physics_forbids_it(topic: str) -> None:
    chosen = figure(topic)
    for item in chosen.inputs:
        if item.kind is InputKind.LENGTH and not item.signed:
            with contextlib.suppress(RebuildError):
                read = dict(chosen.run({**chosen.example, item.name: "-5 mm"}).read)
                assert item.label not in read


@pytest.mark.parametrize(
    ("topic", "entry", "inside", "outside", "said"),
    [
        ("press-fit", "hub-nu", "0.5", "0.51", "is outside 0 to 0.5"),
        ("press-fit", "hub-nu", "0", "-0.01", "is outside 0 to 0.5"),
        ("press-fit", "shaft-nu", "0.3", "3", "is outside 0 to 0.5"),
        ("press-fit", "hub-E", "110", "-110", "is not above 0"),
        ("press-fit", "hub-E", "110", "0", "is not above 0"),
        ("old-oil", "index", "400", "400.1", "is outside -100 to 400"),
        ("old-oil", "index", "-100", "-1731", "is outside -100 to 400"),
        ("budget", "within", "0", "-1", "is outside 0 to 100 K"),
        ("sling", "load", "0.1", "0", "is not above 0"),
        ("sling", "rated", "0.1 kg", "-1", "is not above 0"),
        ("bush", "close-in", "0", "-1", "is outside 0 to 150 %"),
        ("compound-angle", "relief", "0", "-0.1", "is outside 0 to 30 °"),
        ("centre-of-mass", "first", "0", "-1", "is outside 0 to 1000000 kg"),
    ],
)
def test_a_range_of_physics_is_said_in_words(
    topic: str, entry: str, inside: str, outside: str, said: str
) -> None:
    chosen = figure(topic)
    typed = {**chosen.example, **({"thread": "60"} if topic == "compound-angle" else {})}
    chosen.run({**typed, entry: inside})
    with pytest.raises(OutOfRange, match=said.replace("+", r"\+")) as refusal:
        chosen.run({**typed, entry: outside})
    label = next(item.label for item in chosen.inputs if item.name == entry)
    assert str(refusal.value).startswith(f"{label}: “{outside}”")


def test_two_viscosities_no_oil_has_are_refused() -> None:
    with pytest.raises(OutOfRange, match=r"come to an index of -\d+; no oil is outside -200 to 600"):
        _run("viscosity-index", at_40="1000", at_100="8.86")
    # Source: ASTM D2270's own example, 73.3 and 8.86 mm²/s: an index of 92.
    assert _run("viscosity-index", at_40="73.3", at_100="8.86").answers[0].value == 92


@pytest.mark.parametrize(
    ("topic", "given", "missing", "beside"),
    [
        ("sling", {"leg": "1000"}, "Distance of the hooks", "Length of a leg"),
        ("sling", {"spread": "1000"}, "Length of a leg", "Distance of the hooks"),
        ("bush", {"clearance-low": "0.02", "clearance-high": ""}, "Clearance wanted, most", "Clearance wanted, least"),
        ("bush", {"clearance-low": "", "clearance-high": "0.04"}, "Clearance wanted, least", "Clearance wanted, most"),
        ("bush", {"interference-low": "0.02"}, "Interference, most", "Interference, least"),
        ("bush", {"interference-high": "0.02"}, "Interference, least", "Interference, most"),
        ("fit-to-mate", {"min": "0.02"}, "Largest clearance", "Smallest clearance"),
        ("fit-to-mate", {"fit": "", "max": "0.02"}, "Smallest clearance", "Largest clearance"),
        ("tailstock-offset", {"large": "30", "small": "29"}, "their distance", "or: large diameter"),
    ],
)  # fmt: skip
def test_half_a_pair_is_asked_about(topic: str, given: dict[str, str], missing: str, beside: str) -> None:
    chosen = figure(topic)
    with pytest.raises(BadEntry) as question:
        chosen.run({**chosen.example, **given})
    assert str(question.value).startswith(f"{missing}: is empty, and it goes with “{beside}”.")
    assert "or n" in question.value.way_out


def test_both_of_a_pair_and_neither_are_taken() -> None:
    # Source: right triangle; legs of 1000 over a spread of 1000 stand at 60° to the horizontal.
    assert _run("sling", leg="1000", spread="1000", angle="").answers[0].value == pytest.approx(60.0)
    assert _run("sling", leg="", spread="").answers[0].value == pytest.approx(45.0)


def test_what_was_read_is_echoed_with_its_unit() -> None:
    found = _run("temperature", length="1-1/4 in", part="25,5")
    assert dict(found.read)["Length as read"] == "1.2500 in (31.750 mm)"
    assert dict(found.read)["Temperature of the part"] == "25.5 °C"
    assert "Read as: Length as read 1.2500 in (31.750 mm); " in answers_text(found, working=False)
    echoed = as_data(figure("temperature"), found, working=False)["read"]
    assert {"label": "Temperature of the part", "as": "25.5 °C"} in echoed  # type: ignore[operator]


def test_a_material_made_of_digits_is_no_expansion() -> None:
    by_name = _run("temperature", material="SAE 4140").answers[0].value
    assert _run("temperature", material="4140").answers[0].value == by_name
    assert _run("temperature", material="11.5").answers[0].value != by_name
