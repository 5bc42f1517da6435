"""How to put a press or shrink fit together: the hub's temperature for each way of chilling the inner part."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.joints.heat_sources import media
from rebuild.trade.joints.thermal import assemble, usual_clearance_mm
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, StepKind, Worked, Working
from rebuild.trade.shop.materials import wanted
from rebuild.trade.sizes.own_unit import both
from rebuild.trade.sizes.show import show_length

HOT_ROOM_C = 25.0


@dataclass(frozen=True, slots=True)
class Way:
    """One way to assemble: what chills the inner part, the hub's temperature [°C], and whether the hub bears it."""

    cold: str
    shaft_C: float
    hub_C: float
    heats: bool
    limit_C: float
    within_limit: bool
    working: Working

    @property
    def words(self) -> str:
        """One line for the list."""
        chilled = (
            f"inner part in {self.cold}, {self.shaft_C:.0f} °C"
            if self.cold
            else "inner part at room temperature"
        )
        if not self.heats:
            return f"{chilled}; outer part at room temperature"
        limit = "" if self.within_limit else f": too hot, it bears {self.limit_C:.0f} °C"
        return f"{chilled}; outer part at {self.hub_C:.0f} °C{limit}"


@door()
def ways_to_assemble(
    diameter_mm: float, interference_mm: float, outer_material: str, inner_material: str
) -> Worked[tuple[Way, ...]]:
    """Every way that frees the parts, the least heat first.

    Args:
        diameter_mm: of the fit [mm].
        interference_mm: the greatest there is [mm].
        outer_material, inner_material: as typed on the parts.

    Raises:
        BadEntry: a material that is not known, or nothing that interferes.
        OutOfRange: no way frees them within the temperatures the data hold for.

    >>> ways = ways_to_assemble(120, 0.09, "C45", "EN-GJL-250").value
    >>> ways[-1].cold, ways[-1].within_limit
    ('', True)
    """
    if interference_mm <= 0:
        raise BadEntry(
            "is no interference: the parts go together cold.",
            where="Interference",
            value=show_length(interference_mm, "mm"),
        )
    hub, shaft = (
        wanted(outer_material, "Outer material").material,
        wanted(inner_material, "Inner material").material,
    )
    sheet = Sheet("How to put the fit together")
    sheet.read(
        "diameter and greatest interference",
        f"{both(diameter_mm)}, {both(interference_mm)}",
    )
    sheet.read("clearance wanted while it goes in", both(usual_clearance_mm(diameter_mm)))
    found: list[Way] = []
    for cold in ("", *(one.name for one in media() if one.temperature_C < 0)):
        try:
            worked = assemble(diameter_mm, interference_mm, hub, shaft, cold=cold)
        except OutOfRange as trouble:
            sheet.note(f"{cold or 'heat alone'}: {trouble}")
            continue
        value = worked.value
        heats = value.hub_C > HOT_ROOM_C
        found.append(
            Way(cold, value.shaft_C, value.hub_C, heats, value.limit_C, value.within_limit, worked.working)
        )
    if not found:
        raise OutOfRange(
            "cannot be freed by heat and cold within the data held.",
            where="Fit",
            way_out="Press it, or take less interference.",
        )
    found.sort(key=lambda way: way.hub_C)
    for way in found:
        sheet.result(way.cold or "heat alone", way.words)
    cautions = (step for way in found for step in way.working.steps if step.kind is StepKind.CAUTION)
    sheet.take(Working("", tuple(dict.fromkeys(cautions))))
    return Worked(tuple(found), sheet.close())
