"""Machine tapers: Morse, Jarno, Brown & Sharpe, Jacobs and B of drill chucks, metric 1:20 and steep 7:24.

A taper is told by its diameter at the gauge line (the large end), its rate on diameter and its depth.
Morse rates differ from number to number and none is 5/8 in per foot; Jarno is a rule (large n/8, small
n/10, length n/2 inches); Brown & Sharpe is about 1/2 in per foot, except number 10.
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Sheet, Source, Worked
from rebuild.trade.sizes.own_unit import said
from rebuild.trade.sizes.show import show_both
from rebuild.trade.sizes.typed_text import plain_of

INCH_MM = 25.4
SYSTEMS = ("Morse", "Brown & Sharpe", "Jarno", "Jacobs", "Chuck B", "Metric 1:20", "Steep 7:24")
_SHORT = {
    "mt": "Morse", "morse": "Morse", "mk": "Morse", "jarno": "Jarno", "b&s": "Brown & Sharpe",
    "bs": "Brown & Sharpe", "brown & sharpe": "Brown & Sharpe", "brown and sharpe": "Brown & Sharpe",
    "jt": "Jacobs", "jacobs": "Jacobs", "metric": "Metric 1:20", "metric 1:20": "Metric 1:20",
    "steep": "Steep 7:24", "7:24": "Steep 7:24", "steep 7:24": "Steep 7:24", "iso": "Steep 7:24",
    "sk": "Steep 7:24", "nmtb": "Steep 7:24", "bt": "Steep 7:24", "int": "Steep 7:24",
}  # fmt: skip
WAYS = "Type it as MT3, Morse 4-1/2, B&S 7, Jarno 10, JT 33, B12 or Steep 7:24 40."
#: The short tapers of drill chucks by their number, as B12.
_CHUCK_B = re.compile(r"(?:chuck )?b[ -]?([0-9]{1,2})")


@dataclass(frozen=True, slots=True)
class Taper:
    """One numbered taper.

    ``large_mm`` is the diameter at the gauge line, ``small_mm`` at the small end of the plug,
    ``length_mm`` between them; ``rate`` is diameter per length (0.05 is 1:20).
    """

    system: str
    number: str
    large_mm: float
    small_mm: float
    length_mm: float
    rate: float
    source: Source
    note: str = ""

    @property
    def name(self) -> str:
        """System and number, e.g. ``Morse 3``."""
        return f"{self.system} {self.number}"

    @property
    def per_foot_in(self) -> float:
        """Taper in inches of diameter per foot of length."""
        return self.rate * 12.0

    @property
    def half_angle_deg(self) -> float:
        """Angle of the side to the axis [degrees]; the compound slide is set to it."""
        return math.degrees(math.atan(self.rate / 2.0))

    @property
    def ratio(self) -> float:
        """The x of 1:x on diameter."""
        return 1.0 / self.rate

    def diameter_at(self, depth_mm: float) -> float:
        """Diameter [mm] at ``depth_mm`` from the gauge line towards the small end.

        >>> round(taper("Morse", "2").diameter_at(25.4) / 25.4, 5)
        0.65005
        """
        return self.large_mm - self.rate * depth_mm


def all_tapers() -> tuple[Taper, ...]:
    """Every taper of the table.

    >>> sorted({one.system for one in all_tapers()})[:3]
    ['Brown & Sharpe', 'Chuck B', 'Jacobs']
    """
    return tuple(_by_key().values())


@door()
def taper(system: str, number: str) -> Taper:
    """One taper; the system may be shortened (MT, B&S, JT).

    Raises:
        BadEntry: no such system.
        OutOfRange: the system has no such number; the message lists those it has.

    >>> taper("MT", "3").name
    'Morse 3'
    """
    full = _SHORT.get(system.strip().lower(), system.strip())
    if full not in SYSTEMS:
        raise BadEntry(
            "is not a taper system here.",
            where="Taper",
            value=system,
            way_out=f"Systems: {', '.join(SYSTEMS)}.",
        )
    key = (full, _number(number))
    found = _by_key().get(key)
    if found is None:
        have = [one for name, one in _by_key() if name == full]
        source = table("tapers").source.cite()
        raise OutOfRange(
            f"is not a number of the {full} taper.",
            where="Taper",
            value=number,
            way_out=f"It has {', '.join(have)} ({source}).",
        )
    return found


@door()
def parse_taper(text: str) -> Taper:
    """A taper as people write it: ``MT3``, ``#3 MT``, ``Morse 4-1/2``, ``B&S 7``, ``JT 33``, ``Jarno 10``.

    Raises:
        BadEntry: no taper system in the text.
        OutOfRange: the system has no such number.

    >>> parse_taper("#3 MT").name
    'Morse 3'
    """
    said = plain_of(text, "Taper", WAYS, sort="a taper").lower()
    plain = " ".join(said.replace("#", " ").replace("no.", " ").replace("taper", " ").split())
    short_taper = _CHUCK_B.fullmatch(plain)
    if short_taper:
        return taper("Chuck B", short_taper[1])
    for short in sorted(_SHORT, key=len, reverse=True):
        if short in plain:
            return taper(short, plain.replace(short, " ").strip(" -:"))
    raise BadEntry(
        "names no taper system.",
        where="Taper",
        value=text,
        way_out=WAYS,
    )


@door()
def dimensions(wanted: Taper, depth_mm: float = 0.0) -> Worked[float]:
    """The diameter [mm] at a depth from the gauge line, with all the taper's sizes in the working.

    Raises:
        OutOfRange: the depth lies outside the plug.

    The gauge line of Morse 3 is 0.938 in (ASME B5.10).

    >>> round(dimensions(taper("Morse", "3")).value / 25.4, 3)
    0.938
    """
    if not -0.1 * wanted.length_mm <= depth_mm <= 1.25 * wanted.length_mm:
        raise OutOfRange(
            f"lies off the taper: {wanted.name} is {show_both(wanted.length_mm, 'in', 4)} deep.",
            where="Depth from the gauge line",
            value=show_both(depth_mm, "in"),
            way_out=f"Measure from the large end ({wanted.source.cite()}).",
        )
    sheet = Sheet(f"Taper {wanted.name}")
    sheet.table(
        "row",
        f"large end {show_both(wanted.large_mm, 'in', 5)}, small end {show_both(wanted.small_mm, 'in', 5)}, "
        f"plug depth {show_both(wanted.length_mm, 'in', 4)}, taper {wanted.per_foot_in:.5f} in per foot",
        wanted.source,
    )
    sheet.equation(
        "half angle",
        f"atan(taper / 2) = atan({wanted.per_foot_in:.5f} / 24) = {wanted.half_angle_deg:.4f}°",
    )
    found = wanted.diameter_at(depth_mm)
    sheet.equation(
        "diameter at depth",
        f"{wanted.large_mm / INCH_MM:.5f} - {wanted.per_foot_in:.5f} / 12 x {depth_mm / INCH_MM:.4f} = "
        f"{show_both(found, 'in', 5)}",
    )
    if wanted.note:
        sheet.note(wanted.note)
    sheet.note("Plug depth is not the shank length: the gauge line of a shank stands a little outside.")
    return Worked(found, sheet.close())


@door()
def rate_from(large_mm: float, small_mm: float, apart_mm: float) -> float:
    """Taper on diameter per length from two diameters a distance apart.

    Raises:
        BadEntry: the distance is not positive, or the diameters do not taper.

    >>> round(rate_from(17.78, 14.5288, 65.0875) * 12, 5)
    0.59941
    """
    if apart_mm <= 0:
        raise BadEntry(
            "is not a distance.",
            where="Distance apart",
            value=said(apart_mm),
            way_out="Type how far apart the two diameters were measured.",
        )
    if large_mm <= small_mm or small_mm <= 0:
        raise BadEntry(
            "do not taper: the large diameter must be above the small one.",
            where="Diameters",
            value=f"{said(large_mm)} and {said(small_mm)}",
            way_out="Type the larger reading first.",
        )
    return (large_mm - small_mm) / apart_mm


def _number(text: str) -> str:
    plain = " ".join(text.replace("#", " ").split()).replace(" 1/2", "-1/2")
    return {"4.5": "4-1/2", "4½": "4-1/2", "2s": "2 short", "2-short": "2 short"}.get(plain, plain)


@cache
def _by_key() -> dict[tuple[str, str], Taper]:
    found = table("tapers")
    return {
        (row["system"], row["number"]): _built(row, found.row_source(row))
        for row in sorted(found.rows, key=lambda row: SYSTEMS.index(row["system"]))
    }


def _built(row: Mapping[str, str], source: Source) -> Taper:
    return Taper(
        system=row["system"],
        number=row["number"],
        large_mm=float(row["large_in"]) * INCH_MM,
        small_mm=float(row["small_in"]) * INCH_MM,
        length_mm=float(row["length_in"]) * INCH_MM,
        rate=float(row["taper_per_foot"]) / 12.0,
        source=source,
        note=row["note"],
    )
