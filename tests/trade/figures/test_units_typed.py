"""Masses, rates and fractions are taken as the shop types them; a sling says what it takes for granted."""

from __future__ import annotations

import pytest

from rebuild.errors import RebuildError
from rebuild.trade.figures import figure
from rebuild.trade.results.figured import Figured

#: Source: the 1959 agreement: a pound is 0.45359237 kg.
LB = 0.45359237


def run(topic: str, unit: str = "", **typed: str) -> Figured:
    return figure(topic).run({name.replace("_", "-"): text for name, text in typed.items()}, unit=unit)


def told(found: Figured, label: str, unit: str = "") -> float | int | str:
    return next(one.value for one in found.answers if one.label == label and unit in ("", one.unit))


def test_a_mass_is_taken_in_pounds_or_kilograms_everywhere() -> None:
    level = run("centre-of-mass", first="300 lb", second="100 lb", between="48 in")
    assert told(level, "centre of mass from the first") == pytest.approx(12 * 25.4)
    assert told(level, "together", "lb") == pytest.approx(400.0)
    assert told(
        run("pieces-centre", pieces="400 lb @ 10 in; 400 lb @ 20 in"), "centre of mass"
    ) == pytest.approx(381.0)
    assert told(run("sling", load="410 lb", legs="2", angle="90"), "each leg carries", "kg") == pytest.approx(
        205 * LB
    )
    assert told(
        run("sling", unit="in", load="410", legs="2", angle="90"), "each leg carries", "lb"
    ) == pytest.approx(205)
    assert run("sling", load="410 lb").unit == "in", "typed in pounds, answered in pounds first"
    # Source: 25 lbf/in is 25 x 4.4482216 N over 25.4 mm.
    rate = run("spring-coils", rate="25 lb/in", wire="2", outside="18")
    metric = run("spring-coils", rate=f"{25 * 4.4482216152605 / 25.4}", wire="2", outside="18")
    assert told(rate, "coils") == pytest.approx(told(metric, "coils"))  # type: ignore[arg-type]
    with pytest.raises(RebuildError, match="has a unit “furlong” that is no mass"):
        run("sling", load="3 furlong")


def test_units_of_fractions_and_marks() -> None:
    assert told(run("convert", value="1 1/4", **{"from": "in", "to": "mm"}), "mm") == "31.75"
    assert told(run("convert", value="3/8", **{"from": '"', "to": "mm"}), "mm") == "9.525"
    assert told(run("convert", value="1-1/4 in", to="mm"), "mm") == "31.75"
    assert told(run("convert", value="30", **{"from": '"', "to": "'"}), "'") == "0.5", (
        "marks alone are of an angle"
    )
    # Source: 1 lbf/in = 4.4482216152605 / 25.4 N/mm.
    assert float(
        told(run("convert", value="1", **{"from": "lbf/in", "to": "N/mm"}), "N/mm")
    ) == pytest.approx(4.4482216152605 / 25.4)
    with pytest.raises(RebuildError, match="Use Old units of viscosity"):
        run("convert", value="300", **{"from": "SUS"})


def test_a_sling_says_what_it_takes_for_granted() -> None:
    plain = run("sling", load="400 kg", legs="4")
    assert told(plain, "legs counted") == "2 of 4"
    assert told(plain, "centre of mass") == "midway between the hooks"
    assert "taken so" in next(one.note for one in plain.answers if one.label == "centre of mass")
    # Source: moments about the farther hook: 250 mm off the middle of 1000 mm puts 750/1000 of the load on the nearer.
    off = run("sling", load="400 kg", angle="60", spread="1000", off="250")
    assert told(off, "the nearer leg carries", "kg") == pytest.approx(300 / 0.8660254)
    with pytest.raises(RebuildError, match="needs the distance of the hooks"):
        run("sling", load="400 kg", off="250")
    with pytest.raises(RebuildError, match="the load would turn over"):
        run("sling", load="400 kg", spread="1000", off="500")
    with pytest.raises(RebuildError, match="below 30° from the horizontal: do not lift"):
        run("sling", load="400 kg", angle="35", spread="1000", off="250")


def test_the_places_of_a_hole_circle_can_be_taken() -> None:
    found = run("hole-circle", circle="100", holes="4", **{"from": "a datum", "x": "80", "y": "60"})
    # Source: geometry: holes at 0, 90, 180 and 270° of a 100 mm circle about 80, 60.
    places = {spec.label: spec.nominal_mm for spec in found.specs}
    assert places["pitch circle"] == 100.0
    assert places["hole 1, x"] == pytest.approx(130.0)
    assert places["hole 2, y"] == pytest.approx(110.0)
    assert {f"hole {at}, {axis}" for at in range(1, 5) for axis in "xy"} < set(places)
    one = run("hole-circle", circle="100", holes="1")
    assert not any(answer.label == "between neighbours" for answer in one.answers), (
        "one hole has no neighbour"
    )


def test_general_tolerances_of_radii_and_angles() -> None:
    # Source: ISO 2768-1, tables 2 and 3, on a public page: 40 mm side, m: 0° 30'; radius 2 mm, c: 0.4 mm.
    assert told(run("general-tolerance", size="40", of="an angle"), "plus and minus") == "0° 30′"
    assert (
        told(run("general-tolerance", size="400.1", of="an angle", **{"class": "v"}), "plus and minus")
        == "0° 20′"
    )
    chamfer = run("general-tolerance", size="2", of="an outside radius or chamfer", **{"class": "c"})
    assert told(chamfer, "plus and minus") == 0.4


# Seen: a metric pin "50 long" was taken as 50 in: 1.27 m, 30 mm thick at its big end, with twenty drills.
def test_a_bare_size_of_a_pin_is_in_the_unit_of_its_standard() -> None:
    """ISO 2339, taper 1:50 from the small end: 5 + 50 / 50 = 6 mm; ASME B18.8.2: 0.250 - 1.25 / 48 = 0.22396 in."""
    metric = run("taper-pin", standard="metric", size="5", length="50")
    assert told(metric, "big end") == pytest.approx(6.0)
    inch = run("taper-pin", standard="inch", size="4", length="1-1/4")
    assert told(inch, "small end") == pytest.approx(0.22396 * 25.4, abs=2e-4)
    chosen = run("taper-pin-for", standard="metric", shaft="20", hub="32")
    assert told(chosen, "length after filing flush") == pytest.approx(32.0)
    with pytest.raises(RebuildError, match=r"far longer than any .* is made.*type its unit, as 50 mm"):
        run("taper-pin", unit="in", standard="metric", size="5", length="50")
