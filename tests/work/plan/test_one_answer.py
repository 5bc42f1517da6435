"""Ready or held: one answer for each step and part on every surface, and it is the library's.

Source: networkx, an oracle outside the project. 200 machines of the named generator (``random_machines.machine``, seeds
0 to 199) and every machine of the demo. ``pytest -s`` on this file prints how many pieces of work were compared.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import networkx as nx
import pytest

from rebuild.store.store import Store
from rebuild.trade.schedule.plan import savings
from rebuild.trade.schedule.plan_input import PlanInput
from rebuild.trade.schedule.week import Week
from rebuild.trade.schedule.week_entry import ASSUMED
from rebuild.words.decisions import Decision
from rebuild.words.steps import LinkKind, TaskKind, TaskState
from rebuild.words.work_graph import Holding, Standing
from rebuild.work.machines.rows_tree import machines
from rebuild.work.making.rows_order import making_order, order_of
from rebuild.work.plan.laying import Slot, said_elsewhere, slot_of
from rebuild.work.plan.next_up import next_up
from rebuild.work.plan.rows_graph import Work, lay, work_graph
from rebuild.work.plan.rows_input import input_of, plan_input
from rebuild.work.plan.rows_tonight import Tonight, fits_tonight
from rebuild.work.plan.rows_what_next import next_of, what_next
from rebuild.work.steps.rows import tasks
from rebuild.work.steps.rules_holds import obstacles_to
from rebuild.work.treatments.rows import batches_of
from rebuild.work.where_was_i.rows import where_was_i
from tests.conftest import demo_copy
from tests.work.plan.random_machines import NOW, machine

MACHINES = 200
CLOSED = (TaskState.DONE, TaskState.LEFT_OUT)
ALL_EVENING = Tonight(1e9, helper=True)


def oracle(work: Work) -> nx.DiGraph:
    """What is open, and an arrow from each piece of it to each it holds."""
    found = nx.DiGraph()
    found.add_nodes_from(node.key for node in work.graph.nodes if node.open)
    found.add_edges_from(
        (edge.before, edge.after) for edge in work.graph.edges if edge.before in found and edge.after in found
    )
    return found


def surfaces(work: Work) -> Iterator[tuple[str, set[int]]]:
    """What each surface says can be begun, as keys; decisions and answers are said beside."""
    given = input_of(work, Week(ASSUMED), False, NOW)
    yield "what next", {node.key for node in next_of(work).now}
    yield (
        "tonight",
        {node.key for node in fits_tonight(given, ALL_EVENING)}
        | {node.key for node in work.graph.ready if node.elapsed},
    )
    yield "dates", {step.key for step in given.steps if step.key in given.ready}
    yield "where was I", {node.key for node in next_up(work)}
    yield (
        "the tick",
        {
            node.key
            for node in work.graph.nodes
            if node.open and not node.runs and not said_elsewhere(node) and not _refused(work, node.key)
        },
    )


def _refused(work: Work, key: int) -> bool:
    """Whether a tick would be refused for anything but what must be seen at its end.

    A gate refuses by its own rules, from the same rows (``tests/work/gates``).
    """
    at_its_gate = any(edge.kind is Holding.GATE for edge in work.graph.edges_into(key))
    return at_its_gate or len(obstacles_to(work, key)) > _at_the_end(work, key)


def _at_the_end(work: Work, key: int) -> int:
    return len({hold.kind if hold.kind.name == "OIL" else hold for hold in work.graph.finishing.get(key, ())})


def one_answer(work: Work) -> int:
    """Compare every surface with the library's answer; how many pieces of work were compared."""
    found = oracle(work)
    ready = {key for key in found if not found.in_degree(key)}
    by_hand = {
        node.key
        for node in work.graph.nodes
        if node.key in ready and not node.runs and not said_elsewhere(node)
    }
    for name, said in surfaces(work):
        assert said == by_hand, name
    held = {one.node.key: {hold.key for hold in one.holds} for one in next_of(work).waiting}
    assert held == {key: set(found.predecessors(key)) for key in found if found.in_degree(key)}
    _parts_agree(work, ready)
    _batches_agree(work, ready)
    _undecided_hold(work, ready)
    one_order(work)
    return len(found)


