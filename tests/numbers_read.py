"""Where a text may become a number: every call of a number's maker in ``rebuild`` that is not plainly given one."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

from tests.sources import tree_of

HOME = Path(__file__).parent.parent / "rebuild"
MAKERS = frozenset(
    (
        "float",
        "int",
        "complex",
        "Decimal",
        "Fraction",
        "float64",
        "literal_eval",
        "atof",
        "atoi",
        "toDouble",
        "toInt",
    )
)
#: Calls that give back a number whatever they are given.
NUMBERS = MAKERS | frozenset(
    ("len", "round", "sum", "abs", "min", "max", "floor", "ceil", "sqrt", "half_up", "half_even", "timestamp",
     "number_of", "exact", "mixed", "read_number", "read_whole", "height", "width", "value", "data", "scalar_one")
)  # fmt: skip
_TYPES = frozenset(("float", "int", "Fraction", "Decimal", "None"))


def places(path: Path) -> Iterator[tuple[str, int, str]]:
    """Function, line and source of every call in a file that may turn text into a number."""
    yield from _Reader().read(tree_of(path), "", {})


class _Reader:
    def read(self, node: ast.AST, inside: str, known: dict[str, bool]) -> Iterator[tuple[str, int, str]]:
        if isinstance(node, ast.FunctionDef):
            inside, known = node.name, _names_of(node, known)
        elif isinstance(node, ast.Call) and self._may_read(node, known):
            yield inside, node.lineno, ast.unparse(node)
        for child in ast.iter_child_nodes(node):
            yield from self.read(child, inside, known)

    def _may_read(self, call: ast.Call, known: dict[str, bool]) -> bool:
        name = _called(call)
        if name in ("isinstance", "issubclass", "cast", "TypeVar", "mapped_column", "Signal"):
            return False
        handed_on = [*call.args, *(word.value for word in call.keywords)]
        if any(isinstance(value, ast.Name) and value.id in MAKERS for value in handed_on):
            return True
        if name not in MAKERS or not call.args or _is_written_out(call.args[0]):
            return False
        return not _is_number(call.args[0], known)


def _called(call: ast.Call) -> str:
    return call.func.id if isinstance(call.func, ast.Name) else getattr(call.func, "attr", "")


def _names_of(function: ast.FunctionDef, outer: dict[str, bool]) -> dict[str, bool]:
    """The names of a function that plainly hold numbers: by their annotation, or by what is put into them."""
    known = dict(outer)
    arguments = function.args
    for argument in (*arguments.posonlyargs, *arguments.args, *arguments.kwonlyargs):
        known[argument.arg] = argument.annotation is not None and _is_type(argument.annotation)
    for node in ast.walk(function):
        if isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name):
            known[node.target.id] = _is_type(node.annotation)
        elif isinstance(node, ast.Assign):
            for target in node.targets:
                if isinstance(target, ast.Name):
                    known[target.id] = _is_number(node.value, known)
    return known


def _is_type(annotation: ast.expr) -> bool:
    return {word.strip() for word in ast.unparse(annotation).split("|")} <= _TYPES


def _is_written_out(node: ast.expr) -> bool:
    """A number that stands in the program itself, or one of two."""
    if isinstance(node, ast.IfExp):
        return _is_written_out(node.body) and _is_written_out(node.orelse)
    return isinstance(node, ast.Constant)


def _is_number(node: ast.expr, known: dict[str, bool]) -> bool:
    if isinstance(node, ast.Constant):
        return not isinstance(node.value, str | bytes)
    if isinstance(node, ast.UnaryOp | ast.Compare):
        return True
    if isinstance(node, ast.BinOp):
        strings = isinstance(node.op, ast.Add | ast.Mod)
        return not strings or _is_number(node.left, known) or _is_number(node.right, known)
    if isinstance(node, ast.IfExp):
        return _is_number(node.body, known) and _is_number(node.orelse, known)
    if isinstance(node, ast.BoolOp):
        return all(_is_number(value, known) for value in node.values)
    if isinstance(node, ast.Call):
        return _called(node) in NUMBERS
    if isinstance(node, ast.Subscript):
        return _is_cell(node)
    if isinstance(node, ast.Attribute):
        return ast.unparse(node).startswith("Qt.")
    return isinstance(node, ast.Name) and known.get(node.id, False)


def _is_cell(node: ast.Subscript) -> bool:
    """A cell of a row: of a table the program brings, or of the file."""
    root = node.value
    while isinstance(root, ast.Subscript):
        root = root.value
    return isinstance(root, ast.Name) and root.id in ("row", "rows")
