"""What the list does to the file. Each act is loaded when it is first done, not with the window."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING

from rebuild.window.desk.desk import Desk

if TYPE_CHECKING:
    from rebuild.store.store import Store
    from rebuild.work.records.ways_out import Way
    from rebuild.work.steps.acts import Done


def tick(desk: Desk, task_id: int, done: Done, *, confirmed: bool = False, reason: str = "") -> None:
    """Tick a step off; with a reason all the same. Raises Refused and what the act raises."""
    from rebuild.work.records.rows_settings import owner
    from rebuild.work.steps import acts as tasks

    by = owner(desk.store)
    tasks.tick(desk.store, task_id, done, confirmed=confirmed, reason=reason, by=by)


def open_again(desk: Desk, task_id: int, reason: str, *, all_the_same: bool) -> None:
    """Open a step again, with why. Raises Refused and what the act raises."""
    from rebuild.work.steps import acts_again

    acts_again.open_again(desk.store, task_id, reason, all_the_same=all_the_same)


def add(desk: Desk, list_id: int | None, title: str) -> int | None:
    """A new step at the end of a list of the chosen machine; its id, or None when it was refused."""
    from rebuild.work.steps import acts as tasks
    from rebuild.work.steps.guess import asks_of_step, kind_of_step

    machine = desk.machine_id
    if machine is None:
        return None
    kind, asks = kind_of_step(title), asks_of_step(title)
    return desk.attempt(lambda: tasks.add_task(desk.store, machine, list_id, title, kind, asks=asks))


def reorder(desk: Desk, task_ids: Sequence[int], at: int) -> None:
    """Put steps at a place among the others of their list. Raises Refused and what the act raises."""
    from rebuild.work.steps import acts as tasks

    tasks.reorder(desk.store, task_ids, at)


def under_way(desk: Desk, task_ids: Sequence[int]) -> None:
    """Mark steps as begun."""
    from rebuild.work.editing.acts import edit

    desk.attempt(partial(edit, desk.store, "task", task_ids, {"state": "under way"}))


def remove(desk: Desk, task_ids: Sequence[int]) -> None:
    """Remove steps; undo brings them back."""
    from rebuild.work.editing.acts import remove

    desk.attempt(partial(remove, desk.store, "task", task_ids), "Removed; undo brings it back.")


def take(store: Store, way: Way) -> bool:
    """Take a way out of a refusal; True when the refused act should then be tried again."""
    from rebuild.work.editing import acts_ways_out

    return acts_ways_out.take(store, way)
