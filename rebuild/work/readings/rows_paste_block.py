"""Look at a pasted block before it is stored: what lands where, and what is odd about it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from statistics import fmean

from sqlalchemy import Connection

from rebuild.errors import Ambiguous, BadEntry, Implausible
from rebuild.trade.limits.verdict import Rule
from rebuild.trade.sizes.quantity import parse_repeats
from rebuild.trade.sizes.show import show_both
from rebuild.words.readings import STAGES
from rebuild.work.readings.entry import Pasted
from rebuild.work.readings.rows_grid import GridRow, Key, rows
from rebuild.work.readings.rules_instrument import Asked, refuse_unfit
from rebuild.work.readings.rules_plausible import Expected, refuse_implausible, slip_among, slipped

#: The tables the lookups here ask.
READS = frozenset({"feature", "instrument", "part", "reading", "station"})


@dataclass(frozen=True, slots=True)
class Landing:
    """One cell of a block: where it lands, how it reads in both units, and what is odd.

    ``slips``: it looks like a slip of the decimal place or the unit, beside its spec, its last reading or the block.
    """

    cell: Pasted
    where: str
    reads: str
    odd: str
    stops: bool
    replaces: str = ""
    value_mm: float | None = None
    slips: bool = False

    @property
    def clear(self) -> bool:
        """Nothing to ask."""
        return not self.odd and not self.replaces

    @property
    def told(self) -> str:
        """What is odd about it, and which value it takes the place of."""
        if not self.replaces:
            return self.odd
        over = f"replaces {self.replaces}, which stays in the history"
        return "; ".join(filter(None, (self.odd.rstrip("."), over)))


def look_over(connection: Connection, cells: Sequence[Pasted], decimal_comma: bool | None) -> list[Landing]:
    """How each cell of a block would be read; ``stops`` marks what cannot be stored as it stands."""
    wanted: list[Key] = list(dict.fromkeys(_key(cell) for cell in cells))
    known: Mapping[Key, GridRow] = {row.key: row for row in rows(connection, wanted, Rule.SIMPLE, {})}
    return _beside([_landing(connection, cell, known.get(_key(cell)), decimal_comma) for cell in cells])


def _beside(landings: Sequence[Landing]) -> list[Landing]:
    """Each value held against the others of the block on its feature: it may have no spec and no reading yet."""
    by_feature: dict[int, list[tuple[int, float]]] = {}
    for place, one in enumerate(landings):
        if one.value_mm is not None:
            by_feature.setdefault(one.cell.entry.feature_id, []).append((place, one.value_mm))
    found = list(landings)
    for values in by_feature.values():
        for place, value in values:
            words = slip_among(value, [other for at, other in values if at != place])
            if words and not found[place].odd:
                odd = f"is far from the others pasted ({words})."
                found[place] = replace(found[place], odd=odd, slips=True)
    return found


def _key(cell: Pasted) -> Key:
    return (cell.entry.feature_id, cell.entry.station_id or 0)


def title_of(row: GridRow) -> str:
    """``HS-01 spindle, front journal, near``."""
    named = ", ".join(word for word in (row.feature, row.station) if word)
    return f"{row.part_code} {row.part_name}".strip() + (f", {named}" if named else "")


def _landing(
    connection: Connection, cell: Pasted, row: GridRow | None, decimal_comma: bool | None
) -> Landing:
    if row is None:
        return Landing(cell, "", "", "The feature or station was removed.", stops=True)
    where = f"{title_of(row)}, {cell.entry.stage.value}"
    try:
        sizes = parse_repeats(cell.typed, row.unit, decimal_comma=decimal_comma)
    except Ambiguous as trouble:
        choices = " or ".join(retyped for _, retyped in trouble.readings)
        return Landing(cell, where, "", f"{trouble.what} {choices}?", stops=True)
    except BadEntry as trouble:
        return Landing(cell, where, "", trouble.what, stops=True)
    if len({size.unit for size in sizes}) > 1:
        return Landing(cell, where, "", "mixes units among its repeats.", stops=True)
    value = fmean(size.mm for size in sizes)
    reads = show_both(value, row.unit)
    stands = row.readings[STAGES.index(cell.entry.stage)]
    replaces = stands.typed if stands is not None else ""
    last = max((reading for reading in row.readings if reading is not None), key=lambda r: r.id, default=None)
    expected = Expected(
        where, row.nominal_mm, row.low_mm, row.high_mm, last.value_mm if last is not None else None
    )
    try:
        asked = Asked(where, cell.typed, row.unit)
        refuse_unfit(connection, cell.entry.instrument_id, row.kind, sizes, asked)
        refuse_implausible(value, expected, cell.typed, row.unit)
    except Implausible as trouble:
        odd, slips = trouble.what, slipped(value, expected)
        return Landing(cell, where, reads, odd, False, replaces, value, slips)
    return Landing(cell, where, reads, "", False, replaces, value)
