"""How deep a bolt must stand in tapped cast iron, aluminium or steel, and what the tapped hole bears.

The tapped thread shears on about 0.875 π d per length (basic profile). Practice asks 1 d in steel, 1.5 d in
cast iron, 2 d in aluminium; the sum here says whether the preload agrees with it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.joints.bolts import BoltThread
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.shop.materials import Material
from rebuild.trade.sizes.own_unit import both
from rebuild.trade.sizes.show import show_both

PRACTICE = Source("Thread engagement", "1 d steel, 1.5 d cast iron, 2 d aluminium", Status.COMMON_PRACTICE)
STRIP = Source(
    "Shear of the tapped thread", "0.875 π d per length, 0.58 yield or 0.6 tensile", Status.COMPUTED
)
SHARE = {"iron": 1.5, "aluminium": 2.0, "zinc": 2.0, "plastic": 3.0, "soft": 3.0, "bronze": 1.5, "brass": 1.5}
SAFETY = 1.5


@dataclass(frozen=True, slots=True)
class Engagement:
    """Length of thread wanted [mm]: by practice, by shear, and the larger; and what a length bears [kN]."""

    practice_mm: float
    shear_mm: float
    wanted_mm: float
    bears_kN: float


@door()
def engagement(
    thread: BoltThread, preload_kN: float, tapped: Material, length_mm: float | None = None
) -> Worked[Engagement]:
    """Thread engagement for a preload in a tapped material; ``length_mm`` is the thread there is.

    Raises:
        BadEntry: no preload or length.
        OutOfRange: the material has no strength in the table, or the thread there is would strip.

    >>> from rebuild.trade.joints.bolts import bolt_thread
    >>> from rebuild.trade.shop.materials import material
    >>> round(engagement(bolt_thread("M10"), 25.23, material("grey cast iron")).value.wanted_mm, 1)
    15.3
    """
    if preload_kN <= 0 or (length_mm is not None and length_mm <= 0):
        raise BadEntry("must be above zero.", where="Preload and thread length", value=f"{preload_kN:g} kN")
    per_mm = 0.875 * math.pi * thread.d_mm * _shear_MPa(tapped)
    practice = SHARE.get(tapped.family, 1.0) * thread.d_mm
    shear = SAFETY * preload_kN * 1000.0 / per_mm
    wanted = max(practice, shear)
    there = wanted if length_mm is None else length_mm
    bears = there * per_mm / 1000.0
    sheet = Sheet(f"{thread.name} tapped into {tapped.name}")
    sheet.table("practice", f"{SHARE.get(tapped.family, 1.0):g} d = {show_both(practice, 'mm')}", PRACTICE)
    sheet.equation(
        "by shear",
        f"{SAFETY:g} x {preload_kN:.3f} kN / (0.875 π {thread.d_mm:g} x {_shear_MPa(tapped):.0f} MPa) = "
        f"{both(shear)}",
        STRIP,
    )
    sheet.result("engagement wanted", both(wanted))
    sheet.note(
        "Old castings are weak near the skin and in corners: chamfer the hole, do not bottom the bolt."
    )
    if bears * 1.0 < preload_kN:
        raise OutOfRange(
            f"of thread would strip at {bears:.1f} kN, under the {preload_kN:.1f} kN of preload "
            f"({STRIP.cite()}).",
            where=f"Engagement in {tapped.name}",
            value=both(there),
            way_out=f"Take {both(wanted)}, a thread insert, or less torque.",
        )
    sheet.result("the thread there is bears", f"{bears:.1f} kN, {bears / preload_kN:.1f} x the preload")
    return Worked(Engagement(practice, shear, wanted, bears), sheet.close())


def _shear_MPa(tapped: Material) -> float:
    if tapped.brittle and tapped.tensile_MPa:
        return 0.6 * tapped.tensile_MPa
    if tapped.yield_MPa:
        return 0.58 * tapped.yield_MPa
    raise OutOfRange(
        "has no strength in the table.",
        where="Tapped material",
        value=tapped.name,
        way_out="Choose a material with a strength.",
    )
