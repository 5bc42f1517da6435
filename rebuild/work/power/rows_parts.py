"""The parts a machine would be run without: away, not made, off, made and not fitted, or out and undecided."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from sqlalchemy import Connection, Row, or_, select

from rebuild.model.tables.making import MakingSheets
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.steps import Tasks
from rebuild.model.tables.waiting import Waitings
from rebuild.words.decisions import Decision
from rebuild.words.making import MakingProgress
from rebuild.words.parts import Identity, Origin
from rebuild.words.steps import TaskKind, TaskState
from rebuild.words.waiting import WaitingKind
from rebuild.work.power.rows_off import on_and_off
from rebuild.work.power.rows_out import measured_out

#: The tables the lookups here ask.
READS = frozenset({
    "attempt", "feature", "making_sheet", "part", "reading", "refit_step", "removal", "removal_part", "task", "waiting",
})  # fmt: skip
_THERE = (Origin.REMADE, Origin.BOUGHT, Origin.DONOR)
_SHAPING = (TaskKind.MAKE, TaskKind.REWORK)
_WANTED = {Decision.REMAKE: "not made", Decision.BUY: "not bought", Decision.REWORK: "not reworked"}
#: Decided so, a part is another than the one that was on: it has to be fitted.
_NEW = {Decision.REMAKE: "remade, not fitted", Decision.BUY: "bought, not fitted"}
OFF = "taken off, not back on"


@dataclass(frozen=True, slots=True)
class NotThere:
    """A part that is not on the machine as decided: what it is called, and why."""

    part_id: int
    called: str
    why: str


def not_there(connection: Connection, machine_id: int) -> list[NotThere]:
    """Every part of a machine that is away, not made or bought, taken off and not back on, or made and not fitted.

    One that reads out of its limits stands as well until it is decided: being on is no proof that it will do. Neither
    a decision nor an accepted sheet puts a part back: only a refit step done does. Spares and what is not
    the machine's stand before nothing; a part nobody can name stands once it was logged off. In a fixed number of
    statements.
    """
    away = _away(connection, machine_id)
    made = _Made.of(connection, machine_id)
    known = on_and_off(connection, machine_id)
    out = measured_out(connection, machine_id)
    found: list[NotThere] = []
    for part_id, code, name, decision, origin, identity in _parts(
        connection, machine_id, {*away, *made.sheets, *known.off, *out}
    ):
        off = part_id in known.off
        if identity is Identity.UNKNOWN and not off:
            continue
        why = away.get(part_id) or made.lacks(part_id, decision, origin, off)
        if not why and off:
            why = OFF
        elif not why and part_id not in known.fitted:
            why = _NEW.get(decision, "")
        why = why or out.get(part_id, "")
        if why:
            found.append(NotThere(part_id, f"{code} {name}".strip(), why))
    return found


def _parts(
    connection: Connection, machine_id: int, said: set[int]
) -> Iterator[Row[int, str, str, Decision, Origin, Identity]]:
    """The parts that may be wanting: so decided, missing, or ``said`` by a sheet, an order or the teardown."""
    yield from connection.execute(
        select(Parts.id, Parts.code, Parts.name, Parts.decision, Parts.origin, Parts.identity)
        .where(
            Parts.machine_id == machine_id,
            Parts.spare_of_id.is_(None),
            Parts.identity != Identity.NOT_OURS,
            or_(Parts.decision.in_(_WANTED), Parts.origin == Origin.MISSING, Parts.id.in_(sorted(said))),
        )
        .order_by(Parts.position, Parts.id)
    ).all()


def _away(connection: Connection, machine_id: int) -> dict[int, str]:
    """Parts sent out, lent or ordered that have not come."""
    rows = connection.execute(
        select(Waitings.part_id, Waitings.kind, Waitings.who, Waitings.ordered_at, Waitings.arrived_at)
        .join(Parts, Parts.id == Waitings.part_id)
        .where(Parts.machine_id == machine_id, Waitings.returned_at.is_(None))
        .order_by(Waitings.id)
    )
    found: dict[int, str] = {}
    for row in rows:
        kind = WaitingKind(row.kind)
        out = kind is WaitingKind.LENT or (row.ordered_at is not None and row.arrived_at is None)
        if row.part_id is not None and out and kind in _OUT:
            found[row.part_id] = f"{_OUT[kind]}{f' ({row.who})' if row.who else ''}"
    return found


_OUT = {
    WaitingKind.SENT_OUT: "away, sent out",
    WaitingKind.LENT: "away, lent out",
    WaitingKind.ORDER: "ordered, not arrived",
}


@dataclass(frozen=True, slots=True)
class _Made:
    """What shows that a part was made: its newest sheet, its making steps, an order that came."""

    sheets: dict[int, MakingProgress]
    open_steps: set[int]
    done_steps: set[int]
    came: set[int]

    @classmethod
    def of(cls, connection: Connection, machine_id: int) -> _Made:
        sheets = connection.execute(
            select(MakingSheets.part_id, MakingSheets.progress)
            .join(Parts, Parts.id == MakingSheets.part_id)
            .where(Parts.machine_id == machine_id, MakingSheets.progress != MakingProgress.SCRAPPED)
            .order_by(MakingSheets.attempt, MakingSheets.id)
        )
        steps = connection.execute(
            select(Tasks.part_id, Tasks.state).where(
                Tasks.machine_id == machine_id, Tasks.part_id.is_not(None), Tasks.kind.in_(_SHAPING)
            )
        ).all()
        came = connection.execute(
            select(Waitings.part_id)
            .join(Parts, Parts.id == Waitings.part_id)
            .where(Parts.machine_id == machine_id, Waitings.arrived_at.is_not(None))
        ).scalars()
        return cls(
            {row.part_id: MakingProgress(row.progress) for row in sheets},
            {row.part_id for row in steps if row.state in (TaskState.OPEN, TaskState.UNDER_WAY)},
            {row.part_id for row in steps if row.state == TaskState.DONE},
            {key for key in came if key is not None},
        )

    def lacks(self, part_id: int, decision: Decision, origin: Origin, off: bool) -> str:
        """Why the part is not there as decided; empty when it is."""
        sheet = self.sheets.get(part_id)
        if sheet is not None and sheet is not MakingProgress.ACCEPTED:
            return f"{_WANTED.get(decision, 'not made')}, its making sheet is {sheet.value}"
        still_shaped = part_id in self.open_steps
        if still_shaped and (decision is Decision.REWORK or (decision is Decision.REMAKE and sheet is None)):
            # Its material or the ground blank may have come: that is not the part.
            return _WANTED[decision]
        if sheet is MakingProgress.ACCEPTED or origin in _THERE or part_id in self.came:
            return ""
        if decision in _WANTED:
            return "" if part_id in self.done_steps and not still_shaped else _WANTED[decision]
        if origin is Origin.MISSING:
            return "missing"
        return "taken off and still to be decided" if decision is Decision.OPEN and off else ""
