"""A question with what somebody elsewhere needs to answer it: machine, serial, part, sizes, photos."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.errors import NotThere
from rebuild.model.tables.log import Questions
from rebuild.model.tables.machines import Machines
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.photos import PhotoSubjects
from rebuild.trade.limits.verdict import Rule
from rebuild.work.photos.rows import PhotoRow, Which, photos
from rebuild.work.readings import rows_grid
from rebuild.work.readings.rows_grid_keys import Asked
from rebuild.work.readings.rows_judged import instrument_limits
from rebuild.work.readings.told_in import told_reading

#: The tables the lookups here ask.
READS = rows_grid.READS | {
    "camera", "instrument", "machine", "part", "photo", "photo_subject", "question", "subassembly", "task",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class QuestionPack:
    """What is sent: the question, lines of facts and of sizes, and the photos that go with it."""

    machine: str
    question: str
    facts: tuple[str, ...]
    sizes: tuple[str, ...]
    photos: tuple[PhotoRow, ...]

    def text(self) -> str:
        """The pack as text to be pasted into a letter or a message.

        >>> print(QuestionPack("Lathe", "What thread?", ("Lathe",), ("crest: 19.8 mm",), ()).text())
        What thread?
        <BLANKLINE>
        Lathe
        <BLANKLINE>
        Sizes as read:
        - crest: 19.8 mm
        """
        blocks = [self.question, "\n".join(self.facts)]
        if self.sizes:
            blocks.append("\n".join(["Sizes as read:", *(f"- {line}" for line in self.sizes)]))
        if self.photos:
            names = ", ".join(row.file_name for row in self.photos)
            blocks.append(f"Photos: {names}")
        return "\n\n".join(blocks)


def question_pack(connection: Connection, question_id: int, rule: Rule) -> QuestionPack:
    """What there is to send with one question. Raises NotThere."""
    row = connection.execute(
        select(
            Questions.text,
            Questions.machine_id,
            Questions.part_id,
            Machines.name,
            Machines.unit,
            Machines.kind,
            Machines.model,
            Machines.serial,
            Machines.serial_where,
            Machines.year,
        )
        .select_from(Questions)
        .join(Machines, Machines.id == Questions.machine_id)
        .where(Questions.id == question_id)
    ).first()
    if row is None:
        raise NotThere(f"The question no. {question_id} is no longer there.", way_out="Choose another.")
    model = " ".join(filter(None, (row.kind.value, row.model, row.year)))
    stamped = f"serial {row.serial}" + (f", stamped on {row.serial_where}" if row.serial_where else "")
    facts = [f"{row.name}: {model}", stamped if row.serial else "", *_part(connection, row.part_id)]
    sizes = _sizes(connection, row.machine_id, row.unit, row.part_id, rule) if row.part_id else []
    shown = _photos(connection, row.machine_id, question_id, row.part_id)
    return QuestionPack(row.name, row.text, tuple(filter(None, facts)), tuple(sizes), tuple(shown))


def _part(connection: Connection, part_id: int | None) -> list[str]:
    part = connection.execute(
        select(
            Parts.code, Parts.name, Parts.material, Parts.condition, Parts.stamped, Parts.handedness
        ).where(Parts.id == (part_id or 0))
    ).first()
    if part is None:
        return []
    told = [part.material, part.handedness, part.stamped and f"stamped {part.stamped}", part.condition]
    return [", ".join(filter(None, (f"{part.code} {part.name}".strip(), *told)))]


def _sizes(connection: Connection, machine_id: int, unit: str, part_id: int, rule: Rule) -> list[str]:
    limits = instrument_limits(connection)
    keys = rows_grid.keys(connection, Asked(machine_id, part_ids=frozenset((part_id,))), rule, limits)
    found = []
    for row in rows_grid.rows(connection, keys, rule, limits):
        read = row.speaking
        if read is not None:
            where = ", ".join(filter(None, (row.feature, row.station)))
            found.append(f"{where}: {told_reading(read, unit)} ({read.stage.value})")
    return found


def _photos(connection: Connection, machine_id: int, question_id: int, part_id: int | None) -> list[PhotoRow]:
    """The photos said to show the question; where none is, those of its part."""
    said = set(
        connection.execute(
            select(PhotoSubjects.photo_id).where(PhotoSubjects.question_id == question_id)
        ).scalars()
    )
    chosen = [row for row in photos(connection, machine_id) if row.id in said]
    if chosen or part_id is None:
        return chosen
    return photos(connection, machine_id, Which.CHOSEN, part_ids=(part_id,))
