"""What is kept of a plan is what a plan worked out anew gives: every column of the rows it rests on, and all else."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from typing import Any

import pytest
from sqlalchemy import Boolean, Column, Enum, Float, ForeignKey, Integer, update

from rebuild.model.records.parts import Part
from rebuild.model.records.refit import RefitStep
from rebuild.model.records.steps import Task
from rebuild.model.records.teardown import Removal, RemovalPart
from rebuild.model.stored import Moment
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.steps import Tasks
from rebuild.store.act import Act
from rebuild.trade.limits.judgement import Rule
from rebuild.trade.schedule.plan import make_plan
from rebuild.words.decisions import Decision
from rebuild.words.fits import FitKind, Side
from rebuild.words.making import MakingProgress
from rebuild.words.parts import Identity, Origin
from rebuild.words.places import PlaceKind
from rebuild.words.readings import FeatureKind
from rebuild.words.steps import ConstraintKind, TaskKind, TaskState
from rebuild.work.editing import acts as edit
from rebuild.work.fits import acts as fits
from rebuild.work.joints.acts import add_joint
from rebuild.work.plan import chains_of_making
from rebuild.work.plan.acts_week import set_week
from rebuild.work.plan.facts import PartFact, SheetFact
from rebuild.work.plan.rows_facts import facts
from rebuild.work.plan.rows_graph import Work, lay, work_graph
from rebuild.work.plan.rows_input import planned
from rebuild.work.plan.rows_week import week_of
from rebuild.work.readings import acts as measure, acts_features as spec
from rebuild.work.steps import acts as tasks
from rebuild.work.teardown.acts_attempts import begin_attempt
from rebuild.work.waiting import acts as waiting
from tests.conftest import Shop

NOW = dt.datetime(2026, 6, 15, 20, 0)


@pytest.fixture
def busy(shop: Shop) -> Shop:
    """The shop with something in every section that rests on parts and steps: a fit, a gate, a joint, a part off."""
    store = shop.store
    bore = spec.add_feature(store, shop.cap, "bore", FeatureKind.BORE)
    fits.add_fit(store, fits.FitEntry(bore, shop.journal, FitKind.PRESS, master=Side.INNER, name="press"))
    measure.record_reading(store, "60.02", measure.Entry(bore))
    tasks.add_task(store, shop.machine, shop.headstock, "First power", TaskKind.COMMISSION)
    tasks.add_link(store, shop.strip, shop.refit)
    attempt = begin_attempt(store, shop.machine, shop.headstock)
    with store.act(Act.EDIT, "refit") as tx:
        removal = Removal(attempt_id=attempt, at=NOW, what="cap")
        tx.session.add(removal)
        tx.session.flush()
        tx.session.add(RemovalPart(removal_id=removal.id, part_id=shop.cap))
        task = tx.get(Task, shop.refit, "step")
        task.kind, task.part_id, task.irreversible = TaskKind.REFIT, shop.cap, True
        tx.session.add(RefitStep(attempt_id=attempt, removal_id=removal.id, task_id=shop.refit))
        tx.get(Part, shop.spindle, "part").decision = Decision.REMAKE
        tx.get(Part, shop.cap, "part").decision = Decision.OPEN
    return shop


def kept_and_anew(shop: Shop, now: dt.datetime = NOW) -> tuple[Work, Work]:
    with shop.store.read() as connection:
        kept = work_graph(connection, shop.machine, now)
        rule = Rule[shop.store.setting("verdict rule", Rule.CONFORMANCE_95.name)]
        return kept, lay(facts(connection, shop.machine, rule), kept.since, *week_of(connection))


def all_the_same(shop: Shop, what: object) -> None:
    """Facts, graph, rank and dates as kept are those worked out anew."""
    kept, anew = kept_and_anew(shop)
    assert kept.facts == anew.facts, what
    assert (kept.graph.nodes, kept.graph.edges, kept.graph.order, kept.graph.ready) == (
        anew.graph.nodes, anew.graph.edges, anew.graph.order, anew.graph.ready,
    ), what  # fmt: skip
    assert planned(kept) == planned(anew), what
    assert make_plan(planned(kept), NOW) == make_plan(planned(anew), NOW), what


#: Words with and without a word of power: they speak of the gate only so.
TITLES = ("Sweep the floor", "Switch the motor on, belts off", "Run in", "Look at it")


def others(column: Column[Any]) -> list[object]:
    """Values a column may have, each other than the one before."""
    kind = column.type
    if column.name == "title":
        return list(TITLES)
    if isinstance(kind, Enum):
        return list(kind.enum_class or ())[1:3]
    if isinstance(kind, Boolean):
        return [True, False]
    if isinstance(kind, Moment):
        return [NOW]
    if isinstance(kind, Float):
        return [2000.0]
    return [7] if isinstance(kind, Integer) else ["lead paint"]


def free(table: type[Any]) -> list[Column[Any]]:
    """The columns anything can be written to, not what ties a row to another; what closes it last."""
    found = [
        column
        for column in table.table.columns
        if not column.primary_key
        and not any(isinstance(one, ForeignKey) for one in column.foreign_keys)
        and column.name != "machine_id"
    ]
    return sorted(found, key=lambda column: column.name in ("kind", "state", "identity", "decision"))


def test_every_column_of_a_step_and_of_a_part_is_heard_where_it_speaks(busy: Shop) -> None:
    for table, ids in ((Parts, (busy.cap, busy.spindle)), (Tasks, (busy.strip, busy.refit))):
        for column in free(table):
            for at, value in enumerate(others(column)):
                with busy.store.act(Act.EDIT, column.name) as tx:
                    tx.session.execute(
                        update(table.table)
                        .where(table.table.c.id == ids[at % 2])
                        .values({column.name: value})
                    )
                kept, anew = kept_and_anew(busy)
                assert kept.facts == anew.facts, (column.name, value)


def test_what_ties_a_step_or_a_part_to_another_row_is_heard(busy: Shop) -> None:
    spindle, made = busy.spindle, tasks.add_task(busy.store, busy.machine, None, "Make", TaskKind.MAKE)

    def of_step(step: int, **values: object) -> Callable[[Any], None]:
        return lambda tx: [setattr(tx.get(Task, step, "step"), *one) for one in values.items()] and None

    def of_part(**values: object) -> Callable[[Any], None]:
        return lambda tx: [setattr(tx.get(Part, spindle, "part"), *one) for one in values.items()] and None

    changes = {
        "made": of_step(made, part_id=spindle, state=TaskState.DONE, done_at=NOW),
        "another part was made": of_step(made, part_id=busy.cap),
        "nothing was made": of_step(made, part_id=None),
        "put on before it came off": of_step(
            made, part_id=busy.cap, kind=TaskKind.REFIT, done_at=NOW - dt.timedelta(days=1)
        ),
        "put on since it came off": of_step(made, done_at=NOW + dt.timedelta(days=1)),
        "a step of another part": of_step(busy.refit, part_id=spindle),
        "a step of no part": of_step(busy.refit, part_id=None),
        "kept": of_part(decision=Decision.REUSE),
        "missing": of_part(origin=Origin.MISSING),
        "the old one": of_part(origin=Origin.ORIGINAL, decision=Decision.REMAKE),
        "a spare": of_part(spare_of_id=busy.cap),
        "not a spare": of_part(spare_of_id=None),
        "not ours": of_part(identity=Identity.NOT_OURS),
    }
    _each_is_heard(busy, changes)
    joint = add_joint(busy.store, busy.machine, busy.headstock, "cap screws")
    edit.edit(busy.store, "joint", [joint], {"part_id": str(busy.cap)})
    yesterday, tomorrow = NOW - dt.timedelta(days=1), NOW + dt.timedelta(days=1)
    _each_is_heard(busy, {
        "off, so no joint to see to": of_step(made, part_id=busy.cap, done_at=yesterday),
        "on again": of_step(made, done_at=tomorrow),
        "another part is on": of_step(made, part_id=spindle),
        "it is on": of_step(made, part_id=busy.cap),
        "to be put on": of_step(made, state=TaskState.OPEN),
        "put on": of_step(made, state=TaskState.DONE),
        "not put on but stoned": of_step(made, kind=TaskKind.STONE),
    })  # fmt: skip


def _each_is_heard(busy: Shop, changes: dict[str, Callable[[Any], None]]) -> None:
    for what, change in changes.items():
        kept_and_anew(busy)
        with busy.store.act(Act.EDIT, what) as tx:
            change(tx)
        all_the_same(busy, what)


def test_each_input_of_the_dates_is_heard_and_so_is_its_undoing(busy: Shop) -> None:
    store = busy.store
    changes: dict[str, Callable[[], object]] = {
        "an estimate": lambda: edit.edit(store, "task", [busy.strip], {"likely_min": "95"}),
        "a title": lambda: edit.edit(store, "task", [busy.strip], {"title": "Draw the spindle"}),
        "a rest": lambda: tasks.add_constraint(store, busy.strip, ConstraintKind.CURE, "2 d"),
        "a link": lambda: tasks.add_link(store, busy.measure, busy.refit),
        "a lead": lambda: waiting.add_waiting(store, busy.machine, "bar", part_id=busy.spindle),
        "a decision": lambda: edit.edit(store, "part", [busy.cap], {"decision": "buy"}),
        "a tick": lambda: tasks.tick(store, busy.strip, tasks.Done(at=NOW)),
        "a step": lambda: tasks.add_task(store, busy.machine, None, "Sweep"),
        "the week": lambda: set_week(store, ["", "19:00-21:00", "", "", "", "9:00-12:00", ""]),
    }
    for what, change in changes.items():
        kept_and_anew(busy)
        change()
        all_the_same(busy, what)
    for what in reversed(changes):
        store.undo()
        all_the_same(busy, ("undone", what))


PART = PartFact(7, 2, "HS-02", "cap", decision=Decision.REMAKE)
SHEET = SheetFact(3, 7, MakingProgress.DRAFT)


def test_work_kept_for_a_part_is_that_of_its_part_sheet_and_tools() -> None:
    parts = [PART, *(PART._replace(**{name: value}) for name, value in {
        "id": 8, "subassembly_id": 3, "code": "HS-03", "name": "nut", "origin": Origin.MISSING,
        "decision": Decision.REWORK, "reason": "worn", "method": "bored", "work_min": 50.0, "wait_days": 3.0,
        "about": "paint", "place_kind": PlaceKind.BATH, "place": "bath", "material": "iron", "condition": "rust",
        "finish": "grey",
    }.items())]  # fmt: skip
    sheets = [None, SHEET, *(SHEET._replace(progress=one) for one in MakingProgress), SHEET._replace(blank_at="rack"),
              SHEET._replace(id=4), SHEET._replace(attempt=2)]  # fmt: skip
    tools: tuple[tuple[tuple[int, str], ...], ...] = (
        (),
        ((5, "reamer"),),
        ((5, "form tool"),),
        ((6, "reamer"),),
    )
    assert len(parts) == 1 + len(PartFact._fields)
    for part in parts:
        for order in (None, 4, 5):
            assert chains_of_making.bought(part, order) == chains_of_making.bought.__wrapped__(part, order)
        for sheet in sheets:
            for one in tools if sheet is not None else ((),):
                assert chains_of_making.made(part, sheet, one) == chains_of_making.made.__wrapped__(
                    part, sheet, one
                )
