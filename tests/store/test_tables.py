"""Tables written once: light for questions, whole for the file, and the same in both."""

from __future__ import annotations

import ast
import datetime as dt
import subprocess
import sys
from pathlib import Path

import pytest
from sqlalchemy import Column, Enum, create_engine, insert, literal, select
from sqlalchemy.types import TypeEngine

from rebuild.model import tables
from rebuild.model.asked import Asked, alias, metadata
from rebuild.model.stored import Moment
from rebuild.model.tables.every import every_table, whole
from rebuild.model.tables.machines import Machines
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.teardown import Fasteners
from rebuild.words.decisions import Decision

FOLDER = Path(str(tables.__file__)).parent
EVERY = every_table()


def test_every_class_of_the_folder_is_a_table_and_no_table_is_written_twice() -> None:
    written = [
        node.name
        for path in sorted(FOLDER.glob("*.py"))
        for node in ast.parse(path.read_text(encoding="utf-8")).body
        if isinstance(node, ast.ClassDef)
    ]
    assert sorted(asked.__name__ for asked in EVERY) == sorted(written)
    names = [asked.table_name for asked in EVERY]
    assert len(set(names)) == len(names)
    assert set(names) == {name for name in whole().tables if not name.startswith("j_")}


@pytest.mark.parametrize("asked", EVERY, ids=lambda asked: asked.__name__)
def test_a_question_gets_back_what_the_file_keeps(asked: type[Asked]) -> None:
    kept = asked.table
    assert kept is asked.table, "built twice"
    assert kept.name == asked.table_name == asked.clause().name  # type: ignore[attr-defined]
    assert [column.name for column in asked.columns()] == [column.name for column in kept.columns]
    for column in kept.columns:
        same_kind(column, getattr(asked, column.name).type)


def same_kind(column: Column[object], found: TypeEngine[object]) -> None:
    """Both ways of naming a column bind and give back alike."""
    assert type(found) is type(column.type), column.name
    if isinstance(column.type, Enum):
        assert isinstance(found, Enum)
        assert found.enum_class is column.type.enum_class
        assert found.enums == column.type.enums


@pytest.mark.parametrize("asked", EVERY, ids=lambda asked: asked.__name__)
def test_a_column_is_written_with_the_type_it_gives_back(asked: type[Asked]) -> None:
    """``Cell[str | None]`` beside ``maybe(as_text())``: what the type checker is told is what the file keeps."""
    told = {
        name: note for base in asked.__mro__ for name, note in vars(base).get("__annotations__", {}).items()
    }
    for column in asked.table.columns:
        kind = column.type
        if isinstance(kind, Enum):
            assert kind.enum_class is not None
            wanted = kind.enum_class.__name__
        else:
            wanted = "dt.datetime" if isinstance(kind, Moment) else kind.python_type.__name__
        assert told[column.name] == f"Cell[{wanted}{' | None' if column.nullable else ''}]", column.name


@pytest.mark.parametrize("asked", EVERY, ids=lambda asked: asked.__name__)
def test_no_column_hides_what_every_table_can_do(asked: type[Asked]) -> None:
    assert not {cell.name for cell in asked.cells()} & set(dir(Asked))


def test_a_name_that_is_no_column_is_refused() -> None:
    with pytest.raises(AttributeError):
        Parts.gearbox  # type: ignore[attr-defined]  # noqa: B018
    assert Parts.name is Parts.name


def test_questions_take_the_class_for_the_table() -> None:
    query = (
        select(Parts.id, Machines.name)
        .select_from(Parts)
        .join(Machines, Machines.id == Parts.machine_id)
        .where(Parts.code == "HS-01")
    )
    assert " ".join(str(query).split()) == (
        "SELECT part.id, machine.name FROM part JOIN machine ON machine.id = part.machine_id "
        "WHERE part.code = :code_1"
    )


def test_an_alias_stands_beside_its_table() -> None:
    original = alias(Parts, "original")
    query = select(Parts.id, original.name).join(original, original.id == Parts.spare_of_id)
    assert " ".join(str(query).split()) == (
        "SELECT part.id, original.name FROM part JOIN part AS original ON original.id = part.spare_of_id"
    )
    assert Parts.clause().name == "part"  # type: ignore[attr-defined]


def test_a_row_of_a_table_has_its_values_and_only_those_read() -> None:
    engine = create_engine("sqlite://")
    whole().create_all(engine)
    with engine.connect() as connection:
        connection.execute(insert(Machines.table).values(id=1, name="Lathe"))
        connection.execute(insert(Parts.table).values(id=7, machine_id=1, name="spindle"))
        row = connection.execute(
            select(*Parts.columns(), Machines.unit).join(Machines, Machines.id == 1)
        ).one()
        part = Parts.of(row)
        assert (part.id, part.name, part.decision, part.decided_at) == (7, "spindle", Decision.OPEN, None)
        short = Parts.of(connection.execute(select(Parts.id)).one())
    engine.dispose()
    with pytest.raises(AttributeError, match="part was read without name"):
        short.name  # noqa: B018


def test_a_column_named_as_a_tuple_calls_its_own_is_the_column() -> None:
    """A row of SQLAlchemy is a tuple: its ``count`` would be the tuple's."""
    engine = create_engine("sqlite://")
    with engine.connect() as connection:
        row = connection.execute(select(literal(3).label("count"))).one()
        assert Fasteners.of(row).count == 3
    engine.dispose()


def test_a_question_neither_builds_the_file_s_table_nor_knows_the_mapper() -> None:
    code = (
        "import sys\n"
        "from sqlalchemy import select\n"
        "from rebuild.model.asked import alias, metadata\n"
        "from rebuild.model.tables.parts import Parts\n"
        "other = alias(Parts, 'other')\n"
        "str(select(Parts.id, other.name).where(Parts.decided_at.is_(None)))\n"
        "print(len(metadata.tables), 'sqlalchemy.orm' in sys.modules)\n"
    )
    said = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert said.stdout.split() == ["0", "False"]


def test_times_and_words_come_back_as_such() -> None:
    assert isinstance(Parts.decided_at.type, Moment)
    assert Moment().process_result_value("2026-03-14T19:30:00", None) == dt.datetime(2026, 3, 14, 19, 30)
    assert metadata is whole()
