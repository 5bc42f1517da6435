"""Bolt tightening: T = K F d, preload as a share of proof load, and enough thread in cast iron.

Stress area: metric 0.7854 (d - 0.9382 P)², rounded to three figures as ISO 898-1 prints it; inch
0.7854 (d - 0.9743/n)². Proof strength of class 8.8 is 580 MPa to 16 mm and 600 MPa above.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from functools import cache

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.amounts import LBF_FT_NM, LBF_N
from rebuild.trade.sizes.number import read_number, read_whole
from rebuild.trade.sizes.own_unit import said
from rebuild.trade.sizes.typed_text import plain_of
from rebuild.words.joints import Dressing

METRIC, INCH = "metric", "inch"
AREA = Source("Tensile stress area", "ISO 898-1 and ASME B1.1", Status.PUBLISHED)
TORQUE = Source("T = K F d", "K scatters by about a quarter", Status.COMMON_PRACTICE)
#: Nut factor K by condition of thread and face, with its usual scatter.
NUT_FACTORS = {
    Dressing.DRY.value: 0.20,
    Dressing.OILED.value: 0.15,
    "plated, dry": 0.22,
    "anti-seize or waxed": 0.12,
}
WAYS = "Type it as M10, M10x1.25, 3/8-16 or #10-32."


@dataclass(frozen=True, slots=True)
class BoltThread:
    """A bolt's thread: how it is written, its system, diameter and pitch [mm], stress area [mm²]."""

    name: str
    system: str
    d_mm: float
    pitch_mm: float
    area_mm2: float


@dataclass(frozen=True, slots=True)
class Proof:
    """Proof and tensile strength [MPa] of a class or grade at a size."""

    grade: str
    proof_MPa: float
    tensile_MPa: float
    source: Source


@dataclass(frozen=True, slots=True)
class Tightening:
    """Preload [kN] and torque [N·m], with the torque's scatter for ± a quarter of K."""

    preload_kN: float
    torque_Nm: float
    torque_range_Nm: tuple[float, float]
    proof_MPa: float
    area_mm2: float


@door()
def stress_area_mm2(d_mm: float, pitch_mm: float, system: str = METRIC) -> float:
    """Tensile stress area [mm²].

    Raises:
        BadEntry: the pitch does not fit the diameter.

    >>> stress_area_mm2(10, 1.5)
    58.0
    """
    if not 0 < pitch_mm < 0.5 * d_mm:
        raise BadEntry(
            "does not belong to this diameter.",
            where="Pitch",
            value=said(pitch_mm),
            way_out=f"A thread of {said(d_mm)} has a pitch well under {said(0.5 * d_mm)}.",
        )
    cut = 0.9382 if system == METRIC else 0.9743
    area = math.pi / 4.0 * (d_mm - cut * pitch_mm) ** 2
    return float(f"{area:.3g}") if system == METRIC else area


@door()
def bolt_thread(text: str) -> BoltThread:
    """A bolt as written: ``M10``, ``M10x1.25``, ``3/8-16``, ``#10-32``, ``1/2`` (coarse).

    Raises:
        BadEntry: not a bolt thread.
        OutOfRange: a size without a coarse pitch in the table, given without a pitch.

    >>> bolt_thread("3/8").name
    '3/8-16'
    """
    plain = plain_of(text, "Bolt", WAYS, sort="a bolt thread").lower().replace("×", "x").replace(" ", "")
    plain = plain.removesuffix("in").rstrip('"')
    metric = re.fullmatch(r"m(\d+(?:[.,]\d+)?)(?:x(\d+(?:[.,]\d+)?))?(?:-.*)?", plain)
    if metric:
        return _metric(text, *metric.groups())
    plain = re.sub(r"(unc|unf|un)$", "", plain)
    inch = re.fullmatch(r"(?:no\.?)?(#?\d+(?:-\d+/\d+)?(?:/\d+)?)(?:-(\d+))?", plain)
    if inch is None:
        raise BadEntry(
            "is not a bolt thread.",
            where="Bolt",
            value=text,
            way_out=WAYS,
        )
    return _inch(text, inch[1], inch[2] or "", fine=text.strip().lower().endswith("unf"))


@door()
def proof(grade: str, d_mm: float) -> Proof:
    """Proof strength of a class (8.8) or grade (grade 5) at this diameter.

    Raises:
        OutOfRange: no such class, or not at this size.

    >>> (proof("8.8", 16).proof_MPa, proof("8.8", 20).proof_MPa)
    (580.0, 600.0)
    """
    found = table("bolt_proof")
    rows = [row for row in found.rows if row["grade"] == grade]
    for row in rows:
        if float(row["over_mm"]) < d_mm <= float(row["to_mm"]) + 1e-9:
            own = found.row_source(row)
            name = "SAE J429" if row["system"] == INCH else "ISO 898-1:2013"
            return Proof(
                grade,
                float(row["proof_MPa"]),
                float(row["tensile_MPa"]),
                Source(name, row["note"], own.status),
            )
    if rows:
        known = f"It goes from {rows[0]['over_mm']} to {rows[-1]['to_mm']} mm ({found.source.cite()})."
    else:
        known = f"Classes: {', '.join(grades())} ({found.source.cite()})."
    raise OutOfRange(
        f"has no proof strength here for {said(d_mm)}.", where="Class or grade", value=grade, way_out=known
    )


