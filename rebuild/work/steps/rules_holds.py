"""What the work graph holds a step by, as obstacles: each with its chain and what can be done instead."""

from __future__ import annotations

from collections.abc import Iterable

from rebuild.trade.schedule.graph import Edge, Hold, Node, WorkGraph
from rebuild.words.decisions import Decision
from rebuild.words.gates import Gate
from rebuild.words.work_graph import Holding
from rebuild.work.plan.facts import PartFact
from rebuild.work.plan.rows_graph import Work
from rebuild.work.records.obstacle import Obstacle
from rebuild.work.records.ways_out import RowLead, Way, WayKind

LONGEST_CHAIN = 12
_TYPED = (Holding.LINK, Holding.WHILE_OFF)
#: What to do about each kind of hold; the others are simply done first.
_ADVICE = {
    Holding.STILL_ON: "Take it off first.",
    Holding.ON_AGAIN: "Take it off again first.",
    Holding.OPENING: "Do it first, or take this off again for it later.",
    Holding.MAKING: "Make it first.",
    Holding.CURE: "Let it be until then.",
    Holding.PROOF: "Prove it first; afterwards it cannot be seen.",
    Holding.DELIVERY: "Mark it as arrived once it is there.",
    Holding.AWAY: "Fetch it first and say where it lies.",
    Holding.UNDECIDED: "Decide it first, or go on all the same and say why.",
    Holding.MISSING: "Find or make it first.",
    Holding.ANSWER: "Answer the question first.",
    Holding.HAZARD: "Have it tested first; licensed people where the rules ask for them.",
    Holding.POSITION: "Put it there first.",
    Holding.TREATED: "Clean or paint it first: Waiting, Batches, shows what goes together.",
}


def obstacles_to(work: Work, step_id: int) -> list[Obstacle]:
    """Everything that stands against ending a step, in the order it should be cleared away."""
    graph = work.graph
    node = graph.node(step_id)
    if node is None:
        return []
    edges = graph.edges_into(step_id)
    found = _by_its_links(graph, node, [edge for edge in edges if edge.kind in _TYPED])
    # A gate is passed, or refused, by the rules of the gate (``rules_gate``).
    others = [edge for edge in edges if edge.kind not in (*_TYPED, Holding.GATE)]
    for edge in sorted(others, key=lambda edge: _ORDER.index(edge.kind)):
        found.append(_lacks(work, node, edge) if edge.kind is Holding.MEANS else _obstacle(work, node, edge))
    return [*_once(found), *_to_end(node, graph.finishing.get(step_id, ()))]


#: In which order the other holds are said.
_ORDER = (
    Holding.ON_AGAIN, Holding.STILL_ON, Holding.CURE, Holding.PROOF, Holding.OIL, Holding.FITTED, Holding.OPENING,
    Holding.MAKING, Holding.UNDECIDED,
    Holding.MISSING, Holding.AWAY, Holding.MEANS, Holding.DELIVERY, Holding.HAZARD, Holding.TREATED, Holding.ANSWER,
    Holding.POSITION,
    Holding.MASTER, Holding.CHOOSE, Holding.LOOK, Holding.CHAIN, Holding.LINK, Holding.WHILE_OFF,
)  # fmt: skip


def _once(found: Iterable[Obstacle]) -> list[Obstacle]:
    """Two nodes of one making say the same of it once."""
    return list({(one.what, one.ways): one for one in found}.values())


def _by_its_links(graph: WorkGraph, node: Node, edges: list[Edge]) -> list[Obstacle]:
    if not edges:
        return []
    place = {one.key: at for at, one in enumerate(graph.nodes)}
    edges = sorted(edges, key=lambda edge: place[edge.before])
    first = next((edge for edge in edges if edge.kind is Holding.WHILE_OFF), edges[0])
    title = _title(graph, first.before)
    more = f" ({len(edges) - 1} more steps before it are open too)" if len(edges) > 1 else ""
    if first.kind is Holding.WHILE_OFF:
        what = f"“{title}” can only be done while this is still off, and it is open{more}:"
    else:
        what = f"A step before this one is still open{more}:"
    ways = (
        Way(WayKind.GO_TO, f"Go to “{short(title)}”", first.before),
        Way(WayKind.LEAVE_OUT, f"Leave “{short(title)}” out", first.before),
        Way(WayKind.TAKE_LINK_AWAY, "Take this link away", first.target),
    )
    chain = (*_back_to_the_start(graph, first.before), node.title)
    return [Obstacle(what, chain, "Do it first, or tick this one all the same.", ways)]


def _back_to_the_start(graph: WorkGraph, key: int) -> tuple[str, ...]:
    """Open work from what can be done now up to a node."""
    chain, seen, here = [_title(graph, key)], {key}, key
    while len(chain) < LONGEST_CHAIN:
        before = [hold for hold in graph.held_by(here) if hold.key not in seen]
        if not before:
            break
        here = before[0].key
        seen.add(here)
        chain.append(before[0].title)
    return tuple(reversed(chain))


def _lacks(work: Work, node: Node, edge: Edge) -> Obstacle:
    """Something the shop has not got, with the ways to come by it."""
    ways = next(
        (one.ways for one in work.facts.lacking if (one.step_id, one.means_id) == (node.key, edge.target)), ()
    )
    return Obstacle(
        f"“{node.title}” {edge.reason}.",
        (),
        "Get it first, or tick this one all the same.",
        ways,
        rows=(RowLead(edge.reason, "means", edge.target),),
    )


