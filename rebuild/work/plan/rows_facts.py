"""What the work graph of one machine is laid from, read at one moment in a fixed number of statements."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from itertools import chain
from types import MappingProxyType
from typing import Any, NamedTuple

from sqlalchemy import Connection, Select, String, and_, case, exists, func, select, type_coerce

from rebuild.model.tables.features import Features
from rebuild.model.tables.fitting import Fittings
from rebuild.model.tables.log import Questions
from rebuild.model.tables.lubrication import OilPoints
from rebuild.model.tables.machines import Subassemblies
from rebuild.model.tables.making import MakingSheets, MakingTools
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.places import Places
from rebuild.model.tables.readings import Readings
from rebuild.model.tables.refit import RefitSteps
from rebuild.model.tables.steps import ConstraintParts, Links, TaskConstraints, Tasks
from rebuild.model.tables.teardown import RemovalParts
from rebuild.model.tables.waiting import Clocks, Waitings
from rebuild.store.differs import Speaking, differs
from rebuild.trade.limits.judgement import Rule
from rebuild.trade.run_in.power_need import ALONE_WORDS, POWER_WORDS
from rebuild.words.fitting import asked_words
from rebuild.words.log import QuestionState
from rebuild.words.lubrication import FlowProof
from rebuild.words.readings import Stage
from rebuild.words.steps import LinkKind
from rebuild.words.waiting import ClockKind, WaitingKind
from rebuild.work.fits.rows import fit_ids, rows as fit_rows
from rebuild.work.fits.rows_in_work import FitInWork, fits_in_work, in_work
from rebuild.work.means.rows import lacking, means
from rebuild.work.plan import rows_before_power
from rebuild.work.plan.facts import (
    ClockFact,
    Facts,
    FitFact,
    FittingFact,
    GateFact,
    LackFact,
    LinkFact,
    NeedFact,
    OilFact,
    OrderFact,
    PartFact,
    SheetFact,
    SideFact,
    StepFact,
    ToolFact,
)
from rebuild.work.plan.rows_again import Changed, mended, swapped, touched_fits
from rebuild.work.plan.rows_before_power import before_power_facts
from rebuild.work.power import rows as power

#: The rows to read, or None for all of the machine.
Ids = Sequence[int] | None
#: What the order of the steps, and of the parts, rests on.
_PLACED, _CODED = Speaking(frozenset({"machine_id", "position"})), Speaking(frozenset({"machine_id", "code"}))
NEW_STAGES = (Stage.REWORKED, Stage.AS_MADE, Stage.FITTED)


class Changes(NamedTuple):
    """What changed in the tables of a section after a point of the journal."""

    rows: list[Changed]
    seen: int


_EVERY_COLUMN: Mapping[str, Speaking] = MappingProxyType({})


class Section(NamedTuple):
    """Some of the facts in the order of ``Facts``, the tables they rest on, and what reads them.

    ``again`` brings what was read up to date after some changes, or gives None where all is to be read. Of the tables
    in ``speaking`` only these columns speak in it, and that a row came or went.
    """

    tables: frozenset[str]
    read: Callable[[Connection, int, Rule], tuple[tuple[Any, ...], ...]]
    again: Callable[[Connection, int, Rule, tuple[Any, ...], Changes], tuple[Any, ...] | None] | None = None
    speaking: Mapping[str, Speaking] = _EVERY_COLUMN


def facts(connection: Connection, machine_id: int, rule: Rule = Rule.CONFORMANCE_95) -> Facts:
    """Read what is known of a machine's work."""
    return together([section.read(connection, machine_id, rule) for section in SECTIONS])


def together(read: Sequence[tuple[tuple[Any, ...], ...]]) -> Facts:
    """The facts from what each section read, in the order of ``SECTIONS``."""
    return Facts(*chain.from_iterable(read))


def _links(connection: Connection, machine_id: int, ids: Ids = None) -> tuple[LinkFact, ...]:
    """Every link in its order. Nearly all only say what comes first: of those three numbers are read, and no words."""
    plain = and_(Links.kind == LinkKind.BEFORE, Links.reason == "")
    query = (
        select(
            Links.id,
            Links.before_id,
            Links.after_id,
            case((plain, None), else_=type_coerce(Links.kind, String)),
            case((plain, None), else_=Links.reason),
        )
        .where(Links.after_id.in_(select(Tasks.id).where(Tasks.machine_id == machine_id)))
        .order_by(Links.id)
    )
    return tuple(
        [
            LinkFact(key, before, after)
            if kind is None
            else LinkFact(key, before, after, LinkKind(kind), said)
            for key, before, after, kind, said in connection.execute(_only(query, Links.id, ids)).all()
        ]
    )


