"""The ladder of the run-in: which speeds come before one, and what the bearings of each say."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, replace

from sqlalchemy import Connection, select

from rebuild.model.tables.run_in import RunReadings, RunSteps
from rebuild.trade.run_in.warming import Heat, heated
from rebuild.words.run_in import RunState, run_state

#: The tables the lookups here ask.
READS = frozenset({"run_reading", "run_step"})
#: What a going on all the same names a bearing's heat by.
HOT = "heat"
_TOO_HOT = (Heat.OVER, Heat.FAST)


@dataclass(frozen=True, slots=True)
class Rung:
    """One step of the run-in: ``hot`` says which bearing ran over its limit or warmed too fast.

    ``read`` says whether any bearing was read in it.
    """

    id: int
    name: str
    speed_rpm: float | None
    place: int
    state: RunState
    started_at: dt.datetime | None
    hot: str
    read: bool

    @property
    def passed(self) -> bool:
        """Run through, and no bearing too hot in it, whatever reason called it run through all the same."""
        return self.state is RunState.RUN and not self.hot

    @property
    def words(self) -> str:
        """Why the next one has to wait for it."""
        if self.hot:
            return f"“{self.name}”: {self.hot}"
        return f"“{self.name}” is {self.state.value}"


def rungs(connection: Connection, machine_id: int) -> list[Rung]:
    """Every step of a machine's run-in, in order."""
    hot, read = _heats(connection, machine_id)
    rows = connection.execute(
        select(RunSteps.id, RunSteps.name, RunSteps.speed_rpm, RunSteps.state, RunSteps.started_at)
        .where(RunSteps.machine_id == machine_id)
        .order_by(RunSteps.position, RunSteps.id)
    )
    return [
        Rung(
            row.id,
            row.name,
            row.speed_rpm,
            place,
            run_state(row.state, begun=row.started_at is not None),
            row.started_at,
            hot.get(row.id, ""),
            row.id in read,
        )
        for place, row in enumerate(rows)
    ]


def _heats(connection: Connection, machine_id: int) -> tuple[dict[int, str], set[int]]:
    rows = connection.execute(
        select(
            RunReadings.step_id,
            RunReadings.bearing,
            RunReadings.minute,
            RunReadings.celsius,
            RunSteps.limit_c,
        )
        .join(RunSteps, RunSteps.id == RunReadings.step_id)
        .where(RunSteps.machine_id == machine_id)
        .order_by(RunReadings.step_id, RunReadings.minute, RunReadings.id)
    )
    courses: dict[tuple[int, str, float | None], tuple[list[float], list[float]]] = {}
    for row in rows:
        course = courses.setdefault((row.step_id, row.bearing, row.limit_c), ([], []))
        course[0].append(row.minute)
        course[1].append(row.celsius)
    hot: dict[int, str] = {}
    for (key, bearing, limit), (minutes, celsius) in courses.items():
        if (said := too_hot(minutes, celsius, limit)) and key not in hot:
            hot[key] = f"{bearing} {said}"
    return hot, {key for key, _, _ in courses}


def too_hot(minutes: list[float], celsius: list[float], limit: float | None) -> str:
    """What is wrong with the course of a bearing, at any moment of it; empty when nothing was."""
    for upto in range(1, len(minutes) + 1):
        judged = heated(minutes[:upto], celsius[:upto], limit).value
        if judged.heat in _TOO_HOT:
            return judged.text
    return ""


def stands_before(every: list[Rung], rung: Rung) -> list[Rung]:
    """The lower speeds that are not run through, each by its newest try, lowest first.

    A try that was stopped counts no more once the run-in began again from below it.
    """
    newest: dict[object, Rung] = {}
    for one in every:
        if not _begun_again(every, one):
            first = newest.get(_step_of(one))
            newest[_step_of(one)] = one if first is None else replace(one, place=first.place)
    mine = newest.get(_step_of(rung), rung)
    lower = [one for one in newest.values() if one.id != rung.id and _lower(one, mine)]
    return sorted((one for one in lower if not one.passed), key=lambda one: (one.speed_rpm or 0.0, one.place))


def _step_of(rung: Rung) -> object:
    return rung.speed_rpm if rung.speed_rpm is not None else rung.name


def _begun_again(every: list[Rung], rung: Rung) -> bool:
    if rung.state is not RunState.STOPPED:
        return False
    return any(
        later.place > rung.place
        and later.speed_rpm is not None
        and rung.speed_rpm is not None
        and later.speed_rpm < rung.speed_rpm
        for later in every
    )


def _lower(one: Rung, than: Rung) -> bool:
    if _step_of(one) == _step_of(than):
        return False
    if one.speed_rpm is not None and than.speed_rpm is not None:
        return one.speed_rpm < than.speed_rpm
    return one.place < than.place
