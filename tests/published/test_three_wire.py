"""Three wires: printed constants, printed best wires, and the lead angle's exact effect."""

from __future__ import annotations

from collections.abc import Callable
from math import pi, radians, tan

import pytest

from rebuild.trade.threads import helicoid, wires
from rebuild.trade.threads.form import form
from rebuild.trade.threads.series import System
from tests.published.conftest import Checker

Rows = Callable[[str], list[dict[str, str]]]
IN = 25.4
ROUNDED = (
    "the printed table steps its own rounded trigonometry; the exact helicoid differs in the fifth digit"
)
CONSTANT = "printed as the rounded 0.51645 times the pitch, its tie dropped"
TRUNCATED = "printed cut off after the fourth digit: 3.48295"
A29 = radians(14.5)


def _tpi(text: str) -> float:
    return {"1.3333": 4 / 3}.get(text, float(text))


def _constant(item: str, tpi: float) -> float:
    if item.startswith("60deg"):
        # M = E + 3w - 0.866025 P: what is left of the rise when three wires are taken off.
        w = 0.6 / tpi
        E = 2.0
        reading = wires.over_wires(System.UNIFIED, E * IN, IN / tpi, w * IN, lead_corrected=False).value
        return E + 3 * w - reading.over_wires_mm / IN
    sizes = wires.wire_sizes(System.ACME, IN / tpi).value
    kind = {"best": sizes.best_mm, "max": sizes.largest_mm, "min": sizes.smallest_mm}
    return kind[item.split()[1]] / IN


def test_constants(published: Checker, reference: Rows) -> None:
    for row in reference("three_wire_constants"):
        item = row["item"]
        if not item.endswith("wire") and not item.startswith("60deg"):
            continue
        got = _constant(item, _tpi(row["tpi_or_param"]))
        name = f"{item} {row['tpi_or_param']}"
        want = float(row["published"])
        published.number("three-wire constants, printed", name, got, want, last_digit=0.00001, why=CONSTANT)


def _at(angle_deg: float, starts: int) -> tuple[float, float]:
    """Best wire and (M - E) for a pitch of one inch at a lead angle."""
    E = starts / (pi * tan(radians(angle_deg)))
    sizes = wires.wire_sizes(System.ACME, IN, E * IN, starts).value
    reading = wires.over_wires(System.ACME, E * IN, IN, sizes.best_mm, starts).value
    return sizes.best_mm / IN, (reading.over_wires_mm - reading.pitch_diameter_mm) / IN


def test_best_wires_with_large_lead_angles(published: Checker, reference: Rows) -> None:
    for row in reference("three_wire_constants"):
        if "(C+c)" not in row["item"]:
            continue
        starts = int(row["item"].split("-start")[0].split()[-1])
        wire, rise = _at(float(row["tpi_or_param"]), starts)
        want_wire, want_rise = (float(part) for part in row["published"].split("|"))
        name = f"{starts}-start {row['tpi_or_param']}°"
        source = "Acme wires at large lead angles, printed"
        published.number(source, f"{name} wire", wire, want_wire, last_digit=0.00002, why=ROUNDED)
        published.number(source, f"{name} C+c", rise, want_rise, last_digit=0.00002, why=ROUNDED)


# Source: the same printed page, columns not in the reference file: starts, angle, wire, C + c.
MORE = [
    (1, 5.2, 0.51435, 0.64291), (1, 6.2, 0.51350, 0.64184), (1, 6.8, 0.51290, 0.64110),
    (2, 5.0, 0.51443, 0.64290), (2, 6.0, 0.51356, 0.64171), (2, 7.0, 0.51254, 0.64032),
    (2, 10.4, 0.50802, 0.63436), (2, 11.6, 0.50606, 0.63184), (3, 10.0, 0.50847, 0.63463),
    (3, 11.0, 0.50684, 0.63242), (3, 11.5, 0.50597, 0.63126), (3, 12.0, 0.50507, 0.63006),
]  # fmt: skip


@pytest.mark.parametrize(("starts", "angle", "wire", "rise"), MORE)
def test_columns_not_in_the_reference_file(
    starts: int, angle: float, wire: float, rise: float, published: Checker
) -> None:
    got_wire, got_rise = _at(angle, starts)
    source = "Acme wires at large lead angles, printed"
    published.number(source, f"{starts}-start {angle}° wire", got_wire, wire, last_digit=0.00002, why=ROUNDED)
    published.number(source, f"{starts}-start {angle}° C+c", got_rise, rise, last_digit=0.00002, why=ROUNDED)


def test_worked_measurement(published: Checker, reference: Rows) -> None:
    """D 5, P 0.5, lead 1, wire 0.258, thread thickness 0.2454 at the pitch diameter: M = 5.056 in."""
    row = next(row for row in reference("three_wire_constants") if "worked M" in row["item"])
    screw = helicoid.helicoid(4.75, 0.5, 2, A29, thickness=0.2454)
    got = helicoid.over_wires(screw, 0.258)
    published.number(
        "Acme worked measurement, printed", row["item"], got, float(row["published"]), last_digit=0.001
    )


def test_computed_rows_use_a_lead_term(reference: Rows, published: Checker) -> None:
    """Rows computed elsewhere with the usual first-order lead term; the exact figure lies within 0.00005 in."""
    for row in reference("three_wire_constants"):
        if not row["item"].startswith("Acme M over"):
            continue
        parts = dict(part.split("=") for part in row["item"].partition(", ")[2].split())
        D, n = float(parts["D"]), float(parts["n"])
        E, w = D - 0.5 / n, float(row["tpi_or_param"])
        got = wires.over_wires(System.ACME, E * IN, IN / n, w * IN).value.over_wires_mm / IN
        assert got == pytest.approx(float(row["formula"]), abs=5e-5)
        published.not_covered(
            "Acme M with lead term", row["item"], "computed elsewhere to first order, not a source"
        )


# Source: a wire maker's card of best wires and depths, as multiples of the pitch.
CARD = [(System.UNIFIED, 0.57735), (System.WHITWORTH, 0.56369), (System.BA, 0.54626), (System.ACME, 0.51645)]


@pytest.mark.parametrize(("system", "best"), CARD)
def test_best_wire_by_form(system: System, best: float, published: Checker) -> None:
    published.number(
        "best wires by form, printed", system.value, form(system).best_wire, best, last_digit=0.00001
    )


# Source: the same card: E = M - (a w - b P).
@pytest.mark.parametrize(
    ("system", "a", "b"),
    [(System.UNIFIED, 3.0, 0.86603), (System.WHITWORTH, 3.16568, 0.96049), (System.BA, 3.4829, 1.13634),
     (System.ACME, 4.9939, 1.933357)],
)  # fmt: skip
def test_rise_by_form(system: System, a: float, b: float, published: Checker) -> None:
    P = 2.0
    lifts = [
        wires.over_wires(system, 40.0, P, w, lead_corrected=False).value.over_wires_mm - 40.0
        for w in (1.06, 1.12)
    ]
    got_a = (lifts[1] - lifts[0]) / 0.06
    source = "three-wire rise by form, printed"
    published.number(source, f"{system.value} wires", got_a, a, last_digit=0.0001, why=TRUNCATED)
    published.number(source, f"{system.value} pitch", (got_a * 1.06 - lifts[0]) / P, b, last_digit=0.00001)
