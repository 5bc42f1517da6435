"""The arrows of the house, in sentences: imports go down only, heavy libraries come late."""

from __future__ import annotations

import ast
import subprocess
import sys
from collections.abc import Iterable, Iterator
from functools import cache
from pathlib import Path

import pytest

from tests.sources import PACKAGE, calls_store_act, nodes_of, statements, tree_of

#: Each floor, and the floors it may know. what is everybody's stands below.
MAY_KNOW = {
    "words": set(),
    "trade": {"words"},
    "model": {"words"},
    "store": {"model", "words"},
    "work": {"store", "model", "trade", "words"},
    "exchange": {"work", "store", "model", "trade", "words"},
    "sheets": {"work", "store", "model", "trade", "exchange", "words"},
    "demo": {"work", "store", "model", "trade", "words"},
    "window": {"work", "store", "model", "trade", "exchange", "sheets", "demo", "words"},
    "cli": {"window", "work", "store", "model", "trade", "exchange", "sheets", "demo", "words"},
}
#: What every floor may know: single files beside the floors.
EVERYBODYS = {"errors", "fault_report"}
DATABASE = {"sqlalchemy", "alembic", "sqlite3"}
QT = {"PySide6", "shiboken6"}
HEAVY = ("alembic", "pint", "numpy", "reportlab", "ezdxf", "openpyxl", "segno", "scipy")


def modules_of(floor: str) -> list[Path]:
    return sorted((PACKAGE / floor).rglob("*.py"))


def imports_of(path: Path, *, types: bool = True) -> Iterator[tuple[str, int]]:
    """Every imported name of a file, inside functions too; ``types`` adds those under TYPE_CHECKING."""
    yield from imports_for_types(path) if types else imports_at_run_time(path)


@cache
def imports_for_types(path: Path) -> list[tuple[str, int]]:
    return list(_imports(path, statements(tree_of(path))))


@cache
def imports_at_run_time(path: Path) -> list[tuple[str, int]]:
    return list(_imports(path, statements(tree_of(path), types=False)))


def _imports(path: Path, nodes: Iterable[ast.AST]) -> Iterator[tuple[str, int]]:
    for node in nodes:
        if isinstance(node, ast.Import):
            yield from ((alias.name, node.lineno) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}:{node.lineno} imports relatively"
            yield from ((f"{node.module}.{alias.name}", node.lineno) for alias in node.names)


def offences(floor: str, forbidden: set[str], *, types: bool = True) -> list[str]:
    return [
        f"{path.relative_to(PACKAGE)}:{line} imports {name}"
        for path in modules_of(floor)
        for name, line in imports_of(path, types=types)
        if name.split(".")[0] in forbidden
    ]


@pytest.mark.parametrize("floor", MAY_KNOW)
def test_a_floor_knows_only_the_floors_below_it(floor: str) -> None:
    allowed = MAY_KNOW[floor] | {floor} | EVERYBODYS
    found = []
    for path in modules_of(floor):
        for name, line in imports_of(path):
            parts = name.split(".")
            if parts[0] == "rebuild" and len(parts) > 1 and parts[1] not in allowed and "__" not in parts[1]:
                found.append(f"{path.relative_to(PACKAGE)}:{line} imports {name}")
    assert not found, "\n".join(found)


def test_every_floor_is_listed_here() -> None:
    folders = {path.name for path in PACKAGE.iterdir() if path.is_dir() and any(path.glob("*.py"))}
    assert folders - {"_migrations", "_assets"} <= set(MAY_KNOW)


def test_the_trade_knows_neither_qt_nor_sql() -> None:
    assert not offences("trade", QT | DATABASE)


@pytest.mark.parametrize("floor", ["model", "store", "work", "exchange", "sheets", "demo"])
def test_only_the_window_knows_qt(floor: str) -> None:
    assert not offences(floor, QT)


@pytest.mark.parametrize("floor", ["window", "sheets", "exchange", "demo"])
def test_nobody_above_the_acts_sees_a_session_or_a_database(floor: str) -> None:
    """A connection may pass through as it came from ``store.read``, and so be named in a type."""
    assert not offences(floor, DATABASE, types=False)


@pytest.mark.parametrize("floor", ["window", "sheets", "exchange", "demo"])
def test_nobody_above_the_acts_sees_a_mapped_record(floor: str) -> None:
    found = [
        f"{path.relative_to(PACKAGE)}:{line} imports {name}"
        for path in modules_of(floor)
        for name, line in imports_of(path)
        if name.startswith("rebuild.model")
    ]
    assert not found, "\n".join(found)


@pytest.mark.parametrize("floor", ["window", "sheets", "exchange", "demo"])
def test_only_acts_open_acts(floor: str) -> None:
    """A write begins with ``store.act``: called nowhere above work."""
    found = [
        f"{path.relative_to(PACKAGE)}:{node.lineno}"
        for path in modules_of(floor)
        for node in nodes_of(tree_of(path))
        if isinstance(node, ast.Call) and calls_store_act(node)
    ]
    assert not found, "\n".join(found)


@pytest.mark.parametrize("entry", ["rebuild.window.desk.desk", "rebuild.store.store", "rebuild.cli.main"])
def test_heavy_libraries_are_not_loaded_at_the_start(entry: str) -> None:
    code = f"import sys, {entry}\nprint(','.join(name for name in {HEAVY!r} if name in sys.modules))"
    said = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert said.stdout.strip() == ""


def test_opening_a_file_and_reading_in_it_loads_nothing_heavy(project: Path) -> None:
    code = (
        "import sys\n"
        "from pathlib import Path\n"
        "from rebuild.store.store import Store\n"
        "from rebuild.work.machines import rows_tree as tree\n"
        "from rebuild.work.machines import acts as identify\n"
        f"store = Store.open(Path({str(project)!r}))\n"
        "identify.add_machine(store, 'Lathe')\n"
        "with store.read() as connection:\n"
        "    assert len(tree.machines(connection)) == 1\n"
        "store.undo()\n"
        "store.close()\n"
        f"print(','.join(name for name in {(*HEAVY, 'PySide6')!r} if name in sys.modules))"
    )
    said = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert said.stdout.strip() == ""
