"""No circles between folders of one floor, nor between files; no module without a noun; who may write.

Imports inside functions count as well, those under TYPE_CHECKING do not. Each wrong arrow is said in a sentence.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator, Mapping
from pathlib import Path

import networkx as nx
import pytest

from tests.sources import PACKAGE, calls_store_act, nodes_of, statements, tree_of

FLOORS = ("words", "trade", "model", "store", "work", "exchange", "sheets", "demo", "window", "cli")
#: Floors whose modules all lie in the folder of their noun.
ROOMED = ("trade", "work", "window")


def module_name(path: Path) -> str:
    """The dotted name of a module's file; a package is named by its folder."""
    parts = ("rebuild", *path.relative_to(PACKAGE).with_suffix("").parts)
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


def run_time_imports(tree: ast.Module, modules: Mapping[str, object]) -> Iterator[tuple[str, int]]:
    """The modules of ``modules`` a source imports when it runs, with the line."""
    for node in statements(tree, types=False):
        if isinstance(node, ast.Import):
            found = [(alias.name, node.lineno) for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            found = [
                (
                    full if (full := f"{node.module}.{alias.name}") in modules else str(node.module),
                    node.lineno,
                )
                for alias in node.names
            ]
        else:
            continue
        yield from ((name, line) for name, line in found if name in modules)


@pytest.fixture(scope="module")
def arrows() -> nx.DiGraph:
    """Every module of the program and what it imports; each edge carries its line."""
    files = {module_name(path): path for path in sorted(PACKAGE.rglob("*.py"))}
    graph = nx.DiGraph()
    graph.add_nodes_from(files)
    for name, path in files.items():
        for other, line in run_time_imports(tree_of(path), files):
            if other != name:
                graph.add_edge(name, other, line=line)
    return graph


def sentences(graph: nx.DiGraph, *, folders: bool) -> list[str]:
    """One sentence for each arrow that closes a circle."""
    told = []
    for circle in nx.strongly_connected_components(graph):
        if len(circle) < 2:
            continue
        for here, there, data in graph.subgraph(circle).edges(data=True):
            what = "folder" if folders else "file"
            because = f": {data['because']}" if folders else f" in line {data['line']}"
            told.append(f"{here} imports {there}{because}; this {what} is in a circle of {len(circle)}.")
    return sorted(told)


def by_folder(graph: nx.DiGraph, floor: str) -> nx.DiGraph:
    """The arrows between the folders of one floor, each with one import that draws it."""
    folders = nx.DiGraph()
    for here, there, data in graph.edges(data=True):
        one, other = here.split("."), there.split(".")
        if one[1:2] == [floor] == other[1:2] and len(one) > 3 and len(other) > 3 and one[2] != other[2]:
            folders.add_edge(one[2], other[2], because=f"{here} line {data['line']} imports {there}")
    return folders


def test_no_file_is_in_a_circle(arrows: nx.DiGraph) -> None:
    assert not (told := sentences(arrows, folders=False)), "\n".join(told)


@pytest.mark.parametrize("floor", FLOORS)
def test_no_folder_of_a_floor_is_in_a_circle(arrows: nx.DiGraph, floor: str) -> None:
    assert not (told := sentences(by_folder(arrows, floor), folders=True)), "\n".join(told)


def test_an_arrow_back_is_told() -> None:
    graph = nx.DiGraph()
    graph.add_edge("rebuild.work.steps.acts", "rebuild.work.joints.acts", line=3)
    graph.add_edge("rebuild.work.joints.rules", "rebuild.work.steps.rules", line=9)
    assert sentences(by_folder(graph, "work"), folders=True) == [
        "joints imports steps: rebuild.work.joints.rules line 9 imports rebuild.work.steps.rules; "
        "this folder is in a circle of 2.",
        "steps imports joints: rebuild.work.steps.acts line 3 imports rebuild.work.joints.acts; "
        "this folder is in a circle of 2.",
    ]


def test_lazy_imports_count_and_typing_ones_do_not() -> None:
    source = (
        "from typing import TYPE_CHECKING\n"
        "if TYPE_CHECKING:\n    from rebuild.work import a\n"
        "def later():\n    from rebuild.work import b\n"
    )
    modules = {"rebuild.work": 0, "rebuild.work.a": 0, "rebuild.work.b": 0}
    assert list(run_time_imports(ast.parse(source), modules)) == [("rebuild.work.b", 5)]


@pytest.mark.parametrize("floor", ROOMED)
def test_no_module_lies_loose(floor: str) -> None:
    loose = sorted(path.name for path in (PACKAGE / floor).glob("*.py") if path.name != "__init__.py")
    assert not loose, f"{', '.join(loose)} of {floor}/ lie in no noun's folder"


def test_only_acts_write() -> None:
    """In work/, ``store.act`` is called in files named ``acts*.py`` and nowhere else."""
    wrong = [
        f"{module_name(path)} line {node.lineno} begins an act, but its name says it does not write"
        for path in sorted((PACKAGE / "work").rglob("*.py"))
        if not path.name.startswith("acts")
        for node in nodes_of(tree_of(path))
        if isinstance(node, ast.Call) and calls_store_act(node)
    ]
    assert not wrong, "\n".join(wrong)


def test_what_reads_imports_nothing_that_writes(arrows: nx.DiGraph) -> None:
    wrong = [
        f"{here} line {data['line']} reads or refuses, yet imports {there}, which writes"
        for here, there, data in arrows.edges(data=True)
        if here.startswith("rebuild.work.")
        and here.rsplit(".", 1)[1].startswith(("rows", "rules"))
        and there.startswith("rebuild.work.")
        and there.rsplit(".", 1)[1].startswith("acts")
    ]
    assert not wrong, "\n".join(wrong)
