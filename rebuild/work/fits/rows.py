"""Fits as they are now, worked out from the newest readings; nothing of this is stored."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from enum import StrEnum

from sqlalchemy import Connection, or_, select

from rebuild.errors import NotThere
from rebuild.model.tables.features import Features
from rebuild.model.tables.fits import Fits
from rebuild.trade.fits.adjuster import Adjusted, adjusted
from rebuild.trade.fits.joint import joined
from rebuild.trade.fits.now import FitNow, evaluate, read_directly
from rebuild.trade.fits.words import adjusted_words, sentence
from rebuild.trade.limits.judgement import Rule, Verdict
from rebuild.trade.limits.uncertainty import InstrumentLimit
from rebuild.words.fits import Adjuster, FitJoint, FitKind, LimitsTo, Side, WantedOrigin
from rebuild.words.readings import Stage
from rebuild.work.fits.rows_later import later_remarks, later_side
from rebuild.work.fits.rows_sides import Ground, SideRow, Wait, chunks, ground, ground_of_machine, side_of
from rebuild.work.fits.rows_stale import Fact, changes, facts
from rebuild.work.fits.rows_threads import thread_remarks
from rebuild.work.readings.rows_judged import instrument_limits

#: The tables the lookups here ask.
READS = frozenset({"feature", "fit", "instrument", "part", "reading", "station"})


class FitState(StrEnum):
    """Where a fit stands, in one word for the list."""

    NO_READING = "not measured"
    WAITS = "waits"
    DOES_NOT = "does not conform"
    UNDECIDED = "undecided"
    CONFORMS = "conforms"
    NO_RANGE = "no range given"


_STATE_OF = {
    Verdict.CONFORMS: FitState.CONFORMS,
    Verdict.DOES_NOT: FitState.DOES_NOT,
    Verdict.UNDECIDED: FitState.UNDECIDED,
    Verdict.NO_SPEC: FitState.NO_RANGE,
}
_ADJUSTS = {
    Adjuster.SHIM: "shims", Adjuster.GIB: "the gib", Adjuster.NUT: "an adjustable nut",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class FitRow:
    """One fit now. ``now`` is None while a side is not measured; ``missing`` then says which."""

    id: int
    machine_id: int
    name: str
    joint: FitJoint
    kind: FitKind
    outer: SideRow
    inner: SideRow
    gap: SideRow | None
    unit: str
    wanted_text: str
    low_mm: float | None
    high_mm: float | None
    wanted_origin: WantedOrigin | None
    wanted_note: str
    master: Side | None
    adjuster: Adjuster
    outer_stage: Stage | None
    inner_stage: Stage | None
    note: str
    now: FitNow | None
    found: FitNow | None
    after_adjusting: Adjusted | None
    missing: tuple[str, ...]
    remarks: tuple[str, ...]
    stale: tuple[str, ...]
    looked_at: dt.datetime | None
    later: SideRow | None = None
    limits_to: LimitsTo = LimitsTo.NOW

    @property
    def title(self) -> str:
        """Its name, or its two sides."""
        return self.name or titled(
            self.inner.part_code or self.inner.part, self.inner.feature, self.outer.part
        )

    @property
    def sides(self) -> tuple[SideRow, SideRow]:
        """Outer and inner."""
        return self.outer, self.inner

    @property
    def master_side(self) -> SideRow | None:
        """The side that is not touched, when one is chosen."""
        return self._side(self.master) if self.master is not None else None

    @property
    def follower_side(self) -> SideRow | None:
        """The side made to suit, when the master is chosen."""
        if self.master is None:
            return None
        return self.inner if self.master is Side.OUTER else self.outer

    def _side(self, side: Side) -> SideRow:
        return self.outer if side is Side.OUTER else self.inner

    def side_on(self, part_id: int) -> SideRow | None:
        """The side a part is on, or None."""
        return next((side for side in self.sides if side.part_id == part_id), None)

    @property
    def waits(self) -> tuple[Wait, ...]:
        """What must still come before the fit is final."""
        return tuple(side.wait for side in self.sides if side.wait is not None)

    @property
    def state(self) -> FitState:
        """Not measured, waits (what is known is not final), or the verdict."""
        if self.now is None:
            return FitState.NO_READING
        return FitState.WAITS if self.waits else _STATE_OF[self.now.verdict]

    @property
    def sentence(self) -> str:
        """One sentence on the fit now."""
        if self.now is None:
            return "; ".join(self.missing) + "."
        return sentence(self.now, self.unit)


def titled(inner: str, feature: str, outer: str) -> str:
    """What a fit without a name is called.

    >>> titled("HS-03", "journal", "HS-02 cap")
    'HS-03 journal in HS-02 cap'
    """
    return f"{inner} {feature} in {outer}"


def fit_ids(connection: Connection, machine_id: int) -> list[int]:
    """Every fit of a machine, in order."""
    query = select(Fits.id).where(Fits.machine_id == machine_id).order_by(Fits.position, Fits.id)
    return list(connection.execute(query).scalars())


def of_parts(connection: Connection, part_ids: Collection[int]) -> list[int]:
    """The fits that have a side on one of these parts."""
    found: list[int] = []
    for chunk in chunks(part_ids):
        own = select(Features.id).where(Features.part_id.in_(chunk))
        query = select(Fits.id).where(
            or_(Fits.outer_id.in_(own), Fits.inner_id.in_(own), Fits.gap_id.in_(own))
        )
        found += connection.execute(query.order_by(Fits.position, Fits.id)).scalars()
    return list(dict.fromkeys(found))


def of_features(connection: Connection, feature_ids: Collection[int]) -> list[int]:
    """The fits that rest on one of these features."""
    found: list[int] = []
    for chunk in chunks(feature_ids):
        query = select(Fits.id).where(
            or_(Fits.outer_id.in_(chunk), Fits.inner_id.in_(chunk), Fits.gap_id.in_(chunk))
        )
        found += connection.execute(query).scalars()
    return list(dict.fromkeys(found))


def fit(connection: Connection, fit_id: int, rule: Rule = Rule.CONFORMANCE_95) -> FitRow:
    """One fit now. Raises NotThere."""
    found = rows(connection, [fit_id], rule)
    if not found:
        raise NotThere(f"The fit no. {fit_id} is no longer there.", way_out="It may have been removed.")
    return found[0]


def rows(
    connection: Connection,
    ids: Sequence[int],
    rule: Rule = Rule.CONFORMANCE_95,
    limits: dict[int, InstrumentLimit] | None = None,
) -> list[FitRow]:
    """Fits now, in the order asked; ids that are gone are left out."""
    stored = {
        row.id: Fits.of(row)
        for chunk in chunks(ids)
        for row in connection.execute(select(*Fits.columns()).where(Fits.id.in_(chunk)))
    }
    touched = {
        key
        for row in stored.values()
        for key in (row.outer_id, row.inner_id, row.gap_id, row.later_id)
        if key
    }
    base = ground(connection, touched, instrument_limits(connection) if limits is None else limits)
    made = (row_of(stored[key], base, rule) for key in ids if key in stored)
    return [row for row in made if row is not None]


def of_machine(connection: Connection, machine_id: int, rule: Rule = Rule.CONFORMANCE_95) -> list[FitRow]:
    """Every fit of a machine now, in order, in as many statements for two fits as for two thousand."""
    query = select(*Fits.columns()).where(Fits.machine_id == machine_id)
    listed = connection.execute(query.order_by(Fits.position, Fits.id)).all()
    if not listed:
        return []
    base = ground_of_machine(connection, machine_id, instrument_limits(connection))
    made = (row_of(Fits.of(row), base, rule) for row in listed)
    return [row for row in made if row is not None]


def row_of(stored: Fits, base: Ground, rule: Rule) -> FitRow | None:
    """One fit as it is now by what was read of its sides; None when one of them is gone."""
    outer = side_of(
        base,
        Side.OUTER,
        stored.outer_id,
        station_id=stored.outer_station_id,
        stage=stored.outer_stage,
        is_master=stored.master is Side.OUTER,
    )
    inner = side_of(
        base,
        Side.INNER,
        stored.inner_id,
        station_id=stored.inner_station_id,
        stage=stored.inner_stage,
        is_master=stored.master is Side.INNER,
    )
    if outer is None or inner is None:
        return None
    gap = side_of(base, Side.OUTER, stored.gap_id) if stored.gap_id else None
    later = later_side(base, stored)
    how = joined(stored.joint, (outer.thread, inner.thread))
    wanted = (stored.low_mm, stored.high_mm)
    now = found = None
    if how.combining is not None:
        way = how.combining
        now = evaluate(outer.readings, inner.readings, *wanted, combining=way, rule=rule, unit=stored.unit)
        if (outer.found, inner.found) == (outer.readings, inner.readings):
            found = now
        else:
            found = evaluate(outer.found, inner.found, *wanted, combining=way, rule=rule, unit=stored.unit)
    direct = _direct(gap, outer, inner, now, wanted, rule, stored.unit)
    now = direct or now
    if gap is not None and (found is None or direct is not None):
        found = read_directly(gap.found, *wanted, rule=rule, unit=stored.unit) or found
    missing = _missing(outer, inner, gap, how.missing) if now is None else ()
    after = adjusted(now, *wanted, rule) if now is not None and stored.adjuster in _ADJUSTS else None
    return FitRow(
        stored.id,
        stored.machine_id,
        stored.name,
        stored.joint,
        stored.kind,
        outer,
        inner,
        gap,
        stored.unit,
        stored.wanted_text,
        stored.low_mm,
        stored.high_mm,
        stored.wanted_origin,
        stored.wanted_note,
        stored.master,
        stored.adjuster,
        stored.outer_stage,
        stored.inner_stage,
        stored.note,
        now,
        found,
        after,
        missing,
        (*_remarks(outer, inner, now, after, stored, how.note), *later_remarks(later, stored.limits_to)),
        changes(stored.looked, facts(outer, inner, gap)),
        stored.looked_at,
        later,
        LimitsTo.NOW if later is None else stored.limits_to or LimitsTo.BOTH,
    )


def facts_of(row: FitRow) -> tuple[Fact, ...]:
    """What is known of a fit's sides now."""
    return facts(row.outer, row.inner, row.gap)


