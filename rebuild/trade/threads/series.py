"""The standard series: which diameter goes with which pitch, by system (``thread_series.csv``)."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from functools import cache

from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Source
from rebuild.trade.sizes.given import number_of

MM_PER_IN = 25.4


class System(StrEnum):
    """A family of threads with one form."""

    UNIFIED = "Unified"
    METRIC = "ISO metric"
    ACME = "Acme"
    STUB_ACME = "stub Acme"
    TRAPEZOIDAL = "ISO trapezoidal"
    WHITWORTH = "Whitworth"
    BA = "British Association"
    PIPE_PARALLEL = "pipe, parallel"
    PIPE_TAPER = "pipe, taper 60°"


#: Included flank angle by system [deg].
INCLUDED_ANGLE = {
    System.UNIFIED: 60.0,
    System.METRIC: 60.0,
    System.ACME: 29.0,
    System.STUB_ACME: 29.0,
    System.TRAPEZOIDAL: 30.0,
    System.WHITWORTH: 55.0,
    System.BA: 47.5,
    System.PIPE_PARALLEL: 55.0,
    System.PIPE_TAPER: 60.0,
}
_SYSTEM = {
    "UNC": System.UNIFIED, "UNF": System.UNIFIED, "UNEF": System.UNIFIED, "UN": System.UNIFIED,
    "UNS": System.UNIFIED, "BSW": System.WHITWORTH, "BSF": System.WHITWORTH, "BSB": System.WHITWORTH,
    "ME": System.WHITWORTH, "ACME": System.ACME, "ACME other": System.ACME, "STUB ACME": System.STUB_ACME,
    "M coarse": System.METRIC, "M fine": System.METRIC, "M older": System.METRIC, "Tr": System.TRAPEZOIDAL,
    "BA": System.BA, "G": System.PIPE_PARALLEL, "NPT": System.PIPE_TAPER,
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Standard:
    """One standard thread: its series, size as written, major diameter and pitch."""

    series: str
    system: System
    size: str
    name: str
    unit: str
    major_mm: float
    pitch_mm: float
    tpi: float | None
    source: Source


@cache
def standards() -> tuple[Standard, ...]:
    """Every row of the series table.

    >>> next(row.name for row in standards() if row.series == "BSW" and row.size == "1/2")
    '1/2-12 BSW'
    """
    found = table("thread_series")
    by_status: dict[str, Source] = {}
    rows = []
    for row in found.rows:
        series, unit, value = row["series"], row["unit"], float(row["pitch_or_tpi"])
        inch = unit == "in"
        source = by_status.setdefault(row["status"], found.row_source(row))
        major = float(row["major"]) * (MM_PER_IN if inch else 1.0)
        pitch = MM_PER_IN / value if inch else value
        rows.append(
            Standard(
                series,
                _SYSTEM[series],
                row["size"],
                _name(series, row["size"], row["pitch_or_tpi"]),
                unit,
                round(major, 9),
                pitch,
                value if inch else None,
                source,
            )
        )
    return tuple(rows)


def _name(series: str, size: str, pitch: str) -> str:
    """The designation people write.

    >>> _name("BSW", "1/2", "12"), _name("M fine", "8", "1"), _name("BA", "2", "0.81")
    ('1/2-12 BSW', 'M8x1', '2 BA')
    """
    if series.startswith("M "):
        return f"M{size}x{pitch}"
    if series == "Tr":
        return f"Tr {size}x{pitch}"
    if series == "BA":
        return f"{size} BA"
    if series == "G":
        return f"G {size} ({pitch} tpi)"
    word = "ACME" if series == "ACME other" else series
    number = (
        "No. " if series.startswith("UN") and float(pitch) >= 24 and size.isdigit() and size != "1" else ""
    )
    if series in ("UNC", "UNF") and size == "1" and float(pitch) > 20:
        number = "No. "
    return f"{number}{size}-{pitch} {word}"


@cache
def _pairs() -> dict[tuple[float, float], list[str]]:
    pairs: dict[tuple[float, float], list[str]] = {}
    for row in standards():
        if row.tpi is not None:
            pairs.setdefault((round(row.major_mm / MM_PER_IN, 4), row.tpi), []).append(row.series)
    return pairs


def inch_series(major_in: float, tpi: float) -> tuple[str, ...]:
    """The inch series that hold this pair.

    >>> inch_series(0.25, 20)
    ('UNC', 'BSW')
    """
    return tuple(
        _pairs().get((round(number_of("Diameter", major_in), 4), number_of("Threads per inch", tpi)), ())
    )


def unified_series(major_in: float, tpi: float) -> str:
    """UNC, UNF, UNEF, UN or (a special pair) UNS.

    >>> unified_series(0.5, 13), unified_series(0.5, 15)
    ('UNC', 'UNS')
    """
    known = [name for name in inch_series(major_in, tpi) if name.startswith("UN")]
    return known[0] if known else "UNS"


def coarse_like(major_in: float, tpi: float) -> bool:
    """Whether the standard takes the diameter itself as length of engagement (UNC, UNF, 4-, 6-, 8-UN).

    1-14 UNS, a fine thread of the older series, keeps that length too (from memory).

    >>> coarse_like(0.5, 13), coarse_like(0.5, 28)
    (True, False)
    """
    name = unified_series(major_in, tpi)
    if (major_in, tpi) == (1.0, 14.0):
        return True
    return name in ("UNC", "UNF") or (name == "UN" and tpi in (4, 6, 8))


@cache
def metric_coarse() -> dict[float, float]:
    """Coarse pitch by metric diameter [mm].

    >>> metric_coarse()[8.0], metric_coarse()[20.0]
    (1.25, 2.5)
    """
    return {row.major_mm: row.pitch_mm for row in standards() if row.series == "M coarse"}


@cache
def tpi_of(series: str) -> dict[float, float]:
    """Threads per inch by major diameter [in] in one series.

    >>> tpi_of("UNC")[0.375], tpi_of("BSF")[0.5]
    (16.0, 16.0)
    """
    return {
        round(row.major_mm / MM_PER_IN, 4): row.tpi
        for row in standards()
        if row.series == series and row.tpi is not None
    }
