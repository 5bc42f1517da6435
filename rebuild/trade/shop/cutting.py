"""Speeds and feeds: exact revolutions, the old 3.82 and 4 rules beside them, and drill points.

n = V/(π d). With V in feet per minute and d in inches that is 12 V/(π d) = 3.8197 V/d; the common 4 V/d
overstates by 4.7 %.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import isfinite, pi, radians, tan

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.own_unit import both

RULE = Source("Speed of a turning circle", "n = V / (π d)", Status.COMPUTED)
POINT = Source("Cone geometry", "point length = d / (2 tan(angle / 2))", Status.COMPUTED)
M_PER_FT = 0.3048
RULE_OF_FOUR_OVER = 4.0 * pi / 12.0 - 1.0


@dataclass(frozen=True, slots=True)
class Turns:
    """Revolutions per minute: exact, by 3.82 V/d and by 4 V/d; cutting speed [m/min]."""

    rpm: float
    by_382: float
    by_4: float
    speed_m_min: float


@dataclass(frozen=True, slots=True)
class Advice:
    """Cutting speed [m/min] and feed [mm per ``per``] usual for a material, tool and operation."""

    speed_low_m_min: float
    speed_high_m_min: float
    feed_low_mm: float | None
    feed_high_mm: float | None
    per: str


@door()
def rpm(speed_m_min: float, diameter_mm: float) -> Worked[Turns]:
    """Revolutions per minute of a cutting speed on a diameter, with the shop rules beside.

    Raises:
        BadEntry: a speed or diameter not above zero.

    >>> turns = rpm(300 * 0.3048, 0.5 * 25.4).value
    >>> round(turns.rpm, 2), round(turns.by_382), round(turns.by_4)
    (2291.83, 2292, 2400)
    """
    _positive(speed_m_min, "Cutting speed", "m/min")
    _positive(diameter_mm, "Diameter", "mm")
    sfm, inches = speed_m_min / M_PER_FT, diameter_mm / 25.4
    exact = 1000.0 * speed_m_min / (pi * diameter_mm)
    sheet = Sheet("Revolutions per minute")
    sheet.read("speed", f"{speed_m_min:.4g} m/min ({sfm:.4g} ft/min)")
    sheet.read("diameter", both(diameter_mm))
    sheet.equation("n", f"1000 × {speed_m_min:.5g} / (π × {diameter_mm:.5g}) = {exact:.1f}", RULE)
    sheet.equation("3.82 V/d", f"3.82 × {sfm:.4g} / {inches:.4g} = {3.82 * sfm / inches:.1f}")
    sheet.equation("4 V/d", f"4 × {sfm:.4g} / {inches:.4g} = {4 * sfm / inches:.1f}")
    sheet.note(f"The rule of 4 overstates by {RULE_OF_FOUR_OVER:.1%}.")
    sheet.result("turns", f"{exact:.0f} per minute")
    return Worked(Turns(exact, 3.82 * sfm / inches, 4 * sfm / inches, speed_m_min), sheet.close())


@door()
def nearest_speed(wanted_rpm: float, speeds: Sequence[float]) -> float:
    """The machine's fastest speed not above the wanted one; its slowest if all are faster.

    Raises:
        BadEntry: no speeds.

    >>> nearest_speed(458, [55, 110, 220, 430, 860])
    430
    """
    if not speeds or any(not (isfinite(speed) and speed > 0) for speed in speeds):
        raise BadEntry("are not a list of speeds.", where="Spindle speeds", way_out="Type 55, 110, 220.")
    slower = [speed for speed in speeds if speed <= wanted_rpm]
    return max(slower) if slower else min(speeds)


def materials() -> tuple[str, ...]:
    """The materials with a cutting speed.

    >>> "grey cast iron" in materials()
    True
    """
    return tuple(row["material"] for row in table("cutting_speeds").rows)


def operations() -> tuple[str, ...]:
    """The operations known.

    >>> "turning" in operations()
    True
    """
    return tuple(row["operation"] for row in table("cutting_operations").rows)


@door()
def advice(
    material: str, tool: str = "hss", operation: str = "turning", diameter_mm: float = 0.0
) -> Worked[Advice]:
    """Cutting speed and feed usual for a material, tool and operation.

    Args:
        material: one of ``materials``.
        tool: "hss" or "carbide".
        operation: one of ``operations``.
        diameter_mm: of the drill or reamer; needed for its feed only.

    Raises:
        BadEntry: an unknown material, tool or operation.
        OutOfRange: a drill larger than the feed table.

    >>> found = advice("grey cast iron").value
    >>> round(found.speed_low_m_min / 0.3048), round(found.speed_high_m_min / 0.3048)
    (50, 80)
    """
    speeds, steps = table("cutting_speeds"), table("cutting_operations")
    row = next((item for item in speeds.rows if item["material"] == material), None)
    if row is None:
        raise _unknown("Material", material, materials())
    if tool not in ("hss", "carbide"):
        raise _unknown("Tool", tool, ("hss", "carbide"))
    step = next((item for item in steps.rows if item["operation"] == operation), None)
    if step is None:
        raise _unknown("Operation", operation, operations())
    times = float(step["times"]) * (float(row["carbide_times"]) if tool == "carbide" else 1.0)
    low, high = (float(row[end]) * times * M_PER_FT for end in ("sfm_low", "sfm_high"))
    feed = _feed(operation, step["feed_low_in"], step["feed_high_in"], diameter_mm)
    sheet = Sheet(f"{operation.capitalize()} {material} with {tool}")
    sheet.table(
        "speed", f"{row['sfm_low']} to {row['sfm_high']} ft/min turning; {row['about']}", speeds.source
    )
    sheet.table("operation", f"× {times:.3g} for {operation} with {tool}; {step['about']}", steps.source)
    sheet.result(
        "speed", f"{low:.3g} to {high:.3g} m/min ({low / M_PER_FT:.3g} to {high / M_PER_FT:.3g} ft/min)"
    )
    if feed is not None:
        sheet.result("feed", f"{both(feed[0])} to {both(feed[1])} per {step['per']}")
    sheet.note("Begin at the low end on an old machine; listen, and look at the chips.")
    low_feed, high_feed = feed if feed is not None else (None, None)
    return Worked(Advice(low, high, low_feed, high_feed, step["per"]), sheet.close())


def _feed(operation: str, low_in: str, high_in: str, diameter_mm: float) -> tuple[float, float] | None:
    if low_in:
        return float(low_in) * 25.4, float(high_in) * 25.4
    if operation not in ("drilling", "reaming") or diameter_mm <= 0:
        return None
    found, inches = table("drill_feeds"), diameter_mm / 25.4
    for row in found.rows:
        if float(row["over_in"]) < inches <= float(row["to_in"]):
            times = 25.4 * (2.0 if operation == "reaming" else 1.0)
            return float(row["feed_low_in"]) * times, float(row["feed_high_in"]) * times
    raise OutOfRange(
        f"lies outside 0 to {found.rows[-1]['to_in']} in, the drills of {found.source.cite()}.",
        where="Diameter",
        value=f"{inches:.4g} in",
    )


@door()
def drill_point_mm(diameter_mm: float, included_deg: float = 118.0) -> Worked[float]:
    """Length of a drill's point [mm]: how much deeper the tip goes than the full diameter.

    Raises:
        BadEntry: a diameter not above zero.
        OutOfRange: an included angle outside 30 to 175°.

    >>> round(drill_point_mm(10.0).value, 4)
    3.0043
    """
    _positive(diameter_mm, "Diameter", "mm")
    if not 30.0 <= included_deg <= 175.0:
        raise OutOfRange("lies outside 30 to 175°.", where="Included angle", value=f"{included_deg:g}°")
    length = diameter_mm / (2.0 * tan(radians(included_deg / 2.0)))
    sheet = Sheet("Length of a drill point")
    sheet.read("drill", f"{both(diameter_mm)}, {included_deg:g}° included")
    numbers = f"{diameter_mm:.5g} / (2 tan {included_deg / 2:g}°) = {length:.4f} mm"
    sheet.equation("point", numbers, POINT)
    sheet.result("point", both(length))
    return Worked(length, sheet.close())


def _positive(value: float, what: str, unit: str) -> None:
    if not (isfinite(value) and value > 0):
        raise BadEntry("is not above zero.", where=what, value=f"{value:g} {unit}")


def _unknown(what: str, value: str, known: Sequence[str]) -> BadEntry:
    return BadEntry("is not known here.", where=what, value=value, way_out=f"Known: {', '.join(known)}.")
