"""One glance of a part: where it lies, how it came off, what was read, what hangs on it."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from enum import Enum

from sqlalchemy import Connection, select

from rebuild.errors import NotThere
from rebuild.model.tables.log import Questions
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.places import Places
from rebuild.model.tables.teardown import Attempts, RemovalParts, Removals
from rebuild.trade.limits.judgement import Rule
from rebuild.trade.sizes.show import show_length
from rebuild.words.counted import counted
from rebuild.words.decisions import Decision
from rebuild.words.log import QuestionState
from rebuild.words.places import place_words
from rebuild.words.steps import TaskState
from rebuild.work.decisions import rows_skip
from rebuild.work.decisions.rows_skip import if_part_skipped
from rebuild.work.documents.rows import pages_of_part
from rebuild.work.fits import rows as fits
from rebuild.work.making import rows as making
from rebuild.work.making.rows_story import part_story
from rebuild.work.photos.rows import PhotoRow, Which, photos
from rebuild.work.places.rows import stays
from rebuild.work.readings.rows_grid import Asked, GridRow, keys, rows
from rebuild.work.readings.rows_judged import instrument_limits
from rebuild.work.records.field import show_day
from rebuild.work.steps import rows as steps
from rebuild.work.steps.rows import tasks
from rebuild.work.teardown.rows_removals import fasteners, removals, shims
from rebuild.work.waiting.rows import Stand, waiting

READS = (
    steps.READS
    | rows_skip.READS
    | {
        "attempt",
        "call_out",
        "camera",
        "concession",
        "document",
        "document_page",
        "fastener",
        "machine",
        "odd_size",
        "photo",
        "photo_subject",
        "removal",
        "shim_leaf",
        "shim_pack",
        "stay",
    }
)
LAST_EVENTS = 4


class About(Enum):
    """What a section of the glance is about."""

    LIES = "Where it lies"
    LAY = "Lay before"
    DECIDED = "Decided"
    SKIPPED = "If I skip this"
    OFF = "How it came off"
    READ = "Readings"
    FITS = "Fits"
    MADE = "Making sheets"
    ORDERS = "Orders"
    QUESTIONS = "Questions"
    STEPS = "Steps"
    MANUALS = "In the manuals"
    STORY = "Story"


@dataclass(frozen=True, slots=True)
class Told:
    """One line of a section, and the id of the row it speaks of in that section's table."""

    words: str
    row_id: int | None = None
    tail: str = ""


@dataclass(frozen=True, slots=True)
class PartGlance:
    """A part's sections in order; one with nothing to tell is left out."""

    part_id: int
    title: str
    subassembly_id: int | None
    photo: PhotoRow | None
    sections: tuple[tuple[About, tuple[Told, ...]], ...]

    def of(self, about: About) -> tuple[Told, ...]:
        """The lines of one section."""
        return next((lines for key, lines in self.sections if key is about), ())


def glance(
    connection: Connection, part_id: int, now: dt.datetime, rule: Rule = Rule.CONFORMANCE_95
) -> PartGlance:
    """The glance of one part. Raises NotThere."""
    part = connection.execute(
        select(*Parts.columns(), Places.kind.label("place_kind"), Places.name.label("place"))
        .outerjoin(Places, Places.id == Parts.place_id)
        .where(Parts.id == part_id)
    ).first()
    if part is None:
        raise NotThere(f"The part no. {part_id} is no longer there.", way_out="It may have been removed.")
    place = place_words(part.place_kind, part.place) if part.place else "no place noted"
    since = f"since {show_day(part.placed_at)}" if part.place and part.placed_at else ""
    lies = [Told(place, part_id, since)]
    lies += [
        Told(f"{what}: {text}", part_id)
        for what, text in (("sat", part.orientation), ("match mark", part.match_mark))
        if text
    ]
    decided = [Told(part.decision.value, part_id, part.decision_reason)]
    if part.decision is Decision.OPEN:
        decided = [Told("still to be decided", part_id)]
    found: list[tuple[About, list[Told]]] = [
        (About.LIES, lies),
        (About.LAY, _lay(connection, part_id)),
        (About.DECIDED, decided),
        (About.SKIPPED, _skipped(connection, part_id, rule)),
        (About.OFF, _off(connection, part_id)),
        (About.READ, _read(connection, part.machine_id, part_id, rule)),
        (About.FITS, _fits(connection, part_id, rule)),
        (About.MADE, _made(connection, part.machine_id, part_id)),
        (About.ORDERS, _orders(connection, part.machine_id, part_id, now)),
        (About.QUESTIONS, _questions(connection, part_id)),
        (About.STEPS, _steps(connection, part.machine_id, part_id)),
        (About.MANUALS, _manuals(connection, part_id)),
        (About.STORY, _story(connection, part_id, rule)),
    ]
    shown = photos(connection, part.machine_id, Which.CHOSEN, part_ids=(part_id,))
    return PartGlance(
        part_id,
        f"{part.code} {part.name}".strip(),
        part.subassembly_id,
        shown[0] if shown else None,
        tuple((about, tuple(lines)) for about, lines in found if lines),
    )


def _skipped(connection: Connection, part_id: int, rule: Rule) -> list[Told]:
    """What leaving it as it is costs, as far as anything read says so."""
    found = if_part_skipped(connection, part_id, rule).value
    return [Told(words, part_id, costs.value) for costs, words in found.lines[:LAST_EVENTS]]


