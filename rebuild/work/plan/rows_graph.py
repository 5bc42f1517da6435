"""The work graph of one machine, read in a fixed number of statements and kept until a table it asks changes.

Every page, list, date and refusal that says whether something can be started asks here.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field
from threading import Lock
from typing import Any, NamedTuple
from weakref import WeakKeyDictionary

from sqlalchemy import Connection, Engine

from rebuild.store.differs import differs
from rebuild.store.under_way import UnderWay, act_of, wrote
from rebuild.trade.limits.judgement import Rule
from rebuild.trade.schedule.graph import WorkGraph
from rebuild.trade.schedule.plan_input import PlanInput
from rebuild.trade.schedule.unswept import unswept
from rebuild.trade.schedule.week import Week
from rebuild.trade.schedule.week_entry import ASSUMED
from rebuild.work.plan import rows_facts, rows_week
from rebuild.work.plan.facts import Facts
from rebuild.work.plan.fits_in_work import lay_decisions, lay_fits
from rebuild.work.plan.holds_in_work import (
    lay_clocks,
    lay_deliveries,
    lay_fittings,
    lay_gates,
    lay_hazards,
    lay_means,
    lay_needs,
    lay_oil,
    lay_parts_elsewhere,
    lay_questions,
    lay_while_off,
)
from rebuild.work.plan.laying import Laying
from rebuild.work.plan.making_of_parts import Makings, settled
from rebuild.work.plan.off_in_work import lay_putting_back
from rebuild.work.plan.power_in_work import lay_before_power
from rebuild.work.plan.rows_again import changed_since
from rebuild.work.plan.rows_facts import SECTIONS, Changes, Section, empty_tables, facts, together
from rebuild.work.plan.rows_week import week_of
from rebuild.work.plan.treatments_in_work import lay_treatments
from rebuild.work.plan.undecided_in_work import lay_undecided
from rebuild.work.records.rows_settings import rule_of
from rebuild.work.records.wall_clock import now as wall_clock

#: The tables the lookups here ask.
READS = rows_facts.READS | rows_week.READS | {"setting"}


#: How long what is left of a wait is taken as it was.
A_MINUTE = dt.timedelta(minutes=1)


@dataclass(frozen=True, slots=True)
class Work:
    """A machine's work at a moment: what is known, and the graph laid from it.

    ``turns`` is when it is no longer so although nobody wrote anything: a cure ends, a wait has grown shorter.
    ``week`` ranks it; ``planned`` keeps what the plan is worked out from, ``drawn`` how often each step drove the
    finish in simulated schedules, once they were asked for.
    """

    facts: Facts
    graph: WorkGraph
    since: dt.datetime
    turns: dt.datetime
    week: Week
    week_is_set: bool
    planned: list[PlanInput] = field(default_factory=list, compare=False, repr=False)
    drawn: list[Mapping[int, float]] = field(default_factory=list, compare=False, repr=False)
    #: What comes next of it (``rows_what_next``), without and with the schedules drawn.
    told: dict[bool, object] = field(default_factory=dict, compare=False, repr=False)


def work_graph(connection: Connection, machine_id: int, now: dt.datetime | None = None) -> Work:
    """The work of a machine as it stands ``now``."""
    kept = _kept_of(connection)
    if kept is None:
        return work_once(connection, machine_id, now)
    return kept.work(connection, machine_id, rule_of(connection), now or wall_clock())


def work_once(connection: Connection, machine_id: int, now: dt.datetime | None = None) -> Work:
    """As ``work_graph``, kept nowhere: for who asks every machine of a file once."""
    known = facts(connection, machine_id, rule_of(connection))
    return lay(known, now or wall_clock(), *week_of(connection))


def lay(
    known: Facts,
    now: dt.datetime,
    week: Week | None = None,
    week_is_set: bool = False,
    like: Work | None = None,
) -> Work:
    """The graph from what is known; nothing is asked of the file. ``like`` is what was laid of the machine before."""
    laying = Laying(known)
    laying.typed(settled(known))
    lay_putting_back(laying)
    Makings(laying).lay()
    lay_deliveries(laying, now)
    lay_fits(laying)
    lay_decisions(laying)
    lay_undecided(laying)
    lay_questions(laying)
    turns = lay_clocks(laying, now)
    lay_needs(laying)
    lay_gates(laying)
    lay_while_off(laying)
    lay_parts_elsewhere(laying)
    lay_treatments(laying)
    lay_hazards(laying)
    lay_means(laying)
    lay_oil(laying)
    lay_fittings(laying)
    lay_before_power(laying)
    if laying.runs:
        turns.append(now + A_MINUTE)
    midnight = dt.datetime.combine(now.date() + dt.timedelta(days=1), dt.time())
    until = min([midnight, *turns])
    return Work(
        known,
        laying.close(None if like is None else like.graph),
        now,
        until,
        week or Week(ASSUMED),
        week_is_set,
    )


class _Kept:
    """The last answers for one file; each section of the facts stands until one of its tables changes."""

    def __init__(self) -> None:
        self.seen = 0  #: how far the journal was followed
        self._changed: dict[str, int] = {}
        self._read: dict[tuple[int, Rule], list[_Read]] = {}
        self._works: dict[tuple[int, Rule], Work] = {}
        self._week: tuple[Week, bool] | None = None
        self._week_read = 0
        self._lock = Lock()

    def copied(self) -> _Kept:
        """The same answers, of which either goes its own way."""
        copy = _Kept()
        with self._lock:
            copy.seen, copy._changed, copy._works = self.seen, dict(self._changed), dict(self._works)
            copy._read = {key: list(read) for key, read in self._read.items()}
            copy._week, copy._week_read = self._week, self._week_read
        return copy

    def work(self, connection: Connection, machine_id: int, rule: Rule, now: dt.datetime) -> Work:
        """The graph as last laid when nothing it rests on has changed, else laid anew."""
        key = (machine_id, rule)
        with self._lock, unswept():
            self._look(connection)
            week, is_set = self._week_of(connection)
            read, fresh = self._sections(connection, machine_id, rule)
            held = self._works.get(key)
            if (
                held is None
                or fresh
                or not held.since <= now < held.turns
                or (held.week, held.week_is_set) != (week, is_set)
            ):
                known = (
                    held.facts if held is not None and not fresh else together([one.found for one in read])
                )
                held = self._works[key] = lay(known, now, week, is_set, held)
            return held

    def _sections(self, connection: Connection, machine_id: int, rule: Rule) -> tuple[list[_Read], bool]:
        """What each section reads, and whether any had to be read again."""
        stored = self._read.setdefault((machine_id, rule), [])
        fresh = False
        empty = frozenset[str]() if stored else empty_tables(connection)
        for place, section in enumerate(SECTIONS):
            newest = max(self._changed.get(table, 0) for table in section.tables)
            if place < len(stored) and stored[place].newest == newest:
                continue
            held = stored[place] if place < len(stored) else None
            if held is not None and not self._speaks(connection, section, held.newest):
                stored[place] = held._replace(newest=newest)
                continue
            again = None if held is None else _again(connection, machine_id, rule, section, held)
            found = _Read(newest, again or section.first(connection, machine_id, rule, empty))
            fresh = fresh or held is None or held.found != found.found
            stored[place : place + 1] = [found]
        return stored, fresh

    def _speaks(self, connection: Connection, section: Section, seen: int) -> bool:
        """Whether anything a section tells of may have changed since some point of the journal."""
        changed = [table for table in section.tables if self._changed.get(table, 0) > seen]
        return not section.speaking.keys() >= set(changed) or any(
            differs(connection, table, section.speaking[table], seen) for table in changed
        )

    def _week_of(self, connection: Connection) -> tuple[Week, bool]:
        newest = max(self._changed.get(table, 0) for table in rows_week.READS)
        if self._week is None or self._week_read != newest:
            self._week, self._week_read = week_of(connection), newest
        return self._week

    def _look(self, connection: Connection) -> None:
        """Follow the journal: the last change of each table, of what was not seen before."""
        rows = connection.exec_driver_sql(
            # "+": by the new ids, not by the index of tables, which is as long as the history.
            "SELECT tbl, MAX(id) FROM change WHERE id > ? GROUP BY +tbl",
            (self.seen,),
        ).all()
        for table, last in rows:
            self._changed[table] = last
            self.seen = max(self.seen, last)


class _Read(NamedTuple):
    """What a section read, and the newest change of its tables then."""

    newest: int
    found: tuple[tuple[Any, ...], ...]


def _again(
    connection: Connection, machine_id: int, rule: Rule, section: Section, held: _Read
) -> tuple[tuple[Any, ...], ...] | None:
    """A section brought up to date after a few changes, or None."""
    changed = None if section.again is None else changed_since(connection, held.newest, section.tables)
    if section.again is None or changed is None:
        return None
    found = section.again(connection, machine_id, rule, held.found[0], Changes(changed, held.newest))
    return None if found is None else (found,)


_KEPT: WeakKeyDictionary[Engine, _Kept] = WeakKeyDictionary()
_IN_ACTS: WeakKeyDictionary[UnderWay, _Kept] = WeakKeyDictionary()


def _kept_of(connection: Connection) -> _Kept | None:
    """What is kept for the file of a connection; what an act works out of its own rows stands once it is stored."""
    act = act_of(connection)
    if act is not None:
        return None if act.in_parts else _kept_in(connection, act)
    if not connection.exec_driver_sql("PRAGMA query_only").scalar():
        return None
    return _KEPT.setdefault(connection.engine, _Kept())


def _kept_in(connection: Connection, act: UnderWay) -> _Kept:
    """As long as the act wrote nothing what stands for its connection, from then on a copy of that, its own."""
    if (own := _IN_ACTS.get(act)) is not None:
        return own
    writer = connection.engine
    stands = _KEPT.setdefault(writer, _Kept())
    read = None if act.reader is None else _KEPT.get(act.reader)
    if read is not None and read.seen > stands.seen:
        stands = _KEPT[writer] = read.copied()
    if not wrote(connection):
        return stands
    own = _IN_ACTS[act] = stands.copied()
    act.once_stored(lambda: _KEPT.update({writer: own}))
    return own
