"""Which list a table is, and which of its columns means what, by their headings; the user may say otherwise."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from pathlib import Path

from rebuild.errors import BadEntry, FileTrouble
from rebuild.exchange.columns import mapping, says_feature
from rebuild.exchange.folder import NOTE, RECORDS
from rebuild.exchange.sections import NO_SECTIONS, is_size, is_total, names_nothing, sections_of
from rebuild.exchange.tables import Table, read_tables
from rebuild.work.lists.acts import Batch, Line
from rebuild.work.lists.fields import What
from rebuild.work.lists.heading_words import LOG_HEADS, plain

#: Columns that tell a list from the others, and what it cannot do without.
_NEEDED = {
    What.READINGS: ({"typed", "value_mm"}, {"feature_name", "feature"}),
    What.STATIONS: ({"feature"}, {"name"}),
    What.FEATURES: ({"name"}, {"spec", "part"}),
    What.PARTS: ({"name", "code", "maker_number"},),
    What.MACHINES: ({"name"}, {"scope", "serial", "year"}),
}

#: What says the part of a feature: it may stand once, over several rows. A reading never takes the part of another row.
_SAYS_PART = ("part", "part_code", "part_name")

_SPEC = re.compile(r"±|\+/-|\d\s*[A-Za-z]{1,2}\d{1,2}\b|\d\s*[-–]\s*\.?\d|^(max|min)\b|\+\.?\d")


def which(table: Table) -> What:
    """Which list a table is: by its name if it came from an export, else by its headings and what stands under them.

    Raises:
        BadEntry: neither a part list nor readings.
    """
    for what in What:
        if plain(table.name) == plain(what.value):
            return what
    if _is_log(table):
        return What.READINGS
    if _fits(What.READINGS, table) and _mostly_sizes(table, What.READINGS, "typed"):
        return What.READINGS
    if _is_of_features(table) and not (_fits(What.READINGS, table) and not _mostly_specs(table)):
        return What.FEATURES
    best = max(_NEEDED, key=lambda what: (_fits(what, table), len(mapping(what, table.heads, table.rows))))
    if not _fits(best, table) or (best is What.PARTS and _mostly_sizes(table, What.PARTS, "name")):
        raise BadEntry(
            "has no headings of a part list or of readings.",
            where=table.name,
            way_out="Say in the window (File, Import) what each column means, or head the columns: code, name, "
            "quantity; or part code, feature, stage, reading, unit.",
        )
    return best


def _is_log(table: Table) -> bool:
    """Whether a table is one column of sizes: what a gauge or an indicator wrote down, one under the other."""
    filled = [at for at in range(len(table.heads)) if any(row[at].strip() for row in table.rows)]
    if len(filled) != 1 or plain(table.heads[filled[0]]) not in LOG_HEADS:
        return False
    cells = [row[filled[0]].strip() for row in table.rows if row[filled[0]].strip()]
    return all(is_size(cell) for cell in cells)


def _is_of_features(table: Table) -> bool:
    """Whether a table lists features, with a spec or without, of parts it names; they may be new parts."""
    named = set(mapping(What.FEATURES, table.heads, table.rows).values())
    if not says_feature(table.heads) or not named & {"part_code", "part_name"}:
        return False
    return "spec" in named or not named & {"part_quantity", "part_material"}


def _fits(what: What, table: Table) -> bool:
    named = set(mapping(what, table.heads, table.rows).values())
    return all(named & needed for needed in _NEEDED[what])


def _mostly_sizes(table: Table, what: What, name: str) -> bool:
    """Whether what stands under a heading is mostly sizes: those are measurements, and never parts."""
    at = next((at for at, one in mapping(what, table.heads, table.rows).items() if one == name), None)
    cells = [] if at is None else [row[at].strip() for row in table.rows if row[at].strip()]
    return bool(cells) and 2 * sum(is_size(cell) for cell in cells) > len(cells)


def _mostly_specs(table: Table) -> bool:
    """Whether what might be readings is mostly what a size is to be: 25 h6, 120 ±0.1, 9.98-10.02, max 0.02."""
    at = next(
        (at for at, one in mapping(What.READINGS, table.heads, table.rows).items() if one == "typed"), None
    )
    cells = [] if at is None else [row[at].strip() for row in table.rows if row[at].strip()]
    return bool(cells) and 2 * sum(bool(_SPEC.search(cell)) for cell in cells) > len(cells)


def lines(table: Table, columns: Mapping[int, str], what: What = What.PARTS) -> tuple[Line, ...]:
    """The rows of a table as lines of typed texts; rows in which nothing stands, and sums, are passed over.

    In a part list without a column of subassemblies a row with nothing but a name heads those under it. Of features
    the part may be said once, in the first of its rows.
    """
    found: list[Line] = []
    above: dict[str, str] = {}
    sections = sections_of(table, columns) if what is What.PARTS else NO_SECTIONS
    for at, row in enumerate(table.rows):
        if at in sections.heads or not any(row[column].strip() for column in columns):
            continue
        if what is What.PARTS and is_total(row):
            continue
        typed = {name: row[column] for column, name in columns.items()}
        if what is What.PARTS and names_nothing(typed):
            continue
        if at in sections.of:
            typed["group_name"] = sections.of[at]
        if what is What.FEATURES:
            above = _part_above(typed, above)
            typed |= above
        found.append(Line(table.first_row + at, typed))
    return tuple(found)


def _part_above(typed: Mapping[str, str], above: dict[str, str]) -> dict[str, str]:
    """The part of a row: its own, else that of the row above."""
    own = {name: typed.get(name, "") for name in _SAYS_PART}
    return own if any(text.strip() for text in own.values()) else above


def batches_of(path: Path) -> tuple[Batch, ...]:
    """What a file or an exported folder holds, read by its headings, in the order it must be imported.

    Raises:
        FileTrouble: unreadable, or a folder without lists.
        BadEntry: a table that is neither a part list nor readings.
    """
    if path.is_dir():
        files = [path / f"{what.value}.csv" for what in What if (path / f"{what.value}.csv").is_file()]
        if not files:
            raise FileTrouble(
                "holds no part list and no readings.",
                where=path.name,
                way_out=f"Choose a folder made by an export (it has a {NOTE} and {RECORDS}).",
            )
        tables = [table for file in files for table in _tables_or_none(file)]
    else:
        tables = list(read_tables(path))
    return batches_from(tables)


def batches_from(tables: Sequence[Table]) -> tuple[Batch, ...]:
    """The lists among some tables, in the order they must be imported. Raises BadEntry: none is one."""
    made = placed(tables)
    order = list(What)
    made.sort(key=lambda pair: order.index(pair[0]))
    return tuple(
        Batch(what, lines(table, mapping(what, table.heads, table.rows), what)) for what, table in made
    )


def placed(tables: Sequence[Table]) -> list[tuple[What, Table]]:
    """The tables that are a list, each with which; sheets of other things beside them are passed over.

    Raises:
        BadEntry: none of them is one.
    """
    found: list[tuple[What, Table]] = []
    trouble: BadEntry | None = None
    for table in tables:
        try:
            found.append((which(table), table))
        except BadEntry as none:
            trouble = trouble or none
    if not found and trouble is not None:
        raise trouble
    return found


def _tables_or_none(file: Path) -> tuple[Table, ...]:
    """The tables of an exported list; one without rows is simply empty."""
    if file.read_text(encoding="utf-8-sig").count("\n") <= 1:
        return ()
    return read_tables(file)
