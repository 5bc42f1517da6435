"""Every spindle speed of a drive: motor, fixed pairs, cone steps, and back gear in or out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import isfinite

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.cautions import attach
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked

RULE = Source("Belts and gears", "speed × driver / driven", Status.COMPUTED)
SLIP = Source("Slip of a belt", "a belt loses 1 to 3 % under load", Status.COMMON_PRACTICE)
MOST_PAIRS, MOST_RPM, LEAST_RPM = 24, 200_000.0, 1e-4


@dataclass(frozen=True, slots=True)
class Pair:
    """A driver and what it drives: diameters or teeth, in the same unit."""

    driver: float
    driven: float

    @property
    def ratio(self) -> float:
        """Turns of the driven for one of the driver."""
        return self.driver / self.driven


@dataclass(frozen=True, slots=True)
class Speed:
    """One spindle speed [rpm]: the step of the cone it is had on, and whether the back gear is in."""

    rpm: float
    step: Pair
    back_gear: bool


@door()
def spindle_speeds(
    motor_rpm: float, fixed: Sequence[Pair], steps: Sequence[Pair], back: Sequence[Pair]
) -> Worked[tuple[Speed, ...]]:
    """Every speed of a drive, fastest first.

    Args:
        motor_rpm: as the plate says, under load.
        fixed: pairs before the cone, one after another; may be empty.
        steps: the cone's steps; at least one.
        back: pairs of the back gear, one after another; empty without one.

    Raises:
        BadEntry: no step, or a pair not above zero.
        OutOfRange: more than 24 pairs, or a speed no spindle has.

    >>> cone = (Pair(140, 60), Pair(100, 100), Pair(60, 140))
    >>> speeds = spindle_speeds(1440.0, (Pair(60, 180),), cone, (Pair(22, 66), Pair(20, 68))).value
    >>> [round(one.rpm) for one in speeds]
    [1120, 480, 206, 110, 47, 20]
    """
    pairs = [*fixed, *steps, *back]
    if not steps:
        raise BadEntry(
            "are not given.", where="Steps of the cone", way_out="Type driver/driven of each, as 140/60."
        )
    if len(pairs) > MOST_PAIRS:
        raise OutOfRange(f"are more than {MOST_PAIRS} pairs.", where="Drive", value=str(len(pairs)))
    if not (isfinite(motor_rpm) and motor_rpm > 0):
        raise BadEntry("is not a speed above zero.", where="Motor", value=f"{motor_rpm:g}")
    for pair in pairs:
        if not (pair.driver > 0 and pair.driven > 0):
            raise BadEntry("is not above zero.", where="Pair", value=_said(pair), way_out="Type 60/180.")
    before = motor_rpm * _product(fixed)
    direct = [Speed(before * step.ratio, step, False) for step in steps]
    geared = [Speed(one.rpm * _product(back), one.step, True) for one in direct] if back else []
    speeds = sorted((*direct, *geared), key=lambda one: -one.rpm)
    for one in speeds:
        if not LEAST_RPM <= one.rpm <= MOST_RPM:
            raise OutOfRange(
                "is a speed no spindle has.",
                where="Drive",
                value=f"{one.rpm:.3g} rpm",
                way_out="Check the pairs.",
            )
    sheet = Sheet("Spindle speeds of a drive")
    sheet.read("motor", f"{motor_rpm:g} rpm")
    for pair in fixed:
        sheet.equation("fixed pair", f"× {_said(pair)} = × {pair.ratio:.4g}", RULE)
    sheet.equation("at the cone", f"{before:.5g} rpm", RULE)
    if back:
        product = " × ".join(map(_said, back))
        sheet.equation("back gear", f"{product} = 1 : {1 / _product(back):.4g}", RULE)
    for one in speeds:
        gear = ", back gear in" if one.back_gear else ""
        sheet.result(f"{_said(one.step)}{gear}", f"{one.rpm:.4g} rpm")
    if len(speeds) > 1:
        sheet.note(
            "Neighbours differ by " + ", ".join(f"{a.rpm / b.rpm:.3g}" for a, b in pairwise(speeds)) + "."
        )
    sheet.note("Slip is not taken off.", SLIP)
    attach(sheet, "guards")
    return Worked(tuple(speeds), sheet.close())


def _product(pairs: Sequence[Pair]) -> float:
    ratio = 1.0
    for pair in pairs:
        ratio *= pair.ratio
    return ratio


def _said(pair: Pair) -> str:
    return f"{pair.driver:g}/{pair.driven:g}"
