"""What the work graph of one machine is laid from, read at one moment in sections, each in a few statements.

A section whose tables hold nothing is not read: of a young file that is most of them.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from itertools import chain
from types import MappingProxyType
from typing import Any, NamedTuple

from sqlalchemy import Connection

from rebuild.store.differs import Speaking, differs
from rebuild.trade.limits.judgement import Rule
from rebuild.trade.run_in.power_need import ALONE_WORDS, POWER_WORDS
from rebuild.work.fits.rows import fit_ids, rows as fit_rows
from rebuild.work.fits.rows_in_work import FitInWork, fits_in_work, in_work
from rebuild.work.plan import rows_before_power
from rebuild.work.plan.facts import (
    Facts,
    FitFact,
    GateFact,
    LinkFact,
    PartFact,
    SideFact,
    StepFact,
)
from rebuild.work.plan.rows_again import Changed, mended, swapped, touched_fits
from rebuild.work.plan.rows_before_power import before_power_facts
from rebuild.work.plan.rows_known import (
    clocks,
    fittings,
    lacks,
    links,
    needs,
    oil,
    orders,
    parts,
    parts_read,
    puts_on,
    questions,
    sheets,
    steps,
    tree,
)
from rebuild.work.power import rows as power

#: What the order of the steps, and of the parts, rests on.
_PLACED, _CODED = Speaking(frozenset({"machine_id", "position"})), Speaking(frozenset({"machine_id", "code"}))


class Changes(NamedTuple):
    """What changed in the tables of a section after a point of the journal."""

    rows: list[Changed]
    seen: int


_EVERY_COLUMN: Mapping[str, Speaking] = MappingProxyType({})


class Section(NamedTuple):
    """Some of the facts in the order of ``Facts``, the tables they rest on, and what reads them.

    ``again`` brings what was read up to date after some changes, or gives None where all is to be read. Of the tables
    in ``speaking`` only these columns speak in it, and that a row came or went. Where any of the tables it ``wants``
    is empty there is nothing in it, in any of its ``fields``.
    """

    tables: frozenset[str]
    read: Callable[[Connection, int, Rule], tuple[tuple[Any, ...], ...]]
    again: Callable[[Connection, int, Rule, tuple[Any, ...], Changes], tuple[Any, ...] | None] | None = None
    speaking: Mapping[str, Speaking] = _EVERY_COLUMN
    wants: frozenset[str] = frozenset()
    fields: int = 1

    def first(
        self, connection: Connection, machine_id: int, rule: Rule, empty: frozenset[str]
    ) -> tuple[tuple[Any, ...], ...]:
        """All of the section, of which nothing is read where the file holds nothing of it."""
        if self.wants & empty:
            return ((),) * self.fields
        return self.read(connection, machine_id, rule)


def facts(connection: Connection, machine_id: int, rule: Rule = Rule.CONFORMANCE_95) -> Facts:
    """Read what is known of a machine's work."""
    empty = empty_tables(connection)
    return together([section.first(connection, machine_id, rule, empty) for section in SECTIONS])


def empty_tables(connection: Connection) -> frozenset[str]:
    """Which of the tables that sections want hold no row at all, in one statement."""
    return frozenset([row[0] for row in connection.exec_driver_sql(_EMPTY)])


def together(read: Sequence[tuple[tuple[Any, ...], ...]]) -> Facts:
    """The facts from what each section read, in the order of ``SECTIONS``."""
    return Facts(*chain.from_iterable(read))


def _links_again(
    connection: Connection, machine_id: int, held: Sequence[LinkFact], changed: Changes
) -> tuple[LinkFact, ...]:
    """A link keeps its id and stands by it: those changed are left out, and what is there of them put in."""
    gone = {one.id for one in changed.rows}
    fresh = links(connection, machine_id, sorted(gone))
    kept = [link for link in held if link.id not in gone]
    return tuple(sorted([*kept, *fresh], key=lambda link: link.id)) if fresh else tuple(kept)


def _in_order(connection: Connection, sql: str, machine_id: int) -> list[int]:
    """The ids a bare statement gives for a machine."""
    return [row[0] for row in connection.exec_driver_sql(sql, (machine_id,)).all()]


def _steps_again(
    connection: Connection, machine_id: int, held: Sequence[StepFact], changed: Changes
) -> tuple[StepFact, ...] | None:
    ids = [one.id for one in changed.rows]
    if not differs(connection, "task", _PLACED, changed.seen):
        return swapped(held, ids, lambda some: steps(connection, machine_id, some))
    order = _in_order(
        connection, "SELECT id FROM task WHERE machine_id = ? ORDER BY position, id", machine_id
    )
    return mended(held, order, ids, lambda some: steps(connection, machine_id, some))


def _parts_again(
    connection: Connection, machine_id: int, held: Sequence[PartFact], changed: Changes
) -> tuple[PartFact, ...] | None:
    if any(one.table == "place" for one in changed.rows):
        return None
    ids = [one.id for one in changed.rows]
    if not differs(connection, "part", _CODED, changed.seen):
        return swapped(held, ids, lambda some: parts(connection, machine_id, some))
    order = _in_order(connection, "SELECT id FROM part WHERE machine_id = ? ORDER BY code, id", machine_id)
    return mended(held, order, ids, lambda some: parts(connection, machine_id, some))


#: The table of the rows a page of the gate shows.
_AT_THE_GATE = {
    "joints": "joint", "lubrication": "oil_point", "bench": "part", "run-in": "run_look", "controls": "control",
    "fits": "fit",
}  # fmt: skip


