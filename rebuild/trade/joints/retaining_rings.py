"""Grooves of retaining rings on shafts (DIN 471) and in bores (DIN 472)."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.limits.iso286 import it_grade_um
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.own_unit import both, said

LAND = Source("Land beside the groove", "three times its depth", Status.COMPUTED)
SHAFT, BORE = "shaft", "bore"


@dataclass(frozen=True, slots=True)
class RingGroove:
    """A groove [mm]: limits of its diameter, limits of its width, its depth, least land outside it; ring thickness."""

    size_mm: float
    low_mm: float
    high_mm: float
    width_low_mm: float
    width_high_mm: float
    depth_mm: float
    land_mm: float
    ring_mm: float


@door()
def ring_groove(kind: str, size_mm: float) -> Worked[RingGroove]:
    """The groove of the ring for a shaft or bore.

    Raises:
        BadEntry: neither shaft nor bore.
        OutOfRange: no ring of this size; the neighbours are named, nothing lies between.

    >>> groove = ring_groove("shaft", 25.0).value
    >>> groove.high_mm, round(groove.low_mm, 3), groove.ring_mm
    (23.9, 23.69, 1.2)
    """
    if kind not in (SHAFT, BORE):
        raise BadEntry(
            "is neither shaft nor bore.", where="Ring for a", value=kind, way_out="Choose shaft or bore."
        )
    found = table("retaining_rings")
    rows = [row for row in found.rows if row["kind"] == kind]
    for row in rows:
        if abs(float(row["size_mm"]) - size_mm) > 0.05:
            continue
        size, d2, tolerance, m = (
            float(row["size_mm"]),
            float(row["d2_mm"]),
            float(row["d2_tolerance_mm"]),
            float(row["m_mm"]),
        )
        depth = abs(size - d2) / 2
        low, high = (d2 - tolerance, d2) if kind == SHAFT else (d2, d2 + tolerance)
        groove = RingGroove(
            size, low, high, m, m + it_grade_um(m, "13") / 1000, depth, 3 * depth, float(row["s_mm"])
        )
        source = Source("DIN 471" if kind == SHAFT else "DIN 472", "", found.row_source(row).status)
        sheet = Sheet(f"Groove of a retaining ring, {kind} {size:g} mm")
        sheet.table(
            "row",
            f"ring {groove.ring_mm:g} thick, groove {low:g} to {high:g}, {m:g} wide H13",
            source,
        )
        sheet.equation("depth", f"|{size:g} - {d2:g}| / 2 = {depth:.3f} mm")
        sheet.equation(
            "land", f"3 × {depth:.3f} = {groove.land_mm:.2f} mm at least between groove and end", LAND
        )
        sheet.result(
            "groove",
            f"{both(low)} to {both(high)}, {m:g} to {groove.width_high_mm:.3f} mm wide",
        )
        sheet.note("The ring bears on a sharp-cornered groove wall: cut a worn one wider and add a spacer.")
        return Worked(groove, sheet.close())
    sizes = [float(row["size_mm"]) for row in rows]
    near = ", ".join(f"{one:g}" for one in sorted(sizes, key=lambda one: abs(one - size_mm))[:3])
    raise OutOfRange(
        "is no size of the table.",
        where="Size",
        value=said(size_mm),
        way_out=f"Nearest: {near} mm; inch rings are not held.",
    )
