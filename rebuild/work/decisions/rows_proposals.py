"""What is to be decided, what the wear rules propose for it, and the rules with the user's own limits."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from sqlalchemy import Connection, func, or_, select

from rebuild.errors import NotThere
from rebuild.model.tables.decisions import DecisionOptions, WearRules
from rebuild.model.tables.features import Features, Stations
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.teardown import RemovalParts, Removals
from rebuild.trade.fits.now import FitNow
from rebuild.trade.limits.judgement import Rule, Verdict
from rebuild.trade.sizes.quantity import Size
from rebuild.trade.wear.facts import FeatureFact, FitFact, PartFacts, Proposal
from rebuild.trade.wear.judge import propose
from rebuild.trade.wear.rules import Criterion, Edited, Rules, rules
from rebuild.words.decisions import Decision
from rebuild.words.fits import Side
from rebuild.words.stations import at_station
from rebuild.words.teardown import RemovalWay
from rebuild.work.fits import rows as fits
from rebuild.work.fits.rows import FitRow
from rebuild.work.readings import rows_grid as grid
from rebuild.work.readings.rows_grid import GridRow
from rebuild.work.readings.rows_judged import instrument_limits
from rebuild.work.readings.rows_spoken import spoken
from rebuild.work.records.rows_like import called, told_apart

#: The tables the lookups here ask.
READS = frozenset({
    "decision_option", "feature", "fit", "instrument", "part", "place", "reading", "removal", "removal_part", "station",
    "subassembly", "task", "wear_rule",
})  # fmt: skip

_BAD = (Verdict.DOES_NOT, Verdict.UNDECIDED)


@dataclass(frozen=True, slots=True)
class ToDecide:
    """A part with something out of limits, broken or lost, or still to be decided; ``why`` lists what.

    ``at_rest`` is one that is decided and has nothing out; ``condition`` is what was found and noted of it.
    """

    part_id: int
    title: str
    decision: Decision
    reason: str
    why: tuple[str, ...]
    out: int
    options: int
    at_rest: bool = False
    condition: str = ""

    @property
    def settled(self) -> bool:
        """Whether a decision stands."""
        return self.decision is not Decision.OPEN


def to_decide(connection: Connection, machine_id: int, rule: Rule = Rule.CONFORMANCE_95) -> list[ToDecide]:
    """Every part out of limits, undecided, broken or lost: open ones first, most out first, unmeasured last."""
    return [row for row in with_decided(connection, machine_id, rule) if not row.at_rest]


def with_decided(connection: Connection, machine_id: int, rule: Rule = Rule.CONFORMANCE_95) -> list[ToDecide]:
    """As ``to_decide``, with the parts at rest as well: every part of a machine."""
    why: dict[int, list[str]] = {}
    out: dict[int, int] = {}
    read: set[int] = set()
    for part_id, place, verdict in _judged(connection, machine_id, rule):
        read.add(part_id)
        if verdict in _BAD:
            why.setdefault(part_id, []).append(f"{place} {verdict.value}")
            out[part_id] = out.get(part_id, 0) + (verdict is Verdict.DOES_NOT)
    for fit in fits.rows(connection, fits.fit_ids(connection, machine_id), rule):
        if fit.now is not None and fit.now.verdict in _BAD:
            for side in fit.sides:
                why.setdefault(side.part_id, []).append(f"{fit.title} {fit.now.verdict.value}")
                out[side.part_id] = out.get(side.part_id, 0) + (fit.now.verdict is Verdict.DOES_NOT)
    for part_id, words in not_whole(connection, machine_id):
        why.setdefault(part_id, []).append(words)
        out[part_id] = out.get(part_id, 0) + 1
    return _listed(connection, machine_id, why, out, read)


def _judged(connection: Connection, machine_id: int, rule: Rule) -> Iterator[tuple[int, str, Verdict]]:
    """Part, feature with station, and verdict of all that is read on a machine, in the order of the grid."""
    limits = instrument_limits(connection)
    read = spoken(connection, machine_id, rule, limits)
    own = Parts.machine_id == machine_id
    features = {
        row[0]: (row[1], row[2])
        for row in connection.execute(
            select(Features.id, Features.part_id, Features.name)
            .select_from(Parts)
            .join(Features, Features.part_id == Parts.id)
            .where(own)
        ).all()
    }
    stations = {
        row[0]: at_station(row[1])
        for row in connection.execute(
            select(Stations.id, Stations.name)
            .select_from(Parts)
            .join(Features, Features.part_id == Parts.id)
            .join(Stations, Stations.feature_id == Features.id)
            .where(own, Stations.name != "")
        ).all()
    }
    for key in grid.keys(connection, grid.Asked(machine_id), rule, limits):
        if key in read:
            part_id, name = features[key[0]]
            yield part_id, f"{name}{stations.get(key[1], '')}", read[key].verdict


def not_whole(connection: Connection, machine_id: int) -> list[tuple[int, str]]:
    """Parts whose last removal found them broken or not there, with what was said of it."""
    last = (
        select(func.max(RemovalParts.removal_id))
        .join(Parts, Parts.id == RemovalParts.part_id)
        .where(Parts.machine_id == machine_id)
        .group_by(RemovalParts.part_id)
    )
    rows = connection.execute(
        select(RemovalParts.part_id, Removals.how, Removals.broke)
        .join(Removals, Removals.id == RemovalParts.removal_id)
        .where(
            RemovalParts.removal_id.in_(last),
            or_(Removals.how.in_([RemovalWay.BROKEN, RemovalWay.MISSING]), Removals.broke != ""),
        )
    )
    return [
        (row.part_id, f"{row.broke} (coming off)" if row.broke else f"{row.how.value} (coming off)")
        for row in rows
    ]


def _listed(
    connection: Connection, machine_id: int, why: dict[int, list[str]], out: dict[int, int], read: set[int]
) -> list[ToDecide]:
    counts = (
        select(DecisionOptions.part_id, func.count().label("n")).group_by(DecisionOptions.part_id).subquery()
    )
    found = connection.execute(
        select(
            Parts.id,
            Parts.code,
            Parts.name,
            Parts.decision,
            Parts.decision_reason,
            Parts.condition,
            counts.c.n,
        )
        .outerjoin(counts, counts.c.part_id == Parts.id)
        .where(Parts.machine_id == machine_id)
        .order_by(Parts.code, Parts.id)
    )
    beside = told_apart(connection, machine_id)
    listed = [
        ToDecide(
            row.id,
            called(row.code, row.name, beside.get(row.id, "")),
            row.decision,
            row.decision_reason,
            tuple(dict.fromkeys(why.get(row.id, [_nothing_out(row.decision, row.id in read)]))),
            out.get(row.id, 0),
            row.n or 0,
            row.id not in why and row.decision is not Decision.OPEN,
            row.condition,
        )
        for row in found
    ]
    spoken_of = why.keys() | read
    return sorted(listed, key=lambda row: (row.settled, -row.out, row.part_id not in spoken_of))


def _nothing_out(decision: Decision, is_read: bool) -> str:
    measured = "measured" if is_read else "nothing measured"
    return f"{measured}, still to be decided" if decision is Decision.OPEN else f"decided, {measured}"


def proposals(connection: Connection, part_id: int, rule: Rule = Rule.CONFORMANCE_95) -> tuple[Proposal, ...]:
    """What the wear rules propose for a part, each with its working. Raises NotThere."""
    return propose(part_facts(connection, part_id, rule), rules_in_force(connection))


def part_facts(connection: Connection, part_id: int, rule: Rule = Rule.CONFORMANCE_95) -> PartFacts:
    """What is known of a part, as the wear rules look at it. Raises NotThere."""
    part = connection.execute(
        select(Parts.code, Parts.name, Parts.machine_id).where(Parts.id == part_id)
    ).first()
    if part is None:
        raise NotThere(f"The part no. {part_id} is no longer there.", way_out="It may have been removed.")
    measured = _grid_rows(connection, grid.Asked(part.machine_id, part_ids=frozenset({part_id})), rule)
    in_fits = fits.rows(connection, fits.of_parts(connection, [part_id]), rule)
    return PartFacts(
        f"{part.code} {part.name}".strip(),
        tuple(_feature_fact(rows) for rows in _by_feature(measured)),
        tuple(fact for row in in_fits for fact in _fit_facts(row, part_id)),
    )


def _grid_rows(connection: Connection, asked: grid.Asked, rule: Rule) -> list[GridRow]:
    limits = instrument_limits(connection)
    return grid.rows(connection, grid.keys(connection, asked, rule, limits), rule, limits)


def _by_feature(measured: Sequence[GridRow]) -> list[list[GridRow]]:
    found: dict[int, list[GridRow]] = {}
    for row in measured:
        if row.speaking is not None:
            found.setdefault(row.feature_id, []).append(row)
    return list(found.values())


def _feature_fact(rows: list[GridRow]) -> FeatureFact:
    first = rows[0]
    verdicts = {row.judgement.verdict for row in rows if row.judgement is not None}
    order = (Verdict.DOES_NOT, Verdict.UNDECIDED, Verdict.CONFORMS)
    verdict = next((one for one in order if one in verdicts), Verdict.NO_SPEC)
    spoken = [row for row in rows if row.speaking is not None]
    readings = tuple((row.station, row.speaking.value_mm) for row in spoken if row.speaking is not None)
    return FeatureFact(
        first.feature,
        first.kind,
        first.unit,
        readings,
        first.nominal_mm,
        first.low_mm,
        first.high_mm,
        verdict,
        tuple(row.judgement.U_mm if row.judgement is not None else None for row in spoken),
    )


def _fit_facts(row: FitRow, part_id: int) -> list[FitFact]:
    facts = []
    for side, mate in ((row.outer, row.inner), (row.inner, row.outer)):
        if side.part_id != part_id or mate.part_id == part_id:
            continue
        now = row.now
        values = [reading.value_mm for reading in side.readings]
        size = mate.readings[0].value_mm if mate.readings else mate.nominal_mm
        facts.append(
            FitFact(
                row.title,
                row.joint,
                row.kind,
                row.unit,
                side.feature,
                mate.part,
                _is_master(row.master, side.side),
                now.verdict if now else Verdict.NO_SPEC,
                size,
                now.most.value_mm if now else None,
                now.least.value_mm if now else None,
                row.low_mm,
                row.high_mm,
                _uneven(now, side.side, values),
            )
        )
    return facts


def _uneven(now: FitNow | None, side: Side, values: list[float]) -> float:
    """How uneven a side is: of its own readings, or for a screw of the lost motion read along it."""
    if now is not None and now.most.inner is None:
        return now.spread_mm if side is Side.INNER else 0.0
    return max(values) - min(values) if values else 0.0


def _is_master(master: Side | None, side: Side) -> bool | None:
    return None if master is None else master is side


def rule_edits(connection: Connection) -> dict[str, Edited]:
    """The user's own limits by rule."""

    def size(text: str | None, unit: str | None, mm: float | None) -> Size | None:
        return None if mm is None else Size(text or "", unit or "mm", mm)

    rows = connection.execute(
        select(
            WearRules.key,
            WearRules.good_text,
            WearRules.good_unit,
            WearRules.good_mm,
            WearRules.rework_text,
            WearRules.rework_unit,
            WearRules.rework_mm,
            WearRules.left_out,
            WearRules.note,
        )
    )
    return {
        row.key: Edited(
            size(row.good_text, row.good_unit, row.good_mm),
            size(row.rework_text, row.rework_unit, row.rework_mm),
            row.left_out,
            row.note,
        )
        for row in rows
    }


def rules_in_force(connection: Connection) -> Rules:
    """The wear rules of this file: the program's, with the user's own limits in place."""
    return rules(rule_edits(connection))


def criteria(connection: Connection) -> tuple[Criterion, ...]:
    """Every threshold rule in force, edited ones marked."""
    return rules_in_force(connection).criteria
