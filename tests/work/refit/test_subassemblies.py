"""A subassembly is put together before it is put on, in whichever order the two drafts are made (trade practice)."""

from __future__ import annotations

import pytest

from rebuild.store.store import Store
from rebuild.words.means import MeansKind
from rebuild.words.steps import ConstraintKind, TaskKind
from rebuild.words.work_graph import Holding
from rebuild.work.editing import acts as edit
from rebuild.work.machines import acts as identify
from rebuild.work.means import acts as means
from rebuild.work.plan.rows_graph import work_graph
from rebuild.work.records.ways_out import Refused
from rebuild.work.refit.acts import draft
from rebuild.work.refit.acts_subassemblies import PUT_TOGETHER
from rebuild.work.steps import acts as steps
from rebuild.work.teardown import acts as teardown
from rebuild.work.teardown.rows_attempts import attempts
from tests.support import refuses


@pytest.fixture
def machine(store: Store) -> tuple[int, int, int]:
    """A machine whose apron comes off the carriage whole, and is taken apart on the bench."""
    machine = identify.add_machine(store, "Lathe", {"kind": "lathe"})
    carriage = identify.add_subassembly(store, machine, "Carriage", "CR")
    apron = identify.add_subassembly(store, machine, "Apron", "AP", parent_id=carriage)
    wiper = identify.add_part(store, machine, carriage, "wiper", "CR-01")
    teardown.log_removal(store, machine, carriage, teardown.Off((wiper,)))
    teardown.log_removal(store, machine, carriage, teardown.Off(what="apron, whole"))
    for name in ("worm", "pinion"):
        part = identify.add_part(store, machine, apron, name, f"AP-{name}")
        teardown.log_removal(store, machine, apron, teardown.Off((part,)))
    return machine, carriage, apron


def attempt_on(store: Store, machine: int, group: int) -> int:
    with store.read() as connection:
        return next(row.id for row in attempts(connection, machine) if row.subassembly_id == group)


def between(store: Store) -> list[tuple[str, str, int]]:
    with store.read() as connection:
        return [
            tuple(row)  # type: ignore[misc]
            for row in connection.exec_driver_sql(
                "SELECT b.title, a.title, link.id FROM link JOIN task AS b ON b.id = link.before_id "
                "JOIN task AS a ON a.id = link.after_id WHERE link.reason = ?",
                (PUT_TOGETHER,),
            )
        ]


@pytest.mark.parametrize("first", [1, 2])
def test_it_is_put_together_before_it_is_put_on(
    store: Store, machine: tuple[int, int, int], first: int
) -> None:
    order = machine[1:] if first == 1 else machine[:0:-1]
    for group in order:
        draft(store, attempt_on(store, machine[0], group))
    ((before, after, link),) = between(store)
    assert (before, after) == ("Refit AP-worm worm", "Refit apron, whole")
    with store.read() as connection:
        graph = work_graph(connection, machine[0]).graph
    step = next(node.key for node in graph.nodes if node.title == after)
    assert "Refit AP-worm worm" in {hold.title for hold in graph.held_by(step)}
    with refuses(store, "A step before this one is still open", Refused):
        steps.tick(store, step)
    edit.remove(store, "link", [link])
    for group in order:
        draft(store, attempt_on(store, machine[0], group))
    assert between(store) == [], "a link taken away stays away"


def test_position_and_two_people_hold_a_refit_step(store: Store, machine: tuple[int, int, int]) -> None:
    draft(store, attempt_on(store, machine[0], machine[1]))
    bed = identify.add_part(store, machine[0], machine[1], "rack", "CR-09")
    on = steps.add_task(store, machine[0], machine[1], "Rack on", TaskKind.REFIT, part_id=bed)
    with store.read() as connection:
        graph = work_graph(connection, machine[0]).graph
    apron = next(node.key for node in graph.nodes if node.title == "Refit apron, whole")
    steps.add_constraint(store, apron, ConstraintKind.AT_POSITION, part_ids=[bed])
    steps.add_constraint(store, apron, ConstraintKind.TWO_PEOPLE, "apron is heavy")
    means.add_means(store, "helper", MeansKind.HELPER)
    with store.read() as connection:
        kinds = {hold.kind for hold in work_graph(connection, machine[0]).graph.held_by(apron)}
    assert {Holding.POSITION, Holding.MEANS} <= kinds
    with refuses(store, "CR-09 rack must stand at its position first", Refused):
        steps.tick(store, apron)
    steps.tick(store, on)
    with store.read() as connection:
        kinds = {hold.kind for hold in work_graph(connection, machine[0]).graph.held_by(apron)}
    assert Holding.POSITION not in kinds
