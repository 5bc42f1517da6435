"""Holes for taper pins: what to drill, which reamer, which side is the big one, what fits after reaming."""

from __future__ import annotations

import math
from dataclasses import dataclass

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.joints.taper_pin import INCH, RULE, STANDARDS, TaperPin, ends, pins
from rebuild.trade.results.cautions import attach
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.shop.drills import Drill, drills, largest_not_above
from rebuild.trade.sizes.own_unit import both, num, said
from rebuild.trade.sizes.show import show_both

STEP_TAPER_MM = 1.0  # a reamer is asked to take no more than this on diameter at the big end
#: Left for the reamer everywhere, on diameter: a drill of the hole itself leaves it nothing to cut (common practice).
STOCK_MM = 0.05
FEEL = Source("Feel of the taper", "the pin goes deeper from the big side (TM 9-254, 3-1)", Status.PUBLISHED)
MARK = (
    "Mark the big side: a centre-punch dot on hub and shaft beside the big end, and write it on the part; driven from "
    "the other side next time."
)
SEATS = Source("Seating", "seats solid within 1/16 in of final by hand", Status.COMMON_PRACTICE)
REAMER = Source("Taper pin reamers", "small and large end by number", Status.FROM_MEMORY)


@dataclass(frozen=True, slots=True)
class Step:
    """One drill and how deep it goes from the big side [mm]."""

    drill: Drill
    depth_mm: float


@dataclass(frozen=True, slots=True)
class Hole:
    """A finished hole [mm], the drills in order (the through drill first), and the reamer."""

    big_mm: float
    small_mm: float
    steps: tuple[Step, ...]
    reamer: str


@dataclass(frozen=True, slots=True)
class Replacement:
    """The pin for a re-reamed hole.

    ``proud_mm`` is how far it stands out when it first seats: either the reamer goes that much deeper, or
    the pin is cut from one ``cut_from_mm`` long by taking ``proud_mm`` off its big end.
    """

    pin: TaperPin
    proud_mm: float
    cut_from_mm: float
    steps_up: int


@dataclass(frozen=True, slots=True)
class BigSide:
    """Which side takes the big end: ``A``, ``B`` or ``undecided``; the taper seen, as 1:x or None."""

    side: str
    ratio: float | None


@door()
def hole(which: TaperPin, length_mm: float) -> Worked[Hole]:
    """Drills, reamer and finished sizes for a pin whose ends finish flush in ``length_mm``.

    Raises:
        OutOfRange: the pin cannot be that long, or the drills end.

    >>> hole(pins()[10], 1.25 * 25.4).value.steps[0].drill.name
    'No. 2'
    """
    found = ends(which, length_mm)
    steps = _steps(which, found.value.big_mm, length_mm)
    sheet = Sheet(f"Hole for {which.name}")
    sheet.take(found.working)
    for step in steps:
        through = "through" if step.depth_mm == length_mm else f"{show_both(step.depth_mm, which.unit)} deep"
        sheet.table(
            f"drill {through}",
            f"{step.drill.name}, {show_both(step.drill.mm, which.unit)}; the hole there is "
            f"{show_both(found.value.big_mm - step.depth_mm * which.rate, which.unit)}",
            step.drill.source,
        )
    reamer = (
        f"taper pin reamer no. {which.size}" if which.standard == INCH else f"1:50 reamer {which.size} mm"
    )
    _say_reamer(sheet, which, found.value.small_mm)
    sheet.note(
        f"Every drill leaves at least {show_both(STOCK_MM, which.unit)} on diameter for the reamer.", SEATS
    )
    sheet.note(MARK)
    sheet.note("Ream with the parts clamped in their final place; try the pin often; it drives the last bit.")
    sheet.note("The pin should seat solid by hand within 1/16 in of its final place in a clean hole.", SEATS)
    attach(sheet, "hardened-hammer")
    return Worked(Hole(found.value.big_mm, found.value.small_mm, tuple(steps), reamer), sheet.close())


