"""What became of a part that was made: its values, acceptance, rework, scrap, the trial fit and a spare."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from sqlalchemy import func, select, update

from rebuild.errors import BadEntry
from rebuild.model.records.decisions import Concession
from rebuild.model.records.making import MakingDetail, MakingDimension, MakingSheet
from rebuild.model.records.parts import Part
from rebuild.model.records.readings import Reading
from rebuild.store.act import Act
from rebuild.store.store import Store, Tx
from rebuild.trade.limits.judgement import Rule, Verdict
from rebuild.trade.sizes.show import DECIMALS, show_length
from rebuild.words.decisions import Decision
from rebuild.words.making import LimitsFrom, MakingProgress
from rebuild.words.parts import Origin
from rebuild.words.readings import Stage
from rebuild.work.machines.rows_parts import codes
from rebuild.work.making.acts_details import details_in
from rebuild.work.making.acts_fill import copy_lines
from rebuild.work.making.measures import measure_of
from rebuild.work.making.rows_as_made import MadeValue, scrap_mark, values, worst
from rebuild.work.making.rows_details import is_outside
from rebuild.work.making.rules import called, dimensions_of, open_sheet
from rebuild.work.records.columns import read_typed, set_columns, title
from rebuild.work.records.rows_settings import verdict_rule
from rebuild.work.records.wall_clock import now


@dataclass(frozen=True, slots=True)
class Conceding:
    """Why a part is taken though a size does not conform, and by whom."""

    reason: str
    by: str = ""


def finish(store: Store, sheet_id: int, *, sure: bool = False, at: dt.datetime | None = None) -> None:
    """Say that the part is made. ``sure`` finishes with sizes not measured.

    Raises:
        BadEntry: the work has not begun, or a size that is to be measured has no value yet.
    """
    rule = verdict_rule(store)
    with store.act(Act.FINISH_MAKING, "") as tx:
        sheet = _at(tx, sheet_id, MakingProgress.BEING_MADE, "Begin it first.")
        missing = [row.name for row in _unmeasured(tx, sheet, rule)]
        missing += [row.name for row in details_in(tx, sheet_id) if row.done_at is None]
        if missing and not sure:
            raise BadEntry(
                f"no as-made value yet: {', '.join(missing)}.",
                where=called(tx, sheet),
                way_out="Measure them, or finish once more without.",
            )
        sheet.progress, sheet.made_at = MakingProgress.MADE, at or now()
        tx.subject = f"of {called(tx, sheet)}"


def _at(tx: Tx, sheet_id: int, wanted: MakingProgress, way_out: str) -> MakingSheet:
    sheet = open_sheet(tx, sheet_id)
    if sheet.progress is not wanted:
        raise BadEntry(f"is {sheet.progress.value}.", where=called(tx, sheet), way_out=way_out)
    return sheet


def _unmeasured(tx: Tx, sheet: MakingSheet, rule: Rule) -> list[MakingDimension]:
    tx.session.flush()
    found = values(tx.connection, sheet.id, rule)
    return [
        row
        for row in dimensions_of(tx, sheet.id)
        if row.measured_with
        and row.feature_id is not None
        and measure_of(row).given
        and not found.get(row.id)
        and row.role != "bore before pressing"
    ]


_ASKED = (LimitsFrom.MATE, LimitsFrom.SPEC)


def _refuse_unread(tx: Tx, sheet: MakingSheet, rule: Rule) -> None:
    """Raise BadEntry for a size with limits that nobody read: what is not known does not conform."""
    tx.session.flush()
    found = values(tx.connection, sheet.id, rule)
    unread = [
        row.name
        for row in dimensions_of(tx, sheet.id)
        if row.feature_id is not None
        and (row.low_mm is not None or row.high_mm is not None)
        and (row.measured_with or row.limits_from in _ASKED)
        and not found.get(row.id)
        and row.role != "bore before pressing"
    ]
    if unread:
        raise BadEntry(
            f"has limits and no as-made value: {', '.join(unread)}.",
            where=called(tx, sheet),
            way_out="Read it as made, or take the size off the sheet.",
        )


def accept(
    store: Store,
    sheet_id: int,
    *,
    by: str = "",
    note: str = "",
    concession: Conceding | None = None,
    at: dt.datetime | None = None,
) -> None:
    """Accept the part; a size that does not conform is taken by ``concession``, with its reason, or not at all.

    Raises:
        BadEntry: the part is not made yet; a size with limits was never read; a size does not conform and no
            reason is given.
    """
    rule = verdict_rule(store)
    when = at or now()
    with store.act(Act.ACCEPT_MADE, "") as tx:
        sheet = _at(tx, sheet_id, MakingProgress.MADE, "Finish it first.")
        outside, unsure = _outside(tx, sheet, rule)
        if concession is not None:
            # What reads outside its limits is conceded too, even where its uncertainty leaves it undecided.
            outside = [*outside, *(pair for pair in unsure if _reads_outside(*pair))]
        if outside and concession is None:
            row, value = outside[0]
            raise BadEntry(
                f"is {value.words}: {value.sentence}",
                where=f"{called(tx, sheet)}, {row.name}",
                way_out="Rework it, scrap it, or accept it by concession with a reason.",
            )
        _refuse_unread(tx, sheet, rule)
        off = _details_off(tx, sheet, conceded=concession is not None)
        if concession is not None:
            _concede(tx, sheet, outside, concession, by, when, off)
        remark = _undecided(unsure, sheet.unit)
        sheet.progress, sheet.settled_at, sheet.settled_by = MakingProgress.ACCEPTED, when, by.strip()
        sheet.settled_note = "; ".join(filter(None, (note.strip(), remark)))
        part = tx.get(Part, sheet.part_id, "part")
        if part.decision in (Decision.REMAKE, Decision.OPEN):
            part.origin = Origin.REMADE
        tx.subject = f"of {called(tx, sheet)}" + (" by concession" if outside else "")


def _details_off(tx: Tx, sheet: MakingSheet, *, conceded: bool) -> list[MakingDetail]:
    """The details that came out beyond their limits; refused unless ``conceded``, as one not made always is."""
    details = details_in(tx, sheet.id)
    open_ = [row.name for row in details if row.done_at is None]
    if open_:
        raise BadEntry(
            f"is not ticked as made: {', '.join(open_)}.",
            where=called(tx, sheet),
            way_out="Make it and tick it, or take it off the sheet.",
        )
    off = [row for row in details if is_outside(row, sheet.unit)]
    if off and not conceded:
        raise BadEntry(
            f"came out to {off[0].came_out}, asked for {off[0].size}.",
            where=f"{called(tx, sheet)}, {off[0].name}",
            way_out="Rework it, scrap it, or accept it by concession with a reason.",
        )
    return off


#: Binary dust on a limit [mm].
_LINE_MM = 1e-9


def _reads_outside(row: MakingDimension, value: MadeValue) -> bool:
    """Whether the value itself lies beyond a limit, whatever its uncertainty."""
    low, high = row.low_mm, row.high_mm
    return (low is not None and value.value_mm < low - _LINE_MM) or (
        high is not None and value.value_mm > high + _LINE_MM
    )


_Judged = list[tuple[MakingDimension, MadeValue]]


def _outside(tx: Tx, sheet: MakingSheet, rule: Rule) -> tuple[_Judged, _Judged]:
    """The sizes that do not conform and are not conceded since the sheet was started, and those undecided."""
    tx.session.flush()
    found = values(tx.connection, sheet.id, rule)
    judged = [
        (row, value)
        for row in dimensions_of(tx, sheet.id)
        if (value := worst(found.get(row.id, ()))) is not None
    ]
    conceded = set(
        tx.session.scalars(
            select(Concession.feature_id).where(
                Concession.part_id == sheet.part_id, Concession.accepted_at >= sheet.started_at
            )
        )
    )
    return (
        [
            pair
            for pair in judged
            if pair[1].verdict is Verdict.DOES_NOT and pair[0].feature_id not in conceded
        ],
        [pair for pair in judged if pair[1].verdict is Verdict.UNDECIDED],
    )


def _undecided(unsure: _Judged, unit: str) -> str:
    """The sizes left undecided, and by how much one reads under or over its limit."""
    told = []
    for row, value in unsure:
        off = ""
        if _reads_outside(row, value):
            low, high = row.low_mm, row.high_mm
            under = low is not None and value.value_mm < low
            end = low if under else high
            by = show_length(abs(value.value_mm - (end or 0.0)), unit, DECIMALS[unit] + 1)
            off = f" ({value.words}, {by} {'under' if under else 'over'})"
        told.append(f"{row.name}{off}")
    return f"undecided: {', '.join(told)}" if told else ""


def _concede(
    tx: Tx,
    sheet: MakingSheet,
    outside: _Judged,
    conceding: Conceding,
    by: str,
    when: dt.datetime,
    details: list[MakingDetail],
) -> None:
    if not outside and not details:
        raise BadEntry(
            "is not needed: every size measured conforms, or is undecided and reads inside its limits.",
            where="Concession",
            way_out="Accept the part as it is.",
        )
    taken = [(row.feature_id, f"{row.name} {value.words}") for row, value in outside]
    taken += [(None, f"{row.name} {row.came_out}") for row in details]
    for feature_id, accepted in taken:
        typed = {"reason": conceding.reason, "accepted": accepted, "accepted_by": conceding.by or by}
        made = Concession(part_id=sheet.part_id, feature_id=feature_id, accepted_at=when)
        set_columns(made, read_typed("concession", typed))
        tx.session.add(made)


def rework(store: Store, sheet_id: int, why: str) -> None:
    """Back to the machine: the part can still be brought in.

    Raises:
        BadEntry: no reason, or the part is not made yet.
    """
    if not why.strip():
        raise BadEntry("is empty.", where="Reason", way_out="Say what is to be done to it.")
    with store.act(Act.CHANGE_SHEET, "") as tx:
        sheet = _at(tx, sheet_id, MakingProgress.MADE, "Only a finished part can be reworked.")
        sheet.progress, sheet.made_at = MakingProgress.BEING_MADE, None
        sheet.note = "\n".join(filter(None, (sheet.note, f"Rework: {why.strip()}")))
        tx.subject = f"of {called(tx, sheet)}: rework, {why.strip()}"


def scrap(
    store: Store, sheet_id: int, why: str, *, remake: bool = True, at: dt.datetime | None = None
) -> int | None:
    """Scrap an attempt; its sheet and values are kept. ``remake`` starts the next one; returns its id.

    Its as-made readings are struck, so that they no longer speak for the part.

    Raises:
        BadEntry: no reason, or the work has not begun.
    """
    if not why.strip():
        raise BadEntry("is empty.", where="Reason", way_out="Say what went wrong; the next attempt shows it.")
    when = at or now()
    with store.act(Act.SCRAP_MADE, "") as tx:
        sheet = open_sheet(tx, sheet_id)
        if sheet.progress not in (MakingProgress.BEING_MADE, MakingProgress.MADE):
            raise BadEntry(
                f"is {sheet.progress.value}: there is nothing to scrap yet.",
                where=called(tx, sheet),
                way_out="Remove the sheet instead.",
            )
        features = [row.feature_id for row in dimensions_of(tx, sheet_id) if row.feature_id is not None]
        tx.session.flush()
        tx.connection.execute(
            update(Reading)
            .where(
                Reading.feature_id.in_(features),
                Reading.stage == Stage.AS_MADE,
                Reading.struck.is_(None),
                Reading.taken_at <= when,
            )
            .values(struck=f"{scrap_mark(sheet.attempt)}: {why.strip()}")
        )
        sheet.progress, sheet.settled_at, sheet.settled_note = MakingProgress.SCRAPPED, when, why.strip()
        tx.subject = f"of {called(tx, sheet)}: {why.strip()}"
        return _next_attempt(tx, sheet, why.strip(), when) if remake else None


_CARRIED = ("part_id", "shape", "unit", "quantity", "why", "material", "bar_skin", "blank", "thread", "taper",
            "gear", "key", "finish", "allow_uncertainty", "tool_nose")  # fmt: skip


def _next_attempt(tx: Tx, sheet: MakingSheet, why: str, when: dt.datetime) -> int:
    lesson = f"attempt {sheet.attempt}: {why}"
    made = MakingSheet(
        **{name: getattr(sheet, name) for name in _CARRIED},
        attempt=sheet.attempt + 1,
        started_at=when,
        do_not_copy="\n".join(filter(None, (sheet.do_not_copy, lesson))),
        progress=MakingProgress.RELEASED,
    )
    tx.session.add(made)
    tx.session.flush()
    copy_lines(tx, sheet, made)
    return made.id


def make_spare(store: Store, sheet_id: int, *, note: str = "") -> int:
    """A second piece was made to the same sheet: it becomes a part of its own, spare of the first; returns its id.

    Raises:
        BadEntry: nothing has been made yet.
    """
    with store.act(Act.MAKE_SPARE, "") as tx:
        sheet = tx.get(MakingSheet, sheet_id, "making sheet")
        if sheet.progress not in (MakingProgress.MADE, MakingProgress.ACCEPTED):
            raise BadEntry(
                f"is {sheet.progress.value}.", where=called(tx, sheet), way_out="Make the part first."
            )
        part = tx.get(Part, sheet.part_id, "part")
        last = tx.session.scalar(
            select(func.max(Part.position)).where(
                Part.machine_id == part.machine_id, Part.subassembly_id.is_(part.subassembly_id)
            )
        )
        spare = Part(
            machine_id=part.machine_id,
            subassembly_id=part.subassembly_id,
            name=f"{part.name}, spare",
            code=_spare_code(part.code, codes(tx.connection, part.machine_id)),
            material=sheet.material,
            origin=Origin.REMADE,
            spare_of_id=part.id,
            note=note.strip(),
            position=0 if last is None else last + 1,
        )
        tx.session.add(spare)
        tx.session.flush()
        tx.subject = f"of {title(part)}"
        return spare.id


def _spare_code(code: str, used: list[str]) -> str:
    """``AP-12`` gives ``AP-12-S``, then ``AP-12-S2``; a part without a code gives a spare without one."""
    if not code:
        return ""
    made, number = f"{code}-S", 1
    while made in used:
        number += 1
        made = f"{code}-S{number}"
    return made
