"""Which part of which machine an unknown thing may be."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from sqlalchemy import Connection, func, select

from rebuild.errors import BadEntry
from rebuild.model.tables.features import Features
from rebuild.model.tables.machines import Machines
from rebuild.model.tables.making import MakingSheets
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.readings import Readings
from rebuild.model.tables.teardown import RemovalParts, Removals
from rebuild.trade.boxes.across import across_feature
from rebuild.trade.boxes.suspects import Candidate, HasSize, Seen, suspects
from rebuild.trade.sizes.own_unit import sizes_in
from rebuild.trade.tapers.machine_tapers import parse_taper
from rebuild.trade.teardown.meant import Named, meant, named_outright
from rebuild.words.boxes import ClueKind
from rebuild.words.parts import Identity, Origin
from rebuild.words.readings import FeatureKind
from rebuild.work.boxes.rows import clues
from rebuild.work.teardown.rows_candidates import lost_parts

#: The tables the lookups here ask.
READS = frozenset({
    "attempt", "clue", "feature", "machine", "making_sheet", "part", "reading", "removal", "removal_part",
})  # fmt: skip


@dataclass(frozen=True, slots=True)
class SuspectRow:
    """A part a thing may be, how much speaks for it, and what."""

    part_id: int
    called: str
    machine_id: int
    machine: str
    score: float
    why: str


def suspects_of(connection: Connection, part_id: int) -> list[SuspectRow]:
    """The parts of every machine a thing may be, the likeliest first."""
    rows = connection.execute(
        select(*Parts.columns(), Machines.name.label("machine"), Machines.unit.label("own_unit"))
        .join(Machines, Machines.id == Parts.machine_id)
        .order_by(Parts.machine_id, Parts.code, Parts.id)
    ).all()
    thing = next((row for row in rows if row.id == part_id), None)
    if thing is None:
        return []
    seen = [Seen(one.kind, one.text, one.mm) for one in clues(connection).get(part_id, ())]
    sizes, threads = _measured(connection)
    seen += [
        Seen(ClueKind.SIZE, one.name, (one.low_mm + one.high_mm) / 2, one.of)
        for one in sizes.get(part_id, ())
    ]
    seen += [Seen(ClueKind.MARK, thing.stamped)] if thing.stamped else []
    made, lost, told = _made(connection), lost_parts(connection), _stamped_in_log(connection)
    others = [row for row in rows if row.id != part_id and row.identity is Identity.CONFIRMED]
    candidates = [
        Candidate(
            row.id,
            row.origin is Origin.MISSING or row.id in lost,
            f"{row.name} {row.other_names}",
            tuple(sizes.get(row.id, ())),
            (*threads.get(row.id, ()), *(thread for thread, _ in made.get(row.id, ()) if thread)),
            tuple(_tapers(taper for _, taper in made.get(row.id, ()))),
            " ".join(filter(None, (row.stamped, row.maker_number, *told.get(row.id, ())))),
            (row.code, row.maker_number),
        )
        for row in others
    ]
    by_id = {row.id: row for row in others}
    with sizes_in(thing.own_unit):
        found = suspects(f"{thing.name} {thing.suspects}", seen, candidates)
    return [
        SuspectRow(
            one.key,
            f"{by_id[one.key].code} {by_id[one.key].name}".strip(),
            by_id[one.key].machine_id,
            by_id[one.key].machine,
            one.score,
            "; ".join(one.why),
        )
        for one in found
    ]


@dataclass(frozen=True, slots=True)
class NamedPart:
    """The part that a few words mean; ``outright`` when they are its whole code or name."""

    part_id: int
    called: str
    outright: bool


def part_named(connection: Connection, part_id: int, text: str) -> NamedPart:
    """The part of any machine named by hand as what the thing ``part_id`` is, those of its own machine first.

    Raises:
        BadEntry: nothing was typed, or no part or several are meant.
    """
    if not text.strip():
        raise BadEntry("is empty.", where="It is", way_out="Type the part’s code or its name.")
    rows = connection.execute(
        select(Parts.id, Parts.code, Parts.name, Parts.machine_id)
        .where(Parts.id != part_id)
        .order_by(Parts.machine_id, Parts.code, Parts.id)
    ).all()
    at = connection.execute(select(Parts.machine_id).where(Parts.id == part_id)).scalar()
    here = [Named(row.id, row.code, row.name) for row in rows if row.machine_id == at]
    others = [Named(row.id, row.code, row.name) for row in rows if row.machine_id != at]
    found = meant(text, here, others, where="It is")
    return NamedPart(found.key, found.title, named_outright(text, found))


def part_titles(connection: Connection, part_id: int) -> list[str]:
    """Every part but one by code and name, for the line that completes them."""
    rows = connection.execute(
        select(Parts.code, Parts.name).where(Parts.id != part_id).order_by(Parts.code, Parts.name)
    )
    return [f"{row.code} {row.name}".strip() for row in rows]


def _measured(connection: Connection) -> tuple[dict[int, list[HasSize]], dict[int, list[str]]]:
    """Sizes and threads of every part: a spec's limits or nominal, and the newest reading of each feature."""
    newest = (
        select(func.max(Readings.id).label("id"))
        .where(Readings.struck.is_(None))
        .group_by(Readings.feature_id)
        .subquery()
    )
    read = {
        row.feature_id: row.value_mm
        for row in connection.execute(
            select(Readings.feature_id, Readings.value_mm).join(newest, newest.c.id == Readings.id)
        )
    }
    sizes: dict[int, list[HasSize]] = {}
    threads: dict[int, list[str]] = {}
    for row in connection.execute(select(*Features.columns()).order_by(Features.position, Features.id)):
        if row.kind in _NO_SIZES:
            continue
        of = across_feature(row.kind, row.name)
        ends = [mm for mm in (row.low_mm, row.high_mm) if mm is not None]
        asked = ends if len(ends) == 2 else [row.nominal_mm] if row.nominal_mm is not None else []
        if asked:
            sizes.setdefault(row.part_id, []).append(HasSize(row.name, min(asked), max(asked), of))
        value = read.get(row.id)
        if value is not None:
            sizes.setdefault(row.part_id, []).append(HasSize(f"{row.name} as read", value, value, of))
        if row.thread:
            threads.setdefault(row.part_id, []).append(row.thread)
    return sizes, threads


