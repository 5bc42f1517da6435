"""The limits of one part and the fit of two: shared by every system of limits and fits."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from rebuild.trade.results.working import Sheet
from rebuild.trade.sizes.show import show_number

#: Two lengths this near are the same [mm].
SAME_MM = 1e-9


class Role(StrEnum):
    """Which side of a fit a size belongs to."""

    HOLE = "hole"
    SHAFT = "shaft"


class Kind(StrEnum):
    """Kind of fit (ISO 286-1, 3.3)."""

    CLEARANCE = "clearance fit"
    TRANSITION = "transition fit"
    INTERFERENCE = "interference fit"


@dataclass(frozen=True, slots=True)
class SizeLimits:
    """A nominal size with its lower and upper deviation [mm]."""

    label: str
    role: Role
    nominal_mm: float
    lower_mm: float
    upper_mm: float

    @property
    def low_mm(self) -> float:
        """Lower limit of size, rounded to a picometre so that 25 + 0.021 prints and compares cleanly."""
        return round(self.nominal_mm + self.lower_mm, 9)

    @property
    def high_mm(self) -> float:
        """Upper limit of size."""
        return round(self.nominal_mm + self.upper_mm, 9)

    @property
    def tolerance_mm(self) -> float:
        """Width between the limits."""
        return round(self.upper_mm - self.lower_mm, 9)


@dataclass(frozen=True, slots=True)
class Fit:
    """A hole with a shaft of the same nominal size; a negative clearance is an interference [mm]."""

    name: str
    hole: SizeLimits
    shaft: SizeLimits

    @property
    def min_clearance_mm(self) -> float:
        """Smallest hole less largest shaft."""
        return round(self.hole.lower_mm - self.shaft.upper_mm, 9)

    @property
    def max_clearance_mm(self) -> float:
        """Largest hole less smallest shaft."""
        return round(self.hole.upper_mm - self.shaft.lower_mm, 9)

    @property
    def kind(self) -> Kind:
        """Clearance where the parts always go, interference where they never do freely.

        >>> hole = SizeLimits("H7", Role.HOLE, 25.0, 0.0, 0.021)
        >>> Fit("H7/h6", hole, SizeLimits("h6", Role.SHAFT, 25.0, -0.013, 0.0)).kind.value
        'clearance fit'
        """
        if self.min_clearance_mm >= -SAME_MM:
            return Kind.CLEARANCE
        return Kind.INTERFERENCE if self.max_clearance_mm <= SAME_MM else Kind.TRANSITION


def clearance_lines(sheet: Sheet, fit: Fit, unit: str = "µm") -> None:
    """The two ends of the clearance and the kind of fit, as lines of a working.

    >>> hole = SizeLimits("H7", Role.HOLE, 25.0, 0.0, 0.021)
    >>> sheet = Sheet("Fit")
    >>> clearance_lines(sheet, Fit("H7/g6", hole, SizeLimits("g6", Role.SHAFT, 25.0, -0.020, -0.007)))
    >>> [step.text for step in sheet.close().steps][:2]
    ['0 - (-7) = +7 µm', '+21 - (-20) = +41 µm']
    """
    hole, shaft = fit.hole, fit.shaft
    for name, bore, journal, clearance in (
        ("smallest clearance", hole.lower_mm, shaft.upper_mm, fit.min_clearance_mm),
        ("largest clearance", hole.upper_mm, shaft.lower_mm, fit.max_clearance_mm),
    ):
        first, second, result = (signed(value, unit) for value in (bore, journal, clearance))
        sheet.equation(name, f"{first} - ({second}) = {result} {unit}")
    sheet.result("kind of fit", f"{fit.kind.value}; a negative clearance is an interference")


def signed(mm: float, unit: str) -> str:
    """A deviation with its sign, without idle zeros.

    >>> signed(-0.0105, "µm"), signed(0.0, "µm")
    ('-10.5', '0')
    """
    text = show_number(mm, unit, 3, sign=True)
    return (text.rstrip("0").rstrip(".") if "." in text else text) or "0"
