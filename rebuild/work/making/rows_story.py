"""The story of a part from as found to as made: what each feature read at each stage, and what was done when."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from sqlalchemy import Connection, func, select

from rebuild.errors import NotThere
from rebuild.model.tables.decisions import Concessions, OddSizes
from rebuild.model.tables.features import Features
from rebuild.model.tables.machines import Machines
from rebuild.model.tables.making import MakingSheets
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.readings import Instruments, Readings
from rebuild.trade.limits.judgement import Rule
from rebuild.trade.limits.spec_unit import with_unit
from rebuild.trade.sizes.length_units import INCH_UNITS
from rebuild.trade.sizes.quantity import Size
from rebuild.trade.sizes.show import show_length
from rebuild.trade.threads.taken import shown
from rebuild.words.decisions import Decision
from rebuild.words.making import MakingProgress
from rebuild.words.readings import STAGES, Stage
from rebuild.work.fits import rows as fits
from rebuild.work.readings.rows_grid import Asked, GridRow, ReadingRow, keys, rows
from rebuild.work.readings.rows_judged import instrument_limits

#: The tables the lookups here ask.
READS = frozenset({
    "concession", "feature", "fit", "instrument", "machine", "making_sheet", "odd_size", "part", "reading",
    "station", "subassembly", "task",
})  # fmt: skip


@dataclass(frozen=True, slots=True)
class FeatureStory:
    """One feature at one station: what is wanted, what it read first, what it reads last, and the verdict on that."""

    feature: str
    wanted: str
    first: str
    last: str
    verdict: str


@dataclass(frozen=True, slots=True)
class Event:
    """Something that happened to the part."""

    when: dt.datetime
    what: str
    text: str


@dataclass(frozen=True, slots=True)
class PartStory:
    """A part's life on one page."""

    part_id: int
    part: str
    machine: str
    material: str
    condition: str
    decision: str
    features: tuple[FeatureStory, ...]
    events: tuple[Event, ...]
    fits: tuple[str, ...]


def part_story(connection: Connection, part_id: int, rule: Rule = Rule.CONFORMANCE_95) -> PartStory:
    """The story of one part. Raises NotThere."""
    part = connection.execute(
        select(*Parts.columns(), Machines.name.label("machine"))
        .join(Machines, Machines.id == Parts.machine_id)
        .where(Parts.id == part_id)
    ).first()
    if part is None:
        raise NotThere(f"The part no. {part_id} is no longer there.", way_out="It may have been removed.")
    limits = instrument_limits(connection)
    order = keys(connection, Asked(part.machine_id, part_ids=frozenset((part_id,))), rule, limits)
    found = rows(connection, order, rule, limits)
    decision = part.decision.value if part.decision is not Decision.OPEN else "still to be decided"
    reason = f": {part.decision_reason}" if part.decision_reason else ""
    events = sorted(
        [
            *_readings(connection, part_id),
            *_decided(part),
            *_sheets(connection, part_id),
            *_conceded(connection, part_id),
            *_odd(connection, part_id),
        ],
        key=lambda event: event.when,
    )
    in_fits = tuple(
        f"{row.title}: {row.sentence}"
        for row in fits.rows(connection, fits.of_parts(connection, [part_id]), rule)
    )
    return PartStory(
        part_id,
        f"{part.code} {part.name}".strip(),
        part.machine,
        part.material,
        part.condition,
        f"{decision}{reason}",
        tuple(_feature(row) for row in found),
        tuple(events),
        in_fits,
    )


def _feature(row: GridRow) -> FeatureStory:
    read = [reading for reading in row.readings if reading is not None]
    first = next((reading for reading in read), None)
    last = row.speaking
    where = f", {row.station}" if row.station else ""
    return FeatureStory(
        f"{row.feature}{where}",
        with_unit(row.spec_text, row.unit),
        _shown(first) if first is not None else "",
        _shown(last) if last is not None and last is not first else "",
        row.judgement.verdict.value if row.judgement is not None and row.spec_text else "",
    )


