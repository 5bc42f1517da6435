"""Every record of a file as plain rows with human column names, for export; nothing is left out."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from sqlalchemy import Boolean, Column, Connection, Float, Integer, Table, func, select, text

from rebuild.model.tables.every import whole
from rebuild.store.act import Act
from rebuild.work.lists.plain_rows import Value, plain_rows
from rebuild.work.records.field import Field, FieldKind
from rebuild.work.records.fields import CALLED, FIELDS

#: The tables the lookups here ask.
READS = frozenset({
    "act", "attempt", "box_thing", "call_out", "camera", "chart_line", "chart_reading", "chart_test",
    "clock", "clue", "concession", "constraint_part", "control", "cut_test", "day_off", "decision_option",
    "document", "document_page", "drafted_link", "fastener", "feature", "fit", "fitting", "hours_spent",
    "instrument", "joint", "kept_entry", "level_reading", "link", "link_proposal", "log_entry", "machine",
    "making_detail", "making_dimension", "making_sheet", "making_step", "making_tool", "mark_part",
    "matched_set", "means", "merged_part", "odd_size", "oil_point", "override", "part", "photo",
    "photo_mark", "photo_subject", "place", "question", "reading", "refit_step", "removal", "removal_part",
    "run_look", "run_reading", "run_step", "setting", "shim_leaf", "shim_pack", "station", "stay",
    "step_attempt", "step_means", "stock_item", "subassembly", "survey", "survey_line", "survey_reading",
    "task", "task_caution", "task_constraint", "unplaced", "waiting", "wear_rule", "work_spell",
})  # fmt: skip


@dataclass(frozen=True, slots=True)
class Head:
    """A column: its human name, its name in the file, and what it holds."""

    words: str
    column: str
    holds: str


@dataclass(frozen=True, slots=True)
class Listing:
    """One record type: its name in the file, its word, its columns, and its rows as they stream by, once."""

    name: str
    word: str
    heads: tuple[Head, ...]
    rows: Iterable[tuple[Value, ...]]


def everything(connection: Connection) -> Iterator[Listing]:
    """One listing for each record type, in an order in which what is referred to comes first; then the history.

    The rows of each are read while the caller walks through them.
    """
    for table in _tables():
        yield _listing(connection, table)
    yield _history(connection)


def how_many(connection: Connection) -> int:
    """The rows of every listing of records together, the history aside."""
    counted = (connection.execute(select(func.count()).select_from(table)) for table in _tables())
    return sum(int(one.scalar_one()) for one in counted)


def _tables() -> Iterator[Table]:
    return (
        table
        for table in whole().sorted_tables
        if table.info.get("journaled") or table.name in ("setting", "kept_entry")
    )


def _listing(connection: Connection, table: Table) -> Listing:
    heads = heads_of(table)
    columns = [table.c[head.column] for head in heads]
    first = table.c.id if "id" in table.c else table.c.key
    rows = plain_rows(connection, select(*columns).order_by(first))
    return Listing(table.name, word_of(table.name), heads, rows)


def word_of(name: str) -> str:
    """What a record type is called."""
    return CALLED.get(name, name.replace("_", " "))


def heads_of(table: Table) -> tuple[Head, ...]:
    """The columns of a table with human names; two that would be alike carry their column too."""
    labelled = _labels(table.name)
    heads = [
        Head(labelled.get(column.name, _words(column.name)), column.name, _holds(column))
        for column in table.c
    ]
    seen: dict[str, int] = {}
    for head in heads:
        seen[head.words] = seen.get(head.words, 0) + 1
    return tuple(
        Head(f"{head.words} ({head.column})", head.column, head.holds) if seen[head.words] > 1 else head
        for head in heads
    )


def _labels(name: str) -> dict[str, str]:
    found: dict[str, str] = {}
    for field in FIELDS.get(name, ()):
        found |= _labels_of(field)
    return found


def _labels_of(field: Field) -> dict[str, str]:
    if field.kind is FieldKind.LENGTH:
        typed, unit, mm = field.columns()
        return {typed: f"{field.label}, as typed", unit: f"{field.label}, unit", mm: f"{field.label} [mm]"}
    tail = {FieldKind.REFERENCE: " no.", FieldKind.CELSIUS: " [°C]", FieldKind.MINUTES: " [min]"}
    return {field.name: field.label + tail.get(field.kind, "")}


_TAILS = (
    ("_mm", " [mm]"), ("_um_per_m", " [µm/m]"), ("_c", " [°C]"), ("_min", " [min]"), ("_ml", " [mL]"),
    ("_id", " no."), ("_text", ", as typed"), ("_unit", ", unit"), ("_at", " at"),
)  # fmt: skip


def _words(column: str) -> str:
    """A column's name for people where no form shows it: ``value_mm`` is ``Value [mm]``."""
    if column == "id":
        return "No."
    for tail, shown in _TAILS:
        if column.endswith(tail) and len(column) > len(tail):
            return f"{column.removesuffix(tail).replace('_', ' ').capitalize()}{shown}"
    return column.replace("_", " ").capitalize()


def _holds(column: Column[object]) -> str:
    refers = next((f"number of a {word_of(key.column.table.name)}" for key in column.foreign_keys), "")
    kind = column.type
    if refers:
        return refers
    if isinstance(kind, Boolean):
        return "yes or no"
    if isinstance(kind, Integer):
        return "whole number"
    if isinstance(kind, Float):
        return "number, every digit kept"
    enums = getattr(kind, "enums", None)
    if enums:
        return f"one of: {', '.join(enums)}"
    return "date and time" if type(kind).__name__ == "Moment" else "text"


def _history(connection: Connection) -> Listing:
    heads = (
        Head("No.", "id", "whole number"),
        Head("At", "at", "date and time"),
        Head("What was done", "kind", "text"),
        Head("On what", "subject", "text"),
        Head("Taken back", "undone", "yes or no"),
        Head("Takes back or does again act no.", "reverses", "number of an act"),
    )
    rows = connection.execute(text("SELECT id, at, kind, subject, undone, reverses FROM act ORDER BY id"))
    return Listing(
        "act",
        "act of the history",
        heads,
        (
            (
                row.id,
                row.at.replace("T", " "),
                Act[row.kind].value if row.kind in Act.__members__ else row.kind,
                row.subject,
                bool(row.undone),
                row.reverses,
            )
            for row in rows
        ),
    )
