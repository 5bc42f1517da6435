"""Tables of an installed general-purpose library, read as files: an independent check, no heavy import."""

from __future__ import annotations

import ast
import csv
from importlib.util import find_spec
from pathlib import Path

import pytest


def _package() -> Path:
    spec = find_spec("bd_warehouse")
    if spec is None or not spec.submodule_search_locations:
        pytest.skip("the table-carrying test library is not installed")
    return Path(next(iter(spec.submodule_search_locations)))


def registry_table(name: str) -> list[dict[str, str]]:
    """One CSV table of the library."""
    path = _package() / "data" / f"{name}.csv"
    if not path.exists():
        pytest.skip(f"the test library carries no {name}")
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def class_constant(module: str, class_name: str, name: str) -> ast.expr:
    """The expression a class of the library assigns to ``name``, unevaluated."""
    tree = ast.parse((_package() / f"{module}.py").read_text(encoding="utf-8"))
    for node in ast.walk(tree):
        if isinstance(node, ast.ClassDef) and node.name == class_name:
            for item in node.body:
                if isinstance(item, ast.Assign) and any(
                    isinstance(target, ast.Name) and target.id == name for target in item.targets
                ):
                    return item.value
    pytest.skip(f"the test library has no {class_name}.{name}")