def _links_again(
    connection: Connection, machine_id: int, held: Sequence[LinkFact], changed: Changes
) -> tuple[LinkFact, ...]:
    """A link keeps its id and stands by it: those changed are left out, and what is there of them put in."""
    gone = {one.id for one in changed.rows}
    fresh = _links(connection, machine_id, sorted(gone))
    kept = [link for link in held if link.id not in gone]
    return tuple(sorted([*kept, *fresh], key=lambda link: link.id)) if fresh else tuple(kept)


def _only(query: Select[*tuple[Any, ...]], column: Any, ids: Ids) -> Select[*tuple[Any, ...]]:
    return query if ids is None else query.where(column.in_(ids))


def _in_order(connection: Connection, sql: str, machine_id: int) -> list[int]:
    """The ids a bare statement gives for a machine."""
    return [row[0] for row in connection.exec_driver_sql(sql, (machine_id,)).all()]


def _questions(connection: Connection, machine_id: int) -> tuple[tuple[int, int, str], ...]:
    query = (
        select(Questions.id, Questions.task_id, Questions.text)
        .where(
            Questions.machine_id == machine_id,
            Questions.state == QuestionState.OPEN,
            Questions.task_id.is_not(None),
        )
        .order_by(Questions.id)
    )
    return tuple((row.id, row.task_id or 0, row.text) for row in connection.execute(query))


def _tree(connection: Connection, machine_id: int) -> tuple[int, ...]:
    query = (
        select(Subassemblies.id)
        .where(Subassemblies.machine_id == machine_id)
        .order_by(Subassemblies.position, Subassemblies.id)
    )
    return tuple(connection.execute(query).scalars())


def _steps(connection: Connection, machine_id: int, ids: Ids = None) -> tuple[StepFact, ...]:
    query = (
        select(
            Tasks.id, Tasks.subassembly_id, Tasks.part_id, Tasks.title, Tasks.kind, Tasks.state, Tasks.low_min,
            Tasks.likely_min, Tasks.high_min, Tasks.irreversible, Tasks.place, Tasks.done_at, Tasks.treatment,
        )
        .where(Tasks.machine_id == machine_id)
        .order_by(Tasks.position, Tasks.id)
    )  # fmt: skip
    return tuple(map(StepFact._make, connection.execute(_only(query, Tasks.id, ids)).all()))


def _steps_again(
    connection: Connection, machine_id: int, held: Sequence[StepFact], changed: Changes
) -> tuple[StepFact, ...] | None:
    ids = [one.id for one in changed.rows]
    if not differs(connection, "task", _PLACED, changed.seen):
        return swapped(held, ids, lambda some: _steps(connection, machine_id, some))
    order = _in_order(
        connection, "SELECT id FROM task WHERE machine_id = ? ORDER BY position, id", machine_id
    )
    return mended(held, order, ids, lambda some: _steps(connection, machine_id, some))


def _parts(connection: Connection, machine_id: int, ids: Ids = None) -> tuple[PartFact, ...]:
    about = Parts.name + "; " + Parts.material + "; " + Parts.condition + "; " + Parts.note
    query = (
        select(
            Parts.id, Parts.subassembly_id, Parts.code, Parts.name, Parts.origin, Parts.decision,
            Parts.decision_reason, Parts.decision_method, Parts.decision_work_min, Parts.decision_wait_days,
            about, Places.kind, Places.name.label("place"), Parts.material, Parts.condition,
            func.coalesce(Parts.finish, ""),
        )
        .select_from(Parts)
        .outerjoin(Places, Places.id == Parts.place_id)
        .where(Parts.machine_id == machine_id)
        .order_by(Parts.code, Parts.id)
    )  # fmt: skip
    return tuple(map(PartFact._make, connection.execute(_only(query, Parts.id, ids)).all()))


def _parts_again(
    connection: Connection, machine_id: int, held: Sequence[PartFact], changed: Changes
) -> tuple[PartFact, ...] | None:
    if any(one.table == "place" for one in changed.rows):
        return None
    ids = [one.id for one in changed.rows]
    if not differs(connection, "part", _CODED, changed.seen):
        return swapped(held, ids, lambda some: _parts(connection, machine_id, some))
    order = _in_order(connection, "SELECT id FROM part WHERE machine_id = ? ORDER BY code, id", machine_id)
    return mended(held, order, ids, lambda some: _parts(connection, machine_id, some))


