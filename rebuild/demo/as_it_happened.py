"""What was done day by day, in the order of the calendar: readings, decisions, ticks, questions, the log."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial

from rebuild.demo.built import Built, Ids, at
from rebuild.demo.records import AskedData, Conceded, Group, PartData, Reads, Settled, StepData
from rebuild.demo.set_up import before_of, steps_of
from rebuild.trade.results.cautions import suggest
from rebuild.trade.schedule.network import ordered, predecessors
from rebuild.work.decisions.acts import concede, decide
from rebuild.work.editing.acts import edit
from rebuild.work.log.acts import answer, ask, log_session
from rebuild.work.machines.acts import put
from rebuild.work.readings.acts import Entry, record_reading, strike_reading
from rebuild.work.steps.acts import Done, prove, read_cautions, tick

#: Hours of the day, so that on one day things are measured, then decided, then ticked, then logged.
PUT_AWAY, MEASURED, DECIDED, ASKED, PROVED, TICKED, LOGGED = 11, 13, 17, 18, 18, 19, 22


@dataclass(frozen=True, slots=True)
class Event:
    """Something the owner did, and when."""

    when: dt.datetime
    do: Callable[[dt.datetime], object]


def live(built: Built, told: Callable[[str], None]) -> None:
    """Do everything that has a date, oldest first, both machines side by side."""
    events = [event for ids in built.machines for event in _events(built, ids)]
    month = ""
    for event in sorted(events, key=lambda event: event.when):
        if f"{event.when:%B %Y}" != month:
            month = f"{event.when:%B %Y}"
            told(month)
        event.do(event.when)


def _events(built: Built, ids: Ids) -> Iterator[Event]:
    clock: Counter[tuple[str, int]] = Counter()

    def when(day: str, hour: int, minutes: int = 1) -> dt.datetime:
        clock[day, hour] += minutes
        return at(day, hour, clock[day, hour] - minutes)

    for group in ids.data.groups:
        yield from _put_away(built, ids, group, when)
        for settled in group.settled:
            do = partial(_decide, built, [ids.parts[code] for code in settled.codes], settled)
            yield Event(when(settled.day, DECIDED), do)
    for part in _parts(ids):
        yield from _of_part(built, ids, part, when)
    for step in _in_order(ids):
        yield from _of_step(built, ids, step, when)
    for question in ids.data.questions:
        yield from _of_question(built, ids, question, when)
    for session in ids.data.sessions:
        typed = {**session.typed, "at": f"{session.day} {LOGGED}:00"}
        yield Event(when(session.day, LOGGED), partial(_log, built, ids.machine, typed))


def _in_order(ids: Ids) -> list[StepData]:
    """The steps so that each stands behind those it waits for, else as in the tables."""
    steps = {step.key: step for _, step in steps_of(ids.data)}
    links = [(before, step.key) for step in steps.values() for before in before_of(step)]
    waits = predecessors(links)
    depth: dict[str, int] = {}
    for key in ordered(links, steps):
        depth[key] = 1 + max((depth[before] for before in waits.get(key, ())), default=0)
    return sorted(steps.values(), key=lambda step: depth[step.key])


When = Callable[..., dt.datetime]


def _parts(ids: Ids) -> Iterator[PartData]:
    for group in ids.data.groups:
        yield from group.parts
    yield from ids.data.loose


def _put_away(built: Built, ids: Ids, group: Group, when: When) -> Iterator[Event]:
    """Parts of a group that went to one place on one day are put there in one act."""
    together: dict[tuple[str, str], list[int]] = {}
    for part in group.parts:
        if part.place:
            together.setdefault((part.placed or group.off, part.place), []).append(ids.parts[part.code])
    for (day, place), part_ids in together.items():
        yield Event(when(day, PUT_AWAY), partial(_put, built, part_ids, built.places[place]))


def _of_part(built: Built, ids: Ids, part: PartData, when: When) -> Iterator[Event]:
    loose = part.code.startswith("X")
    if loose and part.place:
        do_put = partial(_put, built, [ids.parts[part.code]], built.places[part.place])
        yield Event(when(part.placed or ids.data.arrived, PUT_AWAY), do_put)
    for day, place in part.via:
        yield Event(when(day, PUT_AWAY), partial(_put, built, [ids.parts[part.code]], built.places[place]))
    for feature in part.features:
        for reads in feature.reads:
            for station, typed in zip(feature.stations or ("",), reads.values, strict=True):
                if typed != "-":
                    entry = partial(_read, built, ids, f"{part.code}/{feature.name}", station, reads, typed)
                    yield Event(when(reads.day, MEASURED, 2), entry)
    if part.settled:
        do = partial(_decide, built, [ids.parts[part.code]], part.settled)
        yield Event(when(part.settled.day, DECIDED), do)
    for conceded in part.conceded:
        yield Event(when(conceded.day, DECIDED, 3), partial(_concede, built, ids, part.code, conceded))


def _of_step(built: Built, ids: Ids, step: StepData, when: When) -> Iterator[Event]:
    for number, need in enumerate(step.needs):
        if need.proved:
            yield Event(
                when(need.proved, PROVED), partial(_prove, built, ids.needs[step.key, number], need.detail)
            )
    if step.done:
        yield Event(when(step.done, TICKED, 3), partial(_tick, built, ids.steps[step.key], step))
    elif step.state:
        last = ids.data.sessions[-1].day
        do_edit = partial(_set_state, built, ids.steps[step.key], step.state)
        yield Event(when(last, TICKED, 3), do_edit)


def _of_question(built: Built, ids: Ids, data: AskedData, when: When) -> Iterator[Event]:
    asked_as: list[int] = []
    yield Event(when(data.day, ASKED), partial(_ask, built, ids, data, asked_as))
    if data.answer:
        yield Event(when(data.answered, ASKED), partial(_answer, built, data, asked_as))


def _put(built: Built, part_ids: list[int], place_id: int, when: dt.datetime) -> None:
    put(built.store, part_ids, place_id, at=when)


def _read(
    built: Built, ids: Ids, feature: str, station: str, reads: Reads, typed: str, when: dt.datetime
) -> None:
    entry = Entry(
        feature_id=ids.features[feature],
        station_id=ids.stations[f"{feature}@{station}"] if station else None,
        stage=reads.stage,
        instrument_id=built.instruments[reads.instrument] if reads.instrument else None,
        temperature=reads.temperature,
        taken_at=when,
        note=reads.note,
    )
    taken = record_reading(built.store, typed, entry, confirmed=reads.sure)
    if reads.strike:
        strike_reading(built.store, taken.reading_id, reads.strike)


def _decide(built: Built, part_ids: list[int], settled: Settled, when: dt.datetime) -> None:
    decide(
        built.store, part_ids, settled.decision,
        reason=settled.reason, criterion=settled.criterion, would_change=settled.would_change, at=when,
    )  # fmt: skip


def _concede(built: Built, ids: Ids, code: str, conceded: Conceded, when: dt.datetime) -> None:
    feature_id = ids.features[f"{code}/{conceded.feature}"] if conceded.feature else None
    concede(
        built.store, ids.parts[code], conceded.reason,
        feature_id=feature_id, accepted=conceded.accepted, by=conceded.by, at=when,
    )  # fmt: skip


def _tick(built: Built, task_id: int, step: StepData, when: dt.datetime) -> None:
    done = Done(step.measured, step.torque, step.done_note, when)
    if step.typed.get("irreversible") == "yes" and (step.cautions or suggest(step.title)):
        read_cautions(built.store, task_id, at=when)
    why = step.all_the_same
    tick(built.store, task_id, done, confirmed=True, reason=why, by="owner" if why else "")


def _prove(built: Built, constraint_id: int, detail: str, when: dt.datetime) -> None:
    prove(built.store, constraint_id, detail, at=when)


def _set_state(built: Built, task_id: int, state: str, when: dt.datetime) -> None:
    edit(built.store, "task", [task_id], {"state": state})


def _ask(built: Built, ids: Ids, data: AskedData, asked_as: list[int], when: dt.datetime) -> None:
    typed = {"asked_where": data.where, "asked_at": f"{when:%Y-%m-%d %H:%M}"}
    question = ask(
        built.store, ids.machine, data.text,
        subassembly_id=ids.groups[data.group] if data.group else None,
        part_id=ids.parts[data.part] if data.part else None,
        task_id=ids.steps[data.holds_up] if data.holds_up else None,
        typed=typed,
    )  # fmt: skip
    asked_as.append(question)
    ids.questions.append(question)


def _answer(built: Built, data: AskedData, asked_as: list[int], when: dt.datetime) -> None:
    answer(built.store, asked_as[0], data.answer, data.by, assumed=data.assumed, at=when)


def _log(built: Built, machine_id: int, typed: dict[str, str], when: dt.datetime) -> None:
    log_session(built.store, machine_id, typed)
