"""Close-in: how much the bore of a pressed bush shrinks, and what to bore before and after."""

from __future__ import annotations

import math
from dataclasses import dataclass

from rebuild.errors import BadEntry
from rebuild.trade.joints.interference import press_fit
from rebuild.trade.joints.lame import LAME, Elastic
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.shop.materials import Material
from rebuild.trade.sizes.own_unit import both, said
from rebuild.trade.sizes.show import show_both

TRADE_RULE = Source(
    "Bush close-in", "assume the bore closes by the whole interference", Status.COMMON_PRACTICE
)
#: A pressed bush often yields a little at its bore; past this the elastic figure says nothing.
MAY_YIELD_TO = 1.6


@dataclass(frozen=True, slots=True)
class CloseIn:
    """A bush's bore after pressing [mm]; ``share`` is close-in over interference.

    ``most_mm`` is the trade's rule, the whole interference; a bush past its yield ends between the two.
    ``bush_use`` is its stress over its yield, None when not known.
    """

    close_in_mm: float
    most_mm: float
    share: float
    bore_after_mm: float
    pressure_MPa: float
    force_N: float
    bush_use: float | None


@door("housing_outer_mm")
def bush_close_in(
    housing_bore_mm: float,
    interference_mm: float,
    bush_bore_mm: float,
    length_mm: float,
    bush: Material | Elastic,
    housing: Material | Elastic,
    *,
    housing_outer_mm: float = math.inf,
    friction: float = 0.10,
    housing_rz_um: float = 0.0,
    bush_rz_um: float = 0.0,
) -> Worked[CloseIn]:
    """Close-in of a bush pressed with this diametral interference; the housing may be a large casting.

    Raises:
        BadEntry: the bush has no wall or no bore.
        OutOfRange: the housing passes its strength, or the bush its yield by more than 1.6 times.

    >>> bronze, iron = Elastic(110_000, 0.34), Elastic(110_000, 0.26)
    >>> round(bush_close_in(40, 0.04, 30, 40, bronze, iron, housing_outer_mm=80).value.close_in_mm, 4)
    0.0266
    """
    if not 0 < bush_bore_mm < housing_bore_mm:
        raise BadEntry(
            "is not the bore of this bush.",
            where="Bush bore",
            value=both(bush_bore_mm),
            way_out=f"It lies between 0 and the housing's {said(housing_bore_mm)}.",
        )
    fit = press_fit(
        housing_bore_mm,
        interference_mm,
        length_mm,
        housing_outer_mm,
        housing,
        bush,
        shaft_bore_mm=bush_bore_mm,
        friction=friction,
        hub_rz_um=housing_rz_um,
        shaft_rz_um=bush_rz_um,
        parts=("housing", "bush"),
        shaft_may_yield_to=MAY_YIELD_TO,
    )
    close, use = fit.value.bore_closing_mm, fit.value.shaft_use
    found = CloseIn(
        close,
        interference_mm,
        close / interference_mm,
        bush_bore_mm - close,
        fit.value.pressure_MPa,
        fit.value.force_N,
        use,
    )
    sheet = Sheet("Bore of a pressed bush")
    sheet.take(fit.working)
    _tell(sheet, found)
    return Worked(found, sheet.close())


def _tell(sheet: Sheet, found: CloseIn) -> None:
    sheet.equation(
        "close-in",
        f"2 p d² di / (E (d² - di²)) = {show_both(found.close_in_mm, 'mm', 4)}, {found.share:.0%} of the interference",
        LAME,
    )
    sheet.result("bore after pressing", both(found.bore_after_mm, 4))
    sheet.note(
        f"The trade's rule takes the whole {both(found.most_mm)}: bore at least that much over, or "
        "leave stock and ream or bore in line after pressing. The ends close less than the middle.",
        TRADE_RULE,
    )
    if found.bush_use is not None and found.bush_use > 1.0:
        sheet.note(
            f"The bush passes its yield at its bore ({found.bush_use:.0%}): common for thin bushes. It keeps its "
            "grip, but the bore closes by more than the elastic figure, up to the whole interference: ream after."
        )


@door()
def bore_before(wanted_mm: float, close_in_mm: float) -> float:
    """The bore to make before pressing so that it finishes at ``wanted_mm``.

    >>> bore_before(30.0, 0.025)
    30.025
    """
    return wanted_mm + close_in_mm
