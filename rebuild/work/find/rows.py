"""Everything of a file by any word, number, code or size: by kind, with the words around, and where it opens."""

from __future__ import annotations

import re
import sqlite3
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from sqlalchemy import Connection

from rebuild.store.entry import driver
from rebuild.store.find.ask import Hit, hits, tokens
from rebuild.store.find.columns import word_tables
from rebuild.trade.sizes.show import show_both
from rebuild.words.places import PlaceKind, place_words
from rebuild.work.find.kinds import KINDS, SIZES, Kind
from rebuild.work.find.sizes import WIDEST_MM, Wanted, fastener_in, same_thread, sizes_in

#: The tables the lookups here ask: those of every kind, and those that say what a row belongs to.
READS = frozenset({kind.table for kind in KINDS} | {"removal_part"})
#: So many are shown unless more are asked for.
MOST = 60
#: No name, number or code is longer; a page of digits took a third of a second.
LONGEST = 200
#: Sizes looked at on each side of the one typed, before other words choose among them.
_NEAREST = 400
#: Rows with one of the words alone, among which the others are looked for.
_ALONE = 200
#: What has no name but its own, which was looked through already.
_NAMED_ALONE = frozenset({"machine", "subassembly", "part", "place"})
#: What people call a part the removal log has as *not there*.
_NOT_THERE = re.compile(r"\b(?:missing|lost|gone)\b", re.IGNORECASE)
_TIMES = re.compile(r"(?<=\d)\s*[x×]\s*(?=[\dm])", re.IGNORECASE)
_ORDER = {kind.table: place for place, kind in enumerate(KINDS)}


@dataclass(frozen=True, slots=True)
class Found:
    """One thing found: its kind, its title, the words around, and what to choose on which page to see it.

    ``lies`` is the place a part or what came off lies in, in words; empty where none is noted.
    """

    kind: str
    table: str
    row: int
    title: str
    around: str
    machine_id: int | None
    machine: str
    subassembly_id: int | None
    part_id: int | None
    page: str
    target: int | None
    feature_id: int | None
    station_id: int | None
    lies: str = ""


def find(
    connection: Connection, typed: str, most: int = MOST, *, decimal_comma: bool | None = None
) -> list[Found]:
    """What was typed, at most ``most`` of it: sizes nearest first, then what is called so, then by kind.

    Only the first ``LONGEST`` characters are looked for: a whole page pasted by mistake must not hold the window up.

    The index of words must have been brought up to the file before (``Store.follow_words``).
    """
    raw = driver(connection)
    typed = typed[:LONGEST]
    wanted, beside = sizes_in(typed, decimal_comma=decimal_comma)
    near = _near(raw, wanted, _NEAREST if beside else most)
    fastened = _described(raw, _fasteners(raw, typed, most))
    also = {(one.table, one.row) for one in fastened}
    measured = _beside(_described(raw, near if beside else near[:most]), beside)[:most]
    by_size = [*fastened, *(one for one in measured if (one.table, one.row) not in also)]
    seen = {(one.table, one.row) for one in by_size}
    spelled = {
        (hit.table, hit.row): hit
        for form in _forms(typed)
        for hit in hits(raw, word_tables(raw), form, most, _ORDER.__getitem__)
    }
    by_words = [one for one in _described(raw, list(spelled.values())) if (one.table, one.row) not in seen]
    asked = tokens(_parted(typed))
    by_words = by_words or [one for one in _across(raw, asked, most) if (one.table, one.row) not in seen]
    if not by_words and not by_size and _NOT_THERE.search(typed):
        return find(connection, _NOT_THERE.sub("not there", typed), most, decimal_comma=decimal_comma)
    by_words.sort(key=lambda one: (not _says(f"{one.kind} {one.title}", asked), _ORDER[one.table]))
    return [*by_size, *by_words][:most]


def _across(raw: sqlite3.Connection, asked: Sequence[str], most: int) -> list[Found]:
    """Rows with some of the words, of a thing whose name, or whose subassembly's, has the others.

    Asked when no row holds all the words: each in turn is looked for alone, and the others in what it is called.
    """
    found: dict[tuple[str, int], Found] = {}
    groups = (
        dict(raw.execute("SELECT id, code || ' ' || name FROM subassembly").fetchall())
        if len(asked) > 1
        else {}
    )
    for word in asked if len(asked) > 1 else ():
        alone = hits(raw, word_tables(raw), word, _ALONE, _ORDER.__getitem__)
        for one in _described(raw, alone):
            told = f"{one.title} {one.around} {groups.get(one.subassembly_id or 0, '')}"
            if (one.table == "part" or one.table not in _NAMED_ALONE) and _says(told, asked):
                found.setdefault((one.table, one.row), one)
    return list(found.values())[:most]


def _parted(typed: str) -> str:
    """A size in words without its times sign, which may stand there as x, as × or not at all."""
    return _TIMES.sub(" ", typed) if fastener_in(typed) is not None else typed


def _forms(typed: str) -> tuple[str, ...]:
    """A size in words as it may be spelled in a name: parted, or in one word, ``M10x45``."""
    parted = _parted(typed)
    return (parted,) if parted == typed else (parted, _TIMES.sub("x", typed))


def _beside(found: list[Found], words: Sequence[str]) -> list[Found]:
    """Those whose title has the other words that were typed."""
    asked = [token for word in words for token in tokens(word)]
    return [one for one in found if _says(f"{one.kind} {one.title}", asked)]


