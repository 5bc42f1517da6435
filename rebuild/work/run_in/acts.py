"""The first run: its steps, bearing temperatures, cut tests, and what is looked at before power."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping

from sqlalchemy import func, select

from rebuild.errors import BadEntry
from rebuild.model.records.machines import Machine
from rebuild.model.records.run_in import CutTest, RunLook, RunReading, RunStep
from rebuild.store.act import Act
from rebuild.store.store import Store
from rebuild.store.tx import Tx
from rebuild.trade.results.cautions import stored_caution
from rebuild.trade.run_in.warming import plan_run
from rebuild.trade.sizes.amounts import parse_celsius
from rebuild.trade.sizes.quantity import parse_length
from rebuild.words.charts import ChartStage, LimitStatus
from rebuild.words.run_in import CutKind, LookWhen, RunState
from rebuild.work.gates.acts_checks import put_checks
from rebuild.work.gates.rules import need_reason, refuse_idle_reason
from rebuild.work.records.columns import read_typed, set_columns
from rebuild.work.records.rows_settings import decimal_comma
from rebuild.work.records.wall_clock import now
from rebuild.work.run_in import rules
from rebuild.work.run_in.rows_cuts import bed_key
from rebuild.work.steps.acts_gate import pass_look, pass_speed

#: Hotter than this no bearing of a machine tool is meant to be; a reading above it is a slip of the finger or a fire.
HOTTEST_C = 150.0


def lay_out_run(
    store: Store, machine_id: int, slowest_rpm: float | None = None, top_rpm: float | None = None
) -> list[int]:
    """Put the usual run-in steps and checks before power down; what is there stays. Returns the new steps' ids.

    Raises:
        BadEntry: speeds that do not rise.
    """
    with store.act(Act.LAY_OUT_RUN, "") as tx:
        machine = tx.get(Machine, machine_id, "machine")
        steps = []
        for step in plan_run(slowest_rpm, top_rpm, machine.kind.value):
            row = RunStep(
                machine_id=machine_id,
                name=step.name,
                speed_rpm=step.speed_rpm,
                planned_min=step.minutes,
                limit_c=step.limit_C,
                limit_origin=step.origin,
                limit_status=LimitStatus.PRACTICE,
                position=_next(tx, RunStep, machine_id),
            )
            tx.session.add(row)
            tx.session.flush()
            steps.append(row.id)
        put_checks(tx, machine)
        tx.subject = f"of {machine.name}"
        return steps


def _next(tx: Tx, record: type[RunStep] | type[RunLook], machine_id: int) -> int:
    last = tx.session.scalar(select(func.max(record.position)).where(record.machine_id == machine_id))
    return 0 if last is None else last + 1


def add_step(store: Store, machine_id: int, name: str, typed: Mapping[str, str] | None = None) -> int:
    """A further step of the run-in, last; returns its id. Raises BadEntry."""
    columns = read_typed("run_step", {"name": name, **(typed or {})}, comma=decimal_comma(store))
    with store.act(Act.ADD_RUN_STEP, str(columns["name"])) as tx:
        tx.get(Machine, machine_id, "machine")
        row = RunStep(
            machine_id=machine_id,
            position=_next(tx, RunStep, machine_id),
            state=RunState.TO_RUN,
            limit_status=LimitStatus.OWN,
        )
        set_columns(row, columns)
        tx.session.add(row)
        tx.session.flush()
        return row.id


def read_bearing(
    store: Store,
    step_id: int,
    bearing: str,
    minute: float,
    celsius: str,
    note: str = "",
    *,
    at: dt.datetime | None = None,
) -> int:
    """The temperature of a bearing so many minutes into a step; the first one starts the step. Returns its id.

    Raises:
        BadEntry: not a temperature, a minute below nothing, no bearing named, or one hotter than any bearing.
    """
    comma = decimal_comma(store)
    with store.act(Act.READ_BEARING, "") as tx:
        return put_bearing(tx, step_id, bearing, minute, celsius, comma, note, at=at)


def put_bearing(
    tx: Tx,
    step_id: int,
    bearing: str,
    minute: float,
    celsius: str,
    comma: bool | None,
    note: str = "",
    *,
    at: dt.datetime | None = None,
) -> int:
    """The temperature of a bearing inside an act; one over its limit stops the step. Raises as ``read_bearing``."""
    if not bearing.strip():
        raise BadEntry("is empty.", where="Bearing", way_out="Say which one you felt or measured.")
    if not minute >= 0:
        raise BadEntry(
            "is below nothing.",
            where="Minute",
            value=f"{minute:g}",
            way_out="Count from the start of the step.",
        )
    degrees = parse_celsius(celsius, decimal_comma=comma)
    if degrees > HOTTEST_C:
        raise BadEntry(
            f"is {degrees:.0f} °C, hotter than a bearing can run.",
            where=f"Temperature, {bearing.strip()}",
            value=celsius.strip(),
            way_out="Stop the machine if it is true; else type it as 45 C or 113 F.",
        )
    step = tx.get(RunStep, step_id, "run-in step")
    if step.started_at is None:
        step.started_at = at or now()
    if step.state is RunState.TO_RUN:
        step.state = RunState.RUNNING
    if step.limit_c is not None and degrees > step.limit_c:
        step.state = RunState.STOPPED
    row = RunReading(
        step_id=step_id, bearing=bearing.strip(), minute=float(minute), celsius=degrees, note=note.strip()
    )
    tx.session.add(row)
    tx.session.flush()
    tx.subject = f"{degrees:g} °C at {minute:g} min, {bearing.strip()}, {step.name}"
    return row.id


def begin_step(store: Store, step_id: int, *, reason: str = "", by: str = "") -> None:
    """A speed of the run-in is switched on.

    Raises:
        Refused: power is held, or a lower speed is not run through; a ``reason`` goes on all the same.
        BadEntry: it is begun already or ended, another speed still runs, or a reason nobody asked for.
    """
    with store.act(Act.GO_ON if reason.strip() else Act.RUN_STEP, "") as tx:
        step = tx.get(RunStep, step_id, "run-in step")
        rules.one_speed_at_a_time(tx, step)
        asked = pass_speed(tx, step, now(), through=False, reason=reason, by=by)
        refuse_idle_reason(reason, asked)
        step.started_at, step.state = step.started_at or now(), RunState.RUNNING
        tx.subject = f"{step.name}: begun"


def end_step(
    store: Store,
    step_id: int,
    state: RunState,
    *,
    noise: str = "",
    oil_seen: str = "",
    reason: str = "",
    by: str = "",
) -> None:
    """A step was run through, or stopped; ``noise`` and ``oil_seen`` say what was heard and seen.

    Raises:
        Refused: it is called run through though power is held, a lower speed is not run, or a bearing was too hot,
            warmed too fast or was not read; a ``reason`` goes on all the same.
        BadEntry: a reason nobody asked for.
    """
    with store.act(Act.GO_ON if reason.strip() else Act.RUN_STEP, "") as tx:
        step = tx.get(RunStep, step_id, "run-in step")
        asked = state is RunState.RUN and pass_speed(tx, step, now(), through=True, reason=reason, by=by)
        refuse_idle_reason(reason, asked)
        step.state = state
        step.started_at = None if state is RunState.TO_RUN else step.started_at or now()
        step.noise, step.oil_seen = noise.strip() or step.noise, oil_seen.strip() or step.oil_seen
        tx.subject = f"{step.name}: {state.value}"


def run_again(store: Store, step_id: int, reason: str) -> int:
    """The same speed once more, from cold, below the try that did not stand; returns the new step's id.

    The earlier try stays readable with its temperatures; the newest one counts.

    Raises:
        BadEntry: no reason, or it has not been tried yet.
    """
    said = need_reason(reason, "Why again")
    with store.act(Act.RUN_AGAIN, "") as tx:
        step = tx.get(RunStep, step_id, "run-in step")
        if step.state is RunState.TO_RUN and step.started_at is None:
            raise BadEntry(
                "has not been run yet.", where="Run-in step", value=step.name, way_out="Run it first."
            )
        if step.state in (RunState.TO_RUN, RunState.RUNNING):
            step.state = RunState.STOPPED
        below = tx.session.scalars(
            select(RunStep).where(RunStep.machine_id == step.machine_id, RunStep.position > step.position)
        )
        for row in below:
            row.position += 1
        new = RunStep(
            machine_id=step.machine_id,
            name=step.name,
            speed_rpm=step.speed_rpm,
            planned_min=step.planned_min,
            limit_c=step.limit_c,
            limit_origin=step.limit_origin,
            limit_status=step.limit_status,
            position=step.position + 1,
            note=f"run again: {said}",
        )
        tx.session.add(new)
        tx.session.flush()
        tx.subject = f"{step.name}: {said}"
        return new.id


def add_cut(
    store: Store, machine_id: int, kind: CutKind, typed: Mapping[str, str], *, at: dt.datetime | None = None
) -> int:
    """A cut test; returns its id.

    ``typed`` are fields of a cut test: ``first``, ``second``, ``apart``, ``allowed`` ...

    Raises:
        BadEntry: a size is missing or cannot be, or the collars are not of one setting.
        Ambiguous: a size with two honest readings.
    """
    comma = decimal_comma(store)
    with store.act(Act.ADD_CUT_TEST, "") as tx:
        machine = tx.get(Machine, machine_id, "machine")
        unit = typed.get("unit") or machine.unit
        row = CutTest(
            machine_id=machine_id,
            kind=kind,
            unit=unit,
            taken_at=at or now(),
            stage=ChartStage.AFTER,
            allowed_status=LimitStatus.OWN,
        )
        set_columns(
            row, read_typed("cut_test", {**typed, "unit": unit, "kind": kind.value}, unit, comma=comma)
        )
        rules.cut_test(tx, row, {}, typed)
        tx.session.add(row)
        tx.session.flush()
        tx.subject = kind.value
        return row.id


def add_check(
    store: Store,
    machine_id: int,
    text: str,
    due: LookWhen = LookWhen.BEFORE_POWER,
    typed: Mapping[str, str] | None = None,
) -> int:
    """One more check; returns its id. Raises BadEntry."""
    columns = read_typed("run_look", {"text": text, "due": due.value, **(typed or {})})
    with store.act(Act.ADD_RUN_LOOK, str(columns["text"])) as tx:
        tx.get(Machine, machine_id, "machine")
        row = RunLook(machine_id=machine_id, position=_next(tx, RunLook, machine_id))
        set_columns(row, columns)
        rules.run_look(tx, row, {}, typed or {})
        tx.session.add(row)
        tx.session.flush()
        return row.id


def check_done(
    store: Store,
    check_id: int,
    by: str = "",
    note: str = "",
    *,
    reason: str = "",
    read: bool | None = None,
    at: dt.datetime | None = None,
) -> None:
    """A check was done; one of first power runs the machine and passes the gate.

    ``read`` says whether its caution was read; None where nobody was asked.

    Raises:
        BadEntry: it is left to licensed hands or gone on with all the same, and nobody is named; its caution was not
            read; or a reason nobody asked for.
        Refused: it needs power, and something stands before that; a ``reason`` goes on all the same.
    """
    with store.act(Act.GO_ON if reason.strip() else Act.DO_RUN_LOOK, "") as tx:
        row = tx.get(RunLook, check_id, "look before power")
        if row.licensed and not by.strip():
            raise BadEntry(
                "is empty, and this is left to licensed hands.",
                where="By",
                way_out="Name who did it; local codes say who may.",
            )
        if row.topic and read is False:
            raise BadEntry(
                f"is not ticked, and this carries a caution: {stored_caution(row.topic).title}.",
                where="I have read it",
                way_out="Read it above, then tick the box.",
            )
        asked = pass_look(tx, row, at or now(), reason=reason, by=by)
        refuse_idle_reason(reason, asked)
        if asked and not by.strip():
            raise BadEntry(
                "is empty, and what is gone on with all the same is printed with who did it.",
                where="By",
                way_out="Name who does it.",
            )
        row.done_at, row.done_by, row.note = at or now(), by.strip(), note.strip() or row.note
        tx.subject = f"{row.text}, caution read" if row.topic and read else row.text


def check_again(store: Store, check_id: int) -> None:
    """Open a check again."""
    with store.act(Act.DO_RUN_LOOK, "") as tx:
        row = tx.get(RunLook, check_id, "look before power")
        row.done_at, row.done_by = None, ""
        tx.subject = f"again: {row.text}"


def set_bed_sizes(store: Store, machine_id: int, height: str, feet_apart: str, feet_along: str) -> None:
    """Keep the sizes a twist is worked out with: height of centres, feet across and along. Raises BadEntry."""
    with store.read() as connection:
        unit = connection.scalar(select(Machine.unit).where(Machine.id == machine_id)) or "mm"
    names = ("Height of centres", "Feet apart, front to rear", "Feet apart, along the bed")
    texts = [text.strip().replace(";", " ") for text in (height, feet_apart, feet_along)]
    for name, text in zip(names, texts, strict=True):
        if text and parse_length(text, unit, name, decimal_comma=decimal_comma(store)).mm <= 0:
            raise BadEntry("is not a length above zero.", where=name, value=text, way_out="Measure it again.")
    store.set_setting(bed_key(machine_id), "; ".join(texts))
