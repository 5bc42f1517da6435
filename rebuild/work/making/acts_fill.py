"""Put sizes, steps and tools on a making sheet, and work out again what follows from mates, specs and tables."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Iterator, Mapping, Sequence
from contextlib import contextmanager

from sqlalchemy import delete, select

from rebuild.errors import RebuildError
from rebuild.model.records.making import MakingDetail, MakingDimension, MakingSheet, MakingStep, MakingTool
from rebuild.store.store import Tx
from rebuild.trade.making.steps import StepProposal, propose_steps, propose_tools
from rebuild.trade.making.stock import Way, way_of
from rebuild.trade.shop.materials import find_material
from rebuild.words.making import LimitsFrom, MakingProgress
from rebuild.work.making import rows_limits as making_limits
from rebuild.work.making.acts_features import tell_features
from rebuild.work.making.acts_owner import take_over
from rebuild.work.making.acts_plug_band import follow_nut, follow_plug
from rebuild.work.making.measures import measure_of, put_measure
from rebuild.work.making.not_to_copy import not_to_copy
from rebuild.work.making.proposed import Ground, Proposed
from rebuild.work.making.proposed_sizes import propose
from rebuild.work.making.rows_owner import is_pitch_diameter
from rebuild.work.making.rows_proposed import features_of
from rebuild.work.making.rows_sheet_blank import stock_of
from rebuild.work.making.rules import asked_of, designations_of, dimensions_of, sizes_of
from rebuild.work.making.rules_threads import THREADED
from rebuild.work.records.wall_clock import now

#: Where limits come from that ``refresh`` works out again.
WORKED_OUT = (LimitsFrom.MATE, LimitsFrom.SPEC, LimitsFrom.TABLE)


def fill(tx: Tx, sheet: MakingSheet, kept: Sequence[MakingDimension] = ()) -> None:
    """Put sizes, steps and tools on a sheet as its shape wants them; sizes of ``kept`` that were typed stay."""
    features = features_of(tx.connection, sheet.part_id)
    asked = asked_of(tx, sheet)
    ground = Ground(features, asked, sheet.shape.value, sheet.unit, designations_of(sheet))
    held = {row.role: measure_of(row) for row in kept if row.role and row.limits_from is LimitsFrom.OWN}
    lines = propose(ground, held)
    _name_anew(sheet, kept, lines)
    typed = {(row.role or row.name): row for row in kept if row.limits_from is LimitsFrom.OWN}
    for position, line in enumerate(lines):
        _add_line(tx, sheet, line, position, typed.pop(line.role or line.name, None))
    for position, row in enumerate(typed.values(), len(lines)):
        if row.nominal_mm is not None or row.low_mm is not None or row.high_mm is not None:
            line = Proposed(
                row.role,
                row.name,
                row.feature_id,
                None,
                LimitsFrom.OWN,
                measure_of(row),
                row.measured_with,
                row.note,
            )
            _add_line(tx, sheet, line, position, None)
    sheet.do_not_copy = sheet.do_not_copy or not_to_copy(features, lines, sheet.unit)
    sheet.looked = making_limits.signature(asked)
    sheet.looked_at = sheet.looked_at or sheet.started_at or now()
    tx.session.flush()
    _put_steps(tx, sheet)


def _add_line(
    tx: Tx, sheet: MakingSheet, line: Proposed, position: int, typed: MakingDimension | None
) -> MakingDimension:
    row = MakingDimension(
        sheet_id=sheet.id,
        role=line.role,
        name=line.name,
        feature_id=line.feature_id,
        fit_id=line.fit_id,
        limits_from=line.limits_from,
        measured_with=line.measured_with,
        note=line.note,
        position=position,
    )
    put_measure(row, line.measure, sheet.unit)
    if typed is not None and measure_of(typed).given:
        row.limits_from = LimitsFrom.OWN
        put_measure(row, measure_of(typed), sheet.unit, text=typed.size_text)
    tx.session.add(row)
    return row


def _put_steps(tx: Tx, sheet: MakingSheet) -> None:
    for position, step in enumerate(_proposed_steps(tx, sheet)):
        tx.session.add(
            MakingStep(
                sheet_id=sheet.id,
                what=step.what,
                machine=step.machine,
                hold=step.hold,
                tool=step.tool,
                speed=step.speed,
                feed=step.feed,
                leave=step.leave,
                measure=step.measure,
                position=position,
            )
        )
    tools = propose_tools(sheet.shape.value, sizes_of(tx, sheet), thread=sheet.thread)
    for position, tool in enumerate(tools):
        tx.session.add(MakingTool(sheet_id=sheet.id, what=tool.what, why=tool.why, position=position))
    tx.session.flush()


def again(tx: Tx, sheet: MakingSheet, *, steps: bool) -> None:
    """Put a sheet's sizes (and steps) anew, what was typed kept."""
    take_over(tx, sheet, asked_of(tx, sheet))
    kept = dimensions_of(tx, sheet.id)
    held = [(row.role or row.name, row.feature_id) for row in kept]
    features = dict(held)
    saved = [_copy(row) for row in kept]
    tx.session.execute(delete(MakingDimension).where(MakingDimension.sheet_id == sheet.id))
    old_steps = list(tx.session.scalars(select(MakingStep).where(MakingStep.sheet_id == sheet.id)))
    if steps or not old_steps:
        for table in (MakingStep, MakingTool):
            tx.session.execute(delete(table).where(table.sheet_id == sheet.id))
        tx.session.expire_all()
        fill(tx, sheet, saved)
    else:
        tx.session.expire_all()
        _fill_sizes_only(tx, sheet, saved)
    for row in dimensions_of(tx, sheet.id):
        if row.feature_id is None and features.get(row.role or row.name) is not None:
            row.feature_id = features[row.role or row.name]


