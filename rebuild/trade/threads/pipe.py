"""Pipe threads: G and R (ISO 228, ISO 7) and NPT (ASME B1.20.1): which one, sizes, drills, gauging by stand-off.

Taper pipe threads run 1:16 on the diameter. Whitworth form (G, R): depth 0.640327 p. NPT: E0 = D - (0.05 D + 1.1) p,
E1 = E0 + L1 / 16, thread length L2 = (0.8 D + 6.8) p, depth 0.8 p.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.own_unit import both, said

INCH_MM = 25.4
TAPER = 16.0
WHITWORTH = Source("ISO 228-1, ISO 7-1", "55° form, depth 0.640327 p", Status.COMPUTED)
NPT_RULE = Source(
    "ASME B1.20.1", "E0 = D - (0.05 D + 1.1) p, E1 = E0 + L1/16, L2 = (0.8 D + 6.8) p", Status.COMPUTED
)
NOT_TOGETHER = Source("55° and 60° pipe threads", "they start together and leak", Status.COMMON_PRACTICE)
G, R, NPT = "G", "R", "NPT"
SYSTEMS = (G, R, NPT)


@dataclass(frozen=True, slots=True)
class PipeThread:
    """A pipe thread [mm]: ``major_mm`` at the gauge plane (NPT: outside of the pipe); lengths None where none apply."""

    system: str
    size: str
    tpi: float
    major_mm: float
    pitch_diameter_mm: float
    minor_mm: float
    gauge_mm: float | None
    useful_mm: float | None
    drill_mm: float | None
    source: Source

    @property
    def name(self) -> str:
        """As the trade says it, ``G 1/2`` or ``1/2 NPT``."""
        return f"{self.size} NPT" if self.system == NPT else f"{self.system} {self.size}"

    @property
    def pitch_mm(self) -> float:
        """Pitch."""
        return INCH_MM / self.tpi


@cache
def pipe_threads() -> tuple[PipeThread, ...]:
    """Every thread of the table, G and R apart.

    >>> {thread.system for thread in pipe_threads()} == {"G", "R", "NPT"}
    True
    """
    found = table("pipe_threads")
    made = [
        _npt(row, Source("ASME B1.20.1", "", found.row_source(row).status))
        for row in found.rows
        if row["system"] == NPT
    ]
    for row in found.rows:
        if row["system"] == G:
            made.append(_bsp(row, G, Source("ISO 228-1", "", found.row_source(row).status)))
            if row["gauge_mm"]:
                made.append(_bsp(row, R, Source("ISO 7-1", "", found.row_source(row).status)))
    return tuple(made)


def _bsp(row: Mapping[str, str], system: str, source: Source) -> PipeThread:
    major, tpi = float(row["major_mm"]), float(row["tpi"])
    depth = 0.640327 * INCH_MM / tpi
    parallel = float(row["drill_parallel_mm"]) if row["drill_parallel_mm"] else None
    taper = float(row["drill_taper_mm"]) if row["drill_taper_mm"] else None
    gauge = float(row["gauge_mm"]) if system == R else None
    return PipeThread(
        system,
        row["size"],
        tpi,
        major,
        major - depth,
        major - 2 * depth,
        gauge,
        None,
        parallel if system == G else taper,
        source,
    )


def _npt(row: Mapping[str, str], source: Source) -> PipeThread:
    outside, tpi, engaged = float(row["major_mm"]), float(row["tpi"]), float(row["gauge_mm"])
    p = INCH_MM / tpi
    small = outside - (0.05 * outside / INCH_MM + 1.1) * p
    at_plane = small + engaged / TAPER
    useful = (0.8 * outside / INCH_MM + 6.8) * p
    return PipeThread(
        NPT,
        row["size"],
        tpi,
        outside,
        at_plane,
        at_plane - 0.8 * p,
        engaged,
        useful,
        float(row["drill_taper_mm"]) if row["drill_taper_mm"] else None,
        source,
    )


@door()
def pipe_thread(system: str, size: str) -> Worked[PipeThread]:
    """The sizes of a pipe thread; its threads per inch and its kind may stand behind the size.

    Raises:
        BadEntry: no such system or size; the message names those held.

    >>> round(pipe_thread("NPT", "1/2").value.pitch_diameter_mm / 25.4, 5)
    0.77843
    >>> pipe_thread("NPT", "1/4-18 NPT").value == pipe_thread("NPT", "1/4").value
    True
    """
    if system not in SYSTEMS:
        raise BadEntry(
            "is no pipe thread.", where="Kind", value=system[:20], way_out=f"Kinds: {', '.join(SYSTEMS)}."
        )
    plain = " ".join(size.replace("-", " ").replace('"', "").replace("in", "").split())
    plain = plain.upper().removesuffix(system).strip()
    held = [thread for thread in pipe_threads() if thread.system == system]
    found = next((one for one in held if plain in (one.size, f"{one.size} {one.tpi:g}")), None)
    if found is None:
        names = ", ".join(thread.size for thread in held)
        raise BadEntry(
            f"is no size of {system}.", where="Size", value=size.strip()[:20], way_out=f"Held: {names}."
        )
    sheet = Sheet(f"Pipe thread {found.name}")
    _tell(sheet, found)
    return Worked(found, sheet.close())


@door()
def by_stand_off(thread: PipeThread, stand_off_mm: float) -> Worked[float]:
    """How far a taper thread's diameter is off, from how far its gauge stands off flush [mm on the diameter].

    Args:
        thread: R or NPT.
        stand_off_mm: how far the gauge stops short of the plane (minus: it goes past it).

    Raises:
        BadEntry: a parallel thread, which no taper gauge fits.
        OutOfRange: further off than the thread is long.

    >>> round(by_stand_off(pipe_thread("NPT", "1/2").value, 1.814).value, 4)
    0.1134
    """
    if thread.gauge_mm is None:
        raise BadEntry(
            "is parallel; no taper gauge fits it.",
            where="Thread",
            value=thread.name,
            way_out="Choose R or NPT.",
        )
    if abs(stand_off_mm) > 2 * thread.gauge_mm:
        raise OutOfRange(
            f"is further than twice the gauge length of {said(thread.gauge_mm)}.",
            where="Gauge stands off",
            value=said(stand_off_mm),
            way_out="Measure from the gauge's step to the end of the thread.",
        )
    off, turns = stand_off_mm / TAPER, stand_off_mm / thread.pitch_mm
    sheet = Sheet(f"Gauging {thread.name} by stand-off")
    sheet.equation("turns", f"{stand_off_mm:.4g} / {thread.pitch_mm:.4f} = {turns:+.2f}")
    sheet.equation("on the diameter", f"{stand_off_mm:.4g} / 16 = {off:+.4f} mm")
    sheet.result(
        "verdict",
        "within one turn" if abs(turns) <= 1 else "more than one turn off: cut on, or it is worn",
        NPT_TURN,
    )
    return Worked(off, sheet.close())


NPT_TURN = Source("Taper pipe threads", "one turn large or small", Status.FROM_MEMORY)


def _tell(sheet: Sheet, thread: PipeThread) -> None:
    sheet.table("row", f"{thread.tpi:g} per inch, {thread.major_mm:.3f} mm", thread.source)
    rule = NPT_RULE if thread.system == NPT else WHITWORTH
    where = (
        "at the hand-tight plane"
        if thread.system == NPT
        else "at the gauge plane"
        if thread.gauge_mm
        else "throughout"
    )
    sheet.equation("pitch diameter", f"{both(thread.pitch_diameter_mm)} {where}", rule)
    sheet.equation("minor", both(thread.minor_mm), rule)
    if thread.gauge_mm is not None:
        sheet.table(
            "gauge length",
            f"{both(thread.gauge_mm, 2)}, {thread.gauge_mm / thread.pitch_mm:.2f} turns; taper 1:16",
            thread.source,
        )
    if thread.useful_mm is not None:
        sheet.equation("full thread", both(thread.useful_mm, 2), rule)
    if thread.drill_mm is not None:
        how = "then ream 1:16, or tap as drilled" if thread.system != G else "tap"
        sheet.table("drill", f"{both(thread.drill_mm)}; {how}", thread.source)
    sheet.note("R, G (55°) and NPT (60°) are not put together.", NOT_TOGETHER)
