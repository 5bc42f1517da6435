"""The controls of a machine as rows: what each does, as found, and whether it was proved after refit."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.model.tables.controls import Controls
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.photos import Photos
from rebuild.trade.sizes.show import show_length
from rebuild.words.controls import ControlKind
from rebuild.words.photos import PhotoPhase
from rebuild.words.run_in import LookWhen
from rebuild.work.photos.rows import PhotoRow
from rebuild.work.records.field import show_day

#: The tables the lookups here ask.
READS = frozenset({"control", "part", "photo"})


@dataclass(frozen=True, slots=True)
class ControlRow:
    """One control; lengths are words in the unit of its dial, empty where none was stated or measured."""

    id: int
    name: str
    kind: ControlKind
    location: str
    does: str
    per_turn: str
    dial: str
    engages: str
    retracts: str
    doubles: str
    trapped: str
    handed: str
    found: str
    found_turn: str
    found_at: dt.datetime | None
    due: LookWhen
    proved: str
    proved_turn: str
    proved_at: dt.datetime | None
    proved_by: str
    part_id: int | None
    part: str
    note: str
    photo: PhotoRow | None

    @property
    def stands(self) -> str:
        """How far it is proved, in words."""
        if self.proved_at is None:
            return (
                f"to be proved {self.due.value}"
                if self.due is not LookWhen.FIRST_POWER
                else "to be proved at first power"
            )
        return f"proved {show_day(self.proved_at)}" + (f", {self.proved_by}" if self.proved_by else "")

    @property
    def peculiar(self) -> str:
        """What must be known of it before it is pulled: what traps it, how it is handed, what it doubles."""
        told = (
            f"trapped by {self.trapped}" if self.trapped else "",
            self.handed,
            f"does the same as {self.doubles}" if self.doubles else "",
        )
        return "; ".join(filter(None, told))


def controls(connection: Connection, machine_id: int) -> list[ControlRow]:
    """All controls of a machine, in their own order."""
    names = {
        row.id: row.name
        for row in connection.execute(
            select(Controls.id, Controls.name).where(Controls.machine_id == machine_id)
        )
    }
    pictures = _pictures(connection, machine_id)
    rows = connection.execute(
        select(*Controls.columns(), Parts.code.label("part_code"), Parts.name.label("part_name"))
        .select_from(Controls)
        .outerjoin(Parts, Parts.id == Controls.part_id)
        .where(Controls.machine_id == machine_id)
        .order_by(Controls.position, Controls.id)
    )
    return [
        ControlRow(
            row.id, row.name, row.kind, row.location, row.does, _length(row.per_turn_mm, row.unit), row.dial,
            row.engages, row.retracts, names.get(row.doubles_id or 0, ""), row.trapped, row.handed, row.found,
            _length(row.found_turn_mm, row.unit), row.found_at, row.due, row.proved,
            _length(row.proved_turn_mm, row.unit), row.proved_at, row.proved_by, row.part_id,
            f"{row.part_code or ''} {row.part_name or ''}".strip(), row.note, pictures.get(row.id),
        )
        for row in rows
    ]  # fmt: skip


def _length(mm: float | None, unit: str) -> str:
    return "" if mm is None else show_length(mm, unit)


def _pictures(connection: Connection, machine_id: int) -> dict[int, PhotoRow]:
    """The picture of each control: the one chosen for it, else the newest of its part."""
    found: dict[int, PhotoRow] = {}
    photo = (
        Photos.id, Photos.sha256, Photos.ending, Photos.file_name, Photos.width, Photos.height, Photos.taken_at,
        Photos.phase, Photos.proves,
    )  # fmt: skip
    for joined in (Photos.part_id == Controls.part_id, Photos.id == Controls.photo_id):
        rows = connection.execute(
            select(Controls.id.label("control"), Controls.name, *photo)
            .select_from(Controls)
            .join(Photos, joined)
            .where(Controls.machine_id == machine_id)
            .order_by(Photos.taken_at, Photos.id)
        )
        for row in rows:
            found[row.control] = PhotoRow(
                row.id, row.sha256, row.ending, row.file_name, row.width, row.height, row.taken_at,
                PhotoPhase(row.phase), row.proves, row.name,
            )  # fmt: skip
    return found


def not_proved(connection: Connection, machine_id: int, due: LookWhen) -> list[ControlRow]:
    """The controls still to be proved at that point."""
    return [row for row in controls(connection, machine_id) if row.proved_at is None and row.due is due]
