"""What whoever puts a part back must see: how it sat, its match mark, its photo, its fits, what is fitted there."""

from __future__ import annotations

from collections.abc import Sequence

from sqlalchemy import Connection, func, select

from rebuild.model.tables.parts import Parts
from rebuild.model.tables.photos import Photos
from rebuild.model.tables.steps import Tasks
from rebuild.words.steps import TaskKind, TaskState
from rebuild.work.fits import rows as fit_rows
from rebuild.work.making.rows_fittings import READS as FITTING, fittings, fittings_at

#: The tables the lookups here ask.
READS = frozenset({"part", "photo", "task"}) | FITTING | fit_rows.READS
_PUT_ON = (TaskKind.REFIT, TaskKind.TRIAL_FIT)


def at_refit(connection: Connection, machine_id: int) -> dict[int, tuple[str, ...]]:
    """Sentences by open step that puts a part on; the state of its fits where the step cannot be undone."""
    steps = connection.execute(
        select(
            Tasks.id, Tasks.part_id, Tasks.irreversible, Parts.orientation, Parts.match_mark,
            select(func.count(Photos.id)).where(Photos.part_id == Tasks.part_id).scalar_subquery().label("photos"),
        )
        .join(Parts, Parts.id == Tasks.part_id)
        .where(Tasks.machine_id == machine_id, Tasks.kind.in_(_PUT_ON), Tasks.state != TaskState.DONE)
    ).all()  # fmt: skip
    fits = _fits(connection, [step.part_id for step in steps if step.irreversible and step.part_id])
    found: dict[int, tuple[str, ...]] = {}
    for step in steps:
        part = step.part_id or 0
        lines = [
            f"sits {step.orientation}" if step.orientation else "",
            f"match mark {step.match_mark}" if step.match_mark else "",
            f"{step.photos} photo{'s' if step.photos != 1 else ''} of it" if step.photos else "",
            *(fits.get(part, ()) if step.irreversible else ()),
            *_to_fit(connection, step.id, part),
        ]
        if told := tuple(filter(None, lines)):
            found[step.id] = told
    return found


def _fits(connection: Connection, part_ids: Sequence[int]) -> dict[int, tuple[str, ...]]:
    """Each part's fits, and how they stand."""
    if not part_ids:
        return {}
    found: dict[int, list[str]] = {}
    for row in fit_rows.rows(connection, fit_rows.of_parts(connection, part_ids)):
        words = f"{row.title}: {row.state}" + (", changed since it was looked at" if row.stale else "")
        for side in (row.outer, row.inner):
            found.setdefault(side.part_id, []).append(words)
    return {part: tuple(lines) for part, lines in found.items()}


def _to_fit(connection: Connection, step_id: int, part_id: int) -> list[str]:
    """What is still to be fitted at this step, or of this part at no step of its own."""
    asked = [*fittings_at(connection, step_id)]
    asked += [row for row in fittings(connection, part_id) if row.task_id is None]
    return [row.asked for row in asked if row.done_at is None]
