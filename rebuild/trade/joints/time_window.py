"""How long a warm hub or a cold shaft stays useful: a lumped estimate in still air."""

from __future__ import annotations

import math

from rebuild.errors import BadEntry
from rebuild.trade.joints.contraction import ROOM_C
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.shop.materials import Material
from rebuild.trade.sizes.own_unit import said

AIR = Source("Cooling in still air", "10 to 25 W/m²K, lumped", Status.JUDGEMENT)
HEAT = Source("Specific heat by family", "J/(kg K)", Status.FROM_MEMORY)
SLOW_AIR, BRISK_AIR = 10.0, 25.0
SPECIFIC_HEAT = {
    "iron": 490.0, "steel": 470.0, "stainless": 500.0, "bronze": 380.0, "brass": 380.0, "copper": 385.0,
    "aluminium": 900.0, "zinc": 390.0, "soft": 200.0, "mineral": 800.0, "carbide": 200.0, "plastic": 1470.0,
}  # fmt: skip


@door()
def window_s(
    material: Material,
    outside_mm: float,
    bore_mm: float,
    length_mm: float,
    from_C: float,
    until_C: float,
    room_C: float = ROOM_C,
) -> Worked[tuple[float, float]]:
    """Seconds a ring or plug takes in still air from ``from_C`` to ``until_C``: brisk and slow estimate.

    A lumped estimate, good to a factor of two; once the parts touch, heat crosses within seconds.

    Raises:
        BadEntry: no ring, or ``until_C`` does not lie between ``from_C`` and the room.

    >>> from rebuild.trade.shop.materials import material as named
    >>> [round(s, -1) for s in window_s(named("steel"), 80, 50, 40, 150, 100).value]  # 452 J/K from 225 cm²
    [390.0, 980.0]
    """
    if not 0 <= bore_mm < outside_mm or length_mm <= 0:
        raise BadEntry(
            "is not a ring.", where="Part", value=f"{said(bore_mm)} x {said(outside_mm)} x {said(length_mm)}"
        )
    ratio = (from_C - room_C) / (until_C - room_C) if until_C != room_C else math.inf
    if not 1.0 <= ratio < math.inf:
        raise BadEntry(
            "does not lie between the part's temperature and the room's.",
            where="Temperature at the end",
            value=f"{until_C:g} °C",
            way_out=f"Type one between {room_C:g} and {from_C:g} °C.",
        )
    ring_mm2 = math.pi / 4.0 * (outside_mm**2 - bore_mm**2)
    area_m2 = (math.pi * (outside_mm + bore_mm) * length_mm + 2.0 * ring_mm2) * 1e-6
    heat = material.density_kg_m3 * SPECIFIC_HEAT[material.family] * ring_mm2 * length_mm * 1e-9
    brisk, slow = (heat / (film * area_m2) * math.log(ratio) for film in (BRISK_AIR, SLOW_AIR))
    sheet = Sheet("Time to assemble")
    sheet.equation("heat held", f"{heat:.0f} J per °C over {area_m2 * 1e4:.0f} cm²", HEAT)
    sheet.equation("time", f"C / (h A) x ln({ratio:.3f}) = {brisk:.0f} to {slow:.0f} s in still air", AIR)
    sheet.note("A cold part also gathers frost, which warms it faster: wipe it, and take the short figure.")
    sheet.note(
        "Once the parts touch, heat crosses in seconds: go home in one move, have a stop and a mallet."
    )
    return Worked((brisk, slow), sheet.close())
