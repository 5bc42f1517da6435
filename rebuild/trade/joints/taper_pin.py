"""Taper pins: inch numbers (ASME B18.8.2) and metric (ISO 2339).

An inch pin is sized by its BIG end and tapers 1/4 in per foot (1:48) on diameter; a metric pin is sized by
its SMALL end and tapers 1:50. The two never fit each other's holes.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.show import in_unit, show_both

INCH, METRIC = "inch", "metric"
STANDARDS = (INCH, METRIC)
_RATE = {INCH: 1.0 / 48.0, METRIC: 1.0 / 50.0}
_UNIT = {INCH: "in", METRIC: "mm"}
#: A pin this many times the longest made is a length typed in another unit (an inch is 25.4 mm).
_TOO_LONG = 3.0
RULE = Source("Taper pin rule", "inch: big end - length/48; metric: small end + length/50", Status.COMPUTED)


@dataclass(frozen=True, slots=True)
class TaperPin:
    """One size of pin; ``nominal_mm`` is the big end of an inch pin and the small end of a metric one."""

    standard: str
    size: str
    nominal_mm: float
    lengths_mm: tuple[float, float]
    reamer_mm: tuple[float, float] | None
    source: Source

    @property
    def rate(self) -> float:
        """Taper on diameter per length."""
        return _RATE[self.standard]

    @property
    def unit(self) -> str:
        """The unit its standard is written in."""
        return _UNIT[self.standard]

    @property
    def name(self) -> str:
        """E.g. ``taper pin no. 4`` or ``taper pin 5 mm``."""
        return f"taper pin no. {self.size}" if self.standard == INCH else f"taper pin {self.size} mm"

    def big_mm(self, length_mm: float) -> float:
        """Big-end diameter of a pin this long [mm]."""
        return self.nominal_mm + (0.0 if self.standard == INCH else length_mm * self.rate)

    def small_mm(self, length_mm: float) -> float:
        """Small-end diameter of a pin this long [mm].

        >>> round(pin("4").small_mm(25.4) / 25.4, 4)
        0.2292
        """
        return self.big_mm(length_mm) - length_mm * self.rate


@dataclass(frozen=True, slots=True)
class Ends:
    """Diameters [mm] of a pin: big end, small end, and at the depth asked for."""

    big_mm: float
    small_mm: float
    at_depth_mm: float


@door()
def pins(standard: str = INCH) -> tuple[TaperPin, ...]:
    """Every pin of one standard, small to large.

    Raises:
        BadEntry: the standard is neither inch nor metric.

    >>> pins()[0].size, round(pins()[0].nominal_mm / 25.4, 4)  # ASME B18.8.2
    ('7/0', 0.0625)
    """
    if standard not in STANDARDS:
        raise BadEntry(
            "is not a pin standard.",
            where="Pin standard",
            value=standard,
            way_out="Choose inch (ASME B18.8.2) or metric (ISO 2339).",
        )
    return tuple(_table(standard).values())


@door()
def pin(size: str, standard: str = INCH) -> TaperPin:
    """One pin: ``4``, ``#4``, ``no. 2/0`` in inch; ``5``, ``5 mm`` in metric.

    Raises:
        OutOfRange: no such size; the message lists the sizes.

    >>> pin("#2/0").nominal_mm == 0.141 * 25.4
    True
    """
    plain = size.lower().replace("no.", "").replace("no ", "").replace("#", "").replace("mm", "").strip()
    known = {one.size: one for one in pins(standard)}
    if plain not in known:
        where = "ASME B18.8.2" if standard == INCH else "ISO 2339"
        raise OutOfRange(
            "is not a taper pin size.",
            where=f"Taper pin ({standard})",
            value=size,
            way_out=f"{where} has {', '.join(known)}.",
        )
    return known[plain]


def _number(mm: float, which: TaperPin) -> str:
    """A size as a number of the pin's own unit, for its equations."""
    return f"{in_unit(mm, which.unit):.6g}"


