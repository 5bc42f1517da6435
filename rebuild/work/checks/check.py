"""``rebuild check``: everything a project file claims, worked out again from what was typed."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing, suppress
from pathlib import Path

from rebuild.store.check import examine, named, shortened
from rebuild.store.connect import LOOKING_KIB, read_only
from rebuild.store.file_tables import columns_of
from rebuild.store.foreign_log import is_foreign
from rebuild.store.identity import is_held_here
from rebuild.store.recognise import recognise
from rebuild.store.sqlite_words import explained, trouble_words
from rebuild.trade.results.cautions import topics
from rebuild.trade.schedule.network import loop_in
from rebuild.words.counted import counted
from rebuild.work.checks.charts import chart_readings, chart_rings, level_readings
from rebuild.work.checks.photos import photos
from rebuild.work.checks.places import stays
from rebuild.work.checks.sizes import (
    measures,
    sizes_of_readings,
    sizes_of_specs,
    stored_lengths,
    temperatures,
    units,
)

#: A log that is not this file's is not read into it.
ALONE = "&immutable=1"
FOREIGN = (
    "Beside the file lies the log (-wal) of another state of it: it was copied or synced over while it was open. The "
    "file was looked at without it; opening the file sets the log aside by name."
)

Finder = Callable[[sqlite3.Connection], Iterator[str]]


def check(path: Path) -> list[str]:
    """Findings about a project file as sentences; an empty list when all is well. The file is only read.

    Raises:
        FileTrouble: not a project, or it cannot be read at all.
    """
    recognise(path)
    foreign = not is_held_here(path) and is_foreign(path)
    with explained(path), closing(read_only(path, ALONE if foreign else "")) as raw:
        with suppress(sqlite3.Error, UnicodeDecodeError):  # a damaged schema is what ``examine`` tells of
            raw.execute(f"PRAGMA cache_size = -{LOOKING_KIB}")
        raw.execute("BEGIN")
        examined = examine(raw, path)
        found = [FOREIGN, *examined.findings] if foreign else list(examined.findings)
        if examined.damaged:
            return found
        for finder in FINDERS:
            found += shortened(_guarded(finder, raw))
        found += shortened(photos(raw, path))
        return found


def _guarded(finder: Finder, raw: sqlite3.Connection) -> Iterator[str]:
    """What a finder finds; when the file makes it stumble, that is a finding, and the other finders still run."""
    try:
        yield from finder(raw)
    except (ArithmeticError, LookupError, TypeError, ValueError, RecursionError, sqlite3.Error) as trouble:
        asked = finder.__name__.replace("_", " ")
        yield (
            f"The {asked} could not be worked out again: {_means(trouble)}. See the cells named above; set right, "
            "they are worked out again. “rebuild repair FILE” makes a sound copy without them."
        )


def _means(trouble: Exception) -> str:
    """What a stumble says of the file, by its kind."""
    if isinstance(trouble, sqlite3.Error):
        return trouble_words(trouble)
    if isinstance(trouble, RecursionError):
        return "what is stored there refers to itself in a ring"
    if isinstance(trouble, ArithmeticError):
        return "a number stored there is beyond all measure"
    if isinstance(trouble, LookupError):
        return "a word or a row that is referred to there is not known"
    return "a value stored there is not of the kind it must be"


def loops(raw: sqlite3.Connection) -> Iterator[str]:
    """Steps must not wait for each other in a loop, nor a group lie inside itself."""
    loop = loop_in(raw.execute("SELECT before_id, after_id FROM link").fetchall())
    if loop:
        titles = dict(raw.execute("SELECT id, title FROM task").fetchall())
        chain = " → ".join(f"“{titles.get(key, key)}”" for key in loop)
        yield f"Steps wait for each other in a loop: {chain}. Take one of these links away."
    for table, column, what in (
        ("subassembly", "parent_id", "lie inside each other"),
        ("part", "spare_of_id", "are spares of each other"),
    ):
        found = loop_in(
            raw.execute(f"SELECT {column}, id FROM {table} WHERE {column} IS NOT NULL").fetchall()
        )
        if found:
            names = dict(raw.execute(f"SELECT id, name FROM {table}").fetchall())
            yield f"{' → '.join(f'“{names.get(key, key)}”' for key in found)} {what}."


_OF_ONE_MACHINE = (
    ("part", "subassembly_id", "subassembly"),
    ("part", "matched_set_id", "matched_set"),
    ("subassembly", "parent_id", "subassembly"),
    ("task", "subassembly_id", "subassembly"),
    ("task", "part_id", "part"),
    ("question", "subassembly_id", "subassembly"),
    ("question", "part_id", "part"),
    ("question", "task_id", "task"),
)


def machines_apart(raw: sqlite3.Connection) -> Iterator[str]:
    """What belongs to one machine refers only to that machine's own."""
    for table, column, target in _OF_ONE_MACHINE:
        for (row,) in raw.execute(
            f"SELECT t.id FROM {table} AS t JOIN {target} AS o ON o.id = t.{column} "
            f"WHERE o.machine_id <> t.machine_id"
        ):
            yield f"{named(table, row)} refers to a {target.replace('_', ' ')} of another machine."
    for (row,) in raw.execute(
        "SELECT l.id FROM link AS l JOIN task AS b ON b.id = l.before_id JOIN task AS a ON a.id = l.after_id "
        "WHERE a.machine_id <> b.machine_id"
    ):
        yield f"{named('link', row)} joins steps of two machines."
    for (row,) in raw.execute(
        "SELECT r.id FROM reading AS r JOIN station AS s ON s.id = r.station_id WHERE s.feature_id <> r.feature_id"
    ):
        yield f"{named('reading', row)} was taken at a station of another feature."


def codes(raw: sqlite3.Connection) -> Iterator[str]:
    """A tag names one part."""
    for code, count, machine in raw.execute(
        "SELECT p.code, COUNT(*), m.name FROM part AS p JOIN machine AS m ON m.id = p.machine_id "
        "WHERE p.code <> '' GROUP BY p.machine_id, p.code HAVING COUNT(*) > 1"
    ):
        yield f"Code {code} is on {counted(count, 'part')} of “{machine}”; a tag must name one part."


def cautions(raw: sqlite3.Connection) -> Iterator[str]:
    """A caution is one of the list; another is shown by its bare word."""
    known = set(topics())
    for table in ("task_caution", "run_look"):
        if "topic" not in columns_of(raw, table):
            continue
        for row, topic in raw.execute(f"SELECT id, topic FROM {table} WHERE topic <> ''"):
            if topic not in known:
                yield f"{named(table, row)}: its caution “{str(topic)[:60]}” is none this program knows."


def durations(raw: sqlite3.Connection) -> Iterator[str]:
    """Shortest, likely and longest must rise."""
    for row, title in raw.execute(
        "SELECT id, title FROM task WHERE low_min > likely_min OR likely_min > high_min OR low_min > high_min"
    ):
        yield f"{named('task', row)} “{title}”: its durations do not rise from shortest to longest."


FINDERS: tuple[Finder, ...] = (
    units, measures, stored_lengths, sizes_of_readings, temperatures, sizes_of_specs, loops, machines_apart,
    codes, cautions, durations, chart_readings, level_readings, chart_rings, stays,
)  # fmt: skip
