"""A size as it stands on a drawing: nominal and limits, the size drawn, and the words beside it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field

from rebuild.errors import BadEntry
from rebuild.trade.limits.inward import limit_number, limit_numbers
from rebuild.trade.sizes.given import number_of
from rebuild.trade.sizes.show import in_unit, show_number

_SAME_MM = 1e-6
_DECIMAL = re.compile(r"\d*[.,]?\d+")
#: A limit this near a whole last digit [of that digit] is shown with it.
_NEAR = 0.05


@dataclass(frozen=True, slots=True)
class Measure:
    """One size [mm]: both limits, or a nominal, or both. Raises BadEntry for one that is no number."""

    name: str
    nominal_mm: float | None = None
    low_mm: float | None = None
    high_mm: float | None = None
    #: Decimals its nominal was typed with: they say how it is meant, and are kept.
    places: int = field(default=0, compare=False)
    #: Decimals its limits were typed with; None where nobody typed them.
    ends: int | None = field(default=None, compare=False)

    def __post_init__(self) -> None:
        for size in (self.nominal_mm, self.low_mm, self.high_mm):
            if size is not None:
                number_of(self.name, size)

    @property
    def given(self) -> bool:
        """Whether anything is known of it."""
        return not (self.nominal_mm is None and self.low_mm is None and self.high_mm is None)

    @property
    def at_mm(self) -> float:
        """The size it is drawn at: the middle of its limits, else its nominal, else the one limit.

        >>> Measure("bore", None, 24.0, 24.1).at_mm, Measure("length", 40.0).at_mm
        (24.05, 40.0)
        """
        if self.low_mm is not None and self.high_mm is not None:
            return round((self.low_mm + self.high_mm) / 2, 9)
        for size in (self.nominal_mm, self.high_mm, self.low_mm):
            if size is not None:
                return size
        raise BadEntry("has no size yet.", where=self.name, way_out="Type it, or measure its mate.")

    @property
    def plus_minus_mm(self) -> float | None:
        """Half the tolerance when it lies evenly about the nominal, else None."""
        if self.nominal_mm is None or self.low_mm is None or self.high_mm is None:
            return None
        up, down = self.high_mm - self.nominal_mm, self.nominal_mm - self.low_mm
        return up if abs(up - down) < _SAME_MM and up > 0 else None

    def typed(self, mm: float, unit: str) -> str:
        """A nominal or its ± with the decimals it was typed with.

        >>> Measure("length", 25.4, places=3).typed(25.4, "in"), Measure("length", 25.4).typed(25.4, "in")
        ('1.000', '1')
        """
        text = short_number(mm, unit)
        whole, _, decimals = text.partition(".")
        return f"{whole}.{decimals.ljust(self.places, '0')}" if self.places else text

    def limit(self, mm: float, unit: str) -> str:
        """A limit with the decimals it was typed with, as long as they say it whole.

        >>> Measure("bore", None, 25.4, 26.67, ends=2).limit(26.67, "in"), Measure("bore", 25.4).limit(26.67, "in")
        ('1.05', '1.0500')
        """
        if self.ends is not None:
            steps = in_unit(mm, unit) * 10**self.ends
            if abs(steps - round(steps)) < _NEAR:
                return show_number(mm, unit, self.ends)
        return limit_number(mm, unit)

    def limits(self, unit: str) -> tuple[str, str]:
        """Its limits as they are written, low first: as typed, else rounded inwards; empty for one that is open.

        >>> Measure("bore", None, 0.927743 * 25.4, 0.930243 * 25.4).limits("in")
        ('0.9278', '0.9302')
        """
        low, high = self.low_mm, self.high_mm
        if self.ends is None:
            return limit_numbers(low, high, unit)
        return ("" if low is None else self.limit(low, unit)), (
            "" if high is None else self.limit(high, unit)
        )

    def lines(self, unit: str, *, diameter: bool = False) -> tuple[str, ...]:
        """The words on the drawing: the high limit above the low one, or the nominal with ±.

        >>> Measure("bore", None, 25.4, 25.4254).lines("in", diameter=True)
        ('Ø1.0010', 'Ø1.0000')
        >>> Measure("length", 40.0, 39.7, 40.3).lines("mm")
        ('40 ±0.3',)
        """
        sign = "Ø" if diameter else ""
        evenly = self.plus_minus_mm
        if evenly is not None and self.nominal_mm is not None:
            return (f"{sign}{self.typed(self.nominal_mm, unit)} ±{self.typed(evenly, unit)}",)
        low, high = self.limits(unit)
        if low and high:
            return f"{sign}{high}", f"{sign}{low}"
        if self.nominal_mm is not None:
            return (f"{sign}{self.typed(self.nominal_mm, unit)}",)
        return (f"max {sign}{high}" if high else f"min {sign}{low}",)


def short_number(mm: float, unit: str) -> str:
    """A size in its unit without trailing noughts.

    >>> short_number(40.0, "mm"), short_number(38.1, "in")
    ('40', '1.5')
    """
    text = limit_number(mm, unit)
    return text.rstrip("0").rstrip(".") if "." in text else text


def places_of(text: str | None, typed_in: str | None, unit: str) -> int:
    """How many decimals a number was typed with, where it was typed in the unit it is shown in.

    >>> places_of("1.000", "in", "in"), places_of("25.4", "mm", "in"), places_of(None, None, "in")
    (3, 0, 0)
    """
    decimals = (text or "").strip().replace(",", ".").partition(".")[2]
    return len(decimals) if decimals.isdecimal() and typed_in == unit else 0


def places_of_ends(
    low: tuple[str | None, str | None], high: tuple[str | None, str | None], unit: str
) -> int | None:
    """The decimals two limits, each a text and its unit, were typed with; None where not typed in the unit shown.

    >>> places_of_ends(("1.25", "in"), ("1.260", "in"), "in"), places_of_ends(("25", "mm"), (None, None), "mm")
    (3, 0)
    >>> places_of_ends(("25.0", "mm"), ("25.1", "mm"), "in") is None
    True
    """
    typed = [(text or "", typed_in) for text, typed_in in (low, high) if text]
    if not typed or any(typed_in != unit or not _DECIMAL.fullmatch(text.strip()) for text, typed_in in typed):
        return None
    return max(places_of(text, typed_in, unit) for text, typed_in in typed)


@dataclass(frozen=True, slots=True)
class Given:
    """The sizes of one part by role, and how to ask for them."""

    part: str
    sizes: Mapping[str, Measure]

    def need(self, role: str) -> Measure:
        """The size of a role.

        Raises:
            BadEntry: it is not given yet, or is not above zero.
        """
        measure = self.maybe(role)
        if measure is None:
            raise BadEntry(
                "is not given yet.",
                where=role.capitalize(),
                way_out=f"Type it on the sheet; the drawing of a {self.part} needs it.",
            )
        return measure

    def maybe(self, role: str) -> Measure | None:
        """The size of a role, or None when it is not given. Raises BadEntry for one not above zero."""
        measure = self.sizes.get(role)
        if measure is None or not measure.given:
            return None
        if measure.at_mm <= 0:
            raise BadEntry("is not above zero.", where=measure.name, value=f"{measure.at_mm:g} mm")
        return measure

    def mm(self, role: str, otherwise: float = 0.0) -> float:
        """The size a role is drawn at [mm], or ``otherwise``."""
        measure = self.maybe(role)
        return otherwise if measure is None else measure.at_mm
