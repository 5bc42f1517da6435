"""The order in which ready work is offered: the owner's own next, what is under way, then what the rest hangs on."""

from __future__ import annotations

import re

from rebuild.trade.schedule.cpm import Network
from rebuild.trade.schedule.graph import Node, Ref
from rebuild.trade.schedule.plan import in_bench
from rebuild.trade.schedule.week import Week
from rebuild.trade.sizes.amounts import show_minutes
from rebuild.words.work_graph import Standing
from rebuild.work.plan.laying import said_elsewhere
from rebuild.work.plan.rows_graph import Work

#: Which share of the words of a clause and a title must agree for the owner's note to speak of that work.
_ALIKE = 0.6
_WORD = re.compile(r"[\w-]{3,}")
_CLAUSE = re.compile(r"[,;.]")
MOST_DRIVERS = 4


def next_up(work: Work, own: Node | None = None) -> tuple[Node, ...]:
    """Work that can be begun now, the most useful first; ``own`` is what the owner meant to do."""
    graph = work.graph
    tree = {key: place for place, key in enumerate(work.facts.tree)}
    gain = {node.key: _gain(work, node) for node in graph.ready}
    return tuple(
        sorted(
            (node for node in graph.ready if not said_elsewhere(node)),
            key=lambda node: (
                own is None or node.key != own.key,
                not node.under_way,
                *gain[node.key],
                tree.get(node.subassembly_id or 0, len(tree)),
                abs(node.key),
            ),
        )
    )


def _gain(work: Work, node: Node) -> tuple[int, int]:
    """Steps freed at once and held up in all, most first; work for a part counts what the whole part frees."""
    keys = [node.key]
    if node.part_id is not None and node.key in work.graph.making.get(node.part_id, ()):
        keys = [
            key for key in work.graph.making[node.part_id] if work.graph.standing(key) is not Standing.CLOSED
        ]
    return -len(work.graph.freed_by(keys)), -work.graph.behind(keys)


def why(work: Work, node: Node) -> str:
    """Why a piece of work is offered, as the end of a sentence."""
    if node.under_way:
        return "under way"
    freed, behind = _gain(work, node)
    said = [f"frees {-freed} at once"] if freed else []
    if behind < freed:
        said.append(f"holds up {-behind} in all")
    return ", ".join(said)


def own_next(work: Work, said: str) -> tuple[Node | None, str]:
    """The ready work the owner's note speaks of first, or why not that: nothing like it, or what holds it."""
    if not said.strip():
        return None, ""
    best, share = None, _ALIKE
    for words in filter(None, (set(_WORD.findall(clause)) for clause in _CLAUSE.split(said.lower()))):
        for node in work.graph.nodes if best is None else ():
            alike = _alike(words, set(_WORD.findall(node.title.lower()))) if node.open else 0.0
            if alike > share or (alike == share and best is None):
                best, share = node, alike
    if best is None:
        return None, f"You meant to go on with “{said}”; no open work is called like that."
    holds = work.graph.held_by(best.key)
    if holds:
        return None, f"You meant to go on with “{said}”; not yet: {holds[0].sentence}."
    return best, ""


def _alike(words: set[str], title: set[str]) -> float:
    """How much of the shorter of two sets of words the other holds; one word in common is none."""
    common = len(words & title)
    least = min(len(words), len(title))
    return common / least if common > 1 or least == common == 1 else 0.0


def what_drives(work: Work, week: Week) -> tuple[tuple[Ref, str, str], ...]:
    """The longest way to the finish: its waits and its longest work, in order, as (row, words, how long)."""
    nodes = {node.key: node for node in work.graph.nodes if node.open and not said_elsewhere(node)}
    network = Network(nodes, work.graph.links)
    means = {key: node.points.mean for key, node in nodes.items()}
    lasting = in_bench(means, frozenset(key for key, node in nodes.items() if node.elapsed), week)
    path = network.critical_path(lasting)
    longest = set(sorted(path, key=lambda key: -lasting[key])[:MOST_DRIVERS])
    return tuple(
        (nodes[key].ref, nodes[key].title, _lasts(nodes[key]))
        for key in path
        if key in longest and lasting[key] > 0
    )


def _lasts(node: Node) -> str:
    assumed = ", assumed" if node.assumed else ""
    return f"{show_minutes(node.points.mean)}{' of waiting' if node.elapsed else ''}{assumed}"
