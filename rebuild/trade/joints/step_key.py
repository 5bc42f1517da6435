"""A worn keyway: oversize key, step key, next width, or a new keyway.

A step key has one width in the shaft and another in the hub. The trade's limit for going on with a
widened slot is about 15 % over its new width; beyond it the next key width or a new keyway is cut.
"""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.joints.keys import Key, Limits
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.own_unit import both, said
from rebuild.trade.sizes.show import show_both

WORN_SHARE = 0.15
STEP_BELOW_MM = 0.1  # the step lies a little under the shaft's surface so that it cannot carry the hub
SIDE_MM = 0.0127  # pressed lightly: up to half a thou each of clearance and of interference
_PRACTICE = Source("Worn keyway", "slot more than 15 % over width", Status.COMMON_PRACTICE)
_FITTED = Source("Fitted key", "± 0.0005 in to each slot as measured", Status.COMMON_PRACTICE)


@dataclass(frozen=True, slots=True)
class StepKey:
    """What to make: widths in shaft and hub, heights of both parts [mm], and the advice in a word.

    ``advice`` is ``standard key``, ``oversize key``, ``step key``, or ``recut``.
    """

    advice: str
    shaft_width: Limits
    hub_width: Limits
    lower_mm: float
    upper_mm: float
    height_mm: float


@door()
def step_key(key: Key, shaft_slot_mm: float, hub_slot_mm: float) -> Worked[StepKey]:
    """The key for slots measured ``shaft_slot_mm`` and ``hub_slot_mm`` wide, once cleaned up square.

    Raises:
        BadEntry: a slot is narrower than the key it was cut for by more than a burr.
        OutOfRange: a slot is so wide that no key of this shaft belongs in it.

    >>> from rebuild.trade.joints.keys import key_inch
    >>> step_key(key_inch(25.4).value, 6.60, 6.36).value.advice
    'step key'
    """
    _sound(key, shaft_slot_mm, "Shaft keyseat")
    _sound(key, hub_slot_mm, "Hub keyway")
    worn = max(shaft_slot_mm, hub_slot_mm) / key.width_mm - 1.0
    advice = _advice(key, shaft_slot_mm, hub_slot_mm, worn)
    lower = max(0.0, key.height_mm / 2.0 - STEP_BELOW_MM)
    made = StepKey(
        advice,
        Limits(shaft_slot_mm - SIDE_MM, shaft_slot_mm + SIDE_MM),
        Limits(hub_slot_mm - SIDE_MM, hub_slot_mm + SIDE_MM),
        lower,
        key.height_mm - lower,
        key.height_mm,
    )
    sheet = Sheet("Key for a worn keyway")
    sheet.read("standard width", show_both(key.width_mm, "in"), key.source)
    sheet.read("shaft keyseat, cleaned up", show_both(shaft_slot_mm, "in"))
    sheet.read("hub keyway, cleaned up", show_both(hub_slot_mm, "in"))
    sheet.equation("wear", f"widest slot / standard - 1 = {worn * 100:.1f} %", _PRACTICE)
    sheet.result("advice", advice, _PRACTICE)
    if advice == "recut":
        sheet.note("Cut both slots to the next standard width, or a new keyway 90 or 180 degrees round.")
    else:
        sheet.table("width in the shaft", _shown(made.shaft_width), _FITTED)
        sheet.table("width in the hub", _shown(made.hub_width), _FITTED)
    if advice == "step key":
        sheet.equation(
            "heights",
            f"{both(key.height_mm)} = {both(lower)} for the shaft + {both(made.upper_mm)} for the hub; the step "
            f"{said(STEP_BELOW_MM)} under the shaft's surface at the key's side",
        )
        sheet.note("Keep both parts on one centre line; round the inner corners, they crack there.")
    sheet.note("Square the worn sides first: a key in a bell-mouthed slot works loose again.")
    return Worked(made, sheet.close())


def _advice(key: Key, shaft_slot_mm: float, hub_slot_mm: float, worn: float) -> str:
    if worn > WORN_SHARE:
        return "recut"
    if max(shaft_slot_mm, hub_slot_mm) <= key.shaft_slot.high_mm + 0.01:
        return "standard key"
    if abs(shaft_slot_mm - hub_slot_mm) <= 2.0 * SIDE_MM:
        return "oversize key"
    return "step key"


def _sound(key: Key, slot_mm: float, where: str) -> None:
    if slot_mm < key.width_mm * 0.98:
        raise BadEntry(
            "is narrower than the standard key for this shaft.",
            where=where,
            value=show_both(slot_mm, "in"),
            way_out=f"The standard key is {show_both(key.width_mm, 'in')} wide; measure again, or the slot "
            "was cut for another key.",
        )
    if slot_mm > min(1.6 * key.width_mm, 0.5 * key.shaft_mm):
        raise OutOfRange(
            "is far wider than any key this shaft takes.",
            where=where,
            value=show_both(slot_mm, "in"),
            way_out=f"The standard key is {show_both(key.width_mm, 'in')} ({key.source.cite()}).",
        )


def _shown(limits: Limits) -> str:
    return f"{show_both(limits.low_mm, 'in')} to {show_both(limits.high_mm, 'in')}"
