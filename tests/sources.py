"""The program's own sources, read once for all tests that look at them; look, never change."""

from __future__ import annotations

import ast
import gc
from collections.abc import Iterator
from functools import cache
from pathlib import Path

PACKAGE = Path(__file__).resolve().parent.parent / "rebuild"


@cache
def source_of(path: Path) -> str:
    """The text of a file."""
    return path.read_text(encoding="utf-8")


@cache
def tree_of(path: Path) -> ast.Module:
    """What a file says; nothing in a tree is a circle, and looking for one cost as much as reading it."""
    looks = gc.isenabled()
    gc.disable()
    try:
        return ast.parse(source_of(path))
    finally:
        if looks:
            gc.enable()


@cache
def nodes_of(tree: ast.AST) -> tuple[ast.AST, ...]:
    """All that lies in and under a node, in the order of ``ast.walk``: walked once for all who look."""
    return tuple(ast.walk(tree))


@cache
def modules() -> tuple[Path, ...]:
    """Every file of the program."""
    return tuple(sorted(PACKAGE.rglob("*.py")))


def statements(node: ast.AST, *, types: bool = True) -> Iterator[ast.AST]:
    """Every statement in and under ``node``, expressions left aside; without those for types only, if so asked."""
    if isinstance(node, ast.stmt):
        yield node
    only_types = not types and isinstance(node, ast.If) and _is_of_types(node.test)
    for name in ("body", "handlers", "orelse", "finalbody", "cases"):
        if not (only_types and name == "body"):
            under = getattr(node, name, ())
            for child in under if isinstance(under, list) else ():
                yield from statements(child, types=types)


def _is_of_types(test: ast.expr) -> bool:
    return any(getattr(node, "id", getattr(node, "attr", "")) == "TYPE_CHECKING" for node in ast.walk(test))


def calls_store_act(call: ast.Call) -> bool:
    """Whether a call begins an act of the store."""
    named = isinstance(call.func, ast.Attribute) and call.func.attr == "act"
    return named and ast.unparse(call.func).endswith("store.act")
