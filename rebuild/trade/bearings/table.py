"""Rolling bearings by designation, and what else shares their envelope.

Boundary dimensions follow ISO 15 (radial), ISO 355 (tapered) and ISO 104 (thrust); one envelope serves
several kinds (6203, 7203, N203 and 1203 are all 17 x 40 x 12), so the rolling elements must be looked
at. The usual rows stand in ``assets/tables/bearings.csv`` with their status.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cache

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.bearings.closed import closed, other_width
from rebuild.trade.results.cautions import attach
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.own_unit import own_unit, said

TABLE = "bearings"
PRACTICE = Source("Bearing suffixes", "C3, P5, 2RS and the like", Status.COMMON_PRACTICE)
FAMILIES = (
    "deep groove",
    "wide (self-aligning or roller)",
    "double-row angular contact",
    "tapered roller",
    "thrust ball",
    "inch deep groove",
    "inch tapered roller",
)


@dataclass(frozen=True, slots=True)
class Bearing:
    """A standard bearing [mm]. ``width_mm`` is T where cone and cup (or washers) are apart."""

    designation: str
    family: str
    series: str
    bore_mm: float
    outside_mm: float
    width_mm: float
    cone_mm: float | None
    cup_mm: float | None
    inch: bool
    source: Source

    def size_text(self) -> str:
        """``17 x 40 x 12 mm``; in inches for one who asks in them."""
        if own_unit() == "in":
            sizes = (self.bore_mm, self.outside_mm, self.width_mm)
            return f"{' x '.join(said(mm).removesuffix(' in') for mm in sizes)} in"
        return f"{self.bore_mm:g} x {self.outside_mm:g} x {self.width_mm:g} mm"


@cache
def bearings() -> tuple[Bearing, ...]:
    """Every bearing held.

    >>> next(item.size_text() for item in bearings() if item.designation == "6203")  # ISO 15
    '17 x 40 x 12 mm'
    """
    found = table(TABLE)
    return tuple(_bearing(row, found.row_source(row)) for row in found.rows)


@cache
def by_designation() -> Mapping[str, Bearing]:
    """Every bearing held, by its designation in capitals.

    >>> by_designation()["6203"].bore_mm
    17.0
    """
    return {item.designation.upper(): item for item in bearings()}


def _bearing(row: Mapping[str, str], source: Source) -> Bearing:
    return Bearing(
        row["designation"],
        row["family"],
        row["series"],
        float(row["bore_mm"]),
        float(row["outside_mm"]),
        float(row["width_mm"]),
        float(row["B_mm"]) if row["B_mm"] else None,
        float(row["C_mm"]) if row["C_mm"] else None,
        row["unit"] == "in",
        Source(_STANDARD[row["family"]], f"series {row['series']}", source.status),
    )


_STANDARD = {
    "deep groove": "ISO 15",
    "wide (self-aligning or roller)": "ISO 15",
    "double-row angular contact": "ISO 15",
    "tapered roller": "ISO 355",
    "thrust ball": "ISO 104",
    "inch deep groove": "ABMA 12.2, BS 292",
    "inch tapered roller": "ABMA 19.2",
}


@door()
def bearing(designation: str) -> Worked[Bearing]:
    """The bearing of a designation as stamped, with or without suffixes (``6203-2RS C3``).

    Raises:
        BadEntry: not a designation.
        OutOfRange: not in the table; the bore is told where the bore code gives it.

    >>> bearing("6203 2RS").value.size_text()
    '17 x 40 x 12 mm'
    """
    typed = re.sub(r"^R\s+(?=\d)", "R", designation.strip().lstrip("*").strip().upper())
    by_name = by_designation()
    found = by_name.get(typed) or by_name.get(_core(typed)) or by_name.get(_core(typed) + "X")
    found = found or _thin(typed, by_name) or _same_envelope(typed, by_name)
    if found is None:
        raise _not_held(designation, _core(typed))
    if found.designation == _core(typed):
        found = closed(designation, found, by_name)
    sheet = Sheet(f"Bearing {designation.strip()}")
    sheet.table(found.designation, f"{found.family}, {found.size_text()}", found.source)
    told = other_width(found, by_name)
    if told:
        sheet.note(told, PRACTICE)
    say_envelope(found, sheet)
    if re.fullmatch(r"6[89]\d\d", _core(typed)) and found.designation != _core(typed):
        sheet.note(f"{_core(typed)} is the short number of {found.designation}.", PRACTICE)
    rest = typed.replace(_core(typed), "", 1).strip(" -/")
    if rest:
        sheet.note(f"The rest, “{rest}”, tells seals, clearance and class: keep it.", PRACTICE)
    return Worked(found, sheet.close())


def _core(typed: str) -> str:
    """The number that carries the size: digits (with an X) before any suffix, or an R number."""
    match = re.match(r"(\d{3,5}X?|R\d{1,2})(?![\d/])", typed)
    return match[1] if match else typed


def _thin(typed: str, by_name: Mapping[str, Bearing]) -> Bearing | None:
    """The thin series by their short numbers: 6804 is 61804, 6904 is 61904."""
    match = re.match(r"6([89])(\d\d)(?![\d/])", typed)
    return by_name.get(f"61{match[1]}{match[2]}") if match else None


def _same_envelope(typed: str, by_name: Mapping[str, Bearing]) -> Bearing | None:
    """Angular contact (7), cylindrical roller (N, NU, NJ) and self-aligning (1) in the envelope of a 6xxx."""
    match = re.match(r"(NUP|NU|NJ|NF|N|7|1)\s*(10|[0234])(\d\d)(?!\d)", typed)
    twin = by_name.get(f"6{match[2][-1]}{match[3]}") if match else None
    if match is None or twin is None or (match[1] == "1" and match[2] not in "23"):
        return None
    family = {"7": "angular contact", "1": "self-aligning ball"}.get(match[1], "cylindrical roller")
    source = Source(twin.source.name, f"the envelope of {twin.designation}", twin.source.status)
    return replace(twin, designation=f"{match[1]}{match[2]}{match[3]}", family=family, source=source)


@door()
def bore_of_code(code: str) -> float:
    """The bore [mm] a designation's last two digits stand for.

    00, 01, 02, 03 are 10, 12, 15, 17 mm; from 04 the bore is five times the code.

    Raises:
        BadEntry: not two digits, or above 96.

    >>> bore_of_code("03"), bore_of_code("08")
    (17.0, 40.0)
    """
    if not re.fullmatch(r"\d\d", code) or int(code) > 96:
        raise BadEntry("is not a bore code of 00 to 96.", where="Bore code", value=code)
    small = {"00": 10.0, "01": 12.0, "02": 15.0, "03": 17.0}
    return small.get(code, int(code) * 5.0)


def _not_held(designation: str, core: str) -> BadEntry | OutOfRange:
    code = core.rstrip("X")[-2:]
    if re.fullmatch(r"\d{4,5}X?", core) and int(code) <= 96:
        return OutOfRange(
            f"is not in the table; its bore code stands for {said(bore_of_code(code))}.",
            where="Bearing",
            value=designation.strip(),
            way_out="Measure bore, outside and width and identify it.",
        )
    return BadEntry(
        "is not a designation this table knows.",
        where="Bearing",
        value=designation.strip(),
        way_out="Type it as 6203, 30205, 51106 or R8, or identify it from its sizes.",
    )


def say_envelope(found: Bearing, sheet: Sheet) -> None:
    """What else has this envelope, what to order, and the caution on preload.

    >>> sheet = Sheet("Bearing 6203")
    >>> say_envelope(bearing("6203").value, sheet)
    >>> "7203 (angular contact" in sheet.close().text()
    True
    """
    number = found.designation
    if found.family == "deep groove" and len(number) == 4 and number[1] in "0234":
        tail = number[1:]
        sheet.note(
            f"The same envelope: 7{tail} (angular contact, in pairs), N{tail} or NU{tail} (roller), and 1{tail} "
            "(self-aligning) in series 2 and 3. Look at balls, rollers and shoulders."
        )
    if found.family == "deep groove":
        sheet.note(
            "Replace by the same number; shielded or sealed both sides if it was, ordinary clearance, C3 for "
            "a warm motor, class P5 or better in a precision spindle.",
            PRACTICE,
        )
    elif "tapered" in found.family:
        sheet.note(
            "Replace cone and cup together, and keep pairs together. They have no clearance of their own."
        )
        attach(sheet, "preload")
    elif found.family == "thrust ball":
        sheet.note(
            "The washer that fits the shaft has the smaller bore; the housing washer clears the shaft."
        )
    elif found.family.startswith(("wide", "double")):
        sheet.note("One envelope, several kinds: count the rows and look at the outer race.")
    if found.inch:
        sheet.note("An inch bearing: the nearest metric one does not replace it without sleeves.")
