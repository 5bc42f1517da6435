"""A gear's blank and how to cut it: outside diameter, depth, cutter number, indexing."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from rebuild.errors import OutOfRange
from rebuild.trade.gears.pitches import Pitch
from rebuild.trade.gears.span import describe
from rebuild.trade.gears.spur import SpurGear, ToothSystem
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.own_unit import both, num

TOLERANCE = Source("Blank tolerance", "outside diameter +0 / -0.005 in", Status.COMMON_PRACTICE)
BLANK_UNDER_MM = 0.127
DIVIDING_RATIO = 40


@dataclass(frozen=True, slots=True)
class Blank:
    """Sizes to turn and cut [mm]; ``cutter`` is the form cutter's number, 0 when none cuts it."""

    outside_low_mm: float
    outside_high_mm: float
    whole_depth_mm: float
    root_mm: float
    pitch_diameter_mm: float
    cutter: int
    turns: Fraction


@door()
def gear_blank(teeth: int, pitch: Pitch, system: ToothSystem, shift: float = 0.0) -> Worked[Blank]:
    """The blank of a spur gear and the numbers to cut it by.

    Raises:
        OutOfRange: a gear outside the range worked here.

    >>> from rebuild.trade.gears.pitches import read_pitch
    >>> from rebuild.trade.gears.spur import tooth_system
    >>> blank = gear_blank(24, read_pitch("DP 12"), tooth_system("full-14.5")).value
    >>> round(blank.outside_high_mm / 25.4, 4), round(blank.whole_depth_mm / 25.4, 4), blank.cutter
    (2.1667, 0.1797, 5)
    """
    gear = SpurGear.of(system, teeth, pitch.module_mm, shift)
    sheet = Sheet(f"Blank of {teeth} teeth, {pitch.name}")
    describe(gear, sheet)
    sheet.table("teeth", _proportions(system), system.source)
    outside = gear.outside_mm
    sheet.equation(
        "outside",
        f"{num(pitch.module_mm):.5g} × ({teeth} + 2 × {system.addendum:g} + 2 × {shift:g}) = {both(outside, 4)}",
    )
    sheet.note("Turn the outside to size or up to 0.005 in under, never over.", TOLERANCE)
    cutter = _cutter(teeth, pitch, sheet) if not shift and system.addendum == 1.0 else 0
    if gear.shift < gear.least_shift - 1e-9:
        sheet.note(
            f"A rack or hob undercuts it: free of undercut from profile shift {gear.least_shift:+.3f}."
        )
    turns = Fraction(DIVIDING_RATIO, teeth)
    sheet.equation("indexing", f"40:1 head, 40/{teeth} = {index_text(turns)} turns per tooth")
    sheet.result("blank", f"outside {both(outside)}, cut {both(gear.whole_depth_mm)} deep")
    blank = Blank(
        outside - BLANK_UNDER_MM,
        outside,
        gear.whole_depth_mm,
        gear.root_mm,
        gear.pitch_diameter_mm,
        cutter,
        turns,
    )
    return Worked(blank, sheet.close())


@door()
def cutter_number(teeth: int, kind: str) -> int:
    """The form cutter of the set of eight; ``kind`` "module" sets run the other way from "dp" sets.

    Raises:
        OutOfRange: below 12 teeth, which the set does not cut.

    >>> cutter_number(20, "dp"), cutter_number(20, "module")
    (6, 3)
    """
    found = table("gear_cutters")
    for row in found.rows:
        if int(row["from_teeth"]) <= teeth <= int(row["to_teeth"]):
            return int(row["module_number" if kind == "module" else "dp_number"])
    raise OutOfRange(
        f"is below 12, the least the {found.source.name.lower()} cuts.", where="Teeth", value=str(teeth)
    )


def _cutter(teeth: int, pitch: Pitch, sheet: Sheet) -> int:
    source = table("gear_cutters").source
    if teeth < 12:
        sheet.note("Below 12 teeth no form cutter of the set of eight fits: hob it or plane it.", source)
        return 0
    number = cutter_number(teeth, pitch.kind)
    sheet.table("cutter", f"number {number} of a {pitch.name} set", source)
    return number


def _proportions(system: ToothSystem) -> str:
    plus = f" + {system.plus_mm:g} mm" if system.plus_mm else ""
    return f"{system.label}: addendum {system.addendum:g} m, dedendum {system.dedendum:g} m{plus}"


def index_text(turns: Fraction) -> str:
    """Whole turns and the part of a turn, as on a dividing plate.

    >>> index_text(Fraction(40, 24))
    '1 2/3'
    """
    whole, part = divmod(turns.numerator, turns.denominator)
    fraction = f"{part}/{turns.denominator}" if part else ""
    return " ".join(filter(None, (str(whole) if whole or not fraction else "", fraction)))
