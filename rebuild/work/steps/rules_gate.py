"""The gate: what must hold before power, before each speed of the run-in, before closing up, and before what is final.

Whichever act finishes a step, begins or ends a speed, or ticks a check of first power asks here, and nowhere else.
A refusal names everything that stands, with its ways out. Going on all the same (``acts_gate``) takes a reason: it
is noted with what stood against it (``work/gates``), shown until it is closed, and printed in the book. It lets
that one act pass and no other: the next act asks again about all that still stands.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from rebuild.model.records.machines import Machine
from rebuild.model.records.run_in import RunLook, RunStep
from rebuild.model.records.steps import Task
from rebuild.store.tx import Tx
from rebuild.trade.run_in.power_need import PowerNeed, power_need
from rebuild.words.gates import Gate
from rebuild.words.run_in import LookWhen, RunState
from rebuild.words.steps import TaskKind
from rebuild.work.gates.rules_running import while_it_runs
from rebuild.work.power.rows import Stands, before_power, counted_words, unread_cautions
from rebuild.work.power.rows_fit_verdict import fits_of_steps
from rebuild.work.power.rows_speeds import HOT, Rung, rungs, stands_before
from rebuild.work.records.obstacle import Obstacle
from rebuild.work.records.ways_out import RowLead, Way, WayKind
from rebuild.work.steps import rules_order as order

_SHOWN = 4
#: The gravest first.
_GRAVE = (Gate.POWER, Gate.SPEED, Gate.IRREVERSIBLE, Gate.CLOSING, Gate.TORQUE, Gate.ORDER)
_ALONE = ("Motor alone", "motor alone")


def stands_against(tx: Tx, task: Task, at: dt.datetime) -> list[Obstacle]:
    """Everything that stands against finishing a step at that moment."""
    tx.session.flush()
    need = power_need(task.title, task.kind)
    found = order.obstacles(tx, task, at)
    if task.kind is TaskKind.REMOVE:
        found += while_it_runs(tx.connection, task.machine_id, at)
    if need is not PowerNeed.NONE:
        found += _power(tx, task.machine_id, task.title, motor_alone=need is PowerNeed.MOTOR_ALONE)
    if task.irreversible:
        found += _fits(tx, task)
    if task.irreversible or need is not PowerNeed.NONE:
        found += _cautions(tx, task)
    return found


def refuse_step(tx: Tx, task: Task, at: dt.datetime, *, confirmed: bool = False) -> None:
    """Raise Refused when anything stands against finishing a step, or when it cannot be undone.

    ``confirmed`` settles only the last.
    """
    found = stands_against(tx, task, at)
    if task.irreversible and not confirmed:
        once = Obstacle(
            f"“{task.title}” cannot be undone on the machine.",
            way_out="Look once more, take a photo, then tick it again to confirm.",
            gate=Gate.IRREVERSIBLE,
        )
        if not found:
            order.refuse([once], Way(WayKind.CONFIRM, "Looked once more: tick it", task.id))
        found.append(once)
    refuse(found, task.id)


def refuse(found: Sequence[Obstacle], target: int) -> None:
    """Raise one Refused for all that stands, with a way on that takes a reason."""
    if found:
        order.refuse(found, Way(WayKind.ALL_THE_SAME, "Go on all the same, and say why", target))


def against_speed(tx: Tx, step: RunStep, *, through: bool) -> list[Obstacle]:
    """What stands against beginning a speed of the run-in; with ``through`` against calling it run through.

    Power is held, a lower speed is not run; a bearing was too hot, warmed too fast or was not read.
    """
    tx.session.flush()
    every = rungs(tx.connection, step.machine_id)
    rung = next(one for one in every if one.id == step.id)
    return [
        *_power(tx, step.machine_id, step.name, motor_alone=False),
        *_lower_speeds(rung, stands_before(every, rung)),
        *(_heat(rung) if through else ()),
    ]


def against_look(tx: Tx, row: RunLook) -> list[Obstacle]:
    """What stands against a check of first power: it runs the machine, or its motor."""
    if row.due is not LookWhen.FIRST_POWER:
        return []
    tx.session.flush()
    return _power(tx, row.machine_id, row.text, motor_alone=row.text.startswith(_ALONE))


def gravest(found: Sequence[Obstacle]) -> Gate:
    """What a going on all the same is filed under."""
    return min((one.gate for one in found), key=_GRAVE.index)


def _power(tx: Tx, machine_id: int, what: str, *, motor_alone: bool) -> list[Obstacle]:
    standing = before_power(tx.connection, machine_id, motor_alone=motor_alone)
    if not standing:
        return []
    named = "; ".join(one.text for one in standing[:_SHOWN])
    more = f"; and {len(standing) - _SHOWN} more" if len(standing) > _SHOWN else ""
    said = f"{_count(tx, machine_id, standing, motor_alone=motor_alone)}, and “{what}” needs it: "
    return [
        Obstacle(
            f"{said}{named}{more}.",
            way_out="See to them on the Run-in page, Before power; electrical work is for licensed hands where "
            "local codes say so.",
            ways=_set_up(tx, machine_id, standing),
            gate=Gate.POWER,
            covers=tuple(one.key for one in standing),
            noted=f"{said}{'; '.join(one.text for one in standing)}.",
            rows=tuple(RowLead(one.text, one.table, one.target, one.page) for one in standing if one.table),
        )
    ]


def _count(tx: Tx, machine_id: int, standing: Sequence[Stands], *, motor_alone: bool) -> str:
    """How many stand, the same number every page says; for the motor alone also of how many in all."""
    said = counted_words(standing)
    if not motor_alone:
        return said
    return (
        f"{said} of the motor alone (of {len(before_power(tx.connection, machine_id))} before power in all)"
    )


def _set_up(tx: Tx, machine_id: int, standing: Sequence[Stands]) -> tuple[Way, ...]:
    if not any(one.sort == "list" for one in standing):
        return ()
    kind = tx.get(Machine, machine_id, "machine").kind.value
    return (Way(WayKind.SET_UP, f"Set up the list of checks for a {kind}", machine_id),)


def _fits(tx: Tx, task: Task) -> list[Obstacle]:
    held = fits_of_steps(tx.connection, [task.id]).get(task.id, [])
    return [
        Obstacle(
            f"“{task.title}” cannot be undone, and its fit is not settled: {fit.words}.",
            way_out="Measure until it conforms, or accept it by a concession on the part.",
            gate=Gate.IRREVERSIBLE,
            covers=(f"fit {fit.id}",),
            rows=(RowLead(fit.words, "fit", fit.id, "fits"),),
        )
        for fit in held
    ]


def _cautions(tx: Tx, task: Task) -> list[Obstacle]:
    unread = unread_cautions(tx.connection, [task.id]).get(task.id)
    if not unread:
        return []
    named = ", ".join(unread)
    return [
        Obstacle(
            f"Nobody has said that its cautions were read: {named}.",
            way_out="Read them above.",
            ways=(Way(WayKind.READ, f"I have read: {named}", task.id),),
            gate=Gate.IRREVERSIBLE if task.irreversible else Gate.POWER,
        )
    ]


def _lower_speeds(rung: Rung, before: Sequence[Rung]) -> list[Obstacle]:
    if not before:
        return []
    named = "; ".join(one.words for one in before[:_SHOWN])
    said = f"“{rung.name}” comes after lower speeds that are not run through: "
    return [
        Obstacle(
            f"{said}{named}.",
            (*(one.name for one in before[:_SHOWN]), rung.name),
            "Run them first, from the slowest up.",
            gate=Gate.SPEED,
            covers=tuple(f"run {one.id}" for one in before),
            noted=f"{said}{'; '.join(one.words for one in before)}.",
            rows=tuple(RowLead(one.words, "run_step", one.id, "run-in") for one in before),
        )
    ]


def _heat(rung: Rung) -> list[Obstacle]:
    if rung.hot:
        said = f"“{rung.name}”: {rung.hot}."
        way_out = "Call it stopped, see to the bearing, and run this speed again from cold."
        return [Obstacle(said, way_out=way_out, gate=Gate.SPEED, covers=(f"{HOT} {rung.id}",))]
    if not rung.read and rung.state is not RunState.RUN:
        said = f"No bearing was read in “{rung.name}”."
        return [Obstacle(said, way_out="Read each bearing, at the end at least.", gate=Gate.SPEED, covers=())]
    return []
