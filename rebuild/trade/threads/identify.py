"""What thread is this: ranked candidates across all systems from a measured diameter and pitch.

A screw's crest always stands a little below its nominal size and a worn one more; a nut's bore stands above its
minor diameter. Each candidate is given the band its standard would allow (with measuring error), and what lies
outside that band, together with the pitch, makes its score: 0 is a perfect match, under 1 fits.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot

from rebuild.errors import BadEntry
from rebuild.trade.results.working import Sheet, Source, Status, Worked, Working
from rebuild.trade.sizes.given import maybe_number_of, number_of, whole_of
from rebuild.trade.sizes.own_unit import num, own_unit, said
from rebuild.trade.threads.series import INCLUDED_ANGLE, MM_PER_IN, Standard, System, standards

JUDGED = Source("Thread identification", "bands for new and worn crests", Status.COMPUTED)
#: Minor diameter of the nut below nominal, as a multiple of the pitch, by system.
_NUT_DEPTH = {
    System.UNIFIED: 1.0825, System.METRIC: 1.0825, System.ACME: 1.0, System.STUB_ACME: 0.6,
    System.TRAPEZOIDAL: 1.0, System.WHITWORTH: 1.2807, System.BA: 1.2, System.PIPE_PARALLEL: 1.2807,
    System.PIPE_TAPER: 1.6,
}  # fmt: skip
_COMMON = {"UNC": 0, "UNF": 0, "M coarse": 0, "BSW": 1, "BSF": 1, "ACME": 1, "Tr": 1, "BA": 1, "M fine": 1}
_PITCH_SHARE, _PITCH_SHARE_WORN = 0.006, 0.010
FITS, NEAR = 1.0, 3.0


@dataclass(frozen=True, slots=True)
class Candidate:
    """One thread it may be, with how far the measurement is off.

    ``diameter_off_mm``: measured less nominal (screw) or less basic minor (nut). ``outside_mm``: how far outside
    the band its standard allows. ``pitch_off_mm`` and ``pitch_off_percent``: measured less nominal pitch.
    """

    designation: str
    system: System
    series: str
    included_deg: float
    nominal_mm: float
    pitch_mm: float
    tpi: float | None
    diameter_off_mm: float
    outside_mm: float
    pitch_off_mm: float
    pitch_off_percent: float
    score: float
    source: Source

    @property
    def verdict(self) -> str:
        """``fits``, ``near`` or ``far``."""
        return "fits" if self.score < FITS else "near" if self.score < NEAR else "far"


@dataclass(frozen=True, slots=True)
class Identification:
    """Candidates, best first, and a line for each near twin of the best."""

    candidates: tuple[Candidate, ...]
    twins: tuple[str, ...]


def identify(
    diameter_mm: float,
    pitch_mm: float,
    *,
    internal: bool = False,
    worn: bool = False,
    included_deg: float | None = None,
    pitch_error_mm: float | None = None,
    best: int = 8,
) -> Worked[Identification]:
    """Ranked candidates for a measured thread.

    Args:
        diameter_mm: measured major diameter of a screw, or minor diameter (bore) of a nut [mm].
        pitch_mm: measured pitch, best over several threads [mm]; 25.4 / threads per inch.
        internal: the thread is in a nut.
        worn: crests are worn; the band is widened by 0.12 of the pitch.
        included_deg: flank angle if it was seen (60, 55, 47.5, 30, 29); it then weighs in.
        pitch_error_mm: how far the measured pitch may be off [mm]; left out, 0.6 % (1 % when worn).
        best: how many candidates to give.

    Raises:
        BadEntry: sizes not above zero, or a pitch larger than the diameter.

    >>> found = identify(0.495 * 25.4, 25.4 / 12).value
    >>> found.candidates[0].designation
    '1/2-12 BSW'
    >>> "1/2-13 UNC" in found.twins[0] or "1/2-13 UNC" in " ".join(found.twins)
    True
    """
    _check(diameter_mm, pitch_mm, internal)
    maybe_number_of("Flank angle", included_deg), maybe_number_of("Pitch error", pitch_error_mm)
    best = whole_of("Count", best, least=1)
    asked = _Asked(diameter_mm, pitch_mm, internal, worn, included_deg, pitch_error_mm)
    scored = sorted(
        (_scored(row, asked) for row in standards() if _worth_a_look(row, asked)), key=lambda item: item.score
    )
    found = _distinct(scored, best)
    if not found or found[0].score >= FITS:
        listed = {(item.system, item.nominal_mm, item.pitch_mm) for item in found}
        special = [
            item for item in _special(asked) if (item.system, item.nominal_mm, item.pitch_mm) not in listed
        ]
        found = (*found[: best - 1], *special)
        found = tuple(sorted(found, key=lambda item: item.score))
    twins = _twins(found[0], asked) if found else ()
    working = _working(asked, found, twins)
    return Worked(Identification(found, twins), working)


@dataclass(frozen=True, slots=True)
class _Asked:
    diameter_mm: float
    pitch_mm: float
    internal: bool
    worn: bool
    included_deg: float | None
    pitch_error_mm: float | None


def _check(diameter_mm: float, pitch_mm: float, internal: bool) -> None:
    for where, value in (("Diameter", diameter_mm), ("Pitch", pitch_mm)):
        if number_of(where, value) <= 0:
            raise BadEntry("must be more than zero.", where=where, value=said(value))
    if pitch_mm >= diameter_mm * (2.0 if internal else 1.0):
        raise BadEntry(
            f"is larger than a diameter of {said(diameter_mm)} can carry.",
            where="Pitch",
            value=said(pitch_mm),
            way_out="Check the unit; threads per inch give a pitch of 25.4 divided by them.",
        )


def _worth_a_look(row: Standard, asked: _Asked) -> bool:
    reach = 0.12 * row.major_mm + (1.3 * row.pitch_mm if asked.internal else 0.0) + 0.5
    return abs(row.pitch_mm - asked.pitch_mm) < 0.15 * asked.pitch_mm and (
        abs(row.major_mm - asked.diameter_mm) < reach
    )


def _scored(row: Standard, asked: _Asked) -> Candidate:
    basic, low, high = _band(row.system, row.major_mm, row.pitch_mm, asked)
    outside = max(low - asked.diameter_mm, asked.diameter_mm - high, 0.0)
    inside = abs(asked.diameter_mm - (low + high) / 2) / (high - low)
    pitch_off = asked.pitch_mm - row.pitch_mm
    share = (_PITCH_SHARE_WORN if asked.worn else _PITCH_SHARE) * row.pitch_mm
    parts = [
        pitch_off / max(share, asked.pitch_error_mm or 0.0),
        outside / (0.02 + 0.004 * row.major_mm),
        0.2 * min(inside, 1.0),
        0.05 * _COMMON.get(row.series, 2),
    ]
    if asked.included_deg is not None:
        parts.append((asked.included_deg - INCLUDED_ANGLE[row.system]) / 3.0)
    return Candidate(
        row.name,
        row.system,
        row.series,
        INCLUDED_ANGLE[row.system],
        row.major_mm,
        row.pitch_mm,
        row.tpi,
        asked.diameter_mm - basic,
        outside,
        pitch_off,
        100 * pitch_off / row.pitch_mm,
        hypot(*parts),
        row.source,
    )


def _band(system: System, major: float, pitch: float, asked: _Asked) -> tuple[float, float, float]:
    """Basic size and the band a measured diameter may lie in [mm]."""
    error = 0.02 + 0.001 * major
    wear = 0.12 * pitch if asked.worn else 0.0
    if asked.internal:
        basic = major - _NUT_DEPTH[system] * pitch
        return basic, basic - error, basic + _opens(system, major, pitch) + error + wear
    taper = 0.5 * pitch if system is System.PIPE_TAPER else 0.0
    below = 0.22 * pitch ** (2 / 3) + 0.04
    return major, major - below - wear - error - taper, major + error


def _opens(system: System, major: float, pitch: float) -> float:
    """How far a nut's minor diameter may lie above basic when new [mm], the widest of the usual classes.

    ASME B1.1: 0.394 P below 1/4 in, about 0.25 P above. BS 84: 0.2 P + 0.007 in. BS 93: 0.375 P.
    """
    if system is System.BA or (system is System.UNIFIED and major < MM_PER_IN / 4):
        return 0.4 * pitch
    if system is System.WHITWORTH:
        return 0.2 * pitch + 0.007 * MM_PER_IN
    return 0.25 * pitch


def _distinct(scored: list[Candidate], best: int) -> tuple[Candidate, ...]:
    """The best, each size and form once (1/4-20 of two Unified series is one candidate)."""
    seen: set[tuple[System, float, float]] = set()
    found = []
    for item in scored:
        key = (item.system, item.nominal_mm, item.pitch_mm)
        if key not in seen:
            seen.add(key)
            found.append(item)
    return tuple(found[:best])


def _special(asked: _Asked) -> tuple[Candidate, ...]:
    """Pairs no series has: the nearest sixteenth and whole threads per inch, the nearest half millimetre."""
    made = []
    for unit, step, system in (("in", MM_PER_IN / 16, System.ACME), ("mm", 0.5, System.METRIC)):
        if unit == "in":
            system = System.UNIFIED if asked.included_deg is None or asked.included_deg > 40 else System.ACME
            tpi: float | None = max(1.0, round(2 * MM_PER_IN / asked.pitch_mm) / 2)
            pitch = MM_PER_IN / (tpi or 1.0)
        else:
            tpi, pitch = None, max(0.05, round(asked.pitch_mm / 0.05) * 0.05)
        raised = asked.diameter_mm + (_NUT_DEPTH[system] * pitch if asked.internal else 0.05 * pitch)
        major = max(step, round(raised / step) * step)
        label = f"{major / MM_PER_IN:g}-{tpi:g} special" if tpi else f"M{major:g}x{pitch:.4g} special"
        row = Standard("special", system, "", label, unit, major, pitch, tpi, JUDGED)
        found = _scored(row, asked)
        if found.score < NEAR and major >= 1.0:
            made.append(found)
    return tuple(made)


def _twins(top: Candidate, asked: _Asked) -> tuple[str, ...]:
    """Threads easily taken for the best candidate: diameters within 2.5 %, pitches within 9 %."""
    lines = []
    for row in standards():
        pitch_gap = row.pitch_mm / top.pitch_mm - 1
        same = row.system is top.system and abs(pitch_gap) < 1e-6
        wanted = row.series not in ("UN", "UNS", "ME", "M older", "ACME other")
        near = abs(row.major_mm / top.nominal_mm - 1) < 0.025 and abs(pitch_gap) < 0.09
        if near and wanted and not same:
            lines.append((abs(pitch_gap), _twin_line(row, top, pitch_gap)))
    return tuple(line for _gap, line in sorted(lines))


def _twin_line(row: Standard, top: Candidate, gap: float) -> str:
    parts = []
    if abs(row.major_mm - top.nominal_mm) > 0.01:
        parts.append(f"diameter {row.major_mm - top.nominal_mm:+.2f} mm")
    if abs(gap) > 1e-6:
        turns = max(1, round(0.25 / abs(gap)))
        parts.append(f"pitch {100 * gap:+.1f} %: starts by hand and binds within about {turns} turns")
    else:
        parts.append("same pitch")
    angle = INCLUDED_ANGLE[row.system]
    if angle != top.included_deg:
        parts.append(f"flanks {angle:g}° against {top.included_deg:g}°")
    return f"{row.name} is a near twin of {top.designation}: {', '.join(parts)}."


def _working(asked: _Asked, found: tuple[Candidate, ...], twins: tuple[str, ...]) -> Working:
    sheet = Sheet("What thread is this")
    what = "minor diameter (bore)" if asked.internal else "major diameter"
    sheet.read(what, f"{asked.diameter_mm:.3f} mm ({asked.diameter_mm / MM_PER_IN:.4f} in)")
    sheet.read("pitch", f"{asked.pitch_mm:.4f} mm ({MM_PER_IN / asked.pitch_mm:.3f} per in)")
    if asked.worn:
        sheet.note("Worn: the crest may stand a further 0.12 P off.", JUDGED)
    for item in found:
        sheet.result(
            item.designation,
            f"{item.verdict}: diameter {num(item.diameter_off_mm):+.3f} {own_unit()} from basic "
            f"({num(item.outside_mm):.3f} outside its limits), pitch {item.pitch_off_percent:+.2f} %, "
            f"flanks {item.included_deg:g}°",
            item.source,
        )
    for line in twins:
        sheet.note(line, JUDGED)
    sheet.note(
        "Settle it with a thread gauge over as many threads as there are, and the flank angle.", JUDGED
    )
    return sheet.close()
