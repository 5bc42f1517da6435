"""Details of a making sheet as rows: each read from its typed texts, in words, and what became of it."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.errors import RebuildError
from rebuild.model.tables.making import MakingDetails, MakingSheets
from rebuild.trade.drawing.detail import Detail
from rebuild.trade.drawing.measure import Measure, places_of, places_of_ends
from rebuild.trade.limits.spec_entry import parse_spec
from rebuild.words.making import PartShape
from rebuild.words.making_details import ONE_WALL, THROUGH, DetailKind

#: The tables the lookups here ask.
READS = frozenset({"making_detail", "making_sheet"})
#: Kinds whose size is a diameter.
_ROUND = (DetailKind.CROSS_HOLE, DetailKind.SPOT, DetailKind.HOLES_ON_CIRCLE)
_DUST_MM = 1e-9


@dataclass(frozen=True, slots=True)
class DetailRow:
    """One detail; ``trouble`` is why it cannot be read, ``outside`` that it came out beyond its limits."""

    id: int
    kind: DetailKind
    name: str
    words: str
    detail: Detail | None
    came_out: str
    outside: bool
    done_at: dt.datetime | None
    note: str
    trouble: str = ""

    @property
    def title(self) -> str:
        """``oil hole (cross-hole)``."""
        return f"{self.name} ({self.kind})"


def details_of(connection: Connection, sheet_id: int) -> tuple[DetailRow, ...]:
    """The details of one sheet in their order."""
    rows = connection.execute(
        select(*MakingDetails.columns(), MakingSheets.unit, MakingSheets.shape)
        .join(MakingSheets, MakingSheets.id == MakingDetails.sheet_id)
        .where(MakingDetails.sheet_id == sheet_id)
        .order_by(MakingDetails.position, MakingDetails.id)
    )
    return tuple(detail_row(MakingDetails.of(row), row.unit, row.shape) for row in rows)


def detail_row(row: MakingDetails, unit: str, shape: str = "") -> DetailRow:
    """One stored detail on a part of a shape."""
    try:
        found, trouble = read_detail(row, unit, shape), ""
        outside = is_outside(row, unit)
    except RebuildError as told:
        found, trouble, outside = None, str(told), False
    words = _words(found, unit) if found is not None else trouble
    return DetailRow(
        row.id, row.kind, row.name, words, found, row.came_out, outside, row.done_at, row.note, trouble
    )


def read_detail(row: MakingDetails, unit: str, shape: str = "") -> Detail:
    """A stored detail as it is drawn. Raises BadEntry, Ambiguous, OutOfRange.

    A cross-hole's depth may be *one wall* or *right through*; an oil hole in a bush without one goes through one.
    """
    depth = " ".join(row.depth.split()).casefold()
    crossing = row.kind is DetailKind.CROSS_HOLE
    oil = not depth and shape == PartShape.BUSH and "oil" in row.name.casefold()
    worded = crossing and depth in THROUGH
    return Detail(
        row.kind,
        row.name,
        _measure(row.name, "place", row.place, unit),
        _measure(row.name, "size", row.size, unit),
        None if worded else _measure(row.name, "depth", row.depth, unit),
        _measure(row.name, "length", row.long, unit),
        row.around_deg,
        _measure(row.name, "circle", row.circle, unit),
        row.count,
        one_wall=crossing and (depth == ONE_WALL or oil),
    )


def _measure(name: str, what: str, text: str, unit: str) -> Measure | None:
    if not text.strip():
        return None
    entry = parse_spec(text, unit, f"{name}, {what}")
    nominal, low, high = (
        size.mm if size is not None else None for size in (entry.nominal, entry.low, entry.high)
    )
    first = entry.nominal
    places = places_of(first.text, first.unit, unit) if first is not None else 0
    typed = [(None, None) if size is None else (size.text, size.unit) for size in (entry.low, entry.high)]
    ends = places_of_ends(typed[0], typed[1], unit)
    return Measure(f"{name}, {what}", nominal, low, high, places, ends)


def is_outside(row: MakingDetails, unit: str) -> bool:
    """Whether what it came out to lies beyond the limits of its size; the uncertainty is not counted."""
    made, size = (
        _measure(row.name, "came out", row.came_out, unit),
        _measure(row.name, "size", row.size, unit),
    )
    if made is None or size is None:
        return False
    low, high = size.low_mm, size.high_mm
    under = low is not None and made.at_mm < low - _DUST_MM
    return under or (high is not None and made.at_mm > high + _DUST_MM)


def _words(detail: Detail, unit: str) -> str:
    """Where it is and how large, as the sheet says it."""

    def said(measure: Measure | None, *, round_: bool = False) -> str:
        return " to ".join(reversed(measure.lines(unit, diameter=round_))) if measure is not None else ""

    parts = (
        f"{detail.count} off" if detail.count > 1 else "",
        said(detail.size, round_=detail.kind in _ROUND)
        + ("" if detail.kind in _ROUND or not detail.size else " wide"),
        f"{said(detail.depth)} deep" if detail.depth else "",
        "through one wall" if detail.one_wall else "",
        f"{said(detail.long)} long" if detail.long else "",
        f"on {said(detail.circle, round_=True)}" if detail.circle else "",
        f"{said(detail.place)} from the left end" if detail.place else "",
        f"{detail.around_deg:g}°" + ("" if detail.kind is DetailKind.ANGLE else " round"),
    )
    return ", ".join(filter(None, parts))
