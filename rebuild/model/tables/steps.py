"""Steps of work, what holds them, and the cautions that sit on them."""

from __future__ import annotations

import datetime as dt

from rebuild.model.asked import Journaled
from rebuild.model.cells import (
    Cell,
    as_count,
    as_moment,
    as_number,
    as_text,
    as_yes,
    goes_with,
    maybe,
    one_of,
    points_at,
)
from rebuild.words.steps import ConstraintKind, LinkKind, TaskKind, TaskState
from rebuild.words.treatments import Treatment


class Tasks(Journaled, name="task"):
    """One step of work on a subassembly. Durations are three-point, in minutes.

    ``treatment`` says which cleaning or painting of its part it is.
    """

    indexes = (
        ("ix_task_machine_subassembly", "machine_id", "subassembly_id", "position"),
        ("ix_task_machine_state", "machine_id", "state"),
    )

    machine_id: Cell[int] = goes_with("machine")
    subassembly_id: Cell[int | None] = maybe(goes_with("subassembly", index=True))
    part_id: Cell[int | None] = points_at("part", index=True)
    title: Cell[str] = as_text()
    kind: Cell[TaskKind] = one_of(TaskKind, TaskKind.OTHER)
    state: Cell[TaskState] = one_of(TaskState, TaskState.OPEN)
    low_min: Cell[float | None] = maybe(as_number())
    likely_min: Cell[float | None] = maybe(as_number())
    high_min: Cell[float | None] = maybe(as_number())
    irreversible: Cell[bool] = as_yes(False)
    place: Cell[str] = as_text("")
    tools: Cell[str] = as_text("")
    torque_wanted: Cell[str] = as_text("")
    done_at: Cell[dt.datetime | None] = maybe(as_moment())
    done_measured: Cell[str] = as_text("")
    done_torque: Cell[str] = as_text("")
    done_note: Cell[str] = as_text("")
    note: Cell[str] = as_text("")
    position: Cell[int] = as_count(0)
    treatment: Cell[Treatment | None] = maybe(one_of(Treatment))


class TaskConstraints(Journaled, name="task_constraint"):
    """Something a step asks for besides order: a hoist, a position, a cure.

    ``rest_min`` is how long it must cure or rest; ``proved_at`` when what had to be proved was seen.
    """

    task_id: Cell[int] = goes_with("task", index=True)
    kind: Cell[ConstraintKind] = one_of(ConstraintKind)
    detail: Cell[str] = as_text("")
    rest_min: Cell[float | None] = maybe(as_number())
    proved_at: Cell[dt.datetime | None] = maybe(as_moment())
    proved_note: Cell[str | None] = maybe(as_text())


class ConstraintParts(Journaled, name="constraint_part"):
    """The part a constraint speaks of: what must stand at the position, or what closes the opening."""

    indexes = (("ix_constraint_part_constraint", "constraint_id", "part_id"),)

    constraint_id: Cell[int] = goes_with("task_constraint")
    part_id: Cell[int] = goes_with("part", index=True)


class Links(Journaled, name="link"):
    """``before`` must be done before ``after`` may start."""

    indexes = (("ix_link_before_after", "before_id", "after_id"),)

    before_id: Cell[int] = goes_with("task")
    after_id: Cell[int] = goes_with("task", index=True)
    kind: Cell[LinkKind] = one_of(LinkKind, LinkKind.BEFORE)
    reason: Cell[str] = as_text("")


class TaskCautions(Journaled, name="task_caution"):
    """A caution (a topic of ``assets/cautions.toml``) that sits on a step."""

    task_id: Cell[int] = goes_with("task", index=True)
    topic: Cell[str] = as_text()
    read_at: Cell[dt.datetime | None] = maybe(as_moment())


class StepAttempts(Journaled, name="step_attempt"):
    """One time a step was done and opened again: what was noted then, and why it did not stand."""

    indexes = (("ix_step_attempt_task_number", "task_id", "number"),)

    task_id: Cell[int] = goes_with("task")
    number: Cell[int] = as_count(1)
    done_at: Cell[dt.datetime | None] = maybe(as_moment())
    measured: Cell[str] = as_text("")
    torque: Cell[str] = as_text("")
    note: Cell[str] = as_text("")
    joints: Cell[str] = as_text("")
    opened_at: Cell[dt.datetime] = as_moment()
    reason: Cell[str] = as_text()