def _copy(row: MakingDimension) -> MakingDimension:
    names = [column.key for column in MakingDimension.table.columns if column.key != "id"]
    return MakingDimension(**{name: getattr(row, name) for name in names})


def _fill_sizes_only(tx: Tx, sheet: MakingSheet, saved: Sequence[MakingDimension]) -> None:
    steps = list(tx.session.scalars(select(MakingStep.id).where(MakingStep.sheet_id == sheet.id)))
    tools = list(tx.session.scalars(select(MakingTool.id).where(MakingTool.sheet_id == sheet.id)))
    fill(tx, sheet, saved)
    for table, held in ((MakingStep, steps), (MakingTool, tools)):
        tx.session.execute(delete(table).where(table.sheet_id == sheet.id, table.id.not_in(held)))


def refresh_rows(tx: Tx, sheet: MakingSheet, kinds: Collection[LimitsFrom] = WORKED_OUT) -> None:
    """Work out again the sizes whose limits come from one of ``kinds``, and those that have no number yet."""
    asked = asked_of(tx, sheet)
    take_over(tx, sheet, asked)
    features = features_of(tx.connection, sheet.part_id)
    ground = Ground(features, asked, sheet.shape.value, sheet.unit, designations_of(sheet))
    rows = dimensions_of(tx, sheet.id)
    typed = {row.role: measure_of(row) for row in rows if row.role and row.limits_from not in WORKED_OUT}
    fresh = {line.role or line.name: line for line in propose(ground, typed)}
    told: list[MakingDimension] = []
    _name_anew(sheet, rows, list(fresh.values()))
    rows = _take_up(tx, rows, fresh)
    for row in rows:
        line = fresh.pop(row.role or row.name, None)
        if line is None or (row.limits_from not in kinds and measure_of(row).given):
            continue
        row.limits_from, row.fit_id = line.limits_from, line.fit_id
        put_measure(row, line.measure, sheet.unit)
        told.append(row)
    for position, line in enumerate(fresh.values(), len(rows)):
        if line.fit_id is not None or (line.limits_from in kinds and line.measure.given):
            _add_line(tx, sheet, line, position, None)
    tx.session.flush()
    if told and sheet.progress is not MakingProgress.DRAFT:
        tell_features(tx, sheet.part_id, told)


