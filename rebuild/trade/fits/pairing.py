"""The readings of two sides put together: station by station, one with all, or the extremes."""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum

from rebuild.trade.fits.combining import Combining
from rebuild.trade.fits.side_reading import SideReading

#: Stations this near along the two sides are the same place [mm].
SAME_PLACE_MM = 0.5


class Pairing(StrEnum):
    """How the readings of the two sides were put together."""

    BY_STATION = "station by station"
    ONE_WITH_ALL = "one reading with every station"
    EXTREMES = "largest with smallest"
    DIRECT = "read directly"


#: A station's name, the outer side's reading and the inner one's.
Matched = list[tuple[str, SideReading, SideReading]]


def paired(
    outer: Sequence[SideReading], inner: Sequence[SideReading], combining: Combining
) -> tuple[Matched, Pairing, tuple[str, ...]]:
    """Pairs with the name of their station, how they were found, and the stations left without a mate."""
    if len(outer) == 1 or len(inner) == 1:
        listed = [
            (bore.station if len(inner) == 1 else shaft.station, bore, shaft)
            for bore in outer
            for shaft in inner
        ]
        return listed, Pairing.BY_STATION if len(listed) == 1 else Pairing.ONE_WITH_ALL, ()
    matched: Matched = []
    for bore in outer:
        shaft = next((shaft for shaft in inner if _same_place(bore, shaft)), None)
        if shaft is not None:
            matched.append((bore.station, bore, shaft))
    if matched:
        used = {id(reading) for _, bore, shaft in matched for reading in (bore, shaft)}
        left = tuple(reading.station for reading in (*outer, *inner) if id(reading) not in used)
        return matched, Pairing.BY_STATION, left
    return _extremes(outer, inner, combining), Pairing.EXTREMES, ()


def _same_place(one: SideReading, other: SideReading) -> bool:
    if one.at_mm is not None and other.at_mm is not None:
        return abs(one.at_mm - other.at_mm) <= SAME_PLACE_MM
    return bool(one.station) and one.station.strip().casefold() == other.station.strip().casefold()


def _extremes(outer: Sequence[SideReading], inner: Sequence[SideReading], combining: Combining) -> Matched:
    def low(readings: Sequence[SideReading], sign: float) -> SideReading:
        return min(readings, key=lambda reading: sign * reading.value_mm)

    def high(readings: Sequence[SideReading], sign: float) -> SideReading:
        return max(readings, key=lambda reading: sign * reading.value_mm)

    return [
        ("tightest", low(outer, combining.outer_sign), low(inner, combining.inner_sign)),
        ("loosest", high(outer, combining.outer_sign), high(inner, combining.inner_sign)),
    ]