def _puts_on(connection: Connection, machine_id: int) -> tuple[tuple[int, int], ...]:
    query = (
        select(RefitSteps.task_id, RemovalParts.part_id)
        .join(RemovalParts, RemovalParts.removal_id == RefitSteps.removal_id)
        .join(Tasks, Tasks.id == RefitSteps.task_id)
        .where(Tasks.machine_id == machine_id)
    )
    return tuple((row.task_id or 0, row.part_id) for row in connection.execute(query))


def _needs(
    connection: Connection, machine_id: int
) -> tuple[tuple[NeedFact, ...], tuple[tuple[int, int], ...]]:
    own = TaskConstraints.task_id.in_(select(Tasks.id).where(Tasks.machine_id == machine_id))
    asked = connection.execute(
        select(
            TaskConstraints.id,
            TaskConstraints.task_id,
            TaskConstraints.kind,
            TaskConstraints.detail,
            TaskConstraints.rest_min,
            TaskConstraints.proved_at.is_not(None),
        )
        .where(own)
        .order_by(TaskConstraints.id)
    )
    named = connection.execute(
        select(ConstraintParts.constraint_id, ConstraintParts.part_id)
        .join(TaskConstraints, TaskConstraints.id == ConstraintParts.constraint_id)
        .where(own)
    )
    return tuple(map(NeedFact._make, asked)), tuple((row.constraint_id, row.part_id) for row in named)


def _clocks(connection: Connection, machine_id: int) -> tuple[ClockFact, ...]:
    query = select(
        Clocks.id, Clocks.task_id, Clocks.kind, Clocks.started_at, Clocks.low_min, Clocks.high_min
    ).where(
        Clocks.machine_id == machine_id,
        Clocks.closed_at.is_(None),
        Clocks.task_id.is_not(None),
        Clocks.kind.in_([ClockKind.BATH, ClockKind.CURE, ClockKind.RECOAT]),
    )
    return tuple(map(ClockFact._make, connection.execute(query)))


def _orders(connection: Connection, machine_id: int) -> tuple[OrderFact, ...]:
    query = (
        select(
            Waitings.id, Waitings.what, Waitings.kind, Waitings.part_id, Waitings.task_id, Waitings.ordered_at,
            Waitings.promised_at, Waitings.arrived_at, Waitings.inspected_at, Waitings.lead_low_days,
            Waitings.lead_likely_days, Waitings.lead_high_days,
        )
        .where(
            Waitings.machine_id == machine_id,
            Waitings.returned_at.is_(None),
            Waitings.kind.in_([WaitingKind.ORDER, WaitingKind.SENT_OUT, WaitingKind.QUOTE]),
        )
        .order_by(Waitings.id)
    )  # fmt: skip
    return tuple(map(OrderFact._make, connection.execute(query)))


def _sheets(connection: Connection, machine_id: int) -> tuple[tuple[SheetFact, ...], tuple[ToolFact, ...]]:
    found = connection.execute(
        select(
            MakingSheets.id,
            MakingSheets.part_id,
            MakingSheets.progress,
            MakingSheets.blank_at,
            MakingSheets.attempt,
        )
        .join(Parts, Parts.id == MakingSheets.part_id)
        .where(Parts.machine_id == machine_id)
        .order_by(MakingSheets.attempt, MakingSheets.id)
    )
    lacking = connection.execute(
        select(MakingTools.id, MakingTools.sheet_id, MakingTools.what)
        .join(MakingSheets, MakingSheets.id == MakingTools.sheet_id)
        .join(Parts, Parts.id == MakingSheets.part_id)
        .where(Parts.machine_id == machine_id, MakingTools.in_hand.is_(False))
        .order_by(MakingTools.sheet_id, MakingTools.position, MakingTools.id)
    )
    return tuple(map(SheetFact._make, found)), tuple(map(ToolFact._make, lacking))


def _oil(connection: Connection, machine_id: int) -> tuple[OilFact, ...]:
    rows = connection.execute(
        select(OilPoints.id, OilPoints.task_id, OilPoints.number, OilPoints.feeds, OilPoints.proof)
        .where(
            OilPoints.machine_id == machine_id,
            OilPoints.task_id.is_not(None),
            OilPoints.proof.in_([FlowProof.NOT_PROVED, FlowProof.BLOCKED]),
        )
        .order_by(OilPoints.position, OilPoints.id)
    )
    return tuple(
        OilFact(row.id, row.task_id or 0, f"{row.number} {row.feeds}".strip(), row.proof is FlowProof.BLOCKED)
        for row in rows
    )


