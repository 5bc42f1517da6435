"""Backlash: how much a mesh should have, and how it is shared by the teeth."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from rebuild.errors import OutOfRange
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.own_unit import both

SHOP_FEEL = Source("Setting by newsprint", "about 0.003 in between the teeth", Status.COMMON_PRACTICE)


@dataclass(frozen=True, slots=True)
class BacklashRange:
    """Backlash along the pitch circles [mm], at the tightest point of mesh."""

    low_mm: float
    high_mm: float


@door()
def recommended(centre_mm: float, module_mm: float) -> Worked[BacklashRange]:
    """The backlash recommended for coarse-pitch gears by centre distance and diametral pitch.

    Raises:
        OutOfRange: outside the table, or in one of its blanks.

    >>> found = recommended(6 * 25.4, 25.4 / 8).value
    >>> round(found.low_mm / 25.4, 3), round(found.high_mm / 25.4, 3)
    (0.01, 0.02)
    """
    found = table("gear_backlash_agma")
    centre_in, dp = centre_mm / 25.4, 25.4 / module_mm if module_mm > 0 else 0.0
    for row in found.rows:
        if _holds(row, centre_in, dp):
            low, high = (float(row[end]) * 25.4 for end in ("min_in", "max_in"))
            sheet = Sheet("Recommended backlash")
            sheet.read("mesh", f"centres {both(centre_mm)}, DP {dp:.4g} (module {module_mm:.4g})")
            sheet.table(
                "row",
                f"over {row['over_in']} to {row['to_in']} in, DP {row['dp_from']} to {row['dp_to']}: "
                f"{row['min_in']} to {row['max_in']} in",
                found.source,
            )
            sheet.note(
                "Slow hand-set trains are often set by a slip of newsprint between the teeth.", SHOP_FEEL
            )
            sheet.result("backlash", f"{both(low)} to {both(high)} at the pitch circle")
            return Worked(BacklashRange(low, high), sheet.close())
    raise OutOfRange(
        f"has no value in {found.source.name}, which runs from 0 to 120 in and DP 0.5 to 19.99 with blanks "
        "where large pitch meets small centres.",
        where="Backlash",
        value=f"centres {centre_in:.3g} in, DP {dp:.3g}",
        way_out="Give the backlash wanted instead.",
    )


def _holds(row: Mapping[str, str], centre_in: float, dp: float) -> bool:
    """Classes run to just below the next: DP 5.995 belongs to 3.5-5.99."""
    in_centres = float(row["over_in"]) < centre_in <= float(row["to_in"])
    return in_centres and float(row["dp_from"]) <= dp < float(row["dp_to"]) + 0.01


@door()
def thinning_each_mm(backlash: BacklashRange) -> tuple[float, float]:
    """What each tooth of a pair gives up along its reference circle [mm]: half the backlash.

    >>> thinning_each_mm(BacklashRange(0.1, 0.2))
    (0.05, 0.1)
    """
    return backlash.low_mm / 2, backlash.high_mm / 2
