"""The work graph alone says what is ready: a second computation of it is named here, and fails.

Looked at are the sources: who asks the links between steps, who walks them, and who answers by a name that says
"this can be begun". Each place allowed has its reason.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator

from tests.sources import PACKAGE, modules, nodes_of, source_of, statements, tree_of

#: Who asks the table of links, and what for.
ASKS_LINKS = {
    "model/records/steps.py": "maps them",
    "model/tables/steps.py": "is them",
    "work/checks/check.py": "looks for a loop among them",
    "work/means/acts.py": "ties the step that makes a means to those that need it",
    "work/plan/rows_known.py": "reads them for the graph",
    "work/refit/acts.py": "drafts them",
    "work/refit/acts_carry.py": "carries them over",
    "work/refit/acts_missed_links.py": "proposes them",
    "work/refit/acts_subassemblies.py": "drafts them between subassemblies",
    "work/steps/acts.py": "adds them, and refuses a loop",
    "work/steps/acts_take_over.py": "adds those of work taken over",
    "work/steps/rows.py": "lists them to be edited, by id",
    "work/steps/rules.py": "refuses one that cannot be kept",
    "work/steps/rules_order.py": "refuses an order or an opening again that goes against them",
}
#: Who walks a network from ``trade/schedule/network.py`` or ``cpm.py``, and what for.
WALKS = {
    "demo/as_it_happened.py": "in which order the demo's steps are told",
    "trade/schedule/cpm.py": "times",
    "trade/schedule/frame.py": "the graph's order, and the network of its plan",
    "trade/schedule/hands.py": "dates",
    "trade/schedule/plan.py": "dates",
    "trade/schedule/plan_input.py": "its network, laid once for rank and dates",
    "trade/schedule/rank.py": "the longest way to the finish, for the order of every list",
    "trade/schedule/simulate.py": "chances",
    "trade/schedule/timed.py": "times, once for rank and dates",
    "work/checks/check.py": "looks for a loop",
    "work/decisions/rows_ripple.py": "parts that follow a part through its fits",
    "work/means/acts.py": "refuses a loop",
    "work/making/rows_order.py": "how many masters deep a part lies, for the list's order",
    "work/refit/acts.py": "refuses a drafted loop",
    "work/refit/acts_carry.py": "refuses a carried loop",
    "work/refit/acts_missed_links.py": "refuses a proposed loop",
    "work/refit/acts_subassemblies.py": "refuses a drafted loop",
    "work/steps/acts.py": "refuses a loop",
    "work/steps/acts_take_over.py": "leaves out a link that would close a loop",
    "work/steps/rules_order.py": "what a moved step would pass",
}
#: Names that answer "can it be begun", and where they may be defined: in the graph, or handed on from it.
ANSWERS = {
    "ready": {
        "trade/schedule/graph.py",
        "trade/schedule/plan_input.py",
        "trade/bearings/bushes.py",
        "work/treatments/rows.py",
    },
    "held_by": {"trade/schedule/graph.py"},
    "freed_by": {"trade/schedule/graph.py"},
    "standing": {
        "trade/schedule/graph.py",
        "trade/waiting/clock.py",
        "work/waiting/rows_clocks.py",
        "work/landings/sent.py",
        "work/readings/rows_spoken.py",
        "work/book/rows.py",
        "sheets/book/chapters/commissioning.py",
    },
    "startable": {"work/plan/rows_what_next.py"},
    "tonight": {"work/making/rows_order.py", "sheets/pages/printed.py"},
    "waits_for": {"work/plan/rows_what_next.py", "work/steps/rows.py"},
    "can_start": set(),
    "open_before": set(),
    "not_ready": set(),
}


def sources(*words: str) -> dict[str, ast.Module]:
    """Every module of the program with any of these words in it, by its path."""
    return {
        path.relative_to(PACKAGE).as_posix(): tree_of(path)
        for path in modules()
        if any(word in source_of(path).lower() for word in words)
    }


def imported(tree: ast.Module) -> Iterator[tuple[str, str]]:
    """Each name a module imports, with where from."""
    for node in statements(tree):
        if isinstance(node, ast.ImportFrom) and node.module:
            yield from ((node.module, alias.name) for alias in node.names)


def asks_links(tree: ast.Module) -> bool:
    """Whether a module names the table or record of links between steps, or its table in SQL."""
    named = {("rebuild.model.tables.steps", "Links"), ("rebuild.model.records.steps", "Link")}
    texts = (
        node.value
        for node in nodes_of(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    )
    return bool(named & set(imported(tree))) or any("from link " in f"{text.lower()} " for text in texts)


def walks(tree: ast.Module) -> bool:
    """Whether a module walks what comes before and after."""
    walkers = tuple(f"rebuild.trade.schedule.{name}" for name in ("network", "cpm", "in_order"))
    return any(module in walkers and name not in ("Times", "NO_SLACK") for module, name in imported(tree))


def defined(tree: ast.Module) -> set[str]:
    """Functions, methods and fields of classes a module defines."""
    found: set[str] = set()
    for node in statements(tree):
        if isinstance(node, ast.FunctionDef):
            found.add(node.name.lstrip("_"))
        elif isinstance(node, ast.ClassDef):
            fields = (item for item in node.body if isinstance(item, ast.AnnAssign))
            found |= {item.target.id for item in fields if isinstance(item.target, ast.Name)}
    return found


def test_only_these_modules_ask_the_links_between_steps() -> None:
    own = {"model/tables/steps.py", "model/records/steps.py"}
    assert {path for path, tree in sources("link").items() if asks_links(tree)} | own == set(ASKS_LINKS)


def test_only_these_modules_walk_a_network() -> None:
    assert {path for path, tree in sources("schedule").items() if walks(tree)} == set(WALKS)


def test_only_the_graph_answers_and_the_rest_hand_its_answer_on() -> None:
    wrong = {
        f"{path}: {name}"
        for path, tree in sources(*ANSWERS).items()
        for name in defined(tree) & ANSWERS.keys()
        if path not in ANSWERS[name] and not path.startswith("window/")
    }
    assert wrong == set(), "ask work/plan/rows_graph.py instead"


def test_a_second_computation_would_be_seen() -> None:
    asks = "from rebuild.model.tables.steps import Links, Tasks\n"
    walked = "from rebuild.trade.schedule.network import predecessors\n"
    says = "class Row:\n    startable: bool\n\ndef _not_ready(step): ...\n"
    raw = 'RAW = "SELECT before_id FROM link WHERE after_id = 3"\n'
    assert asks_links(ast.parse(asks))
    assert asks_links(ast.parse(raw))
    assert walks(ast.parse(walked))
    assert walks(ast.parse("from rebuild.trade.schedule.in_order import in_order\n"))
    assert defined(ast.parse(says)) & ANSWERS.keys() == {"startable", "not_ready"}
    harmless = ast.parse("from rebuild.model.tables.steps import Tasks\n")
    assert not asks_links(harmless)
    assert not walks(harmless)
