"""Fits as far as the work hangs on them: most are told without a verdict, which only those out of their range get.

Of two thousand fits the plan asks which sides wait, what has changed since a look, and which do not conform. A pair
inside the range never fails to conform, whatever its uncertainty: a guard band only narrows what conforms.
"""

from __future__ import annotations

from typing import NamedTuple

from sqlalchemy import Connection, select

from rebuild.model.tables.fits import Fits
from rebuild.trade.fits.joint import joined
from rebuild.trade.limits.judgement import Rule, Verdict
from rebuild.trade.limits.uncertainty import InstrumentLimit
from rebuild.words.decisions import Decision
from rebuild.words.fits import Side
from rebuild.work.fits.rows import FitRow, row_of, titled
from rebuild.work.fits.rows_later import is_kept
from rebuild.work.fits.rows_sides import BriefSide, Ground, Wait, brief_side, ground_of_machine
from rebuild.work.readings.rows_judged import instrument_limits

#: The tables the lookups here ask.
READS = frozenset({"feature", "fit", "instrument", "part", "reading", "station"})


class SideInWork(NamedTuple):
    """One side: its part and feature as they are called, and whether it is read at all."""

    part_id: int
    part: str
    feature: str
    decision: Decision
    wait: Wait | None
    read: bool


class FitInWork(NamedTuple):
    """One fit: ``changed`` since it was looked at, ``wrong`` when it does not conform and nothing is waited for.

    ``master`` is the place of the side not touched (0 outer, 1 inner); ``promised`` the later mate: its part, its name.
    """

    id: int
    title: str
    sides: tuple[SideInWork, SideInWork]
    master: int | None
    changed: str
    wrong: str
    promised: tuple[int, str] | None


def fits_in_work(connection: Connection, machine_id: int, rule: Rule) -> list[FitInWork]:
    """Every fit of a machine, in order, as ``in_work`` has it of a whole row."""
    query = select(*Fits.columns()).where(Fits.machine_id == machine_id)
    listed = connection.execute(query.order_by(Fits.position, Fits.id)).all()
    if not listed:
        return []
    limits: dict[int, InstrumentLimit] = instrument_limits(connection)
    base = ground_of_machine(connection, machine_id, limits)
    made = (_brief(Fits.of(row), base, rule) for row in listed)
    return [one for one in made if one is not None]


def in_work(row: FitRow) -> FitInWork:
    """A whole row, as far as the work hangs on it."""
    settled = row.now is not None and not row.waits
    outer, inner = (
        SideInWork(side.part_id, side.part, side.feature, side.decision, side.wait, bool(side.readings))
        for side in row.sides
    )
    return FitInWork(
        row.id,
        row.title,
        (outer, inner),
        _place_of(row.master),
        "; ".join(row.stale) if row.looked_at is not None else "",
        row.sentence if settled and row.now and row.now.verdict is Verdict.DOES_NOT else "",
        None if row.later is None or is_kept(row.later) else (row.later.part_id, row.later.title),
    )


def _brief(stored: Fits, base: Ground, rule: Rule) -> FitInWork | None:
    """As ``in_work``, without the verdict and its words where they say nothing of it; None when a side is gone."""
    outer = brief_side(
        base,
        stored.outer_id,
        station_id=stored.outer_station_id,
        stage=stored.outer_stage,
        is_master=stored.master is Side.OUTER,
    )
    inner = brief_side(
        base,
        stored.inner_id,
        station_id=stored.inner_station_id,
        stage=stored.inner_stage,
        is_master=stored.master is Side.INNER,
    )
    if outer is None or inner is None:
        return None
    waits = outer.wait is not None or inner.wait is not None
    if stored.looked_at is not None or not (waits or _inside(stored, outer, inner)):
        row = row_of(stored, base, rule)
        return None if row is None else in_work(row)
    code = inner.about.part_code or inner.part
    return FitInWork(
        stored.id,
        stored.name or titled(code, inner.about.name, outer.part),
        (_side(outer), _side(inner)),
        _place_of(stored.master),
        "",
        "",
        _promised(stored, base),
    )


def _inside(stored: Fits, outer: BriefSide, inner: BriefSide) -> bool:
    """Whether every pair of readings there could be lies within the range, or there is none to be judged."""
    if stored.gap_id:
        return False
    if not outer.speaking or not inner.speaking:
        return True
    way = joined(stored.joint, (outer.about.thread, inner.about.thread)).combining
    if way is None:
        return True
    bores = [way.outer_sign * read.value_mm for read in outer.speaking]
    shafts = [way.inner_sign * read.value_mm for read in inner.speaking]
    low, high = stored.low_mm, stored.high_mm
    return (low is None or way.offset_mm + min(bores) + min(shafts) >= low) and (
        high is None or way.offset_mm + max(bores) + max(shafts) <= high
    )


def _promised(stored: Fits, base: Ground) -> tuple[int, str] | None:
    """The later mate, until it is made and measured."""
    if not stored.later_id or stored.master is None:
        return None
    later = brief_side(base, stored.later_id, is_master=True)
    if later is None or (later.speaking and later.wait is None):
        return None
    return later.about.part_id, later.title


def _side(side: BriefSide) -> SideInWork:
    about = side.about
    return SideInWork(about.part_id, side.part, about.name, about.decision, side.wait, bool(side.speaking))


def _place_of(master: Side | None) -> int | None:
    return None if master is None else (Side.OUTER, Side.INNER).index(master)
