"""Seats of rolling bearings: tolerance class by load, and the fit that results on this ring.

The ring that turns relative to the load is held by interference, the other may slide. The seat's class
comes from ISO 286, the ring's limits from ISO 492 (Normal class); both bearing tolerances lie below
nominal, so a k5 shaft holds tighter than in an ordinary H hole.
"""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.limits.iso286 import deviations_um
from rebuild.trade.results.cautions import attach
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Sheet, Source, Worked
from rebuild.trade.sizes.own_unit import both, said

CONDITIONS = ("inner-turns", "inner-turns-light", "inner-still", "spindle", "thrust")


@dataclass(frozen=True, slots=True)
class SeatFit:
    """A bearing seat [mm]; interference positive, clearance negative."""

    element: str
    tolerance_class: str
    nominal_mm: float
    low_mm: float
    high_mm: float
    least_interference_mm: float
    most_interference_mm: float
    about: str


@door()
def shaft_seat(bore_mm: float, condition: str) -> Worked[SeatFit]:
    """The shaft seat under a bearing's bore.

    Raises:
        BadEntry: an unknown condition.
        OutOfRange: a bore outside the tables.

    >>> seat = shaft_seat(25.0, "inner-turns").value
    >>> seat.tolerance_class, round(seat.low_mm, 3), round(seat.high_mm, 3)
    ('k5', 25.002, 25.011)
    """
    return _seat("shaft", bore_mm, condition)


@door()
def housing_seat(outside_mm: float, condition: str) -> Worked[SeatFit]:
    """The housing seat over a bearing's outside.

    Raises:
        BadEntry: an unknown condition.
        OutOfRange: an outside diameter outside the tables.

    >>> housing_seat(52.0, "inner-turns").value.tolerance_class
    'H7'
    """
    return _seat("housing", outside_mm, condition)


def _seat(element: str, nominal_mm: float, condition: str) -> Worked[SeatFit]:
    named, about, source = _class_of(element, nominal_mm, condition)
    lower, upper = (value / 1000.0 for value in deviations_um(nominal_mm, named))
    ring = ring_lower_um("bore" if element == "shaft" else "outside", nominal_mm) / 1000.0
    sheet = Sheet(f"{element.capitalize()} seat of {nominal_mm:g} mm")
    sheet.read("load", f"{condition}: {about}" if about else condition)
    sheet.table("class", named, source)
    sheet.table("seat", f"{named}: {lower * 1000:+g} / {upper * 1000:+g} µm", _iso286_source())
    sheet.table("ring", f"0 / {ring * 1000:g} µm (Normal class)", table("iso492_normal").source)
    if element == "shaft":
        least, most = lower, upper - ring
    else:
        least, most = -(upper - ring), -lower
    sheet.equation("fit", f"interference {least * 1000:+g} to {most * 1000:+g} µm (negative is clearance)")
    sheet.result("seat", f"{both(nominal_mm + lower, 4)} to {both(nominal_mm + upper, 4)}")
    sheet.note("Measure the ring itself when it matters, and make the seat to it.")
    if most > 0:
        sheet.note("Press on the ring that has the interference, never through the balls.")
        attach(sheet, "press", "heating")
    if condition == "spindle":
        attach(sheet, "preload")
    seat = SeatFit(element, named, nominal_mm, nominal_mm + lower, nominal_mm + upper, least, most, about)
    return Worked(seat, sheet.close())


def _iso286_source() -> Source:
    from rebuild.trade.limits.iso286_tables import grade_source

    return grade_source()


def _class_of(element: str, nominal_mm: float, condition: str) -> tuple[str, str, Source]:
    if condition not in CONDITIONS:
        raise BadEntry(
            "is not a load condition.",
            where="Load",
            value=condition,
            way_out=f"Conditions: {', '.join(CONDITIONS)}.",
        )
    found = table("bearing_seats")
    rows = [row for row in found.rows if (row["element"], row["condition"]) == (element, condition)]
    for row in rows:
        if float(row["over_mm"]) < nominal_mm <= float(row["to_mm"]):
            return row["tolerance_class"], row["about"] or rows[0]["about"], found.row_source(row)
    raise OutOfRange(
        f"lies outside 0 to {rows[-1]['to_mm']} mm, the sizes of {found.source.cite()}.",
        where=f"{element.capitalize()} seat",
        value=said(nominal_mm),
    )


@door()
def ring_lower_um(element: str, nominal_mm: float) -> float:
    """Lower deviation of a Normal class ring's "bore" or "outside" [µm]; the upper one is 0.

    Raises:
        OutOfRange: outside ISO 492's rows held here.

    >>> ring_lower_um("bore", 25.0)
    -10.0
    """
    found = table("iso492_normal")
    rows = [row for row in found.rows if row["element"] == element]
    for row in rows:
        if float(row["over_mm"]) < nominal_mm <= float(row["to_mm"]):
            return float(row["lower_um"])
    raise OutOfRange(
        f"lies outside {rows[0]['over_mm']} to {rows[-1]['to_mm']} mm, the rows of {found.source.cite()}.",
        where=f"Bearing {element}",
        value=said(nominal_mm),
    )
