"""The test chart as rows: positions with as found, after and allowed, verdicts, and warnings of order."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence

from sqlalchemy import Connection, select

from rebuild.errors import NotThere, OutOfRange, RebuildError
from rebuild.model.tables.charts import ChartLines, ChartReadings, ChartTests, LevelReadings
from rebuild.model.tables.readings import Instruments
from rebuild.trade.charts.entry import SignWords, read_deviation
from rebuild.trade.charts.geometry_tests import Limit, library_line, limit_text
from rebuild.trade.charts.limit import Allowed, judge_deviation, wrong_way
from rebuild.trade.charts.order import ChartState, order_warnings
from rebuild.trade.charts.settling import Rest
from rebuild.trade.limits.judgement import Judgement, Rule, Verdict
from rebuild.trade.limits.uncertainty import InstrumentLimit, reading_budget
from rebuild.trade.results.working import Worked, Working, joined
from rebuild.trade.sizes.quantity import Size
from rebuild.words.charts import ChartStage, LimitLength, LimitSign, LimitStatus
from rebuild.words.readings import InstrumentKind
from rebuild.work.charts.rows_levelling import levelling
from rebuild.work.charts.rows_tests import LineRow, ReadRow, TestRow
from rebuild.work.readings.rows_judged import instrument_limits

#: The tables the lookups here ask.
READS = frozenset({"chart_line", "chart_reading", "chart_test", "instrument", "level_reading", "machine"})

#: Instruments whose error is a slope: their stored limits are per metre, or per foot when they read in inches.
_BY_SLOPE = (InstrumentKind.LEVEL, InstrumentKind.AUTOCOLLIMATOR)
_SLOPE_LENGTH = {"mm": 1000.0, "in": 304.8}


def chart(connection: Connection, machine_id: int, rule: Rule) -> list[TestRow]:
    """The whole chart of a machine, in order."""
    tests = connection.execute(
        select(*ChartTests.columns())
        .where(ChartTests.machine_id == machine_id)
        .order_by(ChartTests.position, ChartTests.id)
    ).all()
    lines = _lines(connection, machine_id, rule)
    rows = [
        TestRow(
            test.id,
            test.key,
            test.number,
            test.name,
            test.sketch,
            test.set_up,
            test.after_id,
            test.note,
            tuple(lines.get(test.id, ())),
        )
        for test in tests
    ]
    return _with_warnings(connection, machine_id, rows)


def _lines(connection: Connection, machine_id: int, rule: Rule) -> dict[int, list[LineRow]]:
    readings = _readings(connection, machine_id)
    instruments = _Instruments(connection)
    found: dict[int, list[LineRow]] = {}
    rows = connection.execute(
        select(*ChartLines.columns(), ChartTests.key.label("test_key"))
        .join(ChartTests, ChartTests.id == ChartLines.test_id)
        .where(ChartTests.machine_id == machine_id)
        .order_by(ChartLines.position, ChartLines.id)
    )
    for row in rows:
        line = ChartLines.of(row)
        words, limit = words_of(line), allowed_of(line)
        listed = _listed(row.test_key, row.key)
        read = tuple(
            _read_row(one, row.unit, words, limit, instruments, rule) for one in readings.get(row.id, ())
        )
        found.setdefault(row.test_id, []).append(
            LineRow(
                row.id,
                row.test_id,
                row.key,
                row.name,
                row.unit,
                words,
                limit,
                row.origin,
                LimitStatus(row.status),
                bool(listed) and not any(_same(limit, one) for one in listed),
                listed,
                read,
            )
        )
    return found


def words_of(row: ChartLines) -> SignWords:
    """The sign of a stored position."""
    return SignWords(LimitSign(row.sign), row.plus_means, row.minus_means)


def allowed_of(row: ChartLines) -> Allowed:
    """The limit of a stored position."""
    allowed = _size(row.allowed_text, row.allowed_unit, row.allowed_mm)
    per = _size(row.per_text, row.per_unit, row.per_mm)
    text = limit_text(allowed, per)
    return Allowed(
        row.allowed_mm, row.per_mm, LimitLength(row.along), row.origin, LimitStatus(row.status), text
    )


def _size(text: str | None, unit: str | None, mm: float | None) -> Size | None:
    return None if mm is None else Size(text or "", unit or "", mm)


def _listed(test_key: str, line_key: str) -> tuple[Limit, ...]:
    known = library_line(test_key, line_key)
    return (known.limit, *known.others) if known is not None else ()


def _same(limit: Allowed, listed: Limit) -> bool:
    allowed = listed.allowed.mm if listed.allowed else None
    return limit.allowed_mm == allowed and limit.per_mm == (listed.per.mm if listed.per else None)


def _readings(connection: Connection, machine_id: int) -> dict[int, list[ChartReadings]]:
    """Readings by position, newest first."""
    rows = connection.execute(
        select(*ChartReadings.columns())
        .join(ChartLines, ChartLines.id == ChartReadings.line_id)
        .join(ChartTests, ChartTests.id == ChartLines.test_id)
        .where(ChartTests.machine_id == machine_id)
        .order_by(ChartReadings.taken_at.desc(), ChartReadings.id.desc())
    )
    found: dict[int, list[ChartReadings]] = {}
    for row in rows:
        found.setdefault(row.line_id, []).append(ChartReadings.of(row))
    return found


class _Instruments:
    """Names and error limits of the shop's instruments, for deviations over a length."""

    def __init__(self, connection: Connection) -> None:
        self._limits = instrument_limits(connection)
        rows = connection.execute(
            select(Instruments.id, Instruments.name, Instruments.kind, Instruments.unit)
        )
        self._about = {row.id: (row.name, row.kind, row.unit) for row in rows}

    def name(self, key: int | None) -> str:
        """Its name."""
        return self._about[key][0] if key in self._about and key is not None else ""

    def limit(self, key: int | None, length_mm: float | None) -> InstrumentLimit | None:
        """Its error limit; a level's slope becomes a height over the length read."""
        if key is None or key not in self._limits:
            return None
        limit, (_name, kind, unit) = self._limits[key], self._about[key]
        if kind not in _BY_SLOPE or not length_mm:
            return limit
        share = length_mm / _SLOPE_LENGTH.get(unit, 1000.0)
        return InstrumentLimit(
            limit.name,
            limit.resolution_mm * share,
            None if limit.mpe_mm is None else limit.mpe_mm * share,
            None if limit.expanded_U_mm is None else limit.expanded_U_mm * share,
            limit.k,
            limit.source,
        )


