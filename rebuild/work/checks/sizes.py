"""Every stored length read again from the text that was typed, and compared with its millimetres."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator, Sequence
from functools import lru_cache

from rebuild.errors import BadEntry, OutOfRange
from rebuild.store.check import named
from rebuild.store.file_tables import columns_of, journaled_tables
from rebuild.trade.limits.reach import read_measures
from rebuild.trade.limits.spec_again import limits_mm, specs_again
from rebuild.trade.sizes.amounts import parse_celsius
from rebuild.trade.sizes.quantity import FACTORS
from rebuild.trade.sizes.reread import lengths_again, mean_and_spread, near, repeats_again
from rebuild.trade.threads.taken import pitch_diameter_of, read_how
from rebuild.words.counted import counted

#: So many different texts read again are kept, for the next one that says the same.
_KEPT = 20_000
#: So many different entries that agree are remembered: the same size is measured again and again.
_REMEMBERED = 200_000


class _Read(set[tuple[object, ...]]):
    """Entries, text with what is stored beside it, that were read again and agree: the next such one need not be."""

    def well(self, entry: tuple[object, ...]) -> bool:
        """Remember one; always true."""
        if len(self) < _REMEMBERED:
            self.add(entry)
        return True


def units(raw: sqlite3.Connection) -> Iterator[str]:
    """The unit of a machine, feature or instrument is one the grid shows."""
    for table in ("machine", "feature", "instrument"):
        for row, unit in raw.execute(f"SELECT id, unit FROM {table} WHERE unit NOT IN ('mm', 'in')"):
            yield f"{named(table, row)}: its unit is “{unit}”; the grid shows mm or in."


def measures(raw: sqlite3.Connection) -> Iterator[str]:
    """The words for what an instrument measures; until they are known its kind says it."""
    if "measures" not in columns_of(raw, "instrument"):
        return
    for row, text in raw.execute("SELECT id, measures FROM instrument WHERE measures <> ''"):
        try:
            read_measures(str(text))
        except BadEntry as trouble:
            yield f"{named('instrument', row)}: {trouble}"


def stored_lengths(raw: sqlite3.Connection) -> Iterator[str]:
    """Every text, unit and mm that are stored side by side."""
    for table in journaled_tables(raw):
        columns = set(columns_of(raw, table))
        stems = sorted(name[:-5] for name in columns if name.endswith("_text"))
        for stem in stems:
            if {f"{stem}_unit", f"{stem}_mm"} <= columns:
                yield from _lengths(raw, table, stem)


def _lengths(raw: sqlite3.Connection, table: str, stem: str) -> Iterator[str]:
    rows = raw.execute(
        f'SELECT id, "{stem}_text", "{stem}_unit", "{stem}_mm" FROM "{table}" '
        f'WHERE "{stem}_text" IS NOT NULL OR "{stem}_mm" IS NOT NULL'
    )
    read = _Read()
    for row, text, unit, mm in rows:
        if (text, unit, mm) in read or (_is_again(text, unit, mm) and read.well((text, unit, mm))):
            continue
        where = f"{named(table, row)}: {stem.replace('_', ' ')}"
        if text is None or unit is None or mm is None:
            yield f"{where} is stored by halves: text “{text}”, unit “{unit}”, {mm} mm."
        elif unit not in FACTORS:
            yield f"{where} has a unit “{unit}” this program does not know."
        else:
            yield f"{where} was typed as “{text}” ({unit}), but {mm} mm is stored."


def _is_again(text: str | None, unit: str | None, mm: float | None) -> bool:
    """Whether a text in a unit this program knows still means the millimetres stored beside it."""
    if text is None or unit is None or mm is None or unit not in FACTORS:
        return False
    return any(near(one, mm) for one in _again(text, unit))


@lru_cache(maxsize=_KEPT)
def _again(text: str, unit: str) -> tuple[float, ...]:
    return tuple(size.mm for size in lengths_again(text, unit))


def sizes_of_readings(raw: sqlite3.Connection) -> Iterator[str]:
    """Value, repeats and spread of every reading."""
    here = columns_of(raw, "reading")  # an older file has no wires and pins yet
    taken = ", ".join(name if name in here else f"NULL AS {name}" for name in ("how", "thread", "read_mm"))
    rows = raw.execute(f"SELECT id, typed, unit, value_mm, repeats, spread_mm, {taken} FROM reading")
    plain = _Read()
    for row, typed, unit, value, repeats, spread, how, thread, read in rows:
        if repeats == 1 and spread is None and not how and read is None:
            entry = (typed, unit, value)
            if entry in plain or (_is_again(*entry) and plain.well(entry)):
                continue  # what nearly every reading is: one size, as typed
        where = f"{named('reading', row)} “{typed}” ({unit})"
        if unit not in FACTORS:
            yield f"{where} has a unit this program does not know."
            continue
        yield from _pitch_diameter(where, unit, value, how, thread, read)
        value = value if read is None else read
        sizes = repeats_again(typed, unit, value)
        if sizes is None:
            yield f"{where} does not come to the {value} mm that is stored."
            continue
        _mean, spread_again = mean_and_spread(sizes)
        if len(sizes) != repeats:
            yield f"{where} is {counted(len(sizes), 'repeat')}, but {repeats} are stored."
        if (spread is None) != (spread_again is None) or (
            spread is not None and spread_again is not None and not near(spread, spread_again)
        ):
            yield f"{where} spreads by {spread_again} mm, but {spread} mm is stored."


def _pitch_diameter(
    where: str, unit: str, value: float, how: str | None, thread: str | None, read: float | None
) -> Iterator[str]:
    """What was read over wires or between pins still means the pitch diameter stored beside it."""
    try:
        taken = read_how(how or "", unit)
        if read is None and (taken is None or taken.wire is None):
            return
        again = None if taken is None or read is None else pitch_diameter_of(read, taken, thread or "", where)
    except (BadEntry, OutOfRange) as trouble:
        yield f"{where}, {how}: {trouble}"
        return
    if again is None:
        yield f"{where} is stored by halves: how “{how}”, read {read} mm."
    elif not near(again.value, value):
        yield f"{where}, {how} on {thread}, means {again.value} mm, but {value} mm is stored."


def temperatures(raw: sqlite3.Connection) -> Iterator[str]:
    """The temperature of every reading."""
    rows = raw.execute(
        "SELECT id, temperature_text, temperature_c FROM reading "
        "WHERE temperature_text IS NOT NULL OR temperature_c IS NOT NULL"
    )
    for row, text, celsius in rows:
        again = () if text is None or celsius is None else _celsius_again(text)
        if not any(abs(one - celsius) <= 1e-6 for one in again):
            yield f"{named('reading', row)}: its temperature was typed as “{text}”, but {celsius} °C is stored."


def _celsius_again(text: str) -> Iterator[float]:
    for comma in (None, True, False):
        try:
            yield parse_celsius(text, decimal_comma=comma)
        except BadEntry:
            continue


def sizes_of_specs(raw: sqlite3.Connection) -> Iterator[str]:
    """Nominal, low and high of every spec, from its text."""
    rows = raw.execute(
        "SELECT id, name, spec_text, unit, nominal_mm, low_mm, high_mm FROM feature WHERE spec_text <> ''"
    )
    read = _Read()
    for row, name, *entry in rows:
        whole = tuple(entry)
        if whole in read:
            continue
        text, unit, *stored = entry
        if any(_agree(again, stored) for again in _limits_again(text, unit)):
            read.well(whole)
        else:
            yield (
                f"{named('feature', row)} “{name}”: its spec was typed as “{text}” ({unit}), but nominal, low "
                f"and high are stored as {', '.join('none' if mm is None else f'{mm:g} mm' for mm in stored)}."
            )


@lru_cache(maxsize=_KEPT)
def _limits_again(text: str, unit: str) -> tuple[tuple[float | None, ...], ...]:
    """The same specs stand on many parts: each is read again once."""
    return tuple(limits_mm(again) for again in specs_again(text, unit))


def _agree(again: Sequence[float | None], stored: list[float | None]) -> bool:
    return all(
        (first is None) == (second is None) and (first is None or second is None or near(first, second))
        for first, second in zip(again, stored, strict=True)
    )
