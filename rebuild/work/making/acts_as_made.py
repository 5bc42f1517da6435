"""What became of a part that was made: its values, acceptance, rework, scrap, the trial fit and a spare."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy import func, select, update

from rebuild.errors import BadEntry
from rebuild.model.records.decisions import Concession
from rebuild.model.records.making import MakingDetail, MakingDimension, MakingSheet
from rebuild.model.records.parts import Part
from rebuild.model.records.readings import Reading
from rebuild.store.act import Act
from rebuild.store.store import Store, Tx
from rebuild.trade.limits.judgement import Rule
from rebuild.words.decisions import Decision
from rebuild.words.making import MakingProgress
from rebuild.words.parts import Origin
from rebuild.words.readings import Stage
from rebuild.work.machines.rows_parts import codes
from rebuild.work.making.acts_details import details_in
from rebuild.work.making.acts_fill import copy_lines
from rebuild.work.making.acts_issue import issue
from rebuild.work.making.measures import measure_of
from rebuild.work.making.rows_against import Against, How, against
from rebuild.work.making.rows_as_made import scrap_mark, values
from rebuild.work.making.rows_details import is_outside
from rebuild.work.making.rows_sheet import sheet_page
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


def accept(
    store: Store,
    sheet_id: int,
    *,
    by: str = "",
    note: str = "",
    concession: Conceding | None = None,
    at: dt.datetime | None = None,
) -> None:
    """Accept the part. A size beyond its limits or never read is taken by ``concession``, or not at all.

    A reading beyond a limit is beyond it though its uncertainty leaves it undecided. One undecided within its
    limits wants ``note``, the reason why it is taken.

    Raises:
        BadEntry: the part is not made yet; a size does not conform, was never read or is undecided, and no reason
            is given.
    """
    rule = verdict_rule(store)
    when = at or now()
    with store.act(Act.ACCEPT_MADE, "") as tx:
        sheet = _at(tx, sheet_id, MakingProgress.MADE, "Finish it first.")
        tx.session.flush()
        held = against(sheet_page(tx.connection, sheet_id, rule))
        off = [one for one in held if one.how is not How.UNSURE]
        unsure = [one for one in held if one.how is How.UNSURE]
        details = _details_off(tx, sheet, conceded=concession is not None)
        if concession is not None:
            _concede(tx, sheet, off, concession, by, when, details)
        else:
            _refuse_off(tx, sheet, [one for one in off if not _conceded(tx, sheet, one)])
            if unsure and not note.strip():
                raise _unsure(tx, sheet, unsure)
        remark = f"undecided: {', '.join(f'{one.name} ({one.read})' for one in unsure)}" if unsure else ""
        sheet.progress, sheet.settled_at, sheet.settled_by = MakingProgress.ACCEPTED, when, by.strip()
        sheet.settled_note = "; ".join(filter(None, (note.strip(), remark)))
        part = tx.get(Part, sheet.part_id, "part")
        if part.decision in (Decision.REMAKE, Decision.OPEN):
            part.origin = Origin.REMADE
        tx.subject = f"of {called(tx, sheet)}" + (" by concession" if concession is not None else "")


def _refuse_off(tx: Tx, sheet: MakingSheet, off: Sequence[Against]) -> None:
    """Raise BadEntry naming every size that is beyond its limits or was never read, with its amount."""
    if not off:
        return
    first, rest = off[0], off[1:]
    is_off = f"is {first.read}, {first.off or first.sentence}: to be {first.limits}"
    told = is_off if first.how is How.OUTSIDE else f"has limits, {first.limits}, and was never read"
    raise BadEntry(
        "; ".join([told, *(one.line for one in rest)]) + ".",
        where=f"{called(tx, sheet)}, {first.name}",
        way_out="Read what was never read or tick its operation; rework it, scrap it, or accept it by concession "
        "with a reason.",
    )


def _unsure(tx: Tx, sheet: MakingSheet, unsure: Sequence[Against]) -> BadEntry:
    return BadEntry(
        "; ".join([unsure[0].sentence, *(one.line for one in unsure[1:])]),
        where=f"{called(tx, sheet)}, {unsure[0].name}",
        way_out="Measure it closer, or accept it with the reason why it is taken.",
    )


def _conceded(tx: Tx, sheet: MakingSheet, one: Against) -> bool:
    """Whether a size was conceded since the sheet was started."""
    return one.feature_id is not None and bool(
        tx.session.scalar(
            select(Concession.id).where(
                Concession.part_id == sheet.part_id,
                Concession.feature_id == one.feature_id,
                Concession.accepted_at >= sheet.started_at,
            )
        )
    )


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


def _concede(
    tx: Tx,
    sheet: MakingSheet,
    off: Sequence[Against],
    conceding: Conceding,
    by: str,
    when: dt.datetime,
    details: list[MakingDetail],
) -> None:
    if not off and not details:
        raise BadEntry(
            "is not needed: every size is read and conforms, or is undecided and reads inside its limits.",
            where="Concession",
            way_out="Accept the part as it is; what is undecided asks for its reason.",
        )
    taken = [(one.feature_id, f"{one.name} {one.read or one.sentence}") for one in off]
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
            "gear", "key", "finish", "allow_uncertainty", "tool_nose", "ball_text", "ball_unit", "ball_mm")  # fmt: skip


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
    issue(tx, made, when)
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