def one_order(work: Work) -> None:
    """Every list keeps one order, and what the longest way begins with is among the next three."""
    given = input_of(work, Week(ASSUMED), False, NOW)
    offered = [node.key for node in next_up(work)]
    assert [node.key for node in next_of(work).now] == offered
    tonight = [node.key for node in fits_tonight(given, ALL_EVENING)]
    assert tonight == [key for key in offered if key in set(tonight)]
    made = [candidate.part_id for candidate in next_of(work).candidates]
    dates = [saving.part_id for saving in savings(given, NOW)]
    assert [key for key in dates if key in set(made)] == made
    owner = {key: part_id for part_id, keys in work.graph.making.items() for key in keys}
    begun = dict.fromkeys(owner[key] for key in offered if owner.get(key) in made)
    assert [key for key in made if key in begun] == list(begun)
    _masters_first(work, made)
    drive = [key for key in given.rank.path if key in set(offered)]
    assert set(drive) <= set(offered[:3])
    _rank_is_the_library_s(work, given, made)


def _masters_first(work: Work, made: list[int]) -> None:
    """The order of making is that order, wherever no part waits for another."""
    rows = order_of(work).rows
    if not any(row.frees for row in rows):
        free = [row.part_id for row in rows if not row.needs]
        assert free == [key for key in made if key in set(free)]


def _rank_is_the_library_s(work: Work, given: PlanInput, made: list[int]) -> None:
    """Days the finish comes nearer: the longest path of networkx, with and without the work of a part."""
    share = given.week.minutes_a_week / (7 * 24 * 60)
    lasting = {step.key: step.points.mean * (share if step.elapsed else 1) for step in given.steps}
    for part_id in made[:2]:
        gone = set(given.making[part_id])
        longest = [_longest(given, lasting, left_out) for left_out in (set(), gone)]
        days = (longest[0] - longest[1]) / share / (24 * 60)
        assert given.rank.gain_of_part(part_id).days == pytest.approx(days, abs=1e-6)


def _longest(given: PlanInput, lasting: dict[int, float], gone: set[int]) -> float:
    net = nx.DiGraph()
    for key, minutes in lasting.items():
        net.add_edge((key, "begin"), (key, "end"), weight=0.0 if key in gone else minutes)
    net.add_edges_from(
        ((before, "end"), (after, "begin"), {"weight": 0.0})
        for before, after in given.links
        if before in lasting and after in lasting
    )
    return float(nx.dag_longest_path_length(net))


def _batches_agree(work: Work, ready: set[int]) -> None:
    """What can go into a bath or under a coat now is what the graph has ready, and each held one has its hold."""
    found = batches_of(work, {}, {})
    typed = {step.id for step in work.facts.steps if step.treatment is not None and step.part_id is not None}
    nodes = [node for node in work.graph.nodes if node.open]
    own = {
        node.key
        for node in nodes
        if node.key in typed or (node.derived and slot_of(node.key)[0] is Slot.TREAT)
    }
    assert {one.key for batch in found for one in batch.ready} == own & ready
    held = {one.key: one.held for batch in found for one in batch.held}
    assert held.keys() == own - ready
    for key, sentence in held.items():
        assert sentence == work.graph.held_by(key)[0].sentence


def _undecided_hold(work: Work, ready: set[int]) -> None:
    """No step that cannot be undone is ready while its part is undecided; a joint is work or some step's."""
    undecided = {part.id for part in work.facts.parts if part.decision is Decision.OPEN}
    typed = {step.part_id: step.id for step in work.facts.steps if step.kind is TaskKind.DECIDE}
    for step in work.facts.steps:
        if step.irreversible and step.part_id in undecided - typed.keys():
            assert step.id not in ready, step
    open_steps = {node.key for node in work.graph.nodes if node.open and not node.derived}
    laid = {node.ref.id for node in work.graph.nodes if node.derived and slot_of(node.key)[0] is Slot.JOINT}
    free = {
        joint.id for joint in work.facts.joints if joint.task_id not in open_steps and joint.part_id is None
    }
    assert free <= laid
    assert laid.isdisjoint(joint.id for joint in work.facts.joints if joint.task_id in open_steps)


