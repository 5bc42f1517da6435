"""Which taper pin for a shaft and hub, how long to leave it, and what it is after filing."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.joints.taper_pin import RULE, TaperPin, pins
from rebuild.trade.joints.taper_pin_hole import MARK
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked, Working
from rebuild.trade.sizes.own_unit import said
from rebuild.trade.sizes.show import show_both

#: A pin's middle against the shaft: from a quarter to a third.
LEAST_SHARE, MOST_SHARE = 1 / 4, 1 / 3
#: Left standing out at either end until it is filed [mm].
PROUD_MM = 1.5
CUSTOM = Source("Taper pins", "a quarter to a third of the shaft, through the hub", Status.COMMON_PRACTICE)


@dataclass(frozen=True, slots=True)
class PinChoice:
    """A pin for a shaft and hub [mm]: cut ``cut_mm`` long, it is ``filed_mm`` when both ends are flush.

    ``middle_mm`` is its diameter at the middle of the shaft, ``share`` that against the shaft.
    """

    pin: TaperPin
    cut_mm: float
    filed_mm: float
    big_mm: float
    small_mm: float
    middle_mm: float
    share: float


@door()
def choose_pin(
    standard: str, shaft_mm: float, hub_mm: float, proud_mm: float = PROUD_MM
) -> Worked[PinChoice]:
    """The pin whose middle is nearest three tenths of the shaft, of those from a quarter to a third.

    The hole is as long as the hub is wide across. The pin is cut longer by what stands out at either end; filed
    flush it is as long as the hub, and its big end is that of the hole.

    Raises:
        BadEntry: a hub that is not larger than its shaft.
        OutOfRange: no pin of the standard is of that size, or made that long.

    >>> found = choose_pin("inch", 19.05, 31.75).value  # shaft 3/4, hub 1-1/4
    >>> found.pin.size, round(found.middle_mm / 25.4, 4), round(found.filed_mm / 25.4, 2)
    ('4', 0.237, 1.25)
    """
    if not 0 < shaft_mm < hub_mm:
        raise BadEntry(
            "is not larger than its shaft.",
            where="Hub",
            value=f"{said(hub_mm)} over {said(shaft_mm)}",
            way_out="Type the outside diameter of the hub or collar.",
        )
    found = [
        (one, middle)
        for one in pins(standard)
        if LEAST_SHARE - 1e-9
        <= (middle := one.big_mm(hub_mm) - hub_mm / 2 * one.rate) / shaft_mm
        <= MOST_SHARE + 1e-9
        and one.lengths_mm[0] - 1e-9 <= hub_mm + 2 * proud_mm <= one.lengths_mm[1] + 1e-9
    ]
    if not found:
        raise OutOfRange(
            f"has no {standard} pin of a quarter to a third of it that is made long enough.",
            where="Shaft",
            value=f"{said(shaft_mm, 4)} in a hub of {said(hub_mm, 4)}",
            way_out="Try the other standard, or two smaller pins at right angles.",
        )
    which, middle = min(found, key=lambda pair: abs(pair[1] / shaft_mm - 0.3))
    big, small = which.big_mm(hub_mm), which.small_mm(hub_mm)
    value = PinChoice(which, hub_mm + 2 * proud_mm, hub_mm, big, small, middle, middle / shaft_mm)
    return Worked(value, _told(value, shaft_mm, hub_mm, proud_mm))


def _told(found: PinChoice, shaft_mm: float, hub_mm: float, proud_mm: float) -> Working:
    unit = found.pin.unit
    sheet = Sheet("Taper pin for a shaft and hub")
    sheet.read("shaft", show_both(shaft_mm, unit))
    sheet.read("hub across", show_both(hub_mm, unit))
    sheet.table("pin", found.pin.name, found.pin.source)
    sheet.equation(
        "at the middle of the shaft",
        f"{show_both(found.middle_mm, unit)}, {found.share:.2f} of the shaft",
        CUSTOM,
    )
    sheet.equation("cut", f"hub + 2 x {proud_mm:g} mm = {show_both(found.cut_mm, unit)}", CUSTOM)
    sheet.equation(
        "after filing flush",
        f"{show_both(found.filed_mm, unit)} long, {show_both(found.big_mm, unit)} to {show_both(found.small_mm, unit)}",
        RULE,
    )
    sheet.note(
        "On a round hub the ends are filed to its curve: the length is that across the hub at the hole."
    )
    sheet.note(MARK)
    return sheet.close()
