"""Nothing comes off a machine while a speed of its run-in is on; power off and locked out comes first.

Source: lock-out before work within reach of what moves is the usual caution (``assets/cautions.toml``); that a
speed not ended counts as on is ours.
"""

from __future__ import annotations

import datetime as dt

from rebuild.store.store import Store
from rebuild.words.run_in import RunState
from rebuild.words.steps import TaskKind, TaskState
from rebuild.words.teardown import RemovalWay
from rebuild.work.machines import acts as identify
from rebuild.work.records.wall_clock import now
from rebuild.work.records.ways_out import Refused
from rebuild.work.run_in import acts as run_in
from rebuild.work.steps import acts as tasks
from rebuild.work.steps.rows import tasks as task_rows
from rebuild.work.teardown.acts import Off, log_removal
from rebuild.work.teardown.acts_line import say_removal
from tests.support import refuses
from tests.work.teardown.bench_apron import on_the_bench


def test_a_part_is_not_taken_off_while_a_speed_is_on(store: Store) -> None:
    apron = on_the_bench(store)
    step = run_in.add_step(store, apron.machine, "300 rpm")
    off = Off((apron.parts["cover"],), RemovalWay.LIFTED)
    loosen = tasks.add_task(
        store, apron.machine, apron.group, "Lift the cover", TaskKind.REMOVE, part_id=apron.parts["cover"]
    )
    run_in.begin_step(store, step, reason="first try", by="we")
    said = r"“300 rpm” of the run-in is on.*lock.*Run through, or Stopped"
    with refuses(store, said, Refused):
        log_removal(store, apron.machine, apron.group, off)
    with refuses(store, said, Refused):
        say_removal(store, apron.machine, apron.group, "AP-05 l")
    with refuses(store, said, Refused):
        tasks.tick(store, loosen)
    earlier = Off((apron.parts["worm"],), RemovalWay.LIFTED, at=now() - dt.timedelta(days=2))
    log_removal(store, apron.machine, apron.group, earlier)
    other = identify.add_machine(store, "Shaper")
    ram = identify.add_subassembly(store, other, "Ram", "RM")
    log_removal(store, other, ram, Off((), RemovalWay.LIFTED, what="guard"))
    run_in.end_step(store, step, RunState.STOPPED)
    log_removal(store, apron.machine, apron.group, off)
    with store.read() as connection:
        assert {row.title: row.state for row in task_rows(connection, apron.machine)} == {
            "Lift the cover": TaskState.DONE
        }
