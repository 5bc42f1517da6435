"""What every thread system gives back: the limits of the three diameters of one thread.

Values stand in the system's own unit, rounded as its standard rounds; ``*_mm`` and ``*_in`` convert.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.working import Sheet, Source
from rebuild.trade.sizes.given import number_of, text_of

MM_PER_IN = 25.4


class Side(StrEnum):
    """Screw or nut."""

    EXTERNAL = "external"
    INTERNAL = "internal"


@dataclass(frozen=True, slots=True)
class Band:
    """The limits of one diameter in ``unit`` (``in`` or ``mm``); None where the standard sets none."""

    low: float | None
    high: float | None
    unit: str

    @property
    def low_mm(self) -> float | None:
        """Lower limit [mm]."""
        return _in_unit(self.low, self.unit, "mm")

    @property
    def high_mm(self) -> float | None:
        """Upper limit [mm]."""
        return _in_unit(self.high, self.unit, "mm")

    def text(self, decimals: int) -> str:
        """The band for people, e.g. ``0.4876 to 0.4985 in``.

        >>> Band(0.4876, 0.4985, "in").text(4), Band(0.5, None, "in").text(4)
        ('0.4876 to 0.4985 in', 'at least 0.5000 in')
        """
        if self.low is None and self.high is None:
            return "not limited"
        if self.low is None:
            return f"at most {self.high:.{decimals}f} {self.unit}"
        if self.high is None:
            return f"at least {self.low:.{decimals}f} {self.unit}"
        return f"{self.low:.{decimals}f} to {self.high:.{decimals}f} {self.unit}"


@dataclass(frozen=True, slots=True)
class ThreadLimits:
    """One thread of one class: the limits of its diameters, in ``unit`` with ``decimals`` places.

    ``allowance`` is how far the pitch diameter of a screw stays below basic (for a nut, above).
    ``lead_angle_deg`` is taken at the basic pitch diameter.
    """

    designation: str
    side: Side
    thread_class: str
    unit: str
    decimals: int
    nominal: float
    pitch: float
    starts: int
    major: Band
    pitch_diameter: Band
    minor: Band
    basic_pitch_diameter: float
    allowance: float
    lead_angle_deg: float
    rounded_root_minor_max: float | None = None

    @property
    def lead(self) -> float:
        """Advance in one turn, in ``unit``."""
        return self.pitch * self.starts

    @property
    def nominal_mm(self) -> float:
        """Nominal diameter [mm]."""
        return self.nominal * (MM_PER_IN if self.unit == "in" else 1.0)

    @property
    def pitch_mm(self) -> float:
        """Pitch [mm]."""
        return self.pitch * (MM_PER_IN if self.unit == "in" else 1.0)

    @property
    def basic_pitch_diameter_mm(self) -> float:
        """Basic pitch diameter [mm]."""
        return self.basic_pitch_diameter * (MM_PER_IN if self.unit == "in" else 1.0)

    @property
    def rounded_root_minor_mm(self) -> float | None:
        """Greatest minor diameter of a screw whose root is rounded [mm]; None where its standard has none."""
        return _in_unit(self.rounded_root_minor_max, self.unit, "mm")

    def bands(self) -> tuple[tuple[str, Band], ...]:
        """The three diameters with their names, large to small."""
        return (
            ("major diameter", self.major),
            ("pitch diameter", self.pitch_diameter),
            ("minor diameter", self.minor),
        )

    def named(self, designation: str) -> ThreadLimits:
        """The same limits under the designation they were asked by."""
        return replace(self, designation=designation)


def _in_unit(value: float | None, have: str, want: str) -> float | None:
    if value is None or have == want:
        return value
    return value * MM_PER_IN if want == "mm" else value / MM_PER_IN


def lead_angle_deg(pitch_diameter: float, lead: float) -> float:
    """Lead angle at a diameter: ``atan(lead / (pi * diameter))`` [deg]; both lengths in one unit.

    >>> round(lead_angle_deg(0.9, 0.2), 4)
    4.0461
    """
    from math import atan, degrees, pi

    pitch_diameter, lead = number_of("Pitch diameter", pitch_diameter, above=0), number_of("Lead", lead)
    return degrees(atan(lead / (pi * pitch_diameter)))


def in_range(value: float, low: float, high: float, what: str, unit: str, source: Source) -> None:
    """Refuse a value outside a rule's range.

    Raises:
        OutOfRange: with the range and its source.

    >>> in_range(0.25, 0.06, 6.0, "Diameter", "in", Source("ASME B1.1-2003"))
    """
    if not low <= value <= high:
        raise OutOfRange(
            f"is outside {low:g} to {high:g} {unit}, the range of {source.name}.",
            where=what,
            value=f"{value:g} {unit}",
            way_out="Check the size and its unit.",
        )


def cuttable(nominal: float, pitch: float, depths: float, unit: str) -> None:
    """Refuse a pitch so coarse that no core is left: ``nominal - depths * pitch`` must stay above zero.

    Raises:
        BadEntry: the thread would cut through the axis.

    >>> cuttable(8, 1.25, 1.25, "mm")
    """
    if pitch <= 0 or nominal <= 0:
        raise BadEntry(
            "must be more than zero.", where="Pitch" if pitch <= 0 else "Diameter", value=f"{pitch:g}"
        )
    if nominal - depths * pitch <= 0:
        raise BadEntry(
            f"is too coarse for a diameter of {nominal:g} {unit}: the thread would leave no core "
            f"(diameter less {depths:g} times the pitch must be more than zero).",
            where="Pitch",
            value=f"{pitch:.4g} {unit}",
            way_out="Check that diameter and pitch are in the same unit and not exchanged.",
        )


def one_of(given: str, known: tuple[str, ...], source: Source) -> str:
    """The class as the standard writes it.

    Raises:
        BadEntry: no such class there; the message lists them.

    >>> one_of(" 2a ", ("1A", "2A", "3A"), Source("ASME B1.1-2003"))
    '2A'
    """
    given = text_of("Thread class", given)
    for name in known:
        if given.strip().lower() == name.lower():
            return name
    raise BadEntry(
        f"is not a class of {source.name}.",
        where="Thread class",
        value=given,
        way_out=f"Classes: {', '.join(known)}.",
    )


def result_lines(sheet: Sheet, found: ThreadLimits) -> None:
    """The three bands as results.

    >>> from rebuild.trade.threads.metric import limits
    >>> sheet = Sheet("M8")
    >>> result_lines(sheet, limits(8, 1.25).value)
    >>> sheet.close().steps[0].text
    '7.760 to 7.972 mm'
    """
    for name, band in found.bands():
        sheet.result(name, band.text(found.decimals))