def _name_anew(sheet: MakingSheet, rows: Sequence[MakingDimension], lines: Sequence[Proposed]) -> None:
    """A size goes by the feature it stands on, and the pitch diameter of the thread is one line whoever gives it."""
    names = {row.name for row in rows if not row.role}
    pitches = [line for line in lines if not line.role and is_pitch_diameter(line.name)]
    for row in rows:
        if row.role or any(line.name == row.name for line in lines if not line.role):
            continue
        own = [line for line in lines if not line.role and line.feature_id == row.feature_id is not None]
        if sheet.shape in THREADED and is_pitch_diameter(row.name) and row.feature_id is None:
            own = own or pitches[:1]
        if own and own[0].name not in names:
            row.name, row.feature_id = own[0].name, own[0].feature_id
            names.add(row.name)


def _take_up(tx: Tx, rows: Sequence[MakingDimension], fresh: Mapping[str, Proposed]) -> list[MakingDimension]:
    """A size of the shape takes up the feature that answers to it; what stood beside it as an extra size goes."""
    taken: set[int] = set()
    for row in rows:
        line = fresh.get(row.role) if row.role else None
        if line is not None and row.feature_id is None and line.feature_id is not None:
            row.feature_id = line.feature_id
            taken.add(line.feature_id)
    extra = [row for row in rows if not row.role and row.feature_id in taken]
    for row in extra:
        tx.session.delete(row)
    return [row for row in rows if row not in extra]


def refresh_all(tx: Tx, sheet: MakingSheet, at: dt.datetime | None = None) -> None:
    """Work everything out again and note what it rests on: the sheet is no longer stale."""
    follow_nut(tx, sheet)
    refresh_rows(tx, sheet)
    follow_plug(tx, sheet)
    _put_speeds(tx, sheet)
    sheet.looked, sheet.looked_at = making_limits.signature(asked_of(tx, sheet)), at or now()


def _put_speeds(tx: Tx, sheet: MakingSheet) -> None:
    """Speeds and feeds that could not be told before their size was known."""
    proposed = {step.what: step for step in _proposed_steps(tx, sheet)}
    for row in tx.session.scalars(select(MakingStep).where(MakingStep.sheet_id == sheet.id)):
        step = proposed.get(row.what)
        if step is not None and not row.speed:
            row.speed, row.feed = step.speed, row.feed or step.feed


def _proposed_steps(tx: Tx, sheet: MakingSheet) -> tuple[StepProposal, ...]:
    found = find_material(sheet.material) if sheet.material.strip() else None
    material = found.material if found else None
    sizes, way = sizes_of(tx, sheet), _way(tx, sheet)
    return propose_steps(sheet.shape.value, sizes, material, sheet.unit, thread=sheet.thread, way=way)


def _way(tx: Tx, sheet: MakingSheet) -> Way:
    """How the piece in hand is held; as from the chuck while nothing is measured of it, or of the part."""
    try:
        return way_of(sheet.shape.value, sizes_of(tx, sheet), stock_of(sheet))
    except RebuildError:
        return Way.CHUCK


@contextmanager
def follows_stock(tx: Tx, sheet: MakingSheet) -> Iterator[None]:
    """What is changed within may ask for another way to hold the piece: open steps nobody edited go over to it."""
    before = _proposed_steps(tx, sheet)
    yield
    tx.session.flush()
    for old, new in zip(before, _proposed_steps(tx, sheet), strict=False):
        if old.what == new.what:
            continue
        same = (MakingStep.sheet_id == sheet.id, MakingStep.what == old.what, MakingStep.done_at.is_(None))
        for row in tx.session.scalars(select(MakingStep).where(*same)):
            row.what, row.hold, row.tool = new.what, new.hold, new.tool


#: What the next attempt does not take over: its own number, and what became of the last one.
_NOT_COPIED = ("id", "done_at", "came_out")


def copy_lines(tx: Tx, old: MakingSheet, new: MakingSheet) -> None:
    """The next attempt starts from the last one's sizes, steps and tools; what was worked out is worked out again."""
    for row in dimensions_of(tx, old.id):
        made = _copy(row)
        made.sheet_id = new.id
        tx.session.add(made)
    for table in (MakingStep, MakingTool, MakingDetail):
        for line in tx.session.scalars(select(table).where(table.sheet_id == old.id)):
            names = [column.key for column in table.table.columns if column.key not in _NOT_COPIED]
            fields = {name: getattr(line, name) for name in names} | {"sheet_id": new.id}
            tx.session.add(table(**fields))
    tx.session.flush()
    refresh_all(tx, new, new.started_at)
