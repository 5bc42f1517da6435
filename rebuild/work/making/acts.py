"""Making sheets: start one from a part with one click, change it, refresh it, release it, begin the work."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from contextlib import nullcontext

from sqlalchemy import select

from rebuild.errors import BadEntry, BrokenOrder, Stale
from rebuild.model.records.machines import Machine
from rebuild.model.records.making import MakingSheet
from rebuild.model.records.parts import Part
from rebuild.store.act import Act
from rebuild.store.store import Store, Tx
from rebuild.trade.making.derive import read_gear, thread_shown, worked_key
from rebuild.trade.making.roles import guess_shape, shapes
from rebuild.trade.making.thread_block import read_nose
from rebuild.words.decisions import Decision
from rebuild.words.making import LimitsFrom, MakingProgress, PartShape
from rebuild.words.readings import Stage
from rebuild.work.fits.acts import look_in
from rebuild.work.making import rows_limits as making_limits
from rebuild.work.making.acts_features import give_feature, tell_features
from rebuild.work.making.acts_fill import again, fill, follows_stock, refresh_all
from rebuild.work.making.acts_issue import follows_issue, issue, not_as_issued
from rebuild.work.making.measures import measure_of
from rebuild.work.making.rows_limits import MateLimits, together
from rebuild.work.making.rows_offered import offered
from rebuild.work.making.rows_plug import plug_stale
from rebuild.work.making.rows_proposed import designations, features_of
from rebuild.work.making.rules import SETTLED, asked_of, called, dimensions_of, open_sheet
from rebuild.work.making.rules_gears import refuse_no_teeth
from rebuild.work.making.rules_stock import refuse_small_stock
from rebuild.work.making.rules_threads import refuse_no_thread, refuse_not_nesting, refuse_two_for_one
from rebuild.work.records.columns import read_typed, set_columns, title
from rebuild.work.records.rows_settings import decimal_comma
from rebuild.work.records.wall_clock import now


def start_sheet(
    store: Store,
    part_id: int,
    *,
    shape: PartShape | None = None,
    allow_uncertainty: bool = False,
    at: dt.datetime | None = None,
) -> int:
    """A new making sheet of a part, filled with all the program knows; returns its id.

    Args:
        shape: guessed from the part's name and features when None.
        allow_uncertainty: narrow the limits by the uncertainty of the mates' readings.

    Raises:
        BadEntry: the part has a sheet that is not settled yet.
        NotThere: the part was removed.
    """
    with store.act(Act.START_SHEET, "") as tx:
        part = tx.get(Part, part_id, "part")
        sheet = put_sheet(tx, part, shape, allow_uncertainty=allow_uncertainty, at=at)
        tx.subject = f"of {title(part)}, attempt {sheet.attempt}"
        return sheet.id


def put_sheet(
    tx: Tx,
    part: Part,
    shape: PartShape | None = None,
    *,
    allow_uncertainty: bool = False,
    at: dt.datetime | None = None,
) -> MakingSheet:
    """Put a new sheet of a part in, filled, inside an act. Raises as ``start_sheet``."""
    sheet = MakingSheet(
        part_id=part.id,
        attempt=_next_attempt(tx, part),
        started_at=at or now(),
        allow_uncertainty=allow_uncertainty,
        why=part.decision_reason or part.condition,
        quantity=max(1, part.quantity),
    )
    features = features_of(tx.connection, part.id)
    guessed = guess_shape(part.name, [one.kind.value for one in features])
    sheet.shape = shape or PartShape(guessed)
    sheet.unit = _unit(tx, part, [one.unit for one in features])
    sheet.material = part.material or shapes()[sheet.shape.value].material
    sheet.finish = shapes()[sheet.shape.value].finish_in(sheet.unit)
    named = designations(features, part.name)
    sheet.thread, sheet.taper = named.thread, named.taper
    tx.session.add(sheet)
    tx.session.flush()
    fill(tx, sheet)
    return sheet


def _next_attempt(tx: Tx, part: Part) -> int:
    rows = tx.session.scalars(
        select(MakingSheet).where(MakingSheet.part_id == part.id).order_by(MakingSheet.attempt)
    ).all()
    for row in rows:
        if row.progress not in SETTLED:
            raise BadEntry(
                f"has attempt {row.attempt} already, {row.progress.value}.",
                where=title(part),
                way_out="Go on with it, or accept or scrap it first.",
            )
    return rows[-1].attempt + 1 if rows else 1


def _unit(tx: Tx, part: Part, units: Sequence[str]) -> str:
    own = tx.get(Machine, part.machine_id, "machine").unit
    if units and own not in units:
        return units[0]
    return own if own in ("mm", "in") else "mm"


#: Fields of the piece in hand; how it is held follows them.
_STOCK = frozenset(("stock_across", "stock_long", "stock_ends"))
#: Fields that are filled in after the part is settled too.
AFTER = frozenset(("settled_by", "settled_note", "trial_fit", "marked", "note"))


def change_sheet(store: Store, sheet_id: int, typed: Mapping[str, str]) -> None:
    """Set fields of a sheet from typed text. What follows from them is worked out again.

    A new shape, thread, taper, gear or key puts the shape's sizes and steps on the sheet anew; sizes that
    were typed stay.

    Raises:
        BadEntry, Ambiguous, OutOfRange: a text cannot be taken.
    """
    comma = decimal_comma(store)
    with store.act(Act.CHANGE_SHEET, "") as tx:
        later = set(typed) <= AFTER
        sheet = tx.get(MakingSheet, sheet_id, "making sheet") if later else open_sheet(tx, sheet_id)
        columns = read_typed("making_sheet", typed, sheet.unit, comma=comma)
        held = follows_stock(tx, sheet) if _STOCK & set(typed) else nullcontext()
        with nullcontext() if later else follows_issue(tx, sheet), held:
            set_columns(sheet, columns)
            _refuse_unreadable(sheet, typed)
            if {"shape", "thread", "taper", "gear", "key", "unit"} & set(typed):
                again(tx, sheet, steps="shape" in typed)
            elif "allow_uncertainty" in typed:
                refresh_all(tx, sheet)
        tx.subject = f"of {called(tx, sheet)}: {', '.join(typed)}"


def _refuse_unreadable(sheet: MakingSheet, typed: Mapping[str, str]) -> None:
    """A designation is tried at once, so that its sentence comes where it is typed."""
    if "thread" in typed:
        thread_shown(sheet.thread, sheet.shape.value)
    if "gear" in typed and sheet.gear.strip():
        read_gear(sheet.gear)
    if "tool_nose" in typed:
        read_nose(sheet.tool_nose or "", sheet.unit)
    if "key" in typed and sheet.key.strip():
        worked_key(sheet.key, sheet.unit)


def refresh(store: Store, sheet_id: int, *, at: dt.datetime | None = None) -> tuple[str, ...]:
    """Work the limits out again from the newest readings; what was typed stays. It is then no longer stale.

    A released sheet whose limits change so is a draft again; returns what is not as its last issue had it.

    Raises:
        BadEntry: the sheet is settled.
    """
    with store.act(Act.REFRESH_SHEET, "") as tx:
        sheet = open_sheet(tx, sheet_id)
        with follows_issue(tx, sheet, at, ask=True):
            refresh_all(tx, sheet, at)
        # Whoever refreshes the sheet has looked at the fits its limits are from: nobody need ask again.
        look_in(tx, list(dict.fromkeys(one.fit_id for one in asked_of(tx, sheet))), at)
        tx.subject = f"of {called(tx, sheet)}"
        return not_as_issued(tx, sheet)


def release(store: Store, sheet_id: int, *, sure: bool = False, at: dt.datetime | None = None) -> None:
    """Call a sheet complete: from now on it waits for its mates, or is ready. Each size gets its feature.

    ``sure`` releases it although a mate is still to be decided; the sheet's note then says so. Released again with
    other limits it is the next issue.

    Raises:
        BadEntry: a size is missing that no mate will give.
        BrokenOrder: a mate is still to be decided, or its thread may have one no fit says.
    """
    with store.act(Act.RELEASE_SHEET, "") as tx:
        sheet = open_sheet(tx, sheet_id)
        if sheet.progress is not MakingProgress.DRAFT:
            return
        _refuse_missing(tx, sheet, waiting_counts=False)
        refuse_no_thread(tx, sheet)
        refuse_no_teeth(tx, sheet)
        refuse_two_for_one(tx, sheet)
        refuse_not_nesting(tx, sheet)
        refuse_small_stock(tx, sheet)
        tx.session.flush()
        mate = offered(tx.connection, sheet.id)
        if mate is not None and not sure:
            raise BrokenOrder(
                f"{mate.sentence}.",
                where=called(tx, sheet),
                way_out="Make the fit, say it is not its mate, or release again to go on all the same.",
            )
        undecided = _undecided(asked_of(tx, sheet))
        if undecided and not sure:
            raise BrokenOrder(
                "A mate may still change:",
                chain=tuple(undecided),
                where=called(tx, sheet),
                way_out="Decide on the mate first, or release again to go on all the same.",
            )
        _note(sheet, "Released", undecided)
        part = tx.get(Part, sheet.part_id, "part")
        rows = dimensions_of(tx, sheet.id)
        for row in rows:
            give_feature(tx, part, sheet, row)
        tell_features(tx, part.id, rows)
        sheet.progress = MakingProgress.RELEASED
        issue(tx, sheet, at)
        tx.subject = f"of {called(tx, sheet)}, issue {sheet.issue}"


def _refuse_missing(tx: Tx, sheet: MakingSheet, *, waiting_counts: bool) -> None:
    """Raise BadEntry naming the first size without a number; one that waits for its mate may stay open."""
    asked = asked_of(tx, sheet)
    # What follows from another size comes last: the size it waits for is what is missing.
    for row in sorted(dimensions_of(tx, sheet.id), key=lambda row: row.limits_from is LimitsFrom.TABLE):
        if measure_of(row).given:
            continue
        where = f"{called(tx, sheet)}, {row.name}"
        mates = [one for one in asked if one.feature_id == row.feature_id]
        trouble = next((one.trouble for one in mates if one.trouble), "") or together(mates)[2]
        if mates and waiting_counts:
            raise BadEntry(trouble or "has no limits yet; refresh the sheet.", where=where)
        if not mates and (waiting_counts or row.limits_from is not LimitsFrom.TABLE):
            like = "1.250 ±0.010 or 0.9835-0.9840" if sheet.unit == "in" else "40 ±0.3 or 24.98-25.00"
            raise BadEntry("is not given yet.", where=where, way_out=f"Type it on the sheet, e.g. {like}.")


def begin(store: Store, sheet_id: int, *, sure: bool = False, at: dt.datetime | None = None) -> None:
    """Begin the work. ``sure`` begins on limits that are stale or not final.

    Raises:
        BadEntry: the sheet is not released, or a size has no limits yet: it says whose reading is missing.
        Stale: a mate was measured again since the limits were taken.
        BrokenOrder: a mate is not final yet.
    """
    with store.act(Act.BEGIN_MAKING, "") as tx:
        sheet = open_sheet(tx, sheet_id)
        if sheet.progress is not MakingProgress.RELEASED:
            raise BadEntry(
                f"is {sheet.progress.value}.",
                where=called(tx, sheet),
                way_out="Release it first." if sheet.progress is MakingProgress.DRAFT else "",
            )
        _refuse_missing(tx, sheet, waiting_counts=True)
        refuse_two_for_one(tx, sheet)
        refuse_not_nesting(tx, sheet)
        asked = asked_of(tx, sheet)
        changed = (*making_limits.since(sheet.looked, asked), *plug_stale(tx.connection, sheet.part_id))
        if changed and not sure:
            raise Stale(
                f"Its limits are stale: {'; '.join(changed)}.",
                where=called(tx, sheet),
                way_out="Refresh the sheet, or begin again to cut to the old limits.",
            )
        undecided = _undecided(asked)
        waits = [*(one.wait.sentence for one in asked if one.wait is not None), *undecided]
        if waits and not sure:
            raise BrokenOrder(
                "A mate is not final:",
                chain=tuple(dict.fromkeys(waits)),
                where=called(tx, sheet),
                way_out="Decide, make and measure the mate first, or begin again to go on all the same.",
            )
        _note(sheet, "Begun", undecided)
        sheet.progress, sheet.begun_at = MakingProgress.BEING_MADE, at or now()
        tx.subject = f"of {called(tx, sheet)}"


def _undecided(asked: Sequence[MateLimits]) -> list[str]:
    return list(dict.fromkeys(f"{one.mate.title} is still to be decided" for one in asked if _is_open(one)))


def _note(sheet: MakingSheet, done: str, undecided: Sequence[str]) -> None:
    """Write on the sheet what was done although mates were not decided."""
    if undecided:
        sheet.note = "\n".join(filter(None, (sheet.note, f"{done} though {'; '.join(undecided)}.")))


def _is_open(one: MateLimits) -> bool:
    """Whether a mate may still change: worn and nothing decided of it, a rework only proposed."""
    return one.mate.decision is Decision.OPEN and not {Stage.AS_MADE, Stage.REWORKED} & set(one.mate.stages)
