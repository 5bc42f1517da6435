"""``rebuild.trade`` as a library: ``help`` maps every folder, and each function one may call shows an example."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

import rebuild.trade

TRADE = Path(next(iter(rebuild.trade.__path__)))
MAP = rebuild.trade.__doc__ or ""
FOLDERS = sorted(path.parent.name for path in TRADE.glob("*/__init__.py"))


def doors() -> Iterator[tuple[str, ast.FunctionDef]]:
    """Every public function held at its ``@door()``, with the module it lies in."""
    for path in sorted(TRADE.rglob("*.py")):
        for node in ast.parse(path.read_text(encoding="utf-8")).body:
            if (
                isinstance(node, ast.FunctionDef)
                and not node.name.startswith("_")
                and any(ast.unparse(one).startswith("door(") for one in node.decorator_list)
            ):
                yield path.relative_to(TRADE).as_posix(), node


@pytest.mark.parametrize("folder", FOLDERS)
def test_help_of_the_trade_says_what_each_folder_holds(folder: str) -> None:
    said = re.search(rf"``{folder}``: \S.+", MAP)
    assert said is not None, f"the map of rebuild.trade does not say what {folder} holds"


def test_the_map_names_no_folder_that_is_not_there() -> None:
    assert set(re.findall(r"``(\w+)``: ", MAP)) <= set(FOLDERS)


def test_the_map_ends_with_a_first_example() -> None:
    assert ">>> " in MAP.partition("``figures``")[2]


def test_each_engineering_function_shows_an_example() -> None:
    told = list(doors())
    assert len(told) > 250  # the pattern still finds them
    without = [f"{where}: {one.name}" for where, one in told if ">>> " not in (ast.get_docstring(one) or "")]
    assert not without, f"These have no example to run: {', '.join(without)}"
