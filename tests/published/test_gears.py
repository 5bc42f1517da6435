"""Gears against a metric gear handbook's worked examples, pin tables and the coarse-pitch backlash table."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

from rebuild.errors import OutOfRange
from rebuild.trade.gears.backlash import recommended
from rebuild.trade.gears.chordal import chord, rack_thickness_mm
from rebuild.trade.gears.pins import over_pins_mm
from rebuild.trade.gears.span import span_mm
from rebuild.trade.gears.spur import SpurGear

Rows = Callable[[str], list[dict[str, str]]]
HANDBOOK, PINS, SPAN = "A metric gear handbook, worked examples", "Over and between pins", "Span over teeth"


def _values(text: str) -> dict[str, float]:
    return {name: float(value) for name, value in re.findall(r"(\w+)=([-+]?[\d.]+)", text)}


def _gear(v: dict[str, float]) -> SpurGear:
    module = v.get("m", v.get("mn", 0.0)) or 25.4 / v["P"]
    angle = v.get("alpha", v.get("a", v.get("an", v.get("pa", 20.0))))
    return SpurGear(int(v.get("z", v.get("N", 20))), module, angle, v.get("x", v.get("xn", 0.0)))


def _chord(v: dict[str, float]) -> dict[str, float]:
    found = chord(_gear(v), helix_deg=v.get("beta", 0.0), addendum_mm=v["ha"]).value
    return {
        "tooth thickness s": found.arc_mm,
        "sn": found.arc_mm,
        "half angle deg": found.half_angle_deg,
        "theta_v": found.half_angle_deg,
        "chordal thickness sj": found.thickness_mm,
        "sj": found.thickness_mm,
        "chordal addendum hj": found.addendum_mm,
        "hj": found.addendum_mm,
        "virtual teeth zv": found.virtual_teeth,
    }


def _worked_out(item: str, parameters: str) -> float:
    v = _values(parameters)
    if "1 DP" in item:
        v["P"] = 1.0
    if item.startswith(("over two", "between two")):
        gear, internal = _gear(v), item.startswith("between")
        pin = (1.44 if internal else 1.728) * gear.module_mm
        return over_pins_mm(gear, pin, internal=internal) / 25.4
    if item.startswith("span"):
        return span_mm(_gear(v), int(v["k"]))
    if item == "base pitch":
        return _gear(v).base_pitch_mm
    if item == "base diameter":
        return _gear(v).base_diameter_mm
    if item == "rack chordal thickness":
        return rack_thickness_mm(v["m"])
    return _chord(v)[item]


def test_every_row(published: Any, reference: Rows) -> None:
    for row in reference("gear_checks"):
        item, parameters = row["item"], row["parameters"]
        label = f"{item}, {parameters}"
        family = PINS if "two" in item else SPAN if item.startswith("span") else HANDBOOK
        got = _worked_out(item, parameters)
        if "REJECTED" in row["status"]:
            published.not_covered(f"{family} (from memory)", label, "recalled value contradicts the geometry")
            continue
        source = (
            family
            if row["status"] == "found"
            else f"{family} ({row['status'].replace('memory', 'from memory')})"
        )
        want = row["published"] or row["formula"]
        last = 10.0 ** -len(want.partition(".")[2])
        why = "" if row["status"] == "found" else "recalled to four places"
        published.number(source, label, got, float(want), last_digit=last, why=why)
        formula = 10.0 ** -len(row["formula"].partition(".")[2])
        published.number(f"{family} (computed)", label, got, float(row["formula"]), last_digit=formula)


def test_coarse_backlash(published: Any, reference: Rows) -> None:
    classes = {"DP .5-1.99": 1.5, "DP 2-3.49": 3.0, "DP 3.5-5.99": 5.0, "DP 6-9.99": 8.0, "DP 10-19.99": 12.0}
    for row in reference("backlash_agma_coarse_in"):
        ends = [float(number) for number in re.findall(r"\d+", row["centre_distance_in"])]
        low = 0.0 if len(ends) == 1 else ends[0]
        for column, dp in classes.items():
            label = f"{row['centre_distance_in']} in, {column}"
            for centre in (ends[-1], (low + ends[-1]) / 2):
                got = _backlash_text(centre, dp)
                want = row[column] or "refused"
                published.text("AGMA 201.02 coarse-pitch backlash (from memory)", label, got, want)


def _backlash_text(centre_in: float, dp: float) -> str:
    try:
        found = recommended(centre_in * 25.4, 25.4 / dp).value
    except OutOfRange:
        return "refused"
    return f"{found.low_mm / 25.4:.3f}-{found.high_mm / 25.4:.3f}".replace("0.", ".")


def test_the_measured_cluster(published: Any) -> None:
    # Source: a rebuilder's log: 16 teeth 31.25 mm and 32 teeth 59.50 mm came to module 1.74 and 1.75.
    from rebuild.trade.gears.identify import GearReadings, identify_gear

    for teeth, outside in ((16, 31.25), (32, 59.50)):
        best = identify_gear(GearReadings(teeth, outside_mm=outside)).value[0]
        published.text("A rebuilder's gear cluster", f"{teeth} teeth", best.pitch.name, "module 1.75")


def test_diametral_pitch_from_the_outside(published: Any) -> None:
    # Source: the trade's rule DP = (N + 2)/OD, on gears of a common small lathe family, sizes in inches.
    from rebuild.trade.gears.identify import GearReadings, identify_gear

    for teeth, outside_in, name in (
        (24, 1.444, "DP 18"),
        (40, 2.625, "DP 16"),
        (54, 4.0, "DP 14"),
        (36, 1.9, "DP 20"),
    ):
        best = identify_gear(GearReadings(teeth, outside_mm=outside_in * 25.4)).value[0]
        published.text(
            "DP = (N + 2)/OD (from memory)", f"{teeth} teeth {outside_in} in", best.pitch.name, name
        )
