"""The test chart: lay it out, read positions, change what is allowed."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from sqlalchemy import func, select

from rebuild.errors import BadEntry
from rebuild.model.records.charts import ChartLine, ChartReading, ChartTest
from rebuild.model.records.machines import Machine
from rebuild.store.act import Act
from rebuild.store.store import Store
from rebuild.store.tx import Tx
from rebuild.trade.charts.entry import SignWords, read_allowed, read_deviation, read_slope
from rebuild.trade.charts.geometry_tests import GeometryTest, Limit, Position, library, library_line
from rebuild.trade.sizes.amounts import parse_celsius
from rebuild.trade.sizes.quantity import Size, parse_length
from rebuild.words.charts import ChartStage, LimitLength, LimitSign, LimitStatus
from rebuild.words.counted import counted
from rebuild.work.charts import rules
from rebuild.work.readings.rules_plausible import Expected, refuse_implausible
from rebuild.work.records.columns import read_typed, set_columns
from rebuild.work.records.rows_settings import decimal_comma
from rebuild.work.records.wall_clock import now


@dataclass(frozen=True, slots=True)
class Reading:
    """What goes with a reading. ``over`` is the length read over, ``division`` what one of the level's is worth."""

    stage: ChartStage = ChartStage.AFTER
    over: str = ""
    instrument_id: int | None = None
    temperature: str = ""
    taken_at: dt.datetime | None = None
    adjusted: str = ""
    note: str = ""
    division: str = ""


def lay_out(store: Store, machine_id: int, keys: Sequence[str] | None = None) -> list[int]:
    """Put the usual tests of the machine's kind on its chart; those there already stay. Returns the new ids.

    Raises:
        BadEntry: there are none for its kind.
    """
    with store.act(Act.ADD_CHART_TEST, "") as tx:
        machine = tx.get(Machine, machine_id, "machine")
        wanted = [test for test in library(machine.kind) if keys is None or test.key in keys]
        if not wanted:
            raise BadEntry(
                "has no list of tests here.",
                where="Kind of machine",
                value=machine.kind.value,
                way_out="Add your own tests, each with its limit and where that comes from.",
            )
        there = {row.key: row for row in _tests(tx, machine_id)}
        made: list[int] = []
        for test in wanted:
            if test.key not in there:
                there[test.key] = _put_test(tx, machine_id, test)
                made.append(there[test.key].id)
        for test in wanted:
            before = there.get(test.after)
            if before is not None and there[test.key].id in made:
                there[test.key].after_id = before.id
        tx.subject = f"{counted(len(made), 'test')} of a {machine.kind.value}"
        return made


def _tests(tx: Tx, machine_id: int) -> Sequence[ChartTest]:
    return tx.session.scalars(select(ChartTest).where(ChartTest.machine_id == machine_id)).all()


def _put_test(tx: Tx, machine_id: int, test: GeometryTest) -> ChartTest:
    row = ChartTest(
        machine_id=machine_id,
        key=test.key,
        number=test.number,
        name=test.name,
        sketch=test.sketch,
        set_up=test.set_up,
        position=_next(tx, machine_id),
    )
    tx.session.add(row)
    tx.session.flush()
    for place, position in enumerate(test.lines):
        tx.session.add(_line_of(row.id, position, place))
    tx.session.flush()
    return row


def _line_of(test_id: int, position: Position, place: int) -> ChartLine:
    line = ChartLine(
        test_id=test_id,
        key=position.key,
        name=position.name,
        unit=position.unit,
        sign=position.sign,
        plus_means=position.plus,
        minus_means=position.minus,
        position=place,
    )
    _put_limit(line, position.limit)
    return line


def _put_limit(line: ChartLine, limit: Limit) -> None:
    _put_size(line, "allowed", limit.allowed)
    _put_size(line, "per", limit.per)
    line.along = limit.along
    line.origin, line.status = limit.origin, limit.status


def _put_size(line: ChartLine, stem: str, size: Size | None) -> None:
    for column, value in (
        ("text", size and size.text),
        ("unit", size and size.unit),
        ("mm", size and size.mm),
    ):
        setattr(line, f"{stem}_{column}", value)


