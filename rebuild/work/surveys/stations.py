"""A survey station by station: metal to remove from each line, and what the ways do to the work there."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.trade.geometry.flatness import line_words
from rebuild.work.surveys.data import SurveyResult


@dataclass(frozen=True, slots=True)
class Column:
    """One quantity at each station [mm, or mm/m where ``slope``]; None where a line has no such station."""

    name: str
    values: tuple[float | None, ...]
    signed: bool = False
    slope: bool = False


@dataclass(frozen=True, slots=True)
class Stations:
    """Where the stations lie [mm], and the columns over them."""

    at_mm: tuple[float, ...]
    columns: tuple[Column, ...]


def stations_of(result: SurveyResult) -> Stations:
    """The table of a survey; empty while nothing could be worked out.

    Metal to remove is the height above the lowest station of the line, against the reference in use: taken off, the
    line lies flat at its lowest; a plate's is counted from its lowest place of all, along each of its lines.
    """
    columns: list[Column] = []
    at: tuple[float, ...] = ()
    for line in result.lines:
        if line.heights is None:
            continue
        at = line.heights.at_mm if len(line.heights.at_mm) > len(at) else at
        if line.found is not None:
            columns.append(Column(f"{line.line.name}, off the line", line.found.residual_mm, signed=True))
            columns.append(Column(f"{line.line.name}, to remove", line.found.to_remove_mm))
        elif line.lead is not None or line.dial is not None:
            columns.append(Column(f"{line.line.name}, error", line.heights.height_mm, signed=True))
    if result.plate is not None:
        # Of a plate it is the height above its lowest place of all: taken off, the plate lies flat at that.
        columns += [
            Column(f"{line_words(name)}, to remove", heights)
            for name, heights in result.plate.heights_mm.items()
        ]
    for twist in result.twists:
        at = twist.at_mm if len(twist.at_mm) > len(at) else at
        columns.append(Column(f"{twist.name}, twist", twist.off_mm_per_m, signed=True, slope=True))
        if twist.effect_mm is not None:
            columns.append(Column("on the diameter", twist.effect_mm, signed=True))
    if result.both is not None:
        columns.append(Column("both ways, on the diameter", result.both.effect_mm, signed=True))
    filled = tuple(
        Column(one.name, (*one.values, *(None,) * (len(at) - len(one.values))), one.signed, one.slope)
        for one in columns
    )
    return Stations(at, filled)
