"""What drafting again leaves alone once a step is ticked, and which makings a refit waits for."""

from __future__ import annotations

import pytest

from rebuild.store.store import Store
from rebuild.words.steps import TaskKind, TaskState
from rebuild.work.editing import acts as edit
from rebuild.work.steps import acts as tasks
from tests.work.teardown.bench_apron import Apron, drafted, on_the_bench


@pytest.fixture
def apron(store: Store) -> Apron:
    return on_the_bench(store)


@pytest.mark.parametrize(
    ("state", "rewritten"), [("open", 1), ("under way", 1), ("done", 0), ("left out", 0)]
)
def test_a_step_that_was_ticked_or_left_out_is_not_rewritten(
    apron: Apron, state: str, rewritten: int
) -> None:
    apron.off("cover")
    drafted(apron)
    step = apron.step("cover")
    edit.edit(apron.store, "task", [step.id], {"state": state})
    edit.edit(apron.store, "removal", [apron.log()[0].id], {"hard": "rusted solid"})
    assert drafted(apron).rewritten == rewritten
    assert ("rusted solid" in apron.step("cover").note) is bool(rewritten)


@pytest.mark.parametrize(("state", "stays"), [("open", False), ("done", True), ("left out", True)])
def test_a_removal_struck_from_the_log_leaves_a_step_that_was_ticked(
    apron: Apron, state: str, stays: bool
) -> None:
    apron.off("cover")
    drafted(apron)
    edit.edit(apron.store, "task", [apron.step("cover").id], {"state": state})
    edit.remove(apron.store, "removal", [apron.log()[0].id])
    assert drafted(apron).taken_away == (0 if stays else 1)
    assert bool(apron.steps()) is stays


@pytest.mark.parametrize("kind", list(TaskKind))
def test_a_refit_waits_for_what_makes_its_part(apron: Apron, kind: TaskKind) -> None:
    apron.off("cover")
    work = tasks.add_task(
        apron.store, apron.machine, apron.group, "The cover", kind, part_id=apron.parts["cover"]
    )
    edit.edit(apron.store, "task", [work], {"state": TaskState.OPEN.value})
    drafted(apron)
    makes = kind in (TaskKind.MAKE, TaskKind.REWORK, TaskKind.BUY, TaskKind.SEND_OUT)
    assert [key for key, _ in apron.step("Refit AP-05").waits_for] == ([work] if makes else [])