def grades() -> tuple[str, ...]:
    """The property classes and grades in the table.

    >>> "8.8" in grades(), "grade 5" in grades()
    (True, True)
    """
    return tuple(dict.fromkeys(row["grade"] for row in table("bolt_proof").rows))


@door()
def tighten(
    thread: BoltThread, strength: Proof, nut_factor: float = NUT_FACTORS[Dressing.DRY], share: float = 0.75
) -> Worked[Tightening]:
    """Torque to a preload of ``share`` of the proof load (0.75 for joints opened again, 0.9 for good).

    Raises:
        BadEntry: a share or nut factor that cannot be.

    >>> round(tighten(bolt_thread("M10"), proof("8.8", 10)).value.torque_Nm, 2)
    50.46
    """
    if not 0 < share <= 1.0 or not 0.03 <= nut_factor <= 0.6:
        raise BadEntry(
            "is not a share of proof load with a nut factor.",
            where="Tightening",
            value=f"{share:g} and K {nut_factor:g}",
            way_out="Share up to 1 (0.75 usual), K from 0.10 waxed to 0.25 rusty.",
        )
    preload = share * strength.proof_MPa * thread.area_mm2 / 1000.0
    torque = nut_factor * preload * thread.d_mm
    sheet = Sheet(f"Tightening {thread.name}, {strength.grade}")
    sheet.table("stress area", f"{thread.area_mm2:.4g} mm²", AREA)
    sheet.table("proof strength", f"{strength.proof_MPa:g} MPa", strength.source)
    sheet.equation(
        "preload F",
        f"{share:g} x {strength.proof_MPa:g} x {thread.area_mm2:.4g} = {preload:.3f} kN "
        f"({preload * 1000.0 / LBF_N:.0f} lbf)",
    )
    sheet.equation(
        "torque",
        f"K F d = {nut_factor:g} x {preload:.3f} x {thread.d_mm:g} = {torque:.2f} N·m "
        f"({torque / LBF_FT_NM:.1f} lbf·ft)",
        TORQUE,
    )
    sheet.note(
        "K rules: 0.20 dry, 0.15 oiled. Oiling a bolt tightened to the dry torque overloads it by a third."
    )
    return Worked(
        Tightening(preload, torque, (0.75 * torque, 1.25 * torque), strength.proof_MPa, thread.area_mm2),
        sheet.close(),
    )


def _metric(text: str, size: str, pitch: str | None) -> BoltThread:
    """A comma is a decimal comma here: no thread is counted in thousands."""
    d = read_number(size, "Bolt", decimal_comma=True, above=0)
    coarse = _coarse(METRIC).get(f"M{d:g}")
    if not pitch and coarse is None:
        raise OutOfRange(
            "has no coarse pitch in the table.",
            where="Bolt",
            value=text,
            way_out=f"Type its pitch as M{d:g}x1, or one of {', '.join(_coarse(METRIC))}.",
        )
    written = pitch or (coarse[1] if coarse else "")
    step = read_number(written, "Pitch of the bolt", decimal_comma=True, above=0)
    return BoltThread(f"M{d:g}x{step:g}", METRIC, d, step, stress_area_mm2(d, step))


def _inch(text: str, size: str, tpi: str, *, fine: bool) -> BoltThread:
    known = _coarse(INCH)
    key = size if size in known else f"#{size}"
    if key not in known:
        raise OutOfRange(
            "is not a size in the table.",
            where="Bolt",
            value=text,
            way_out=f"Sizes: {', '.join(known)} (ASME B1.1, from memory).",
        )
    d_in, coarse, fine_tpi = known[key]
    count = tpi or (fine_tpi if fine or not coarse else coarse)
    per_inch = read_whole(count, "Threads per inch")
    if per_inch == 0:
        raise BadEntry(
            "has no threads per inch.",
            where="Bolt",
            value=text.strip(),
            way_out=f"Type it as {key}-{coarse or fine_tpi}.",
        )
    pitch = 25.4 / per_inch
    d = float(d_in) * 25.4
    return BoltThread(f"{key}-{count}", INCH, d, pitch, stress_area_mm2(d, pitch, INCH))


@cache
def _coarse(system: str) -> dict[str, tuple[str, str, str]]:
    return {
        row["size"]: (row["d"], row["coarse"], row["fine"])
        for row in table("bolt_threads").rows
        if row["system"] == system
    }
