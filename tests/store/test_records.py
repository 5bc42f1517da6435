"""Records are found by name and by table, loaded when asked for, and all there before the first act."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import pytest

import rebuild.model.all as model
from rebuild.model.base import Base
from rebuild.model.journal import journaled


def mapped() -> dict[str, type]:
    model.whole()
    return {mapper.class_.__name__: mapper.class_ for mapper in Base.registry.mappers}


def test_every_mapped_class_is_listed_with_its_module() -> None:
    listed = {name: f"rebuild.model.{module}" for module, names in model._WHERE.items() for name in names}
    listed.pop("Base", None)
    assert listed == {name: found.__module__ for name, found in mapped().items()}


def test_the_type_checker_sees_the_same_list() -> None:
    tree = ast.parse(Path(str(model.__file__)).read_text(encoding="utf-8"))
    guarded = next(node for node in tree.body if isinstance(node, ast.If))
    typed = {
        (str(node.module).removeprefix("rebuild.model."), alias.name)
        for node in guarded.body
        if isinstance(node, ast.ImportFrom)
        for alias in node.names
    }
    assert typed == {(module, name) for module, names in model._WHERE.items() for name in names}


def test_every_module_of_records_is_listed() -> None:
    folder = Path(str(model.__file__)).parent
    with_records = {
        path.stem for path in folder.glob("*.py") if "__tablename__" in path.read_text(encoding="utf-8")
    }
    assert with_records - {"all"} <= set(model._WHERE)


def test_a_record_is_found_by_its_table() -> None:
    for table in journaled(model.whole()):
        assert model.record(table.name).__tablename__ == table.name
    with pytest.raises(KeyError):
        model.record("gearbox")
    with pytest.raises(AttributeError):
        model.Gearbox  # noqa: B018


def test_looking_at_a_file_maps_nothing_and_the_first_act_everything(project: Path) -> None:
    code = (
        "import sys; from pathlib import Path\n"
        "from rebuild.store.store import Store\n"
        "from rebuild.work.machines import rows_tree as tree\n"
        f"store = Store.open(Path({str(project)!r}))\n"
        "with store.read() as connection:\n"
        "    tree.machines(connection)\n"
        "print('rebuild.model.part' in sys.modules, 'rebuild.model.chart' in sys.modules)\n"
        "from rebuild.work.machines import acts as identify\n"
        "identify.add_place(store, 'shelf')\n"
        "print('rebuild.model.part' in sys.modules, 'rebuild.model.chart' in sys.modules)\n"
        "store.close()"
    )
    said = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert said.stdout.split() == ["False", "False", "True", "True"]
