"""Every part of a machine as its book tells it, by subassembly, with sets and concessions."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.model.asked import alias
from rebuild.model.tables.decisions import Concessions
from rebuild.model.tables.features import Features
from rebuild.model.tables.machines import Subassemblies
from rebuild.model.tables.parts import MatchedSets, Parts
from rebuild.model.tables.places import Places
from rebuild.words.decisions import Decision
from rebuild.words.machines import Scope
from rebuild.words.parts import Identity, Origin
from rebuild.words.places import place_words

#: The tables the lookups here ask.
READS = frozenset({"concession", "feature", "matched_set", "part", "place", "subassembly"})


@dataclass(frozen=True, slots=True)
class ConcessionLine:
    """Something accepted outside its spec."""

    part_id: int
    feature: str
    accepted: str
    reason: str
    by: str
    at: dt.datetime | None


@dataclass(frozen=True, slots=True)
class PartPage:
    """One part with all that was said of it."""

    id: int
    code: str
    name: str
    other_names: str
    quantity: int
    identity: Identity
    suspects: str
    origin: Origin
    material: str
    condition: str
    decision: Decision
    reason: str
    criterion: str
    would_change: str
    decided_at: dt.datetime | None
    method: str
    place: str
    match_mark: str
    orientation: str
    matched_set: str
    handedness: str
    figure_item: str
    maker_number: str
    stamped: str
    spare_of: str
    note: str
    concessions: tuple[ConcessionLine, ...]

    @property
    def title(self) -> str:
        """``HS-01 spindle``."""
        return f"{self.code} {self.name}".strip()


@dataclass(frozen=True, slots=True)
class GroupPage:
    """A subassembly with its own parts; ``depth`` is how deep it lies in others. Id 0: the loose parts."""

    id: int
    code: str
    name: str
    depth: int
    scope: Scope | None
    manual_page: str
    note: str
    parts: tuple[PartPage, ...]

    @property
    def title(self) -> str:
        """``HS Headstock``."""
        return f"{self.code} {self.name}".strip()


@dataclass(frozen=True, slots=True)
class SetLine:
    """Parts that must stay together."""

    name: str
    parts: tuple[str, ...]
    note: str


def groups(connection: Connection, machine_id: int) -> tuple[GroupPage, ...]:
    """Subassemblies in tree order with their parts; loose parts come last, if there are any."""
    parts = _parts(connection, machine_id)
    rows = connection.execute(
        select(
            Subassemblies.id,
            Subassemblies.parent_id,
            Subassemblies.code,
            Subassemblies.name,
            Subassemblies.scope,
            Subassemblies.manual_page,
            Subassemblies.note,
        )
        .where(Subassemblies.machine_id == machine_id)
        .order_by(Subassemblies.position, Subassemblies.id)
    ).all()
    by_id = {row.id: row for row in rows}
    found = [
        GroupPage(
            key, row.code, row.name, depth, row.scope, row.manual_page, row.note, tuple(parts.get(key, ()))
        )
        for key, depth in _walk([(row.id, row.parent_id) for row in rows])
        for row in (by_id[key],)
    ]
    if None in parts:
        found.append(GroupPage(0, "", "Loose parts", 0, None, "", "", tuple(parts[None])))
    return tuple(found)


def _walk(nodes: Sequence[tuple[int, int | None]]) -> list[tuple[int, int]]:
    """Ids with their depth, each before what it holds."""
    inside: dict[int | None, list[int]] = {}
    for key, parent in nodes:
        inside.setdefault(parent, []).append(key)
    found: list[tuple[int, int]] = []
    waiting = [(key, 0) for key in reversed(inside.get(None, []))]
    while waiting:
        key, depth = waiting.pop()
        found.append((key, depth))
        waiting += [(child, depth + 1) for child in reversed(inside.get(key, []))]
    return found


def _parts(connection: Connection, machine_id: int) -> dict[int | None, list[PartPage]]:
    original = alias(Parts, "original")
    rows = connection.execute(
        select(
            *Parts.columns(),
            Places.kind.label("place_kind"),
            Places.name.label("place"),
            MatchedSets.name.label("set_name"),
            original.code.label("original_code"),
            original.name.label("original_name"),
        )
        .outerjoin(Places, Places.id == Parts.place_id)
        .outerjoin(MatchedSets, MatchedSets.id == Parts.matched_set_id)
        .outerjoin(original, original.id == Parts.spare_of_id)
        .where(Parts.machine_id == machine_id)
        .order_by(Parts.subassembly_id, Parts.position, Parts.id)
    )
    conceded: dict[int, list[ConcessionLine]] = {}
    for line in _concessions(connection, machine_id):
        conceded.setdefault(line.part_id, []).append(line)
    found: dict[int | None, list[PartPage]] = {}
    for row in rows:
        found.setdefault(row.subassembly_id, []).append(
            PartPage(
                row.id,
                row.code,
                row.name,
                row.other_names,
                row.quantity,
                Identity(row.identity),
                row.suspects,
                Origin(row.origin),
                row.material,
                row.condition,
                Decision(row.decision),
                row.decision_reason,
                row.decision_criterion,
                row.decision_would_change,
                row.decided_at,
                row.decision_method or "",
                place_words(row.place_kind, row.place) if row.place else "",
                row.match_mark,
                row.orientation,
                row.set_name or "",
                row.handedness,
                row.figure_item,
                row.maker_number,
                row.stamped,
                f"{row.original_code or ''} {row.original_name or ''}".strip(),
                row.note,
                tuple(conceded.get(row.id, ())),
            )
        )
    return found


def _concessions(connection: Connection, machine_id: int) -> list[ConcessionLine]:
    rows = connection.execute(
        select(
            Concessions.part_id,
            Features.name,
            Concessions.accepted,
            Concessions.reason,
            Concessions.accepted_by,
            Concessions.accepted_at,
        )
        .join(Parts, Parts.id == Concessions.part_id)
        .outerjoin(Features, Features.id == Concessions.feature_id)
        .where(Parts.machine_id == machine_id)
        .order_by(Concessions.id)
    )
    return [
        ConcessionLine(
            row.part_id, row.name or "", row.accepted, row.reason, row.accepted_by, row.accepted_at
        )
        for row in rows
    ]


def matched_sets(connection: Connection, machine_id: int) -> tuple[SetLine, ...]:
    """The matched sets of a machine with the parts in each."""
    rows = connection.execute(
        select(MatchedSets.id, MatchedSets.name, MatchedSets.note, Parts.code, Parts.name.label("part"))
        .outerjoin(Parts, Parts.matched_set_id == MatchedSets.id)
        .where(MatchedSets.machine_id == machine_id)
        .order_by(MatchedSets.id, Parts.code, Parts.id)
    ).all()
    members: dict[int, list[str]] = {}
    for row in rows:
        if row.part is not None:
            members.setdefault(row.id, []).append(f"{row.code} {row.part}".strip())
    heads = {row.id: row for row in rows}
    return tuple(SetLine(row.name, tuple(members.get(key, ())), row.note) for key, row in heads.items())