#: What is measured on these is how far something is off, not how large it is.
_NO_SIZES = (
    FeatureKind.STRAIGHTNESS, FeatureKind.RUNOUT, FeatureKind.GAP, FeatureKind.END_PLAY, FeatureKind.LOST_MOTION,
)  # fmt: skip


def _made(connection: Connection) -> dict[int, list[tuple[str, str]]]:
    """Thread and taper of each part's making sheets."""
    found: dict[int, list[tuple[str, str]]] = {}
    rows = connection.execute(select(MakingSheets.part_id, MakingSheets.thread, MakingSheets.taper))
    for row in rows:
        found.setdefault(row.part_id, []).append((row.thread, row.taper))
    return found


def _stamped_in_log(connection: Connection) -> dict[int, list[str]]:
    """What the removal log's notes say was stamped on a part."""
    found: dict[int, list[str]] = {}
    rows = connection.execute(
        select(RemovalParts.part_id, Removals.note)
        .join(Removals, Removals.id == RemovalParts.removal_id)
        .where(Removals.note.ilike("%stamped%"))
    )
    for part_id, note in rows:
        found.setdefault(part_id, []).extend(_STAMPED.findall(note))
    return found


#: What was stamped, up to the end of the clause.
_STAMPED = re.compile(r"\bstamped\b[:\s]*([^,;\n]+)", re.IGNORECASE)


def _tapers(typed: Iterable[str]) -> list[str]:
    """Tapers by their usual names; what is typed otherwise stays as it is."""
    found = []
    for text in typed:
        try:
            found.append(parse_taper(text).name)
        except BadEntry:
            found += [text] if text else []
    return found
