"""T-slots of a table by their bolt or throat (ISO 299, BS 2485): sizes to cut or to clean up to."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.errors import OutOfRange
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Sheet, Source, Worked
from rebuild.trade.sizes.own_unit import said


@dataclass(frozen=True, slots=True)
class TSlot:
    """A T-slot [mm]: throat, recess width and depth, whole depth; each with its least and most."""

    bolt: str
    throat_mm: float
    recess_mm: tuple[float, float]
    recess_depth_mm: tuple[float, float]
    whole_mm: tuple[float, float]
    source: Source


@door()
def t_slot(throat_mm: float) -> Worked[TSlot]:
    """The T-slot of a throat; a worn throat up to 1 mm wide of its size is found too.

    Raises:
        OutOfRange: no such throat.

    >>> t_slot(14.2).value.bolt
    'M12'
    """
    found = table("t_slots")
    for row in found.rows:
        throat = float(row["throat_mm"])
        if throat - 0.1 <= throat_mm <= throat + min(0.9, throat * 0.08):
            slot = TSlot(
                row["bolt"],
                throat,
                (float(row["recess_low_mm"]), float(row["recess_high_mm"])),
                (float(row["depth_low_mm"]), float(row["depth_high_mm"])),
                (float(row["whole_low_mm"]), float(row["whole_high_mm"])),
                found.row_source(row),
            )
            (low, high), (shallow, deep), (least, most) = slot.recess_mm, slot.recess_depth_mm, slot.whole_mm
            sheet = Sheet(f"T-slot of {throat:g} mm for {slot.bolt}")
            sheet.table("recess", f"{low:g} to {high:g} wide, {shallow:g} to {deep:g} deep", slot.source)
            sheet.table("whole depth", f"{least:g} to {most:g}", slot.source)
            sheet.note(f"A nut thinner than {shallow:g} mm and narrower than {low:g} mm slides in it.")
            sheet.note("A bolt that bottoms lifts the lips off: its end stays above the floor.")
            return Worked(slot, sheet.close())
    throats = ", ".join(row["throat_mm"] for row in found.rows)
    raise OutOfRange(
        "is no throat of the table.",
        where="Throat",
        value=said(throat_mm),
        way_out=f"Held: {throats} mm; inch tables differ.",
    )
