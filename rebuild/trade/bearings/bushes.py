"""A plain bush: running clearance by use, interference, close-in and wall.

The housing bore and the shaft, as measured, are the masters; the bush follows. Pressing closes the bore
by about all of the interference, so it is bored under, pressed, and reamed or bored in line; where that
cannot be done its size before pressing is given, if one exists. Clearances and interference are on the
diameter.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import isfinite

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.cautions import attach
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.given import number_of
from rebuild.trade.sizes.own_unit import both, own_unit, said

CLOSE_IN = Source("Bush close-in", "the bore closes by all of the interference", Status.COMMON_PRACTICE)
REAM = Source(
    "Reaming allowance", "0.010 to 0.015 in under size for boring or reaming", Status.COMMON_PRACTICE
)
THOU = 0.0254
REAM_LOW_MM, REAM_HIGH_MM = 10 * THOU, 15 * THOU


@dataclass(frozen=True, slots=True)
class Range:
    """A low and a high limit [mm]. Raises BadEntry for one that is no number."""

    low_mm: float
    high_mm: float

    def __post_init__(self) -> None:
        number_of("Low limit [mm]", self.low_mm)
        number_of("High limit [mm]", self.high_mm)


@dataclass(frozen=True, slots=True)
class Use:
    """A use and its running clearance on a shaft [mm]."""

    name: str
    label: str
    clearance: Range
    about: str
    source: Source


@dataclass(frozen=True, slots=True)
class Bush:
    """A bush to make [mm].

    ``finished`` is the bore after pressing and reaming; ``rough`` the bore to leave before pressing for
    reaming; ``ready`` the bore before pressing if it cannot be reamed after, None where the spread of the
    interference is wider than that of the clearance.
    """

    outside: Range
    interference: Range
    clearance: Range
    finished: Range
    rough: Range
    ready: Range | None
    wall_mm: float


def use_names() -> tuple[str, ...]:
    """The uses with a clearance rule.

    >>> "slow" in use_names()
    True
    """
    return tuple(dict.fromkeys(row["use"] for row in table("bush_clearances").rows))


@door()
def running_clearance(use: str, shaft_mm: float) -> Use:
    """The clearance usual for a use, on the diameter.

    Raises:
        BadEntry: an unknown use or a shaft that is no size.
        OutOfRange: a shaft outside the rule's sizes.

    >>> found = running_clearance("slow", 25.4)
    >>> round(found.clearance.low_mm / 25.4, 4), round(found.clearance.high_mm / 25.4, 4)
    (0.001, 0.002)
    """
    positive(shaft_mm, "Shaft")
    found = table("bush_clearances")
    rows = [row for row in found.rows if row["use"] == use]
    if not rows:
        raise BadEntry("is not a use.", where="Use", value=use, way_out=f"Uses: {', '.join(use_names())}.")
    inches = shaft_mm / 25.4
    for row in rows:
        if float(row["from_in"]) <= inches <= float(row["to_in"]):
            per_inch = row["fixed_low"] == ""
            ends = ("per_inch_low", "per_inch_high") if per_inch else ("fixed_low", "fixed_high")
            low, high = (float(row[end]) * THOU * (inches if per_inch else 1.0) for end in ends)
            return Use(use, row["label"], Range(low, high), row["about"], found.row_source(row))
    raise OutOfRange(
        f"lies outside {rows[0]['from_in']} to {rows[-1]['to_in']} in, the shafts of {found.source.cite()}.",
        where="Shaft",
        value=f"{inches:.4g} in",
        way_out="Give the clearance wanted.",
    )


@door()
def press_interference(housing_mm: float) -> tuple[Range, Source]:
    """The driving fit usual for a housing bore: interference on the diameter [mm] and its source.

    Raises:
        OutOfRange: above 2 in.

    >>> round(press_interference(20.645)[0].high_mm / 25.4, 4)
    0.0012
    """
    positive(housing_mm, "Housing")
    found = table("bush_interference")
    inches = housing_mm / 25.4
    for row in found.rows:
        if float(row["over_in"]) < inches <= float(row["to_in"]):
            middle, spread = float(row["interference_in"]) * 25.4, float(row["spread_in"]) * 25.4
            return Range(middle - spread, middle + spread), found.row_source(row)
    raise OutOfRange(
        f"lies outside 0 to 2 in, the housings of {found.source.cite()}.",
        where="Housing",
        value=f"{inches:.4g} in",
        way_out="Give the interference wanted, or work out a press fit.",
    )


@door()
def bush(
    housing_mm: float,
    shaft_mm: float,
    use: str = "slow",
    *,
    clearance: Range | None = None,
    interference: Range | None = None,
    close_in: float = 1.0,
) -> Worked[Bush]:
    """Outside and bore of a bush between a housing bore and a shaft, both as measured.

    Args:
        housing_mm: the housing bore, master.
        shaft_mm: the shaft that runs in it, as made.
        use: a name of ``use_names``; ignored where ``clearance`` is given.
        clearance: clearance wanted after pressing [mm].
        interference: interference wanted in the housing [mm].
        close_in: part of the interference the bore closes by, 0 to 1.2 (1 is usual).

    Raises:
        BadEntry: sizes that cannot be; a shaft too big for the housing.
        OutOfRange: outside the rules.

    >>> wanted = Range(0.0010 * 25.4, 0.0015 * 25.4)
    >>> made = bush(0.8128 * 25.4, 0.6247 * 25.4, clearance=wanted).value
    >>> [round(mm / 25.4, 4) for mm in (made.outside.low_mm, made.outside.high_mm)]
    [0.8136, 0.814]
    >>> [round(mm / 25.4, 4) for mm in (made.finished.low_mm, made.finished.high_mm)]
    [0.6257, 0.6262]
    """
    positive(housing_mm, "Housing")
    positive(shaft_mm, "Shaft")
    if not 0.0 <= close_in <= 1.2:
        raise OutOfRange("lies outside 0 to 1.2.", where="Close-in", value=f"{close_in:g}")
    sheet = Sheet("Bush between a housing and a shaft")
    sheet.read("housing bore", both(housing_mm, 4))
    sheet.read("shaft", both(shaft_mm, 4))
    run = _clearance(use, shaft_mm, clearance, sheet)
    hold = _interference(housing_mm, interference, sheet)
    finished = Range(shaft_mm + run.low_mm, shaft_mm + run.high_mm)
    outside = Range(housing_mm + hold.low_mm, housing_mm + hold.high_mm)
    wall = (housing_mm - finished.high_mm) / 2
    _check_wall(finished, housing_mm, wall)
    rough = Range(finished.low_mm - REAM_HIGH_MM, finished.low_mm - REAM_LOW_MM)
    ready = _ready(finished, hold, close_in)
    made = Bush(outside, hold, run, finished, rough, ready, wall)
    _explain(made, close_in, sheet)
    attach(sheet, "press")
    return Worked(made, sheet.close())


@door()
def positive(size_mm: float, what: str) -> None:
    """Refuse a size that is not above zero.

    Raises:
        BadEntry: not a positive size.

    >>> positive(12.0, "Shaft")
    >>> positive(0.0, "Shaft")
    Traceback (most recent call last):
    rebuild.errors.BadEntry: Shaft: “0 mm” is not a positive size.
    """
    if not (isfinite(size_mm) and size_mm > 0):
        raise BadEntry("is not a positive size.", where=what, value=said(size_mm))


def _clearance(use: str, shaft_mm: float, given: Range | None, sheet: Sheet) -> Range:
    if given is not None:
        if not 0 <= given.low_mm <= given.high_mm:
            raise BadEntry("is not a clearance range.", where="Clearance", value=_text(given))
        sheet.read("clearance wanted", _text(given))
        return given
    found = running_clearance(use, shaft_mm)
    sheet.table("clearance", f"{found.label}: {found.about} = {_text(found.clearance)}", found.source)
    return found.clearance


def _interference(housing_mm: float, given: Range | None, sheet: Sheet) -> Range:
    if given is not None:
        if not 0 <= given.low_mm <= given.high_mm:
            raise BadEntry("is not an interference range.", where="Interference", value=_text(given))
        sheet.read("interference wanted", _text(given))
        return given
    found, source = press_interference(housing_mm)
    sheet.table("interference", f"driving fit {_text(found)}", source)
    return found


def _check_wall(finished: Range, housing_mm: float, wall_mm: float) -> None:
    if wall_mm < 0.5:
        raise BadEntry(
            f"leaves a wall of {said(wall_mm)}; a bush needs at least 0.5 mm.",
            where="Bush",
            value=f"{said(finished.high_mm)} in {said(housing_mm)}",
            way_out="Bore the housing out, or fit the shaft to the housing.",
        )


def _ready(finished: Range, hold: Range, close_in: float) -> Range | None:
    """The bore before pressing that lands inside the finished limits whatever the interference turns out."""
    low, high = finished.low_mm + close_in * hold.high_mm, finished.high_mm + close_in * hold.low_mm
    return Range(low, high) if low <= high else None


def _explain(made: Bush, close_in: float, sheet: Sheet) -> None:
    sheet.equation("outside", f"housing + interference = {_text(made.outside)}")
    sheet.equation("finished bore", f"shaft + clearance = {_text(made.finished)}, after pressing")
    sheet.equation("bore before pressing", f"finished less 0.010 to 0.015 in = {_text(made.rough)}", REAM)
    sheet.note(f"Pressing closes the bore by about {close_in:.0%} of the interference.", CLOSE_IN)
    if made.ready is not None:
        sheet.equation("or, if it cannot be reamed after", f"bore it {_text(made.ready)} and press", CLOSE_IN)
    else:
        sheet.note("The interference spreads wider than the clearance: finish the bore after pressing.")
    sheet.equation("wall", f"{made.wall_mm:.3f} mm; {wall_text(made)}", table("bush_walls_iso4379").source)
    sheet.note("Chamfer the lead 15° by 1/32 in; finish the bore in line with the bush at the other end.")


def wall_text(made: Bush) -> str:
    """How the wall compares with standard bushes of the same bore.

    ISO 4379 makes a 20 mm bore with 23, 24 and 26 mm outside: walls of 1.5 to 3 mm.

    >>> wall_text(bush(25.0, 19.95, "slow").value)
    'usual, standard bushes of 20 mm bore have 1.5 to 3 mm'
    """
    rows = table("bush_walls_iso4379").rows
    bore = made.finished.high_mm
    if not float(rows[0]["bore_mm"]) - 1 <= bore <= float(rows[-1]["bore_mm"]):
        return f"standard bushes run from {rows[0]['bore_mm']} to {rows[-1]['bore_mm']} mm bore only"
    row = next(row for row in rows if float(row["bore_mm"]) >= bore - 1e-9)
    thin, thick = ((float(row[end]) - float(row["bore_mm"])) / 2 for end in ("thin_mm", "thick_mm"))
    standard = f"standard bushes of {row['bore_mm']} mm bore have {thin:g} to {thick:g} mm"
    if made.wall_mm < thin * 0.9:
        return f"thinner than usual, {standard}: bond it or press it lightly"
    return f"thicker than usual, {standard}" if made.wall_mm > thick * 1.1 else f"usual, {standard}"


def _text(span: Range) -> str:
    texts = (
        f"{span.low_mm:.4f} to {span.high_mm:.4f} mm",
        f"{span.low_mm / 25.4:.5f} to {span.high_mm / 25.4:.5f} in",
    )
    first, other = texts[::-1] if own_unit() == "in" else texts
    return f"{first} ({other})"
