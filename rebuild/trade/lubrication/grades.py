"""Classes of oil and grease: ISO viscosity grades, AGMA numbers, SAE engine and gear grades, NLGI.

The ISO bands leave gaps between them (35.2 to 41.4 for one); a viscosity in a gap belongs to no grade
and is said to fall between two. SAE engine and gear numbers are two different scales.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import isfinite, log

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import Table, table
from rebuild.trade.results.working import Sheet, Source, Worked


@dataclass(frozen=True, slots=True)
class Band:
    """A grade and its limits of kinematic viscosity [mm²/s] at a temperature [°C]."""

    name: str
    min_cSt: float
    max_cSt: float | None
    at_C: float
    source: Source
    iso_vg: int | None = None
    edition: str = ""
    custom_vg: int | None = None


@dataclass(frozen=True, slots=True)
class VgPlace:
    """Where a viscosity at 40 °C lies among the ISO grades.

    ``grade`` is None in a gap; ``below`` and ``above`` are then the neighbours. ``nearest`` is the
    grade whose mid-point is nearest, by convention only.
    """

    grade: int | None
    below: int | None
    above: int | None
    nearest: int
    text: str


@dataclass(frozen=True, slots=True)
class Grease:
    """An NLGI consistency number and its worked penetration [0.1 mm at 25 °C, 60 strokes]."""

    number: str
    min_tenths: int
    max_tenths: int
    feel: str
    source: Source


def iso_bands() -> tuple[Band, ...]:
    """Every ISO 3448 grade, thinnest first; limits are the mid-point ± 10 %.

    >>> [band.iso_vg for band in iso_bands()][:6]  # ISO 3448
    [2, 3, 5, 7, 10, 15]
    """
    found = table("iso3448_vg")
    return tuple(
        Band(
            f"ISO VG {row['iso_vg']}",
            float(row["min_cSt"]),
            float(row["max_cSt"]),
            40.0,
            found.row_source(row),
            int(row["iso_vg"]),
        )
        for row in found.rows
    )


@door()
def iso_band(grade: int) -> Band:
    """One ISO viscosity grade.

    Raises:
        OutOfRange: no such grade.

    >>> iso_band(68).min_cSt, iso_band(68).max_cSt
    (61.2, 74.8)
    """
    for band in iso_bands():
        if band.iso_vg == grade:
            return band
    names = ", ".join(str(band.iso_vg) for band in iso_bands())
    raise OutOfRange(
        f"is not a grade of {iso_bands()[0].source.name}.",
        where="ISO VG",
        value=str(grade),
        way_out=f"Grades: {names}.",
    )


@door()
def iso_place(viscosity_40C_cSt: float) -> Worked[VgPlace]:
    """The ISO grade of a viscosity at 40 °C, or the gap it falls into.

    Raises:
        OutOfRange: thinner than VG 2 or thicker than VG 3200.

    >>> iso_place(57.9).value.text
    'falls between VG 46 (to 50.6) and VG 68 (from 61.2), nearest VG 68'
    """
    nu, bands = viscosity_40C_cSt, iso_bands()
    first, last = bands[0], bands[-1]
    most = last.max_cSt or last.min_cSt
    if not isfinite(nu) or not first.min_cSt <= nu <= most:
        raise OutOfRange(
            f"lies outside {first.min_cSt:g} to {most:g} mm²/s at 40 °C, the range of {first.source.name}.",
            where="Viscosity at 40 °C",
            value=f"{nu:.4g} mm²/s",
        )
    place = _place(nu, bands)
    sheet = Sheet("ISO viscosity grade")
    sheet.read("viscosity", f"{nu:.4g} mm²/s at 40 °C")
    for band in bands:
        if band.iso_vg in (place.grade, place.below, place.above):
            sheet.table(band.name, f"{band.min_cSt:g} to {band.max_cSt:g} mm²/s at 40 °C", band.source)
    if place.grade is None:
        sheet.note("The bands of ISO 3448 do not touch: a value in a gap has no grade, only a nearest one.")
    sheet.result("grade", place.text)
    return Worked(place, sheet.close())


def _place(nu: float, bands: tuple[Band, ...]) -> VgPlace:
    nearest = nearest_grade(nu)
    for band in bands:
        if band.min_cSt <= nu <= (band.max_cSt or nu):
            text = f"lies in VG {band.iso_vg} ({band.min_cSt:g} to {band.max_cSt:g} mm²/s at 40 °C)"
            return VgPlace(band.iso_vg, None, None, nearest, text)
    above = next(band for band in bands if band.min_cSt > nu)
    below = bands[bands.index(above) - 1]
    text = (
        f"falls between VG {below.iso_vg} (to {below.max_cSt:g}) and VG {above.iso_vg} "
        f"(from {above.min_cSt:g}), nearest VG {nearest}"
    )
    return VgPlace(None, below.iso_vg, above.iso_vg, nearest, text)


@door()
def nearest_grade(viscosity_40C_cSt: float) -> int:
    """The ISO grade whose mid-point is nearest by ratio (the grades climb by ratio); not a class.

    >>> nearest_grade(86.28)
    100
    """
    rows = table("iso3448_vg").rows
    best = min(rows, key=lambda row: abs(log(float(row["mid_cSt"]) / viscosity_40C_cSt)))
    return int(best["iso_vg"])


@door()
def agma(number: str) -> Band:
    """An AGMA lubricant number, with or without its EP or Comp suffix, which leaves the range alone.

    Raises:
        OutOfRange: no such number.

    >>> agma("8A Comp").iso_vg
    1000
    """
    words = number.upper().replace("AGMA", "").replace("NO.", "").split()
    plain = [word for word in words if word not in ("EP", "COMP", "COMP.", "COMPOUNDED", "S", "R&O")]
    key = "".join(plain).removesuffix("EP")
    found = table("agma9005")
    for row in found.rows:
        if row["agma"] == key:
            grade = int(row["iso_vg"]) if row["iso_vg"] else None
            return _band(f"AGMA {key}", row, found, float(row["at_C"]), grade)
    raise _unknown("AGMA number", number, found, "agma")


@door()
def sae(grade: str, kind: str) -> tuple[Band, ...]:
    """An SAE grade of ``kind`` "engine" or "gear", every edition held; limits at 100 °C.

    Raises:
        BadEntry: ``kind`` is neither.
        OutOfRange: no such grade on that scale.

    >>> [(band.min_cSt, band.max_cSt) for band in sae("20", "engine")]
    [(5.6, 9.3), (6.9, 9.3)]
    """
    if kind not in ("engine", "gear"):
        raise BadEntry("is neither engine nor gear.", where="SAE scale", value=kind)
    found = table("sae_grades")
    key = grade.upper().replace("SAE", "").strip()
    hits = tuple(
        _band(f"SAE {key} {kind} oil", row, found, 100.0)
        for row in found.rows
        if row["kind"] == kind and row["grade"] == key
    )
    if not hits:
        raise _unknown(f"SAE {kind} grade", grade, found, "grade", kind)
    return hits


@door()
def nlgi(number: str) -> Grease:
    """An NLGI consistency number.

    Raises:
        OutOfRange: no such number.

    >>> nlgi("2").min_tenths
    265
    """
    found = table("nlgi")
    key = number.upper().replace("NLGI", "").replace("NO.", "").strip()
    for row in found.rows:
        if row["nlgi"] == key:
            return Grease(key, int(row["min"]), int(row["max"]), row["feel"], found.row_source(row))
    raise _unknown("NLGI number", number, found, "nlgi")


def _band(name: str, row: Mapping[str, str], found: Table, at_C: float, iso_vg: int | None = None) -> Band:
    most = float(row["max_cSt"]) if row["max_cSt"] else None
    custom = row.get("custom_vg", "")
    return Band(
        name,
        float(row["min_cSt"]),
        most,
        at_C,
        found.row_source(row),
        iso_vg,
        row.get("edition", ""),
        int(custom) if custom else None,
    )


def _unknown(what: str, value: str, found: Table, column: str, kind: str = "") -> OutOfRange:
    known = [row[column] for row in found.rows if not kind or row["kind"] == kind]
    return OutOfRange(
        f"is not in {found.source.name}.",
        where=what,
        value=value,
        way_out=f"Known: {', '.join(dict.fromkeys(known))}.",
    )
