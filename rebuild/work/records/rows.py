"""One record's fields as text, for forms and panes; lists to choose references from."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.errors import NotThere
from rebuild.model.tables.charts import ChartTests
from rebuild.model.tables.controls import Controls
from rebuild.model.tables.lubrication import OilPoints
from rebuild.model.tables.machines import Subassemblies
from rebuild.model.tables.parts import MatchedSets, Parts
from rebuild.model.tables.photos import Photos
from rebuild.model.tables.places import Places
from rebuild.model.tables.readings import Instruments
from rebuild.model.tables.steps import Tasks
from rebuild.model.tables.surveys import Surveys
from rebuild.words.places import place_words
from rebuild.work.records.fields import FIELDS, called
from rebuild.work.records.rows_like import called as part_called, told_apart

#: The tables the lookups here ask.
READS = frozenset(FIELDS)


@dataclass(frozen=True, slots=True)
class Card:
    """A record's fields as text by name, and its raw ids."""

    record: str
    id: int
    fields: dict[str, str]
    references: dict[str, int | None]


def card(connection: Connection, record: str, row_id: int) -> Card:
    """The fields of one record. Raises NotThere."""
    fields = FIELDS[record]
    # A field shows what is stored as it stands; the record need not be mapped for it.
    found = connection.exec_driver_sql(f'SELECT * FROM "{record}" WHERE id = ?', (row_id,))
    row = found.mappings().first()
    if row is None:
        raise NotThere(
            f"The {called(record)} no. {row_id} is no longer there.", way_out="It may have been removed."
        )
    return Card(
        record,
        row_id,
        {field.name: field.show(dict(row)) for field in fields},
        {name: row[name] for name in row if str(name).endswith("_id")},
    )


@dataclass(frozen=True, slots=True)
class Choice:
    """One thing a reference can point at; ``short`` are its code and its name, either of which names it alone."""

    id: int
    label: str
    short: tuple[str, ...] = ()


def choices(connection: Connection, refers_to: str, machine_id: int) -> list[Choice]:
    """What a reference field may point at, in a person's order; none where the form itself offers them."""
    chooser = CHOOSERS.get(refers_to)
    return chooser(connection, machine_id) if chooser is not None else []


def _parts(connection: Connection, machine_id: int) -> list[Choice]:
    query = select(Parts.id, Parts.code, Parts.name).where(Parts.machine_id == machine_id)
    rows = connection.execute(query.order_by(Parts.code))
    beside = told_apart(connection, machine_id)
    return [
        Choice(row.id, part_called(row.code, row.name, beside.get(row.id, "")), (row.code, row.name))
        for row in rows
    ]


def _steps(connection: Connection, machine_id: int) -> list[Choice]:
    query = select(Tasks.id, Tasks.title).where(Tasks.machine_id == machine_id)
    return [Choice(row.id, row.title) for row in connection.execute(query.order_by(Tasks.position))]


def _places(connection: Connection, _machine_id: int) -> list[Choice]:
    query = select(Places.id, Places.kind, Places.name).order_by(Places.kind, Places.name)
    return [Choice(row.id, place_words(row.kind, row.name), (row.name,)) for row in connection.execute(query)]


def _instruments(connection: Connection, _machine_id: int) -> list[Choice]:
    query = select(Instruments.id, Instruments.name).order_by(Instruments.position)
    return [Choice(row.id, row.name) for row in connection.execute(query)]


def _matched_sets(connection: Connection, machine_id: int) -> list[Choice]:
    query = select(MatchedSets.id, MatchedSets.name).where(MatchedSets.machine_id == machine_id)
    return [Choice(row.id, row.name) for row in connection.execute(query.order_by(MatchedSets.name))]


def _oil_points(connection: Connection, machine_id: int) -> list[Choice]:
    query = select(OilPoints.id, OilPoints.number, OilPoints.feeds).where(OilPoints.machine_id == machine_id)
    rows = connection.execute(query.order_by(OilPoints.position))
    return [Choice(row.id, f"{row.number} {row.feeds}") for row in rows]


def _chart_tests(connection: Connection, machine_id: int) -> list[Choice]:
    query = select(ChartTests.id, ChartTests.number, ChartTests.name).where(
        ChartTests.machine_id == machine_id
    )
    rows = connection.execute(query.order_by(ChartTests.position))
    return [Choice(row.id, f"{row.number} {row.name}") for row in rows]


def _subassemblies(connection: Connection, machine_id: int) -> list[Choice]:
    query = select(Subassemblies.id, Subassemblies.code, Subassemblies.name).where(
        Subassemblies.machine_id == machine_id
    )
    rows = connection.execute(query.order_by(Subassemblies.position))
    return [Choice(row.id, f"{row.code} {row.name}".strip()) for row in rows]


def _surveys(connection: Connection, machine_id: int) -> list[Choice]:
    query = select(Surveys.id, Surveys.name).where(Surveys.machine_id == machine_id)
    return [Choice(row.id, row.name) for row in connection.execute(query.order_by(Surveys.id))]


def _controls(connection: Connection, machine_id: int) -> list[Choice]:
    query = select(Controls.id, Controls.name, Controls.location).where(Controls.machine_id == machine_id)
    rows = connection.execute(query.order_by(Controls.position, Controls.id))
    return [Choice(row.id, ", ".join(filter(None, (row.name, row.location)))) for row in rows]


def _photos(connection: Connection, machine_id: int) -> list[Choice]:
    query = select(Photos.id, Photos.file_name, Photos.proves).where(Photos.machine_id == machine_id)
    rows = connection.execute(query.order_by(Photos.id.desc()))
    return [Choice(row.id, " ".join(filter(None, (row.file_name, row.proves)))) for row in rows]


#: What can be chosen, by the word of a field's ``refers_to``, of one machine.
CHOOSERS: dict[str, Callable[[Connection, int], list[Choice]]] = {
    "part": _parts, "task": _steps, "place": _places, "instrument": _instruments, "matched set": _matched_sets,
    "oil point": _oil_points, "chart test": _chart_tests, "subassembly": _subassemblies, "survey": _surveys,
    "control": _controls, "photo": _photos,
}  # fmt: skip
