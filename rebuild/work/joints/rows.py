"""Every joint as a row, what is not final by location in walking order, and what its torque should be."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, replace

from sqlalchemy import Connection, select

from rebuild.errors import RebuildError
from rebuild.model.tables.joints import Joints
from rebuild.model.tables.machines import Machines, Subassemblies
from rebuild.model.tables.steps import Tasks
from rebuild.model.tables.teardown import Fasteners
from rebuild.trade.joints.duty import duty_in, duty_torque, how_set
from rebuild.trade.joints.tour import Stop, is_final, stand_of, unfinished, walk
from rebuild.trade.joints.usual_torque import TorqueRange, agrees
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.amounts import parse_torque, parse_torque_band
from rebuild.words.joints import Dressing, JointDuty, Tightness
from rebuild.words.teardown import FastenerState

#: The tables the lookups here ask.
READS = frozenset({"fastener", "joint", "machine", "subassembly", "task"})


@dataclass(frozen=True, slots=True)
class JointRow:
    """One joint. ``lacks`` says what keeps it from being final; ``stand`` is where one stands to reach it.

    ``duty`` is what was said it is there for, or what its own words name; None: nobody has said it.
    ``off`` says which of several parts it holds is off, where that was asked (``rows_parts_held``).
    ``torque_doubt`` says that the torque reached lies outside what is wanted, ``torque_reason`` why it was left so.
    """

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
    duty: JointDuty | None = None
    how_set: str = ""
    torque_reason: str = ""
    off: str = ""

    @property
    def state(self) -> str:
        """How it is now, in words."""
        words = [self.tight.said, self.off, self.dress.value if self.dress else "", self.torque_done]
        return ", ".join(filter(None, words))


def joints(connection: Connection, machine_id: int) -> list[JointRow]:
    """Every joint of a machine in the order of the walk round it; one that is apart says how it was found."""
    newest_state = (
        select(Fasteners.state)
        .where(Fasteners.joint_id == Joints.id, Fasteners.state.is_not(None))
        .order_by(Fasteners.id.desc())
        .limit(1)
        .scalar_subquery()
    )
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
            Joints.duty,
            Joints.how_set,
            Joints.torque_reason,
            Joints.tour,
            newest_state.label("found"),
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
        row_of(
            Joints.of(row),
            f"{row.sub or ''} {row.sub_name or ''}".strip() or row.machine,
            row.title or "",
            _FOUND.get(row.found, ""),
        )
        for row in rows
    ]
    by_id = {row.id: row for row in made}
    stops = [
        Stop(row.id, f"{row.location} {row.of}", stored.tour) for row, stored in zip(made, rows, strict=True)
    ]
    return [by_id[key] for key in walk(stops)]


#: How its fasteners were found, where that says how tight the joint was.
_FOUND = {
    FastenerState.TIGHT: "tight", FastenerState.SNUG: "snug", FastenerState.FINGER: "finger tight",
    FastenerState.LOOSE: "loose",
}  # fmt: skip


def row_of(row: Joints, of: str = "", step: str = "", was: str = "") -> JointRow:
    """A joint as stored, or as it is about to be, judged; ``was`` is how tight it was found."""
    dress, wanted_dress = row.dress or "", row.wanted_dress or ""
    tight, wanted = row.tight or Tightness.LOOSE, row.wanted or Tightness.SNUG
    found = JointRow(
        row.id,
        row.name,
        row.subassembly_id,
        of,
        row.part_id,
        row.location or "",
        stand_of(f"{row.location or ''} {of}"),
        row.thread or "",
        row.count or 1,
        row.grade or "",
        tight,
        wanted,
        row.dress,
        row.wanted_dress,
        row.torque_wanted or "",
        row.torque_source or "",
        row.torque_done or "",
        row.set_at,
        bool(row.look_again),
        row.looked_again_at,
        row.note or "",
        step,
        is_final(tight, wanted, dress, wanted_dress),
        unfinished(tight, wanted, dress, wanted_dress, was),
        "",
        row.duty or duty_in(row.name),
        row.how_set or "",
        row.torque_reason or "",
    )
    return _with_torque(found)


def _with_torque(row: JointRow) -> JointRow:
    """Not final while its torque is outside what is wanted without a reason, or wanted and not written down."""
    doubt = doubt_of(row, row.torque_done) if row.torque_done else ""
    lacks = row.lacks
    if not lacks and doubt and not row.torque_reason:
        lacks = f"{row.torque_done}, {doubt}"
    elif not lacks and row.wanted is Tightness.TORQUED and not row.torque_done:
        lacks = f"{row.tight.said}, no torque written down"
    return replace(row, torque_doubt=doubt, lacks=lacks, final=not lacks)


def doubt_of(row: JointRow, torque: str) -> str:
    """What is wanted of a joint when ``torque`` lies outside it; empty when it agrees, or nobody can judge it.

    Raises:
        BadEntry, Ambiguous: not a torque.
    """
    done = parse_torque(torque, "Torqued to").newton_metres
    try:
        wanted = wanted_torque(row).value
    except RebuildError:
        return ""
    return "" if agrees(done, wanted) else f"to be {wanted.words}"


def wanted_torque(row: JointRow) -> Worked[TorqueRange]:
    """The torque of one screw of a joint: the user's own if he gave one, else by its duty, grade and thread.

    Raises:
        OutOfRange: this duty takes no torque, or nothing is known for this thread and grade.
        BadEntry: its duty is not said, or its thread is none.
    """
    if row.torque_wanted.strip():
        low, high = parse_torque_band(row.torque_wanted, "Torque per bolt")
        sheet = Sheet(f"Torque of {row.name}")
        source = Source(row.torque_source or "the owner", status=Status.JUDGEMENT)
        text = row.torque_wanted.strip()
        ends = dict.fromkeys(f"{end.newton_metres:.0f}" for end in (low, high))
        words = f"{text} ({'-'.join(ends)} N·m)"
        sheet.read("torque to be", words, source)
        if row.duty is not None and how_set(row.duty):
            sheet.note(f"A {row.duty.value} is usually set otherwise: {how_set(row.duty)}.")
        return Worked(TorqueRange(low.newton_metres, high.newton_metres, text), sheet.close())
    return duty_torque(row.duty or "", row.thread, row.grade, row.wanted_dress or row.dress or "")


def not_final(connection: Connection, machine_id: int) -> list[JointRow]:
    """The joints to see to before power-on, in walking order."""
    return [row for row in joints(connection, machine_id) if not row.final]


def after_run_in(connection: Connection, machine_id: int) -> list[JointRow]:
    """The joints to check again once it has run, in walking order."""
    return [row for row in joints(connection, machine_id) if row.look_again and row.looked_again_at is None]
