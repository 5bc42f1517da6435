"""For the entry line: what comes next, what was stored, and whether the instrument is fine enough."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from sqlalchemy import Connection, func, select

from rebuild.errors import NotThere
from rebuild.model.tables.features import Features, Stations
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.readings import Readings
from rebuild.trade.limits.judgement import tolerance_of
from rebuild.trade.limits.reach import unsuited
from rebuild.trade.limits.uncertainty import InstrumentLimit, reading_budget
from rebuild.trade.limits.verdict import Judgement, Rule, Verdict, too_coarse
from rebuild.trade.results.working import Worked, Working
from rebuild.trade.sizes.show import DECIMALS, show_both, show_length
from rebuild.trade.threads.taken import pitch_diameter_of, read_how
from rebuild.words.decisions import Decision
from rebuild.words.readings import Stage
from rebuild.work.readings.landing import Ids
from rebuild.work.readings.rows_grid import Asked, GridRow, Key
from rebuild.work.readings.rows_judged import Measured, alpha_of, instrument_limits, judgement_of

#: The tables the lookups here ask.
READS = frozenset({"feature", "instrument", "part", "reading", "station"})

_LOOK_AHEAD, _MOST_AHEAD = 12, 200


@dataclass(frozen=True, slots=True)
class ReadBack:
    """A stored reading as it is read back: in both units, its verdict in a word and a sentence."""

    reading_id: int
    both: str
    verdict: Verdict
    sentence: str
    judged: Worked[Judgement]


def judged_reading(connection: Connection, reading_id: int, rule: Rule) -> Worked[Judgement]:
    """The verdict on one stored reading, its working titled with where it was read. Raises NotThere."""
    return _judged(connection, reading_id, rule)[0]


def read_back(connection: Connection, reading_id: int, rule: Rule) -> ReadBack:
    """A stored reading in both units, with its verdict. Raises NotThere."""
    judged, both = _judged(connection, reading_id, rule)
    return ReadBack(reading_id, both, judged.value.verdict, judged.value.sentence, judged)


def _judged(connection: Connection, reading_id: int, rule: Rule) -> tuple[Worked[Judgement], str]:
    row = connection.execute(
        select(
            Readings.value_mm,
            Readings.typed,
            Readings.unit,
            Readings.repeats,
            Readings.instrument_id,
            Readings.temperature_c,
            Parts.material,
            Features.kind,
            Features.unit.label("own"),
            Readings.how,
            Readings.thread,
            Readings.read_mm,
            Features.low_mm,
            Features.high_mm,
            Readings.stage,
            Parts.code,
            Parts.name.label("part"),
            Features.name.label("feature"),
            Stations.name.label("station"),
        )
        .select_from(Readings)
        .join(Features, Features.id == Readings.feature_id)
        .join(Parts, Parts.id == Features.part_id)
        .outerjoin(Stations, Stations.id == Readings.station_id)
        .where(Readings.id == reading_id)
    ).first()
    if row is None:
        raise NotThere(
            f"The reading no. {reading_id} is no longer there.", way_out="It may have been taken back."
        )
    measured = Measured(*tuple(row)[:12])
    limits = instrument_limits(connection)
    worked = judgement_of(measured, row.low_mm, row.high_mm, limits, rule, row.own)
    worked, both = _with_conversion(worked, measured, row.own)
    where = ", ".join(
        word for word in (f"{row.code} {row.part}".strip(), row.feature, row.station, row.stage.value) if word
    )
    titled = Working(f"Verdict on {where}", worked.working.steps)
    return Worked(worked.value, titled), both


def _with_conversion(
    worked: Worked[Judgement], measured: Measured, unit: str
) -> tuple[Worked[Judgement], str]:
    """The working with the pitch diameter before the verdict, and the value in both units with what was read."""
    both = show_both(measured.value_mm, unit)
    how = read_how(measured.how or "", unit)
    if how is None or measured.read_mm is None:
        return worked, f"{both}, {how.words}" if how is not None else both
    turned = pitch_diameter_of(measured.read_mm, how, measured.thread or "", "Reading")
    told = Working(worked.working.title, (*turned.working.steps, *worked.working.steps))
    both = f"pitch diameter {both}, from {show_length(measured.read_mm, unit)} {how.words}"
    return Worked(worked.value, told), both


def next_unread(
    connection: Connection, order: Sequence[Key], after: Key | None, stage: Stage, *, wrap: bool = True
) -> Key | None:
    """The next row in ``order`` behind ``after`` without a standing reading at ``stage``, or None."""
    start = _place(order, after)
    ahead = order[start:] if not wrap else [*order[start:], *order[: max(0, start - 1)]]
    at, many = 0, _LOOK_AHEAD
    while at < len(ahead):
        chunk = ahead[at : at + many]
        at, many = at + many, min(4 * many, _MOST_AHEAD)
        read = _read_at(connection, {key[0] for key in chunk}, stage)
        found = next((key for key in chunk if key not in read and key != after), None)
        if found is not None:
            return found
    return None


def _place(order: Sequence[Key], after: Key | None) -> int:
    try:
        return order.index(after) + 1 if after is not None else 0
    except ValueError:
        return 0


def _read_at(connection: Connection, feature_ids: set[int], stage: Stage) -> set[Key]:
    rows = connection.execute(
        select(Readings.feature_id, func.coalesce(Readings.station_id, 0))
        .where(Readings.feature_id.in_(feature_ids), Readings.stage == stage, Readings.struck.is_(None))
        .distinct()
    )
    return {(row[0], row[1] or 0) for row in rows}


def read_of(connection: Connection, feature_ids: Collection[int]) -> set[tuple[Ids, Stage]]:
    """Which rows of some features have a standing reading, and at which stages."""
    rows = connection.execute(
        select(Readings.feature_id, func.coalesce(Readings.station_id, 0), Readings.stage)
        .where(Readings.feature_id.in_(feature_ids), Readings.struck.is_(None))
        .distinct()
    )
    return {((row[0], row[1] or 0), row[2]) for row in rows}


def read_on_part(connection: Connection, part_id: int) -> set[Stage]:
    """The stages anything of a part has been read at."""
    query = (
        select(Readings.stage)
        .join(Features, Features.id == Readings.feature_id)
        .where(Features.part_id == part_id, Readings.struck.is_(None))
        .distinct()
    )
    return set(connection.execute(query).scalars())


def all_remade(connection: Connection, part_ids: Collection[int]) -> bool:
    """Whether each of some parts is made new here."""
    query = select(Parts.decision).where(Parts.id.in_(part_ids))
    return all(one is Decision.REMAKE for one in connection.execute(query).scalars())


def features_of(connection: Connection, part_ids: Collection[int]) -> set[int]:
    """The features of some parts."""
    return set(connection.execute(select(Features.id).where(Features.part_id.in_(part_ids))).scalars())


def stages_of(connection: Connection, reading_ids: Collection[int]) -> set[Stage]:
    """The stages of some readings (a few hundred at most)."""
    query = select(Readings.stage).where(Readings.id.in_(reading_ids), Readings.struck.is_(None)).distinct()
    return set(connection.execute(query).scalars())


def stages_read(connection: Connection, asked: Asked) -> set[Stage]:
    """The stages at which anything stands read among the parts asked for (text and verdict not counted)."""
    query = (
        select(Readings.stage)
        .select_from(Readings)
        .join(Features, Features.id == Readings.feature_id)
        .join(Parts, Parts.id == Features.part_id)
        .where(Parts.machine_id == asked.machine_id, Readings.struck.is_(None))
        .distinct()
    )
    if asked.subassembly_ids is not None:
        query = query.where(Parts.subassembly_id.in_(asked.subassembly_ids))
    if asked.part_ids is not None:
        query = query.where(Parts.id.in_(asked.part_ids))
    return set(connection.execute(query).scalars())


def instrument_sentence(
    connection: Connection, row: GridRow, limit: InstrumentLimit, temperature_c: float | None = None
) -> str:
    """Says before anything is read that an instrument does not suit a row: its use, its range, no known error
    limit, or too coarse for the tolerance; or nothing.
    """
    if limit.reach is not None and (why := unsuited(limit.reach, row.kind, row.nominal_mm, row.unit)):
        return why
    if limit.mpe_mm is None and limit.expanded_U_mm is None:
        return f"No error limit of {limit.name} is known, so its readings prove nothing. Its list takes one."
    return _coarse(connection, row, limit, temperature_c)


def _coarse(connection: Connection, row: GridRow, limit: InstrumentLimit, temperature_c: float | None) -> str:
    tolerance = tolerance_of(row.low_mm, row.high_mm)
    if tolerance is None:
        return ""
    material = connection.execute(select(Parts.material).where(Parts.id == row.part_id)).scalar() or ""
    length = abs(row.nominal_mm or row.high_mm or row.low_mm or 0.0)
    U = reading_budget(
        limit, length_mm=length, temperature_C=temperature_c, part_alpha_per_K=alpha_of(material)
    ).value.U_mm
    if not too_coarse(U, row.low_mm, row.high_mm):
        return ""
    fine = DECIMALS[row.unit] + 1
    noted = "" if temperature_c is not None else " with no temperature noted"
    return (
        f"{limit.name} reads to ±{show_length(U, row.unit, fine)}{noted}: too coarse for a tolerance of"
        f" {show_length(tolerance, row.unit, fine)} (a quarter of it is wanted)."
    )