def _parts_agree(work: Work, ready: set[int]) -> None:
    """A part may be begun when any of its own work may, on every list that names it."""
    wanted = {
        part_id: any(key in ready and not work.graph.node(key).runs for key in keys)  # type: ignore[union-attr]
        for part_id, keys in work.graph.making.items()
    }
    listed = {candidate.part_id: candidate.startable for candidate in next_of(work).candidates}
    ordered = {row.part_id: row.tonight for row in order_of(work).rows}
    assert listed == ordered
    assert all(wanted[part_id] is said for part_id, said in listed.items())
    for row in order_of(work).rows:
        assert bool(row.needs) is not row.tonight


def typed_only(work: Work) -> nx.DiGraph:
    """The typed steps and links alone, read straight from what is known."""
    found = nx.DiGraph()
    settled = {node.key for node in work.graph.nodes if node.settled}
    found.add_nodes_from(s.id for s in work.facts.steps if s.state not in CLOSED and s.id not in settled)
    found.add_edges_from(
        (link.before, link.after) for link in work.facts.links if link.before in found and link.after in found
    )
    return found


@pytest.mark.parametrize("first", range(0, MACHINES, 50))
def test_one_answer_on_every_surface_of_random_machines(first: int) -> None:
    compared = derived = 0
    for seed in range(first, first + 50):
        work = lay(machine(seed), NOW)
        compared += one_answer(work)
        derived += sum(node.derived for node in work.graph.nodes)
        typed = typed_only(work)
        for key in typed:
            assert set(typed.predecessors(key)) <= {hold.key for hold in work.graph.held_by(key)}
    print(
        f"\nmachines {first} to {first + 49}: {compared} pieces of work, {derived} of them derived, one answer"
    )
    assert compared > 50 * 15
    assert derived > 50 * 5


def test_the_same_seed_gives_the_same_machine_and_the_same_graph() -> None:
    assert machine(7) == machine(7)
    assert machine(7) != machine(8)
    one, two = lay(machine(7), NOW).graph, lay(machine(7), NOW).graph
    assert (one.nodes, one.edges, one.ready) == (two.nodes, two.edges, two.ready)


def test_everything_that_can_hold_turns_up_among_the_random_machines() -> None:

    kinds = {edge.kind for seed in range(MACHINES) for edge in lay(machine(seed), NOW).graph.edges}
    assert kinds == set(Holding) - {Holding.OIL, Holding.FITTED}
    works = [lay(machine(seed), NOW).graph for seed in range(MACHINES)]
    assert {hold.kind for graph in works for holds in graph.finishing.values() for hold in holds} == {
        Holding.FITTED,
        Holding.OIL,
        Holding.PROOF,
    }
    standings = {graph.standing(node.key) for graph in works for node in graph.nodes}
    assert standings == set(Standing)


def test_one_answer_on_every_surface_of_the_demo(demo_template: Path, tmp_path: Path) -> None:
    store = Store.open(demo_copy(demo_template, tmp_path))
    try:
        with store.read() as connection:
            for row in machines(connection):
                work = work_graph(connection, row.id, NOW)
                compared = one_answer(work)
                print(f"\n{row.name}: {compared} pieces of work, one answer")
                assert compared > 20
                _read_by_each(connection, row.id, work)
    finally:
        store.close()


def _read_by_each(connection: object, machine_id: int, work: Work) -> None:
    """The lookups the pages themselves call say what the graph says."""
    from sqlalchemy import Connection

    assert isinstance(connection, Connection)
    assert what_next(connection, machine_id, NOW) == next_of(work)
    assert making_order(connection, machine_id, NOW) == order_of(work)
    assert plan_input(connection, machine_id, NOW).ready == {node.key for node in work.graph.ready}
    for step in tasks(connection, machine_id, now=NOW):
        assert step.holds == work.graph.held_by(step.id)
    actions = where_was_i(connection, machine_id, NOW).next_actions
    assert len(actions) == 3
    ready = {node.ref for node in work.graph.ready}
    assert all(action.ref in ready for action in actions)


def test_a_link_of_either_kind_holds_what_comes_after() -> None:
    work = lay(machine(3), NOW)
    kinds = {link.kind for seed in range(20) for link in machine(seed).links}
    assert kinds == set(LinkKind)
    assert work.facts.steps[0].kind in set(TaskKind)
