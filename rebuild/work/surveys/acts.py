"""Surveys of ways and plates: set up, lines, and readings as typed; nothing is ever left out silently."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from sqlalchemy import delete, func, insert, select

from rebuild.errors import BadEntry
from rebuild.model.records.machines import Machine
from rebuild.model.records.surveys import Survey, SurveyLine, SurveyReading
from rebuild.store.act import Act
from rebuild.store.store import Store, Tx
from rebuild.trade.geometry.flatness import LINES
from rebuild.trade.geometry.steps import SlopeUnit
from rebuild.trade.sizes.number import read_number
from rebuild.trade.sizes.quantity import parse_length
from rebuild.words.surveys import BY_STEPS, SurveyMethod
from rebuild.work.records.columns import read_typed, set_columns
from rebuild.work.records.rows_settings import decimal_comma
from rebuild.work.records.wall_clock import now

SLOPE_UNITS = tuple(unit.value for unit in SlopeUnit)
HEIGHT_UNITS = ("mm", "in")


def units_of(method: SurveyMethod) -> tuple[str, ...]:
    """The units readings of a method may have."""
    return SLOPE_UNITS if method in BY_STEPS else HEIGHT_UNITS


def add_survey(
    store: Store,
    machine_id: int,
    name: str,
    method: SurveyMethod,
    *,
    lines: Sequence[str] = (),
    typed: Mapping[str, str] | None = None,
) -> int:
    """A new survey with its lines (a plate gets its eight); returns its id.

    Raises:
        BadEntry: a field cannot be read, the unit is not one of the method, or divisions lack their value.
    """
    columns = read_typed(
        "survey",
        {"name": name, **{k: v for k, v in (typed or {}).items() if k != "unit"}},
        comma=decimal_comma(store),
    )
    unit = (typed or {}).get("unit", "") or ("mm/m" if method in BY_STEPS else "mm")
    refuse_unit(method, unit, columns.get("division_um_per_m"))
    with store.act(Act.ADD_SURVEY, str(columns["name"])) as tx:
        tx.get(Machine, machine_id, "machine")
        last = tx.session.scalar(select(func.max(Survey.position)).where(Survey.machine_id == machine_id))
        survey = Survey(
            machine_id=machine_id, method=method, unit=unit, position=0 if last is None else last + 1
        )
        set_columns(survey, columns)
        survey.taken_at = survey.taken_at or now()
        tx.session.add(survey)
        tx.session.flush()
        names = lines or (LINES if method is SurveyMethod.PLATE else ("line 1",))
        for position, line in enumerate(names):
            tx.session.add(SurveyLine(survey_id=survey.id, name=line, position=position))
        return survey.id


def refuse_unit(method: SurveyMethod, unit: str, division: object) -> None:
    """Raise BadEntry for a unit the method cannot have, or divisions without their value."""
    if unit not in units_of(method):
        raise BadEntry(
            f"is not a unit of “{method.value}”.",
            where="Unit of the readings",
            value=unit,
            way_out=f"Choose {', '.join(units_of(method))}.",
        )
    if unit == SlopeUnit.DIVISIONS.value and not division:
        raise BadEntry(
            "is not given.", where="One division [µm/m]", way_out="Type what the level is marked with."
        )


def add_line(store: Store, survey_id: int, name: str) -> int:
    """A further line of a survey; returns its id. Raises BadEntry, NotThere."""
    columns = read_typed("survey_line", {"name": name})
    with store.act(Act.ADD_SURVEY_LINE, "") as tx:
        survey = tx.get(Survey, survey_id, "survey")
        last = tx.session.scalar(
            select(func.max(SurveyLine.position)).where(SurveyLine.survey_id == survey_id)
        )
        line = SurveyLine(survey_id=survey_id, position=0 if last is None else last + 1)
        set_columns(line, columns)
        tx.session.add(line)
        tx.session.flush()
        tx.subject = f"{line.name} in {survey.name}"
        return line.id


def enter_run(store: Store, line_id: int, texts: Sequence[str], run: int = 1) -> int:
    """Store a whole run of a line as typed (replacing what was there); returns how many readings.

    Trailing empty places are places not read yet; a gap before a reading is refused.

    Raises:
        BadEntry, Ambiguous: names the line and the reading.
    """
    comma = decimal_comma(store)
    with store.act(Act.SURVEY_READING, "") as tx:
        line, survey = _line(tx, line_id)
        rows = _read_run(survey, line, run, list(texts), comma)
        tx.session.execute(
            delete(SurveyReading).where(SurveyReading.line_id == line_id, SurveyReading.run == run)
        )
        if rows:
            tx.session.execute(insert(SurveyReading), rows)
        tx.subject = f"run {run} of {line.name} in {survey.name}, {len(rows)} readings"
        return len(rows)


def enter_reading(store: Store, line_id: int, place: int, typed: str, run: int = 1) -> None:
    """Store one reading at a place (from 0), or clear the last one with an empty text.

    Raises:
        BadEntry: cannot be read, or earlier places of the run are empty.
    """
    comma = decimal_comma(store)
    with store.act(Act.SURVEY_READING, "") as tx:
        put_place(tx, line_id, place, typed, run, comma)


@dataclass(frozen=True, slots=True)
class PlaceRead:
    """A reading of a run as stored; ``replaced`` stood there before."""

    id: int
    typed: str
    replaced: str


def put_place(tx: Tx, line_id: int, place: int, typed: str, run: int, comma: bool | None) -> PlaceRead:
    """Store one reading at a place inside an act; raises as ``enter_reading`` does."""
    line, survey = _line(tx, line_id)
    there = _there(tx, line_id, run)
    replaced = there[place].typed if place in there else ""
    texts = [there[at].typed if at in there else "" for at in range(max([place, *there]) + 1)]
    texts[place] = typed
    rows = _read_run(survey, line, run, texts, comma)
    _put(tx, there, rows, line_id, run)
    tx.session.flush()
    tx.subject = f"{typed.strip() or 'cleared'} at {place + 1} of {line.name} in {survey.name}"
    stored = _there(tx, line_id, run).get(place)
    return PlaceRead(stored.id if stored else 0, typed.strip(), replaced)


def _there(tx: Tx, line_id: int, run: int) -> dict[int, SurveyReading]:
    """The readings of a run by place."""
    rows = select(SurveyReading).where(SurveyReading.line_id == line_id, SurveyReading.run == run)
    return {row.place: row for row in tx.session.scalars(rows)}


def _put(
    tx: Tx, there: dict[int, SurveyReading], rows: list[dict[str, object]], line_id: int, run: int
) -> None:
    wanted = {int(str(row["place"])): row for row in rows}
    for place, row in there.items():
        if place not in wanted:
            tx.session.delete(row)
    for place, values in wanted.items():
        if place in there:
            set_columns(there[place], {"typed": values["typed"], "value": values["value"]})
        else:
            tx.session.add(
                SurveyReading(
                    line_id=line_id,
                    run=run,
                    place=place,
                    typed=str(values["typed"]),
                    value=float(str(values["value"])),
                )
            )


def _line(tx: Tx, line_id: int) -> tuple[SurveyLine, Survey]:
    line = tx.get(SurveyLine, line_id, "line")
    return line, tx.get(Survey, line.survey_id, "survey")


def _read_run(
    survey: Survey, line: SurveyLine, run: int, texts: list[str], comma: bool | None
) -> list[dict[str, object]]:
    while texts and not texts[-1].strip():
        texts.pop()
    rows: list[dict[str, object]] = []
    for place, text in enumerate(texts):
        where = f"{line.name}, run {run}, reading {place + 1}"
        if not text.strip():
            raise BadEntry(
                "is empty.", where=where, way_out="Read that place too; a line is never trimmed for you."
            )
        value = _value(survey, text, where, comma)
        rows.append({"line_id": line.id, "run": run, "place": place, "typed": text.strip(), "value": value})
    return rows


def _value(survey: Survey, text: str, where: str, comma: bool | None) -> float:
    if survey.method not in BY_STEPS:
        return parse_length(text, survey.unit, where, decimal_comma=comma).mm
    plain = text.strip().replace("−", "-")
    for unit in SLOPE_UNITS:
        if plain.endswith(unit) and unit != survey.unit:
            raise BadEntry(
                f"is in {unit}; this survey is in {survey.unit}.",
                where=where,
                value=text,
                way_out="Use one unit a survey.",
            )
    return read_number(text, where, survey.unit, decimal_comma=comma, ways="Type it as -0.02.")
