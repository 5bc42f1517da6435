"""Every joint as a row, what is not final by location in walking order, and what its torque should be."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, replace

from sqlalchemy import Connection, select

from rebuild.errors import RebuildError
from rebuild.model.tables.joints import Joints
from rebuild.model.tables.machines import Machines, Subassemblies
from rebuild.model.tables.steps import Tasks
from rebuild.trade.joints.tour import Stop, is_final, stand_of, unfinished, walk
from rebuild.trade.joints.usual_torque import TorqueRange, agrees, joint_torque
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.amounts import parse_torque
from rebuild.words.joints import Dressing, Tightness

#: The tables the lookups here ask.
READS = frozenset({"joint", "machine", "subassembly", "task"})


@dataclass(frozen=True, slots=True)
class JointRow:
    """One joint. ``lacks`` says what keeps it from being final; ``stand`` is where one stands to reach it."""

    id: int
    name: str
    subassembly_id: int | None
    of: str
    part_id: int | None
    location: str
    stand: str
    thread: str
    count: int
    grade: str
    tight: Tightness
    wanted: Tightness
    dress: Dressing | None
    wanted_dress: Dressing | None
    torque_wanted: str
    torque_source: str
    torque_done: str
    set_at: dt.datetime | None
    look_again: bool
    looked_again_at: dt.datetime | None
    note: str
    task: str
    final: bool
    lacks: str
    torque_doubt: str

    @property
    def state(self) -> str:
        """How it is now, in words."""
        words = [self.tight.value, self.dress.value if self.dress else "", self.torque_done]
        return ", ".join(filter(None, words))


def joints(connection: Connection, machine_id: int) -> list[JointRow]:
    """Every joint of a machine in the order of the walk round it."""
    rows = connection.execute(
        select(
            Joints.id,
            Joints.name,
            Joints.subassembly_id,
            Joints.part_id,
            Joints.location,
            Joints.thread,
            Joints.count,
            Joints.grade,
            Joints.tight,
            Joints.wanted,
            Joints.dress,
            Joints.wanted_dress,
            Joints.torque_wanted,
            Joints.torque_source,
            Joints.torque_done,
            Joints.set_at,
            Joints.look_again,
            Joints.looked_again_at,
            Joints.note,
            Joints.tour,
            Subassemblies.code.label("sub"),
            Subassemblies.name.label("sub_name"),
            Machines.name.label("machine"),
            Tasks.title,
        )
        .select_from(Joints)
        .join(Machines, Machines.id == Joints.machine_id)
        .outerjoin(Subassemblies, Subassemblies.id == Joints.subassembly_id)
        .outerjoin(Tasks, Tasks.id == Joints.task_id)
        .where(Joints.machine_id == machine_id)
        .order_by(Subassemblies.position, Joints.id)
    ).all()
    made = [
        _row(Joints.of(row), f"{row.sub or ''} {row.sub_name or ''}".strip() or row.machine, row.title or "")
        for row in rows
    ]
    by_id = {row.id: row for row in made}
    stops = [
        Stop(row.id, f"{row.location} {row.of}", stored.tour) for row, stored in zip(made, rows, strict=True)
    ]
    return [by_id[key] for key in walk(stops)]


def _row(row: Joints, of: str, step: str) -> JointRow:
    dress, wanted_dress = row.dress or "", row.wanted_dress or ""
    return _with_doubt(
        JointRow(
            row.id,
            row.name,
            row.subassembly_id,
            of,
            row.part_id,
            row.location,
            stand_of(f"{row.location} {of}"),
            row.thread,
            row.count,
            row.grade,
            row.tight,
            row.wanted,
            row.dress,
            row.wanted_dress,
            row.torque_wanted,
            row.torque_source,
            row.torque_done,
            row.set_at,
            row.look_again,
            row.looked_again_at,
            row.note,
            step,
            is_final(row.tight, row.wanted, dress, wanted_dress),
            unfinished(row.tight, row.wanted, dress, wanted_dress),
            "",
        )
    )


def _with_doubt(row: JointRow) -> JointRow:
    """Say when a torque reached lies outside what is wanted; a torque nobody can judge raises no doubt."""
    if not row.torque_done:
        return row
    try:
        done = parse_torque(row.torque_done).newton_metres
        wanted = wanted_torque(row).value
    except RebuildError:
        return row
    return row if agrees(done, wanted) else replace(row, torque_doubt=f"wants {wanted.words}")


def wanted_torque(row: JointRow) -> Worked[TorqueRange]:
    """The torque of one screw of a joint: the user's own if he gave one, else from grade or usual range.

    Raises:
        OutOfRange, BadEntry: nothing is known for this thread and grade.
    """
    if row.torque_wanted.strip():
        torque = parse_torque(row.torque_wanted, "Torque wanted")
        sheet = Sheet(f"Torque of {row.name}")
        source = Source(row.torque_source or "the owner", status=Status.JUDGEMENT)
        words = f"{torque.text} ({torque.newton_metres:.0f} N·m)"
        sheet.read("torque wanted", words, source)
        return Worked(TorqueRange(torque.newton_metres, torque.newton_metres, torque.text), sheet.close())
    return joint_torque(row.thread, row.grade, row.wanted_dress or row.dress or "")


def not_final(connection: Connection, machine_id: int) -> list[JointRow]:
    """The joints to see to before power-on, in walking order."""
    return [row for row in joints(connection, machine_id) if not row.final]


def after_run_in(connection: Connection, machine_id: int) -> list[JointRow]:
    """The joints to check again once it has run, in walking order."""
    return [row for row in joints(connection, machine_id) if row.look_again and row.looked_again_at is None]