def _lay(connection: Connection, part_id: int) -> list[Told]:
    """Where it lay before, the newest first."""
    left = [row for row in stays(connection, part_id) if row.left_at is not None]
    return [
        Told(", ".join(filter(None, (row.place, row.why))), row.place_id, row.words)
        for row in left[:LAST_EVENTS]
    ]


def _off(connection: Connection, part_id: int) -> list[Told]:
    """Each time it came off, newest first, with its fasteners and shims."""
    listed = connection.execute(
        select(Removals.id, Removals.attempt_id)
        .join(RemovalParts, RemovalParts.removal_id == Removals.id)
        .join(Attempts, Attempts.id == Removals.attempt_id)
        .where(RemovalParts.part_id == part_id)
        .order_by(Attempts.number.desc(), Removals.position)
    ).all()
    lines: list[Told] = []
    for row in listed:
        one = next(found for found in removals(connection, row.attempt_id) if found.id == row.id)
        how = [
            one.way,
            one.orientation and f"sat {one.orientation}",
            one.match_mark and f"mark {one.match_mark}",
        ]
        lines.append(Told(", ".join(filter(None, how)), row.id, show_day(one.at)))
        lines += [Told(held.words, row.id) for held in fasteners(connection, [row.id]).get(row.id, ())]
        lines += [Told(f"shims {pack.words}", row.id) for pack in shims(connection, [row.id]).get(row.id, ())]
        lines += [Told(text, row.id) for text in (one.hard, one.found) if text]
    return lines


def _read(connection: Connection, machine_id: int, part_id: int, rule: Rule) -> list[Told]:
    limits = instrument_limits(connection)
    order = keys(connection, Asked(machine_id, part_ids=frozenset((part_id,))), rule, limits)
    by_feature: dict[int, list[GridRow]] = {}
    for row in rows(connection, order, rule, limits):
        by_feature.setdefault(row.feature_id, []).append(row)
    return [_feature(found) for found in by_feature.values()]


def _feature(found: list[GridRow]) -> Told:
    """A feature in one line: its stations from smallest to largest, and the worst verdict among them."""
    first = found[0]
    read = [row.speaking for row in found]
    values = sorted(reading.value_mm for reading in read if reading is not None)
    if not values:
        return Told(f"{first.feature}: not read yet", first.feature_id, first.spec_text)
    size = show_length(values[0], first.unit)
    if len(values) > 1 and values[-1] != values[0]:
        size = f"{size} to {show_length(values[-1], first.unit)}"
    judged = [row.judgement for row in found if row.judgement is not None]
    worst = max(judged, key=lambda one: _BADNESS.index(one.verdict.value), default=None)
    left = len(found) - len(values)
    unread = f", {counted(left, 'station')} not read" if left else ""
    verdict = worst.verdict.value if worst is not None else "no spec"
    return Told(f"{first.feature}: {size}{unread}", first.feature_id, verdict)


_BADNESS = ("no spec", "conforms", "undecided", "does not conform")


def _fits(connection: Connection, part_id: int, rule: Rule) -> list[Told]:
    found = fits.rows(connection, fits.of_parts(connection, [part_id]), rule)
    return [Told(row.title, row.id, row.state.value + (", stale" if row.stale else "")) for row in found]


def _made(connection: Connection, machine_id: int, part_id: int) -> list[Told]:
    own = {key for key, _ in making.of_parts(connection, [part_id])}
    found = [row for row in making.sheets(connection, machine_id) if row.id in own] if own else []
    return [Told(f"{row.shape.value}, attempt {row.attempt}", row.id, row.state.value) for row in found]


def _orders(connection: Connection, machine_id: int, part_id: int, now: dt.datetime) -> list[Told]:
    return [
        Told(row.what, row.id, row.words)
        for row in waiting(connection, machine_id, now)
        if row.part_id == part_id and row.stand is not Stand.CLOSED
    ]


def _questions(connection: Connection, part_id: int) -> list[Told]:
    listed = connection.execute(
        select(Questions.id, Questions.text, Questions.state, Questions.answer)
        .where(Questions.part_id == part_id)
        .order_by(Questions.state != QuestionState.OPEN, Questions.id.desc())
    )
    return [Told(row.text, row.id, row.answer or row.state.value) for row in listed]


def _steps(connection: Connection, machine_id: int, part_id: int) -> list[Told]:
    found = tasks(connection, machine_id, None, [part_id])
    closed = (TaskState.DONE, TaskState.LEFT_OUT)
    left = [row for row in found if row.state not in closed]
    lines = [
        Told(row.title, row.id, f"waits for {row.waits_for[0][1]}" if row.waits_for else row.state.value)
        for row in left
    ]
    done = len(found) - len(left)
    return [*lines, *([Told(f"{counted(done, 'step')} done")] if done else [])]


def _manuals(connection: Connection, part_id: int) -> list[Told]:
    """The pages that show it, and where the machine differs from them."""
    return [
        Told(
            ": ".join(filter(None, (page.called, mark.text))),
            mark.id,
            mark.differs and f"differs: {mark.differs}",
        )
        for page, mark in pages_of_part(connection, part_id)
    ]


def _story(connection: Connection, part_id: int, rule: Rule) -> list[Told]:
    events = part_story(connection, part_id, rule).events[-LAST_EVENTS:]
    return [
        Told(f"{show_day(event.when)} {event.what}: {_brief(event.text)}", part_id)
        for event in reversed(events)
    ]


def _brief(text: str) -> str:
    """The first of a list of readings and how many more; the whole story stands with its making sheet."""
    first, *more = text.split("; ")
    return f"{first} and {len(more)} more" if more else first
