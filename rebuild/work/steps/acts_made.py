"""A part is there as decided, said on the spot: where it came from, or that it was reworked."""

from __future__ import annotations

from sqlalchemy import func, select

from rebuild.model.records.parts import Part
from rebuild.model.records.steps import Task
from rebuild.store.act import Act
from rebuild.store.store import Store
from rebuild.words.decisions import Decision
from rebuild.words.parts import Origin
from rebuild.words.steps import TaskKind, TaskState
from rebuild.work.records.columns import title
from rebuild.work.records.wall_clock import now


def made_as_decided(store: Store, part_id: int) -> None:
    """Say that a part is made, bought or reworked. A reworked one is no remade one: a step done says so.

    Raises:
        NotThere: the part was removed meanwhile.
    """
    with store.act(Act.EDIT, "") as tx:
        part = tx.get(Part, part_id, "part")
        if part.decision is Decision.REWORK:
            last = tx.session.scalar(
                select(func.max(Task.position)).where(
                    Task.machine_id == part.machine_id, Task.subassembly_id.is_(part.subassembly_id)
                )
            )
            tx.session.add(
                Task(
                    machine_id=part.machine_id,
                    subassembly_id=part.subassembly_id,
                    part_id=part.id,
                    title=f"Rework {title(part)}",
                    kind=TaskKind.REWORK,
                    state=TaskState.DONE,
                    done_at=now(),
                    position=0 if last is None else last + 1,
                )
            )
            tx.subject = f"{title(part)}: reworked"
            return
        part.origin = Origin.BOUGHT if part.decision is Decision.BUY else Origin.REMADE
        tx.subject = f"{title(part)}: {part.origin.value}"