def _shown(reading: ReadingRow) -> str:
    if reading.repeats > 1 and not reading.how:
        return f"{show_length(reading.value_mm, reading.unit)} {reading.stage.value}"
    return f"{reading.words} {reading.stage.value}"


def _readings(connection: Connection, part_id: int) -> list[Event]:
    """Readings of one day, stage and instrument told together; struck ones by their reason."""
    found = connection.execute(
        select(
            Readings.taken_at,
            Readings.stage,
            Readings.typed,
            Readings.unit,
            Readings.value_mm,
            Readings.how,
            Readings.read_mm,
            Readings.struck,
            Features.name,
            Features.unit.label("own"),
            func.coalesce(Instruments.name, "").label("instrument"),
        )
        .join(Features, Features.id == Readings.feature_id)
        .outerjoin(Instruments, Instruments.id == Readings.instrument_id)
        .where(Features.part_id == part_id)
        .order_by(Readings.taken_at, Readings.id)
    ).all()
    told: dict[tuple[dt.date, Stage, str, str], tuple[dt.datetime, list[str]]] = {}
    for row in found:
        key = (row.taken_at.date(), row.stage, row.struck or "", row.instrument)
        words = shown(Size(row.typed, row.unit, row.value_mm), 1, row.how or "", row.read_mm)
        if (row.unit in INCH_UNITS) is not (row.own in INCH_UNITS):
            words += f" ({show_length(row.value_mm, row.own)})"
        told.setdefault(key, (row.taken_at, []))[1].append(f"{row.name} {words}")
    return [
        Event(
            when,
            f"measured {stage.value}" + (f", {instrument}" if instrument else ""),
            "; ".join(texts) + (f" (deleted: {struck})" if struck else ""),
        )
        for (_, stage, struck, instrument), (when, texts) in sorted(
            told.items(), key=lambda item: (item[1][0], STAGES.index(item[0][1]))
        )
    ]


def _decided(part: object) -> list[Event]:
    at, decision = getattr(part, "decided_at", None), getattr(part, "decision", Decision.OPEN)
    if at is None or decision is Decision.OPEN:
        return []
    reason = getattr(part, "decision_reason", "")
    return [Event(at, f"decided: {decision.value}", reason)]


def _sheets(connection: Connection, part_id: int) -> list[Event]:
    found: list[Event] = []
    for row in connection.execute(
        select(*MakingSheets.columns()).where(MakingSheets.part_id == part_id).order_by(MakingSheets.attempt)
    ):
        name = f"attempt {row.attempt}"
        for when, what, text in (
            (row.started_at, f"making sheet, {name}", row.material),
            (row.begun_at, f"begun, {name}", ""),
            (row.made_at, f"made, {name}", ""),
        ):
            if when is not None:
                found.append(Event(when, what, text))
        if row.settled_at is not None:
            word = "scrapped" if row.progress is MakingProgress.SCRAPPED else "accepted"
            by = f"by {row.settled_by}" if row.settled_by else ""
            text = "; ".join(
                filter(None, (by, row.settled_note, row.trial_fit and f"trial fit: {row.trial_fit}"))
            )
            found.append(Event(row.settled_at, f"{word}, {name}", text))
    return found


def _conceded(connection: Connection, part_id: int) -> list[Event]:
    return [
        Event(row.accepted_at, "accepted by concession", f"{row.accepted}: {row.reason}")
        for row in connection.execute(select(*Concessions.columns()).where(Concessions.part_id == part_id))
        if row.accepted_at is not None
    ]


def _odd(connection: Connection, part_id: int) -> list[Event]:
    return [
        Event(
            row.since,
            "not standard",
            f"{row.what}{' instead of ' + row.instead_of if row.instead_of else ''}",
        )
        for row in connection.execute(select(*OddSizes.columns()).where(OddSizes.part_id == part_id))
        if row.since is not None
    ]