def _says(title: str, asked: Sequence[str]) -> bool:
    """Whether each word asked for begins one of a title's."""
    has = tokens(title)
    return all(any(one.startswith(token) for one in has) for token in asked)


def _fasteners(raw: sqlite3.Connection, typed: str, most: int) -> list[Hit]:
    """Fasteners of the log by thread and length, however the two are spaced or joined: ``M8 x 30``, ``M8x30``."""
    wanted = fastener_in(typed)
    if wanted is None:
        return []
    asked = tokens(wanted.words)
    rows = raw.execute(
        "SELECT id, count, thread, length_mm, COALESCE(length_text, ''), length_unit, trim(head || ' ' || kind) "
        "FROM fastener WHERE thread <> '' ORDER BY id"
    )
    return [
        Hit(
            "fastener",
            key,
            f"{count} × {thread}{f' × {long}' if long else ''}{_INCH if long and unit == 'in' else ''} {kind}",
        )
        for key, count, thread, mm, long, unit, kind in rows
        if same_thread(thread) == wanted.thread
        and (wanted.length_mm is None or (mm is not None and abs(mm - wanted.length_mm) <= WIDEST_MM))
        and _says(kind, asked)
    ][:most]


_INCH = " in"


def _near(raw: sqlite3.Connection, wanted: Sequence[Wanted], most: int) -> list[Hit]:
    """Rows with a size meant, the nearest first; in ``around`` the size in both units."""
    found: list[tuple[float, Hit]] = []
    for one in wanted:
        low, high = one.mm - one.within_mm, one.mm + one.within_mm
        above = (f"BETWEEN {one.mm!r} AND {high!r}", "ASC")
        below = (f">= {low!r} AND value_mm < {one.mm!r}", "DESC")
        for side, order in (above, below):
            rows = raw.execute(
                f"SELECT id, value_mm, unit FROM reading WHERE value_mm {side} "
                f"ORDER BY value_mm {order} LIMIT {most}"
            )
            found += [(abs(mm - one.mm), Hit("reading", key, show_both(mm, unit))) for key, mm, unit in rows]
        for table, column, words in SIZES:
            rows = raw.execute(
                f'SELECT id, "{column}" FROM "{table}" WHERE "{column}" BETWEEN {low!r} AND {high!r} LIMIT {most}'
            )
            found += [
                (abs(mm - one.mm), Hit(table, key, f"{words} {show_both(mm, 'mm')}")) for key, mm in rows
            ]
    found.sort(key=lambda both: (both[0], _ORDER[both[1].table], both[1].row))
    first: dict[tuple[str, int], Hit] = {}
    for _off, hit in found:
        first.setdefault((hit.table, hit.row), hit)
    return list(first.values())


def _described(raw: sqlite3.Connection, found: Sequence[Hit]) -> list[Found]:
    """Each row found with its title and where it opens, in the order given; rows without a kind are left out."""
    rows: dict[tuple[str, int], tuple[object, ...]] = {}
    for start in range(0, len(found), _ROWS_AT_ONCE):
        some = found[start : start + _ROWS_AT_ONCE]
        values = [value for hit in some for value in (hit.table, hit.row)]
        filled = _statement().replace("/*hits*/", ", ".join(["(?, ?)"] * len(some)))
        for table, row, *about in raw.execute(filled, values):
            rows[table, row] = tuple(about)
    if not found:
        return []
    words = {kind.table: kind for kind in KINDS}
    return [
        _found(words[hit.table], hit, rows[hit.table, hit.row])
        for hit in found
        if (hit.table, hit.row) in rows
    ]


_ROWS_AT_ONCE = 400
#: Between the kind and the name of a place.
_BETWEEN = "\x1f"


@cache
def _statement() -> str:
    """One statement that describes rows of every kind, so that a search is one question however mixed it is."""
    arms = " UNION ALL ".join(
        f"SELECT '{kind.table}', t.id, {kind.title}, {kind.machine}, "
        f"(SELECT name FROM machine AS m WHERE m.id = {kind.machine}), {kind.group}, {kind.part}, {kind.target}, "
        f"{kind.feature}, {kind.station}, "
        f"(SELECT kind || '{_BETWEEN}' || name FROM place AS l WHERE l.id = {kind.place}) "
        f"FROM hit JOIN \"{kind.table}\" AS t ON t.id = hit.row {kind.joins} WHERE hit.tbl = '{kind.table}'"
        for kind in KINDS
    )
    return f"WITH hit (tbl, row) AS (VALUES /*hits*/) {arms}"


def _found(kind: Kind, hit: Hit, about: tuple[object, ...]) -> Found:
    title, machine_id, machine, *keys, lies = about
    called = " ".join(str(title or "").split()).strip(": ") or f"{kind.word} no. {hit.row}"
    group, part, target, feature, station = (_key(value) for value in keys)
    return Found(
        kind.word,
        hit.table,
        hit.row,
        called,
        " · ".join(one for one in hit.around.split(" · ") if one not in called),
        _key(machine_id),
        str(machine or ""),
        group,
        part,
        kind.page,
        target,
        feature,
        station,
        _place(str(lies or "")),
    )


def _place(found: str) -> str:
    kind, parted, name = found.partition(_BETWEEN)
    known = next((one for one in PlaceKind if one.value == kind), PlaceKind.OTHER)
    return place_words(known, name) if parted else ""


def _key(value: object) -> int | None:
    return value if isinstance(value, int) else None