def _direct(
    gap: SideRow | None,
    outer: SideRow,
    inner: SideRow,
    now: FitNow | None,
    wanted: tuple[float | None, float | None],
    rule: Rule,
    unit: str,
) -> FitNow | None:
    """The clearance as read, when it is newer than the sizes or they give none."""
    if gap is None or not gap.readings:
        return None
    if now is not None and gap.newest < max(outer.newest, inner.newest):
        return None
    return read_directly(gap.readings, *wanted, rule=rule, unit=unit)


def _missing(outer: SideRow, inner: SideRow, gap: SideRow | None, joint: str) -> tuple[str, ...]:
    words = [f"{side.title} has no reading yet" for side in (outer, inner) if not side.readings]
    if joint:
        words.append(joint)
    if gap is not None:
        words.append(f"{gap.title} has no reading either")
    return tuple(words)


#: Two sizes further apart than this share of each other are likely typed in different units.
_ODD_SHARE = 0.2


def _remarks(
    outer: SideRow, inner: SideRow, now: FitNow | None, after: Adjusted | None, stored: Fits, joint: str
) -> tuple[str, ...]:
    words = [joint] if joint else []
    if stored.joint is FitJoint.NUT_AND_SCREW:
        words += thread_remarks((outer, inner), stored.unit)
    if outer.unit != inner.unit:
        words.append(
            f"{outer.title} is in {outer.unit} and {inner.title} in {inner.unit}; "
            f"both are counted in mm and shown in {stored.unit}."
        )
    if now is not None and stored.joint is not FitJoint.GEAR_MESH and now.most.inner is not None:
        size = max(abs(now.most.outer.value_mm), abs(now.most.inner.value_mm))
        if size and abs(now.most.value_mm) > _ODD_SHARE * size:
            words.append(
                f"The sides read {now.most.outer.words} and {now.most.inner.words}, more than a fifth apart: "
                "a reading is probably in the wrong unit or of another feature."
            )
    if after is not None and now is not None and len(now.pairs) > 1:
        words.append(adjusted_words(after, _ADJUSTS[stored.adjuster], stored.unit, now.combining))
    if stored.kind in (FitKind.RUNNING, FitKind.SLIDING) and (stored.low_mm or 0.0) < 0:
        words.append(f"An interference is wanted of a {stored.kind.value} fit; mend the range or the kind.")
    return tuple(words)