def _gates(found: Sequence[power.StepGate]) -> tuple[GateFact, ...]:
    return tuple(
        GateFact(step, gate, things, first.text, _AT_THE_GATE[first.page], first.target)
        for step, gate, things, first in found
    )


def _fits_again(
    connection: Connection, machine_id: int, rule: Rule, held: Sequence[FitFact], changed: Changes
) -> tuple[FitFact, ...] | None:
    """Only the fits that rest on a changed row are judged again."""
    touched = touched_fits(connection, changed.rows)
    if touched is None:
        return None
    return mended(
        held, fit_ids(connection, machine_id), touched,
        lambda ids: [_fit(in_work(row)) for row in fit_rows(connection, ids, rule)],
    )  # fmt: skip


def _fit(fit: FitInWork) -> FitFact:
    outer, inner = fit.sides
    sides = (SideFact._make(outer), SideFact._make(inner))
    return FitFact(fit.id, fit.title, sides, fit.master, fit.changed, fit.wrong, fit.promised)


#: Of a part: what a fit says of it, and what stands before power rests on.
_IN_A_FIT = Speaking(frozenset({"machine_id", "code", "name", "material", "decision"}))
_BEFORE_POWER = Speaking(
    frozenset({"machine_id", "code", "name", "position", "identity", "origin", "decision", "spare_of_id"})
)
#: Of a step: what says that it is done, and what of; its title besides where that speaks of power.
_DONE = Speaking(frozenset({"machine_id", "position", "kind", "state", "part_id", "done_at", "irreversible"}))
_POWERED = Speaking(_DONE.columns, (("title", (*POWER_WORDS, *ALONE_WORDS)),))

#: In the order of the fields of ``Facts``; each is read again only when one of its tables has changed. A step or
#: part stays with its machine for life, so what hangs on one need not be read again because the step was ticked.
SECTIONS: tuple[Section, ...] = (
    Section(
        frozenset({"task"}),
        lambda c, m, _: (steps(c, m),),
        lambda c, m, _, held, new: _steps_again(c, m, held, new),
    ),
    Section(
        frozenset({"link"}),
        lambda c, m, _: (links(c, m),),
        lambda c, m, _, held, new: _links_again(c, m, held, new),
        wants=frozenset({"link"}),
    ),
    Section(
        frozenset({"part", "place"}),
        lambda c, m, _: (parts(c, m),),
        lambda c, m, _, held, new: _parts_again(c, m, held, new),
    ),
    Section(
        frozenset({"refit_step", "removal_part"}),
        lambda c, m, _: (puts_on(c, m),),
        wants=frozenset({"refit_step", "removal_part"}),
    ),
    Section(
        frozenset({"task_constraint", "constraint_part"}),
        lambda c, m, _: needs(c, m),
        wants=frozenset({"task_constraint"}),
        fields=2,
    ),
    Section(frozenset({"question"}), lambda c, m, _: (questions(c, m),), wants=frozenset({"question"})),
    Section(frozenset({"clock"}), lambda c, m, _: (clocks(c, m),), wants=frozenset({"clock"})),
    Section(frozenset({"waiting"}), lambda c, m, _: (orders(c, m),), wants=frozenset({"waiting"})),
    Section(
        frozenset({"making_sheet", "making_tool"}),
        lambda c, m, _: sheets(c, m),
        wants=frozenset({"making_sheet"}),
        fields=2,
    ),
    Section(frozenset({"oil_point"}), lambda c, m, _: (oil(c, m),), wants=frozenset({"oil_point"})),
    Section(
        frozenset({"feature", "part", "reading"}),
        lambda c, m, _: (parts_read(c, m),),
        speaking={"part": Speaking(frozenset({"machine_id"}))},
        wants=frozenset({"reading"}),
    ),
    Section(
        frozenset({"feature", "fit", "instrument", "part", "reading", "station"}),
        lambda c, m, rule: (tuple(map(_fit, fits_in_work(c, m, rule))),),
        _fits_again,
        {"part": _IN_A_FIT},
        wants=frozenset({"fit"}),
    ),
    Section(frozenset({"subassembly"}), lambda c, m, _: (tree(c, m),)),
    Section(
        frozenset({"means", "place", "step_means", "task", "task_constraint", "waiting"}),
        lambda c, m, _: (lacks(c, m),),
        wants=frozenset({"means"}),
    ),
    Section(
        power.POWER_READ,
        lambda c, m, _: (_gates(power.power_gates(c, m)),),
        speaking={"part": _BEFORE_POWER, "task": _POWERED},
        wants=frozenset({"task"}),
    ),
    Section(frozenset({"fitting"}), lambda c, m, _: (fittings(c, m),), wants=frozenset({"fitting"})),
    Section(
        power.FITS_READ,
        lambda c, m, _: (_gates(power.fit_gates(c, m)),),
        speaking={"part": _IN_A_FIT, "task": _DONE},
        wants=frozenset({"fit", "task"}),
    ),
    Section(
        rows_before_power.READS,
        lambda c, m, _: before_power_facts(c, m),
        speaking={"task": _DONE},
    ),
)
_EMPTY = " UNION ALL ".join(
    f"SELECT '{table}' WHERE NOT EXISTS (SELECT 1 FROM \"{table}\")"
    for table in sorted(frozenset[str]().union(*(section.wants for section in SECTIONS)))
)
#: The tables the lookups here ask.
READS: frozenset[str] = frozenset().union(*(section.tables for section in SECTIONS))
