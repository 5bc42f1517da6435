"""What the tree's filter finds, open steps by part, and what hangs on one part."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from sqlalchemy import Connection, String, cast, func, or_, select

from rebuild.model.tables.decisions import Concessions
from rebuild.model.tables.features import Features
from rebuild.model.tables.machines import Subassemblies
from rebuild.model.tables.parts import MatchedSets, Parts
from rebuild.model.tables.places import Places
from rebuild.model.tables.steps import Tasks
from rebuild.work.machines.rows_tree import CLOSED
from rebuild.work.records.field import show_day

#: The tables the lookups here ask.
READS = frozenset({"concession", "feature", "matched_set", "part", "place", "subassembly", "task"})


def open_steps(connection: Connection, machine_id: int) -> dict[int, int]:
    """How many steps of each part are still open; parts without any are left out."""
    rows = connection.execute(
        select(Tasks.part_id, func.count())
        .where(Tasks.machine_id == machine_id, Tasks.part_id.is_not(None), Tasks.state.not_in(CLOSED))
        .group_by(Tasks.part_id)
    )
    return {row[0]: row[1] for row in rows if row[0] is not None}


def matching_parts(connection: Connection, machine_id: int, text: str) -> set[int]:
    """Parts of a machine in which every word of ``text`` is found.

    Looked for in: code, name, other names, place, decision, stamped number, what it is suspected to
    be, identity, and the code and name of its subassembly.
    """
    query = (
        select(Parts.id)
        .select_from(Parts)
        .outerjoin(Places, Places.id == Parts.place_id)
        .outerjoin(Subassemblies, Subassemblies.id == Parts.subassembly_id)
        .where(Parts.machine_id == machine_id)
    )
    searched = (
        Parts.code,
        Parts.name,
        Parts.other_names,
        Parts.stamped,
        Parts.suspects,
        Places.name,
        Subassemblies.code,
        Subassemblies.name,
        cast(Parts.decision, String),
        cast(Parts.identity, String),
        cast(Places.kind, String),
    )
    for word in text.split():
        query = query.where(or_(*(column.icontains(word, autoescape=True) for column in searched)))
    return set(connection.execute(query).scalars())


@dataclass(frozen=True, slots=True)
class ConcessionRow:
    """A part accepted outside its spec."""

    id: int
    feature: str
    accepted: str
    reason: str
    by: str
    at: str


def concessions(connection: Connection, part_id: int) -> list[ConcessionRow]:
    """The concessions of one part, newest first."""
    rows = connection.execute(
        select(
            Concessions.id,
            Features.name,
            Concessions.accepted,
            Concessions.reason,
            Concessions.accepted_by,
            Concessions.accepted_at,
        )
        .select_from(Concessions)
        .outerjoin(Features, Features.id == Concessions.feature_id)
        .where(Concessions.part_id == part_id)
        .order_by(Concessions.id.desc())
    )
    return [
        ConcessionRow(
            row.id,
            row.name or "the part",
            row.accepted,
            row.reason,
            row.accepted_by,
            show_day(row.accepted_at) if row.accepted_at else "",
        )
        for row in rows
    ]


def features(connection: Connection, part_id: int) -> list[tuple[int, str]]:
    """The features of one part in their order: id and name."""
    rows = connection.execute(
        select(Features.id, Features.name)
        .where(Features.part_id == part_id)
        .order_by(Features.position, Features.id)
    )
    return [(row.id, row.name) for row in rows]


def spec_of_feature(connection: Connection, feature_id: int) -> tuple[str, str]:
    """The spec of a feature as typed, and the unit a bare number in it is in."""
    row = connection.execute(
        select(Features.spec_text, Features.unit).where(Features.id == feature_id)
    ).first()
    return (row.spec_text, row.unit) if row is not None else ("", "mm")


def names(connection: Connection, part_ids: Iterable[int]) -> list[str]:
    """``HS-01 spindle`` for each part, in the order of their codes."""
    rows = connection.execute(
        select(Parts.code, Parts.name).where(Parts.id.in_(list(part_ids))).order_by(Parts.code, Parts.id)
    )
    return [f"{row.code} {row.name}".strip() for row in rows]


def set_members(connection: Connection, machine_id: int) -> dict[int, list[str]]:
    """The parts of each matched set of a machine, by the set's id."""
    found: dict[int, list[str]] = {
        key: []
        for key in connection.execute(
            select(MatchedSets.id).where(MatchedSets.machine_id == machine_id)
        ).scalars()
    }
    rows = connection.execute(
        select(Parts.matched_set_id, Parts.code, Parts.name)
        .where(Parts.machine_id == machine_id, Parts.matched_set_id.is_not(None))
        .order_by(Parts.code)
    )
    for row in rows:
        found.setdefault(row.matched_set_id, []).append(f"{row.code} {row.name}".strip())
    return found


def codes(connection: Connection, machine_id: int) -> list[str]:
    """Every part code in use on a machine."""
    query = select(Parts.code).where(Parts.machine_id == machine_id, Parts.code != "")
    return list(connection.execute(query).scalars())


def next_code(prefix: str, used: Iterable[str]) -> str:
    """The code after the highest one that starts with ``prefix-``; empty without a prefix.

    >>> next_code("HS", ["HS-01", "HS-07", "AP-11"])
    'HS-08'
    """
    if not prefix:
        return ""
    tails = [code[len(prefix) + 1 :] for code in used if code.startswith(f"{prefix}-")]
    numbers = [int(tail) for tail in tails if tail.isdigit()]
    width = max((len(tail) for tail in tails if tail.isdigit()), default=2)
    return f"{prefix}-{max(numbers, default=0) + 1:0{width}d}"
