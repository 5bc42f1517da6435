"""Fits by name, preferred fits, and the reverse: a wanted clearance range to the nearest standard fits."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.fits import b4_1
from rebuild.trade.limits import iso286
from rebuild.trade.limits.sizes import Fit
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.given import number_of, text_of, whole_of
from rebuild.trade.sizes.own_unit import said

#: A clearance outside the wanted range counts this many times one left unused.
OUTSIDE_WEIGHT = 3.0
RANKING = Source("this program", "ranking: 3 x what lies outside + what is left unused", Status.JUDGEMENT)
SYSTEMS = ("hole basis", "shaft basis", "inch")


@dataclass(frozen=True, slots=True)
class Preferred:
    """A preferred pair and the words for its use."""

    hole: str
    shaft: str
    basis: str
    use: str

    @property
    def name(self) -> str:
        """As typed: H7/g6."""
        return f"{self.hole}/{self.shaft}"


@dataclass(frozen=True, slots=True)
class Match:
    """A standard fit set against a wanted clearance range [mm]."""

    name: str
    system: str
    use: str  # empty where the fit is not a preferred one
    min_clearance_mm: float
    max_clearance_mm: float
    outside_mm: float
    unused_mm: float

    @property
    def inside(self) -> bool:
        """Whether every pair of parts lies in the wanted range."""
        return self.outside_mm <= 1e-9

    @property
    def score_mm(self) -> float:
        """What the ranking sorts by; 0 is an exact match."""
        return OUTSIDE_WEIGHT * self.outside_mm + self.unused_mm


@cache
def preferred_fits() -> tuple[Preferred, ...]:
    """The preferred fits, hole basis first; the words of use are from memory and the table says so.

    >>> [f"{fit.hole}/{fit.shaft}" for fit in preferred_fits()][:3]
    ['H11/c11', 'H9/d9', 'H8/f7']
    """
    rows = table("iso_preferred_fits").rows
    return tuple(Preferred(row["hole"], row["shaft"], row["basis"], row["use"]) for row in rows)


def named_fit(nominal_mm: float, name: str) -> Worked[Fit]:
    """Any fit by name: ``H7/g6`` (ISO 286) or ``RC4`` (ANSI B4.1).

    Raises:
        BadEntry: neither; OutOfRange: outside the tables.

    >>> named_fit(25, "H7/p6").value.kind.value, named_fit(25.4, "LN2").value.kind.value
    ('interference fit', 'interference fit')
    """
    name = text_of("Fit", name, "Type it as H7/g6 or RC4.")
    if name.strip()[:2].upper() in ("RC", "LC", "LT", "LN", "FN") and "/" not in name:
        return b4_1.inch_fit(nominal_mm, name)
    typed = iso286.parse_typed(name)
    if typed.hole is None or typed.shaft is None or typed.size is not None:
        raise BadEntry(
            "is not a fit of two classes.", where="Fit", value=name, way_out="Type it as H7/g6 or RC4."
        )
    return iso286.iso_fit(nominal_mm, str(typed.hole), str(typed.shaft))


def find_fits(
    nominal_mm: float,
    min_clearance_mm: float,
    max_clearance_mm: float,
    *,
    systems: tuple[str, ...] = SYSTEMS,
    count: int = 8,
) -> Worked[tuple[Match, ...]]:
    """The standard fits nearest to a wanted clearance range (negative: interference), best first.

    Args:
        nominal_mm: nominal size [mm].
        min_clearance_mm, max_clearance_mm: the wanted range [mm].
        systems: which of ``SYSTEMS`` to search.
        count: how many to give.

    Raises:
        BadEntry: the range is upside down, or no such system.
        OutOfRange: the size lies outside every table searched.

    >>> find_fits(25, 0.007, 0.041).value[0].name
    'H7/g6'
    """
    nominal_mm = number_of("Nominal size", nominal_mm, finite=False)
    min_clearance_mm = number_of("Smallest clearance", min_clearance_mm)
    max_clearance_mm = number_of("Largest clearance", max_clearance_mm)
    count = whole_of("Count", count, least=1)
    _refuse_bad(min_clearance_mm, max_clearance_mm, systems)
    matches = [
        _match(name, system, low, high, min_clearance_mm, max_clearance_mm)
        for name, system, low, high in _candidates(nominal_mm, systems)
    ]
    if not matches:
        raise OutOfRange(
            "has no standard fit: ISO 286 is held over 0 to 500 mm, ANSI B4.1 over 0 to 19.69 in.",
            where="Nominal size",
            value=said(nominal_mm),
            way_out="Check the unit.",
        )
    order = {system: place for place, system in enumerate(SYSTEMS)}
    matches.sort(key=lambda m: (round(m.score_mm, 7), not m.use, order[m.system], len(m.name), m.name))
    best = tuple(matches[:count])
    sheet = Sheet(f"Standard fits near {min_clearance_mm:.4f} to {max_clearance_mm:.4f} mm clearance")
    sheet.read("nominal size", f"{nominal_mm:.6g} mm")
    sheet.note(f"{len(matches)} standard pairs tried.", RANKING)
    for match in best:
        place = "inside" if match.inside else f"{match.outside_mm * 1000:.1f} µm outside"
        sheet.result(
            match.name,
            f"{match.min_clearance_mm * 1000:+.1f} to {match.max_clearance_mm * 1000:+.1f} µm, {place}",
        )
    return Worked(best, sheet.close())


def _match(name: str, system: str, low: float, high: float, want_low: float, want_high: float) -> Match:
    outside = max(0.0, want_low - low) + max(0.0, high - want_high)
    unused = max(0.0, low - want_low) + max(0.0, want_high - high)
    uses = {item.name: item.use for item in preferred_fits()}
    use = b4_1.use_of(name) if system == "inch" else uses.get(name, "")
    return Match(name, system, use, round(low, 9), round(high, 9), round(outside, 9), round(unused, 9))


def _candidates(nominal_mm: float, systems: tuple[str, ...]) -> Iterator[tuple[str, str, float, float]]:
    """Name, system and clearance range [mm] of every standard pair at this size."""
    if "hole basis" in systems:
        yield from _iso_pairs(nominal_mm, hole_basis=True)
    if "shaft basis" in systems:
        yield from _iso_pairs(nominal_mm, hole_basis=False)
    if "inch" in systems:
        for name in b4_1.class_names():
            try:
                fit = b4_1.inch_fit(nominal_mm, name).value
            except OutOfRange:
                continue
            yield name, "inch", fit.min_clearance_mm, fit.max_clearance_mm


def _iso_pairs(nominal_mm: float, *, hole_basis: bool) -> Iterator[tuple[str, str, float, float]]:
    """H with every shaft, or h with every hole; the shaft as fine as the hole or up to two grades finer."""
    for grade in range(6, 12):
        for finer in (1, 0, 2):
            for letters in iso286.LETTERS:
                if hole_basis:
                    hole, shaft = f"H{grade}", f"{letters}{grade - finer}"
                else:
                    hole, shaft = f"{letters.upper()}{grade}", f"h{grade - finer}"
                try:
                    bore = iso286.deviations_um(nominal_mm, hole)
                    journal = iso286.deviations_um(nominal_mm, shaft)
                except OutOfRange:
                    continue
                basis = "hole basis" if hole_basis else "shaft basis"
                low, high = (bore[0] - journal[1]) / 1000.0, (bore[1] - journal[0]) / 1000.0
                yield f"{hole}/{shaft}", basis, low, high


def _refuse_bad(low: float, high: float, systems: tuple[str, ...]) -> None:
    if not low <= high:
        raise BadEntry(
            "is more than the largest clearance.",
            where="Smallest clearance",
            value=said(low),
            way_out="Interference is negative: -0.03 to -0.01.",
        )
    for system in systems:
        if system not in SYSTEMS:
            raise BadEntry(
                "is no system of fits here.", value=system, way_out=f"One of {', '.join(SYSTEMS)}."
            )
