"""Records are mapped on the very tables lookups ask, found by table, and all there before the first act."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import pytest
from sqlalchemy import inspect, select

from rebuild.model import records, tables
from rebuild.model.records.every import every_record, record
from rebuild.model.records.parts import Part
from rebuild.model.records.record import Record, mapped
from rebuild.model.shadows import journaled
from rebuild.model.tables.every import every_table, whole
from rebuild.model.tables.parts import Parts

FOLDER = Path(str(records.__file__)).parent
TABLES = Path(str(tables.__file__)).parent
BESIDE = {"__init__", "every", "record"}


def bases(path: Path) -> dict[str, list[str]]:
    """The classes of a module with the names of their bases."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    return {
        node.name: [ast.unparse(base) for base in node.bases]
        for node in tree.body
        if isinstance(node, ast.ClassDef)
    }


def test_every_table_has_one_record_mapped_on_it() -> None:
    found = every_record()
    assert {asked.table_name for asked in every_table()} == set(found)
    assert len(found) == len(list(mapped.mappers))
    for asked in every_table():
        made = found[asked.table_name]
        assert issubclass(made, asked)
        assert inspect(made).local_table is asked.table
        assert made.__module__.rpartition(".")[2] == asked.__module__.rpartition(".")[2]


def test_a_record_is_nothing_but_its_table_mapped() -> None:
    """Nothing of a table is written a second time; both folders have the same modules."""
    modules = {path.stem for path in FOLDER.glob("*.py")} - BESIDE
    assert modules == {path.stem for path in TABLES.glob("*.py")} - BESIDE
    for name in sorted(modules):
        written = bases(FOLDER / f"{name}.py")
        assert [of for _record, of in written.values()] == list(bases(TABLES / f"{name}.py")), name
        assert {first for first, _of in written.values()} == {"Record"}, name
        assert ": Cell[" not in (FOLDER / f"{name}.py").read_text(encoding="utf-8")


def test_the_type_checker_sees_every_record_where_it_is_loaded_from() -> None:
    written = {
        (path.stem, name) for path in FOLDER.glob("*.py") if path.stem not in BESIDE for name in bases(path)
    }
    assert written == {
        (found.__module__.rpartition(".")[2], found.__name__) for found in every_record().values()
    }


def test_a_record_is_found_by_its_table() -> None:
    for table in journaled(whole()):
        found = record(table.name)
        assert issubclass(found, Record)
        assert found.table_name == table.name
    with pytest.raises(KeyError):
        record("gearbox")


def test_a_record_is_asked_for_as_a_record_and_its_table_as_a_table() -> None:
    assert select(Part).column_descriptions[0]["entity"] is Part
    assert select(*Parts.columns()).column_descriptions[0].get("entity") is None
    assert not hasattr(Part, "__clause_element__")


def test_a_new_record_takes_its_columns_by_name_and_no_others() -> None:
    part = Part(name="spindle", machine_id=1)
    assert (part.name, part.machine_id, part.code) == ("spindle", 1, None)
    with pytest.raises(TypeError, match="gearbox"):
        Part(gearbox="x")


def test_only_who_acts_or_rules_loads_a_record() -> None:
    """A lookup asks the tables; so does whatever lies beside it."""
    package = FOLDER.parent.parent
    found = [
        f"{path.relative_to(package)} imports {node.module}"
        for path in sorted((package / "work").rglob("*.py"))
        if not path.name.startswith(("acts", "rules")) and path.relative_to(package).as_posix() not in HELD
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.ImportFrom) and str(node.module).startswith("rebuild.model.records")
    ]
    assert not found, "\n".join(found)


#: Helpers of acts that do not say so in their name: they put values on a record, or hand one out.
HELD = {"work/making/measures.py", "work/records/fields.py", "work/records/columns.py"}


def test_looking_at_a_file_maps_nothing_and_the_first_act_everything(project: Path) -> None:
    code = (
        "import sys; from pathlib import Path\n"
        "from rebuild.store.store import Store\n"
        "from rebuild.work.machines import rows_tree as tree\n"
        "from rebuild.model.asked import metadata\n"
        "mapped = 'rebuild.model.records.parts', 'rebuild.model.records.charts', 'sqlalchemy.orm'\n"
        "def said(): print(*(name in sys.modules for name in mapped), len(metadata.tables))\n"
        f"store = Store.open(Path({str(project)!r}))\n"
        "with store.read() as connection:\n"
        "    tree.machines(connection)\n"
        "said()\n"
        "from rebuild.work.machines import acts as identify\n"
        "identify.add_place(store, 'shelf')\n"
        "said()\n"
        "store.close()"
    )
    said = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert said.stdout.split() == [
        "False",
        "False",
        "False",
        "0",
        "True",
        "True",
        "True",
        str(len(every_table())),
    ]
