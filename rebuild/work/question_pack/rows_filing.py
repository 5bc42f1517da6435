"""Where the answer to a question may be filed: its part, that part's specs, its step, subassembly, machine."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.model.tables.features import Features
from rebuild.model.tables.log import Questions
from rebuild.model.tables.machines import Machines, Subassemblies
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.steps import Tasks
from rebuild.work.question_pack.filing import Filing

#: The tables the lookups here ask.
READS = frozenset({"feature", "machine", "part", "question", "subassembly", "task"})


@dataclass(frozen=True, slots=True)
class FilingRow:
    """One place an answer may go, in words; ``spec`` is the one that stands there, for a feature."""

    filing: Filing
    words: str
    spec: str = ""


def filings(connection: Connection, question_id: int) -> list[FilingRow]:
    """The places, the nearest to the question first."""
    row = connection.execute(
        select(
            Questions.machine_id,
            Questions.part_id,
            Questions.task_id,
            Questions.subassembly_id,
            Machines.name.label("machine"),
            Parts.code,
            Parts.name.label("part"),
            Tasks.title,
            Subassemblies.name.label("subassembly"),
        )
        .select_from(Questions)
        .join(Machines, Machines.id == Questions.machine_id)
        .outerjoin(Parts, Parts.id == Questions.part_id)
        .outerjoin(Tasks, Tasks.id == Questions.task_id)
        .outerjoin(Subassemblies, Subassemblies.id == Questions.subassembly_id)
        .where(Questions.id == question_id)
    ).first()
    if row is None:
        return []
    found: list[FilingRow] = []
    if row.part_id is not None:
        part = f"{row.code} {row.part}".strip()
        found.append(FilingRow(Filing("part", row.part_id), f"note of {part}"))
        features = connection.execute(
            select(Features.id, Features.name, Features.spec_text)
            .where(Features.part_id == row.part_id)
            .order_by(Features.position, Features.id)
        )
        found += [
            FilingRow(Filing("feature", one.id), f"spec of {part}: {one.name}", one.spec_text)
            for one in features
        ]
    if row.task_id is not None:
        found.append(FilingRow(Filing("task", row.task_id), f"note of the step {row.title}"))
    if row.subassembly_id is not None:
        found.append(FilingRow(Filing("subassembly", row.subassembly_id), f"note of {row.subassembly}"))
    found.append(FilingRow(Filing("machine", row.machine_id), f"story of {row.machine}"))
    return found