def _obstacle(work: Work, node: Node, edge: Edge) -> Obstacle:
    graph = work.graph
    advice = _ADVICE.get(edge.kind, "Do it first, or tick this one all the same.")
    if edge.kind is Holding.PROOF:
        what = f"This closes what has not been proved yet ({edge.reason}):"
        return Obstacle(
            what,
            (_title(graph, edge.before), node.title),
            advice,
            (_proved(edge.reason, edge.target),),
            gate=Gate.CLOSING,
        )
    if edge.kind is Holding.ANSWER:
        asked = _title(graph, edge.before).removeprefix("Answer: ")
        rows = _rows(graph, edge.before)
        return Obstacle("An answer is wanted first:", (asked, node.title), advice, rows=rows)
    gate = Gate.CLOSING if edge.kind is Holding.OPENING else Gate.ORDER
    rows = _rows(graph, edge.before)
    return Obstacle(
        f"{edge.reason}:", _chain(graph, node, edge), advice, _ways(work, edge), gate=gate, rows=rows
    )


def _rows(graph: WorkGraph, key: int) -> tuple[RowLead, ...]:
    """The row that derived work speaks of; a step typed is gone to by its way out."""
    node = graph.node(key)
    if node is None or not node.derived:
        return ()
    return (RowLead(node.title, node.ref.table, node.ref.id),)


def _chain(graph: WorkGraph, node: Node, edge: Edge) -> tuple[str, ...]:
    title = _title(graph, edge.before)
    if edge.kind is Holding.STILL_ON:
        return title, node.title, _title(graph, edge.target)
    if edge.kind is Holding.ON_AGAIN:
        return node.title, _title(graph, edge.target)
    if edge.kind is Holding.CURE and edge.target != node.key:
        return _title(graph, edge.target), node.title
    return title, node.title


def _ways(work: Work, edge: Edge) -> tuple[Way, ...]:
    graph = work.graph
    if edge.kind in (Holding.MAKING, Holding.MISSING):
        part = next(part for part in work.facts.parts if part.id == edge.target)
        if part.decision is Decision.REWORK and edge.kind is Holding.MAKING:
            return _reworked(work, edge, part)
        word = "bought and here" if part.decision is Decision.BUY else "made"
        return (Way(WayKind.MADE, f"{part.code or part.name} is {word}", part.id),)
    if edge.kind is Holding.ON_AGAIN:
        title = _title(graph, edge.target)
        return (
            Way(WayKind.OPEN_AGAIN, f"It is off again: open “{short(title)}”", edge.target),
            Way(WayKind.GO_TO, f"Go to “{short(title)}”", edge.target),
        )
    target = edge.target if edge.kind is Holding.CURE else edge.before
    return (Way(WayKind.GO_TO, f"Go to “{short(_title(graph, target))}”", target),) if target > 0 else ()


def _reworked(work: Work, edge: Edge, part: PartFact) -> tuple[Way, ...]:
    """Said on the spot as long as neither a step nor a sheet follows the rework; those are ended where they stand."""
    if edge.before > 0:
        return (Way(WayKind.GO_TO, f"Go to “{short(_title(work.graph, edge.before))}”", edge.before),)
    if any(sheet.part_id == part.id for sheet in work.facts.sheets):
        return ()
    return (Way(WayKind.MADE, f"{part.code or part.name} is reworked", part.id),)


def _proved(what: str, constraint_id: int) -> Way:
    return Way(WayKind.PROVE, f"It was proved: {what}", constraint_id)


def _to_end(node: Node, holds: Iterable[Hold]) -> list[Obstacle]:
    """What must be proved or seen before the step is ended, though it may be begun."""
    found = [
        Obstacle(
            f"This closes what has not been proved yet ({hold.sentence}):",
            (node.title,),
            _ADVICE[Holding.PROOF],
            (_proved(hold.sentence, hold.target),),
            gate=Gate.CLOSING,
        )
        for hold in holds
        if hold.kind is Holding.PROOF
    ]
    found += [_not_fitted(node, hold) for hold in holds if hold.kind is Holding.FITTED]
    dry = [hold for hold in holds if hold.kind is Holding.OIL]
    if dry:
        named = ", ".join(hold.title for hold in dry[:4])
        more = f" and {len(dry) - 4} more" if len(dry) > 4 else ""
        seen = Way(
            WayKind.FLOW_SEEN, f"Oil was seen at {dry[0].title.removesuffix(' (blocked)')}", dry[0].target
        )
        found.append(
            Obstacle(
                f"“{node.title}” hides an oil point where no oil was seen to arrive: {named}{more}.",
                way_out="Prove the flow first; afterwards it cannot be seen.",
                ways=(seen,),
                gate=Gate.CLOSING,
                rows=tuple(RowLead(hold.title, "oil_point", hold.target) for hold in dry),
            )
        )
    return found


def _not_fitted(node: Node, hold: Hold) -> Obstacle:
    """A fit at assembly of which nobody said what came out."""
    return Obstacle(
        f"“{node.title}” ends what is still to be fitted: {hold.title}.",
        way_out="Fit it, and say what came out: the size it has now, or what was found with the mate.",
        ways=(Way(WayKind.CAME_OUT, f"It came out so (say below): {short(hold.title)}", hold.target),),
        gate=Gate.CLOSING,
        covers=(f"fitting {hold.target}",),
    )


def _title(graph: WorkGraph, key: int) -> str:
    node = graph.node(key)
    return node.title if node is not None else ""


def short(title: str) -> str:
    """A title short enough for a button."""
    return title if len(title) <= 34 else f"{title[:33]}…"
