"""A step of taking off is not ticked while a speed of the run-in is on: off and locked out comes first.

Source: lock-out before work within reach of what moves is the usual caution (``assets/cautions.toml``); that a
speed not ended counts as on is ours.
"""

from __future__ import annotations

import datetime as dt

from rebuild.store.store import Store
from rebuild.words.run_in import RunState
from rebuild.words.steps import TaskKind, TaskState
from rebuild.work.records.wall_clock import now
from rebuild.work.records.ways_out import Refused
from rebuild.work.run_in import acts as run_in
from rebuild.work.steps import acts as tasks
from rebuild.work.steps.rows import tasks as task_rows
from tests.support import refuses
from tests.work.teardown.bench_apron import on_the_bench


def test_a_step_of_taking_off_is_not_ticked_while_a_speed_is_on(store: Store) -> None:
    apron = on_the_bench(store)
    step = run_in.add_step(store, apron.machine, "300 rpm")
    before, lift, oil = (
        tasks.add_task(store, apron.machine, apron.group, words, kind, part_id=apron.parts["cover"])
        for words, kind in (
            ("Lift the worm", TaskKind.REMOVE),
            ("Lift the cover", TaskKind.REMOVE),
            ("Oil it", TaskKind.OTHER),
        )
    )
    run_in.begin_step(store, step, reason="first try", by="we")
    with refuses(store, r"“300 rpm” of the run-in is on.*lock.*Run through, or Stopped", Refused) as refused:
        tasks.tick(store, lift)
    assert [(row.table, row.id) for row in refused.value.rows] == [("run_step", step)]
    tasks.tick(store, before, tasks.Done(at=now() - dt.timedelta(days=2)))
    tasks.tick(store, oil)
    run_in.end_step(store, step, RunState.STOPPED)
    tasks.tick(store, lift)
    with store.read() as connection:
        steps = {row.state for row in task_rows(connection, apron.machine)}
    assert steps == {TaskState.DONE}