def _next(tx: Tx, machine_id: int) -> int:
    last = tx.session.scalar(select(func.max(ChartTest.position)).where(ChartTest.machine_id == machine_id))
    return 0 if last is None else last + 1


def add_test(
    store: Store,
    machine_id: int,
    name: str,
    positions: Sequence[str] = ("",),
    *,
    typed: Mapping[str, str] | None = None,
    limit: Mapping[str, str] | None = None,
) -> int:
    """A test of the owner's own with its positions; returns its id.

    ``limit`` holds fields of a position (``allowed``, ``sign`` ...) that all of them begin with; ``allowed``
    may carry its length: ``0.02 mm per 300 mm``.

    Raises:
        BadEntry, Ambiguous: a field cannot be read, or the sketch or the test before it is not one.
    """
    comma = decimal_comma(store)
    columns = read_typed("chart_test", {"name": name, **(typed or {})}, comma=comma)
    with store.act(Act.ADD_CHART_TEST, str(columns["name"])) as tx:
        machine = tx.get(Machine, machine_id, "machine")
        row = ChartTest(machine_id=machine_id, position=_next(tx, machine_id))
        set_columns(row, columns)
        rules.chart_test(tx, row, {}, typed or {})
        row.number = row.number or str(row.position + 1)
        tx.session.add(row)
        tx.session.flush()
        for place, position in enumerate(positions or ("",)):
            _add_line(tx, row.id, place, {"name": position, "unit": machine.unit, **(limit or {})}, comma)
        return row.id


def add_position(store: Store, test_id: int, name: str, limit: Mapping[str, str] | None = None) -> int:
    """A further position of a test; returns its id. Raises BadEntry, Ambiguous."""
    comma = decimal_comma(store)
    with store.act(Act.ADD_CHART_TEST, "") as tx:
        test = tx.get(ChartTest, test_id, "geometry test")
        machine = tx.get(Machine, test.machine_id, "machine")
        last = tx.session.scalar(select(func.max(ChartLine.position)).where(ChartLine.test_id == test_id))
        typed = {"name": name, "unit": machine.unit, **(limit or {})}
        tx.subject = f"position {name} of {test.name}"
        return _add_line(tx, test_id, 0 if last is None else last + 1, typed, comma)


def _add_line(tx: Tx, test_id: int, place: int, typed: Mapping[str, str], comma: bool | None) -> int:
    line = ChartLine(
        test_id=test_id,
        position=place,
        sign=LimitSign.SIZE,
        along=LimitLength.FIXED,
        status=LimitStatus.OWN,
        origin="",
        plus_means="",
        minus_means="",
    )
    given = _split_allowed(typed)
    set_columns(line, read_typed("chart_line", given, given.get("unit", "mm"), comma=comma))
    rules.chart_line(tx, line, {}, given)
    tx.session.add(line)
    tx.session.flush()
    return line.id


def _split_allowed(typed: Mapping[str, str]) -> dict[str, str]:
    given = dict(typed)
    if given.get("allowed", "").strip():
        allowed, per = read_allowed(given["allowed"], given.get("unit", "mm"))
        given["allowed"] = allowed
        if per:
            given["per"] = per
            given.setdefault("along", LimitLength.PROPORTION.value)
    return given


def set_allowed(
    store: Store,
    line_ids: Sequence[int],
    text: str,
    *,
    origin: str = "",
    status: LimitStatus = LimitStatus.OWN,
    along: LimitLength | None = None,
) -> None:
    """Change what is allowed at positions, with where it comes from: ``0.02 mm per 300 mm``; empty: not known.

    Raises:
        BadEntry, Ambiguous: not a limit.
    """
    comma = decimal_comma(store)
    with store.act(Act.SET_ALLOWED, "") as tx:
        for key in dict.fromkeys(line_ids):
            line = tx.get(ChartLine, key, "position")
            typed = _split_allowed({"allowed": text, "unit": line.unit})
            typed = {"allowed": typed["allowed"], "per": typed.get("per", "")}
            set_columns(line, read_typed("chart_line", typed, line.unit, comma=comma))
            line.along = along or (LimitLength.PROPORTION if typed["per"] else LimitLength.FIXED)
            line.origin, line.status = origin.strip(), status
            rules.chart_line(tx, line, {}, typed)
            tx.subject = f"{text.strip() or 'not known'} at {_called(tx, line)}"