@door()
def after_reaming(
    standard: str, big_mm: float, length_mm: float, old: TaperPin | None = None
) -> Worked[Replacement]:
    """The pin that fits a hole re-reamed until round, measured ``big_mm`` at its big side [mm].

    The next size whose end is not smaller than the hole's; ``old`` lets the working say how many sizes
    up that is.

    Raises:
        OutOfRange: the hole is larger than the largest pin, or smaller than the smallest.

    >>> after_reaming("inch", 0.258 * 25.4, 25.4).value.pin.size
    '5'
    """
    known = pins(standard)
    rate = known[0].rate
    if big_mm <= 0 or length_mm <= 0 or big_mm - length_mm * rate <= 0:
        raise BadEntry(
            "is not a hole for a taper pin.", where="Hole", value=f"{said(big_mm)} by {said(length_mm)}"
        )
    fitting = [one for one in known if one.big_mm(length_mm) >= big_mm - 0.0025]
    if not fitting or big_mm < 0.6 * known[0].big_mm(length_mm):
        top = known[-1]
        raise OutOfRange(
            f"is outside the pins: {known[0].name} to {top.name}.",
            where="Hole's big end",
            value=show_both(big_mm, top.unit),
            way_out=f"Bush the hole or move it by 90 degrees ({top.source.cite()}).",
        )
    found = fitting[0]
    left = max(0.0, found.big_mm(length_mm) - big_mm)
    proud = left / rate
    up = known.index(found) - known.index(old) if old is not None and old in known else 0
    sheet = Sheet("Pin after re-reaming")
    sheet.read("hole's big end, reamed", show_both(big_mm, found.unit))
    sheet.read("length of the hole", show_both(length_mm, found.unit))
    sheet.table(
        "next size",
        f"{found.name}, big end {show_both(found.big_mm(length_mm), found.unit)} at this length",
        found.source,
    )
    sheet.equation(
        "stands proud",
        f"({num(found.big_mm(length_mm)):.4f} - {num(big_mm):.4f}) / {rate:.6f} = {both(proud, 2)}",
        RULE,
    )
    sheet.note(
        f"Either ream {show_both(proud, found.unit)} deeper until it finishes flush, or leave the hole and cut "
        f"the pin from one {show_both(length_mm + proud, found.unit)} long: that much comes off its big end."
    )
    if length_mm + proud > found.lengths_mm[1]:
        sheet.note(f"No {found.name} is made that long: ream deeper.", found.source)
    _say_old(sheet, old, big_mm, length_mm, up)
    attach(sheet, "hardened-hammer")
    return Worked(Replacement(found, proud, length_mm + proud, up), sheet.close())


@door()
def big_side(
    side_a_mm: float, side_b_mm: float, length_mm: float, reading_mm: float = 0.0127
) -> Worked[BigSide]:
    """Which side of a hub takes the pin's big end, from the pin or hole measured on both sides [mm].

    ``reading_mm`` is the likely error of a reading. Undecided when the difference is within it.

    Raises:
        BadEntry: a size is not positive.

    >>> big_side(6.40, 5.26, 50).value.side
    'A'
    """
    if min(side_a_mm, side_b_mm, length_mm) <= 0:
        raise BadEntry("must be above zero.", where="Diameters and length", value=f"{side_a_mm:g}")
    difference = side_a_mm - side_b_mm
    expected = length_mm / 48.0
    slack = 2.0 * math.hypot(reading_mm, reading_mm)
    decided = abs(difference) > slack
    side = ("A" if difference > 0 else "B") if decided else "undecided"
    ratio = length_mm / abs(difference) if decided else None
    sheet = Sheet("Which side takes the big end")
    sheet.read("side A", show_both(side_a_mm, "in"))
    sheet.read("side B", show_both(side_b_mm, "in"))
    sheet.read("distance", show_both(length_mm, "in"))
    sheet.equation(
        "a taper pin would differ by", f"{length_mm / 25.4:.4g}/48 = {show_both(expected, 'in')}", RULE
    )
    sheet.result("difference", f"{show_both(difference, 'in')}; readings are good for ±{both(slack)}")
    if not decided:
        sheet.note("The readings do not decide it: it may be a straight pin, or a sheared and filed one.")
    elif not 0.5 <= abs(difference) / expected <= 2.0:
        sheet.note(
            "That is not a 1:48 or 1:50 taper: mushroomed, bell-mouthed or dirty. Clean, measure again."
        )
    sheet.note("By feel: slip a pin in loosely from both sides; it goes deeper from the big side.", FEEL)
    sheet.note("Drive it out from the small end. Driven at the big end it only seats harder and mushrooms.")
    attach(sheet, "hardened-hammer")
    return Worked(BigSide(side, ratio), sheet.close())