def _judged(
    row: ChartReadings,
    unit: str,
    words: SignWords,
    limit: Allowed,
    instruments: _Instruments,
    rule: Rule,
) -> Worked[Judgement]:
    length = row.over_mm or limit.per_mm
    budget = reading_budget(
        instruments.limit(row.instrument_id, length),
        temperature_C=row.temperature_c,
        part_alpha_per_K=11.5e-6,
        length_mm=abs(row.value_mm),
    )
    return judge_deviation(row.value_mm, limit, words, row.over_mm, budget, rule, unit)


def _read_row(
    row: ChartReadings,
    unit: str,
    words: SignWords,
    limit: Allowed,
    instruments: _Instruments,
    rule: Rule,
) -> ReadRow:
    judgement, trouble = None, ""
    try:
        judgement = _judged(row, unit, words, limit, instruments, rule).value
    except OutOfRange as outside:
        trouble = str(outside)
    verdict = judgement.verdict if judgement is not None else Verdict.UNDECIDED
    return ReadRow(
        row.id,
        ChartStage(row.stage),
        row.typed,
        row.value_mm,
        row.over_mm,
        instruments.name(row.instrument_id),
        row.temperature_c,
        row.taken_at,
        row.adjusted,
        row.note,
        words.says(row.value_mm),
        wrong_way(words, row.value_mm, verdict),
        judgement,
        trouble,
    )


def reading_working(connection: Connection, reading_id: int, rule: Rule) -> Working:
    """How the verdict on one reading was reached. Raises NotThere, OutOfRange."""
    row = connection.execute(select(*ChartReadings.columns()).where(ChartReadings.id == reading_id)).first()
    if row is None:
        raise NotThere(f"The geometry reading no. {reading_id} is no longer there.")
    line = ChartLines.of(
        connection.execute(select(*ChartLines.columns()).where(ChartLines.id == row.line_id)).one()
    )
    read, words = ChartReadings.of(row), words_of(line)
    judged = _judged(read, line.unit, words, allowed_of(line), _Instruments(connection), rule)
    corrected = _correction(read, line, words)
    return joined(judged.working.title, [*corrected, judged.working])


def _correction(row: ChartReadings, line: ChartLines, words: SignWords) -> list[Working]:
    """How a reading was freed of its bar's sag, or worked out from two collars."""
    try:
        again = read_deviation(row.typed, line.unit, words, "Reading", per_mm=row.over_mm or line.per_mm)
    except RebuildError:
        return []  # Typed with a comma or in divisions; the value stored stands.
    return [] if again.working is None else [again.working]


def _with_warnings(connection: Connection, machine_id: int, rows: Sequence[TestRow]) -> list[TestRow]:
    bed_moved = connection.scalar(
        select(LevelReadings.taken_at)
        .where(LevelReadings.machine_id == machine_id, LevelReadings.adjusted != "")
        .order_by(LevelReadings.taken_at.desc())
        .limit(1)
    )
    rest = levelling(connection, machine_id)
    unsettled = rest.worst.text if rest.worst is not None and rest.worst.rest is Rest.MOVING else ""
    found = order_warnings([_state(row, bed_moved) for row in rows], unsettled)
    return [_put_warnings(row, found) for row in rows]


def _put_warnings(row: TestRow, found: Mapping[int, tuple[str, ...]]) -> TestRow:
    return TestRow(
        row.id,
        row.key,
        row.number,
        row.name,
        row.sketch,
        row.set_up,
        row.after_id,
        row.note,
        row.lines,
        found.get(row.id, ()),
    )


def _state(row: TestRow, bed_moved: dt.datetime | None) -> ChartState:
    read = [line.after for line in row.lines if line.after is not None]
    verdicts = {one.verdict for one in read}
    right: bool | None = None
    if Verdict.DOES_NOT in verdicts:
        right = False
    elif read and len(read) == len(row.lines) and verdicts <= {Verdict.CONFORMS, Verdict.NO_SPEC}:
        right = True
    moved = [one.taken_at for line in row.lines for one in line.readings if one.adjusted]
    if row.sketch == "level" and bed_moved is not None:
        moved.append(bed_moved)
    missing = tuple(line.name for line in row.lines if line.after is None) if read else ()
    return ChartState(
        row.id,
        row.number,
        row.name,
        row.after_id,
        max((one.taken_at for one in read), default=None),
        max(moved, default=None),
        right,
        missing,
    )