@door()
def ends(which: TaperPin, length_mm: float, depth_mm: float = 0.0) -> Worked[Ends]:
    """Both ends, and the diameter ``depth_mm`` below the big end [mm].

    Raises:
        OutOfRange: the pin would taper to nothing, is far longer than any made, or the depth is past its end.

    >>> round(ends(pin("4"), 1.25 * 25.4).value.small_mm / 25.4, 4)
    0.224
    """
    if length_mm <= 0 or which.small_mm(length_mm) <= 0:
        longest = which.nominal_mm / which.rate
        raise OutOfRange(
            f"cannot be: a {which.name} tapers to nothing in {show_both(longest, which.unit)}.",
            where="Pin length",
            value=show_both(length_mm, which.unit),
            way_out=f"Made {_lengths(which)} long ({which.source.cite()}).",
        )
    if length_mm > _TOO_LONG * which.lengths_mm[1]:
        raise OutOfRange(
            f"is far longer than any {which.name} is made.",
            where="Pin length",
            value=show_both(length_mm, which.unit),
            way_out=f"Made {_lengths(which)} long ({which.source.cite()}): type its unit, as 50 mm or 2 in.",
        )
    if not 0 <= depth_mm <= length_mm:
        raise OutOfRange(
            "lies off the pin; depth is measured from the big end.",
            where="Depth",
            value=show_both(depth_mm, which.unit),
            way_out=f"The pin is {show_both(length_mm, which.unit)} long.",
        )
    big, small = which.big_mm(length_mm), which.small_mm(length_mm)
    at_depth = big - depth_mm * which.rate
    sheet = Sheet(which.name.capitalize())
    end = "big" if which.standard == INCH else "small"
    sheet.table("size", f"{end} end {show_both(which.nominal_mm, which.unit)}", which.source)
    sheet.read("length", show_both(length_mm, which.unit))
    other = (
        f"{_number(which.nominal_mm, which)} {'-' if which.standard == INCH else '+'} "
        f"{_number(length_mm, which)} x {which.rate:.6f}"
    )
    result = small if which.standard == INCH else big
    sheet.equation(
        "small end" if which.standard == INCH else "big end",
        f"{other} = {show_both(result, which.unit)}",
        RULE,
    )
    if depth_mm:
        sheet.equation(
            "at depth",
            f"{_number(big, which)} - {_number(depth_mm, which)} x {which.rate:.6f} = "
            f"{show_both(at_depth, which.unit)}",
            RULE,
        )
    if not which.lengths_mm[0] - 1e-9 <= length_mm <= which.lengths_mm[1] + 1e-9:
        sheet.note(
            f"Made {_lengths(which)} long; a pin this long is cut from the next or made.", which.source
        )
    return Worked(Ends(big, small, at_depth), sheet.close())


def _lengths(which: TaperPin) -> str:
    low, high = which.lengths_mm
    return f"{show_both(low, which.unit)} to {show_both(high, which.unit)}"


@cache
def _table(standard: str) -> dict[str, TaperPin]:
    if standard == INCH:
        found = table("taper_pins_inch")
        return {row["number"]: _inch(row, found.source) for row in found.rows}
    found = table("taper_pins_iso_mm")
    return {
        row["d_mm"]: TaperPin(
            METRIC,
            row["d_mm"],
            float(row["d_mm"]),
            (float(row["length_min_mm"]), float(row["length_max_mm"])),
            None,
            found.source,
        )
        for row in found.rows
    }


def _inch(row: Mapping[str, str], source: Source) -> TaperPin:
    reamer = (
        (float(row["reamer_small_in"]) * 25.4, float(row["reamer_large_in"]) * 25.4)
        if row["reamer_small_in"]
        else None
    )
    return TaperPin(
        INCH,
        row["number"],
        float(row["large_in"]) * 25.4,
        (float(row["length_min_in"]) * 25.4, float(row["length_max_in"]) * 25.4),
        reamer,
        source,
    )