@door()
def identify_pin(big_mm: float, small_mm: float, length_mm: float) -> Worked[tuple[TaperPin, ...]]:
    """Pins ranked by how near their ends come to a measured pin or hole [mm].

    Raises:
        BadEntry: the ends do not taper.

    >>> identify_pin(0.250 * 25.4, 0.224 * 25.4, 1.25 * 25.4).value[0].name
    'taper pin no. 4'
    """
    if length_mm <= 0 or not 0 < small_mm <= big_mm:
        raise BadEntry(
            "do not taper.",
            where="Pin's ends",
            value=f"{said(big_mm)} and {said(small_mm)}",
            way_out="Type the big end first; a straight pin is a dowel.",
        )

    def off(one: TaperPin) -> float:
        return abs(one.big_mm(length_mm) - big_mm) + abs(one.small_mm(length_mm) - small_mm)

    ranked = sorted((one for name in STANDARDS for one in pins(name)), key=off)[:4]
    sheet = Sheet("Which taper pin")
    sheet.equation("taper", f"({num(big_mm):.4f} - {num(small_mm):.4f}) / {num(length_mm):.6g}", RULE)
    for one in ranked:
        sheet.table(one.name, f"ends differ by {off(one) * 500:.0f} µm on average", one.source)
    sheet.note("A pin already fitted one or two sizes up, or shortened, sits between the standard sizes.")
    return Worked(tuple(ranked), sheet.close())


def _steps(which: TaperPin, big_mm: float, length_mm: float) -> list[Step]:
    """The through drill, then larger ones to lesser depths so that the reamer takes little."""
    series = "inch" if which.standard == INCH else "metric"
    largest = drills(series)[-1].mm
    count = max(1, math.ceil(length_mm * which.rate / STEP_TAPER_MM))
    steps = [Step(largest_not_above(big_mm - length_mm * which.rate - STOCK_MM, series), length_mm)]
    for done in range(1, count):
        depth = length_mm * (count - done) / count
        drill = largest_not_above(min(largest, big_mm - depth * which.rate - STOCK_MM), series)
        if drill.mm > steps[-1].drill.mm:
            steps.append(Step(drill, depth))
    return steps


def _say_reamer(sheet: Sheet, which: TaperPin, small_mm: float) -> None:
    if which.reamer_mm is None:
        return
    low, high = which.reamer_mm
    sheet.table("reamer", f"no. {which.size}: {show_both(low, 'in')} to {show_both(high, 'in')}", REAMER)
    if small_mm < low - 0.01:
        sheet.note(
            "The hole's small end is smaller than this reamer's point: start with the next smaller one."
        )


def _say_old(sheet: Sheet, old: TaperPin | None, big_mm: float, length_mm: float, up: int) -> None:
    if old is None:
        return
    sinks = (big_mm - old.big_mm(length_mm)) / old.rate
    if sinks > 0:
        sheet.note(f"The old {old.name} would now sink {sinks:.1f} mm below flush.")
    sheet.note(f"That is {up} size{'s' if up != 1 else ''} up: write it on the part and in the machine book.")