def take_library_limit(store: Store, line_id: int, which: int = 0) -> None:
    """Take the list's own limit for a position (0), or one of the further values given beside it (1, 2 ...).

    Raises:
        BadEntry: the position is the owner's own, or there is no such value.
    """
    with store.act(Act.SET_ALLOWED, "") as tx:
        line = tx.get(ChartLine, line_id, "position")
        test = tx.get(ChartTest, line.test_id, "geometry test")
        known = library_line(test.key, line.key)
        limits = (known.limit, *known.others) if known is not None else ()
        if not 0 <= which < len(limits):
            raise BadEntry(
                "has no such value in the list.",
                where=_called(tx, line),
                way_out="Type the limit with its origin.",
            )
        _put_limit(line, limits[which])
        tx.subject = f"{limits[which].text() or 'not known'} at {_called(tx, line)}"


def read_position(
    store: Store, line_id: int, text: str, reading: Reading | None = None, *, confirmed: bool = False
) -> int:
    """Store what was read at a position; returns the reading's id.

    Raises:
        BadEntry: not a deviation, or a sign that cannot be; the sentence names the row.
        Ambiguous: no sign where the sign decides.
        Implausible: ten or 25.4 times what is allowed; ``confirmed`` stores it all the same.
    """
    comma = decimal_comma(store)
    with store.act(Act.READ_CHART, "") as tx:
        return put_position(tx, line_id, text, reading or Reading(), comma, confirmed=confirmed)


def put_position(
    tx: Tx, line_id: int, text: str, given: Reading, comma: bool | None, *, confirmed: bool = False
) -> int:
    """Store what was read at a position inside an act; raises as ``read_position`` does."""
    line = tx.get(ChartLine, line_id, "position")
    where = _called(tx, line)
    over = (
        parse_length(given.over, line.unit, f"{where}, length", decimal_comma=comma)
        if given.over.strip()
        else None
    )
    if over is not None and over.mm <= 0:
        raise BadEntry(
            "is not a length above zero.",
            where=f"{where}, length",
            value=given.over,
            way_out="Type it again.",
        )
    length = over.mm if over else line.per_mm
    found = read_deviation(
        text,
        line.unit,
        SignWords(line.sign, line.plus_means, line.minus_means),
        where,
        per_mm=length,
        division_um_per_m=division_of(given.division, comma),
        decimal_comma=comma,
    )
    if not confirmed and line.allowed_mm:
        refuse_implausible(
            found.mm, Expected(where, None, None, line.allowed_mm, None), text.strip(), line.unit
        )
    if over is None and found.slope_um_per_m is not None and line.per_mm:
        # The deviation is that slope over this length, whatever the limit is given over later.
        over = Size(str(line.per_text), str(line.per_unit), line.per_mm)
    row = ChartReading(
        line_id=line_id,
        stage=given.stage,
        typed=found.typed,
        value_mm=found.mm,
        over_text=over and over.text,
        over_unit=over and over.unit,
        over_mm=over and over.mm,
        instrument_id=given.instrument_id,
        taken_at=given.taken_at or now(),
        adjusted=given.adjusted.strip(),
        temperature_c=celsius_of(given.temperature, comma),
        note=given.note.strip(),
    )
    tx.session.add(row)
    tx.session.flush()
    tx.subject = f"{found.typed} {given.stage.value}, {where}"
    return row.id


def celsius_of(text: str, comma: bool | None) -> float | None:
    """A temperature as typed [°C]; None when nothing is typed. Raises BadEntry."""
    return parse_celsius(text, decimal_comma=comma) if text.strip() else None


def division_of(text: str, comma: bool | None) -> float | None:
    """What one division of a level is worth [µm/m], as typed: ``0.02 mm/m``. Raises BadEntry."""
    return (
        read_slope(text, "Value of one division", unit="mm/m", decimal_comma=comma) if text.strip() else None
    )


def _called(tx: Tx, line: ChartLine) -> str:
    test = tx.get(ChartTest, line.test_id, "geometry test")
    return ", ".join(filter(None, (f"Test {test.number} {test.name}".strip(), line.name)))