def _read(connection: Connection, machine_id: int) -> tuple[tuple[int, bool], ...]:
    """Each part with readings, and whether one is of a new stage: asked until the first is found, not counted."""
    of_part = (
        select(Readings.id)
        .select_from(Features)
        .join(Readings, Readings.feature_id == Features.id)
        .where(Features.part_id == Parts.id, Readings.struck.is_(None))
        .correlate(Parts.clause())
    )
    rows = connection.execute(
        select(Parts.id, exists(of_part.where(Readings.stage.in_(NEW_STAGES))))
        .where(Parts.machine_id == machine_id, exists(of_part))
        .order_by(Parts.id)
    )
    return tuple((row[0], bool(row[1])) for row in rows)


def _lacking(connection: Connection, machine_id: int) -> tuple[LackFact, ...]:
    found = lacking(connection, machine_id)
    if not found:
        return ()
    shop = {one.id: one for one in means(connection)}
    return tuple(
        LackFact(step_id, one.ref.id, shop[one.ref.id].name, one.sentence, one.ways, shop[one.ref.id].task_id)
        for step_id, lacks in found.items()
        for one in lacks
    )


def _fittings(connection: Connection, machine_id: int) -> tuple[FittingFact, ...]:
    query = (
        select(*Fittings.columns())
        .join(Parts, Parts.id == Fittings.part_id)
        .where(Parts.machine_id == machine_id, Fittings.came_out == "")
        .order_by(Fittings.part_id, Fittings.position, Fittings.id)
    )
    return tuple(
        FittingFact(
            row.id,
            row.part_id,
            row.task_id,
            asked_words(row.kind, row.what, row.start, row.allowance, row.condition),
        )
        for row in connection.execute(query)
    )


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
        lambda c, m, _: (_steps(c, m),),
        lambda c, m, _, held, new: _steps_again(c, m, held, new),
    ),
    Section(
        frozenset({"link"}),
        lambda c, m, _: (_links(c, m),),
        lambda c, m, _, held, new: _links_again(c, m, held, new),
    ),
    Section(
        frozenset({"part", "place"}),
        lambda c, m, _: (_parts(c, m),),
        lambda c, m, _, held, new: _parts_again(c, m, held, new),
    ),
    Section(frozenset({"refit_step", "removal_part"}), lambda c, m, _: (_puts_on(c, m),)),
    Section(frozenset({"task_constraint", "constraint_part"}), lambda c, m, _: _needs(c, m)),
    Section(frozenset({"question"}), lambda c, m, _: (_questions(c, m),)),
    Section(frozenset({"clock"}), lambda c, m, _: (_clocks(c, m),)),
    Section(frozenset({"waiting"}), lambda c, m, _: (_orders(c, m),)),
    Section(frozenset({"making_sheet", "making_tool"}), lambda c, m, _: _sheets(c, m)),
    Section(frozenset({"oil_point"}), lambda c, m, _: (_oil(c, m),)),
    Section(
        frozenset({"feature", "part", "reading"}),
        lambda c, m, _: (_read(c, m),),
        speaking={"part": Speaking(frozenset({"machine_id"}))},
    ),
    Section(
        frozenset({"feature", "fit", "instrument", "part", "reading", "station"}),
        lambda c, m, rule: (tuple(map(_fit, fits_in_work(c, m, rule))),),
        _fits_again,
        {"part": _IN_A_FIT},
    ),
    Section(frozenset({"subassembly"}), lambda c, m, _: (_tree(c, m),)),
    Section(
        frozenset({"means", "place", "step_means", "task", "task_constraint", "waiting"}),
        lambda c, m, _: (_lacking(c, m),),
    ),
    Section(
        power.POWER_READ,
        lambda c, m, _: (_gates(power.power_gates(c, m)),),
        speaking={"part": _BEFORE_POWER, "task": _POWERED},
    ),
    Section(frozenset({"fitting"}), lambda c, m, _: (_fittings(c, m),)),
    Section(
        power.FITS_READ,
        lambda c, m, _: (_gates(power.fit_gates(c, m)),),
        speaking={"part": _IN_A_FIT, "task": _DONE},
    ),
    Section(
        rows_before_power.READS,
        lambda c, m, _: before_power_facts(c, m),
        speaking={"task": _DONE},
    ),
)
#: The tables the lookups here ask.
READS: frozenset[str] = frozenset().union(*(section.tables for section in SECTIONS))
