"""The graph is read in a fixed number of statements, and kept until an input of it changes: each in turn."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress

import pytest
from sqlalchemy import Connection, event, select

from rebuild.model.records.joints import Joint
from rebuild.model.records.refit import RefitStep
from rebuild.model.records.teardown import Fastener, Removal, RemovalPart
from rebuild.store.act import Act
from rebuild.store.store import Store
from rebuild.trade.limits.verdict import Rule
from rebuild.words.decisions import Decision
from rebuild.words.fits import FitKind, Side
from rebuild.words.fitting import FittingKind
from rebuild.words.means import MeansKind
from rebuild.words.places import PlaceKind
from rebuild.words.readings import FeatureKind
from rebuild.words.run_in import LookWhen
from rebuild.words.steps import ConstraintKind, TaskKind
from rebuild.words.teardown import FastenerState
from rebuild.words.waiting import ClockKind
from rebuild.work.controls.acts import add_control
from rebuild.work.decisions import acts as decide
from rebuild.work.editing import acts as edit
from rebuild.work.fits import acts as fits
from rebuild.work.joints.acts import add_joint
from rebuild.work.log import acts as notes
from rebuild.work.machines import acts as identify
from rebuild.work.making import acts as making
from rebuild.work.making.acts_fittings import add_fitting
from rebuild.work.plan import rows_input
from rebuild.work.plan.facts import Facts
from rebuild.work.plan.rows_facts import READS, SECTIONS, facts
from rebuild.work.plan.rows_graph import Work, lay, work_graph
from rebuild.work.plan.rows_input import draw
from rebuild.work.plan.rows_what_next import next_of
from rebuild.work.readings import acts as measure, acts_features as spec
from rebuild.work.run_in.acts import check_done
from rebuild.work.run_in.rows import checks
from rebuild.work.steps import acts as tasks
from rebuild.work.teardown.acts_attempts import begin_attempt
from rebuild.work.teardown.acts_line import say_removal
from rebuild.work.waiting import acts as waiting, acts_clocks as clocks
from tests.conftest import Shop

NOW = dt.datetime(2026, 6, 15, 20, 0)


@contextmanager
def counted(connection: Connection) -> Iterator[list[str]]:
    """The statements issued within."""
    said: list[str] = []

    def hear(_connection: object, _cursor: object, statement: str, *_more: object) -> None:
        said.append(statement)

    event.listen(connection, "before_cursor_execute", hear)
    try:
        yield said
    finally:
        event.remove(connection, "before_cursor_execute", hear)


def statements(store: Store, machine: int) -> int:
    with store.read() as connection, counted(connection) as said:
        facts(connection, machine)
    return len(said)


def test_the_statements_do_not_grow_with_the_machine(shop: Shop) -> None:
    store, machine = shop.store, shop.machine
    bore = spec.add_feature(store, shop.cap, "bore", FeatureKind.BORE)
    fits.add_fit(store, fits.FitEntry(bore, shop.journal, FitKind.RUNNING, master=Side.INNER, name="running"))

    def grow(turn: int) -> None:
        part = identify.add_part(store, machine, shop.headstock, f"part {turn}", f"HS-{20 + turn}")
        hole = spec.add_feature(store, part, "bore", FeatureKind.BORE)
        measure.record_reading(store, "25.0", measure.Entry(hole))
        decide.decide(store, [part], Decision.REMAKE, reason="worn")
        step = tasks.add_task(store, machine, shop.headstock, f"Refit {turn}", TaskKind.REFIT, part_id=part)
        tasks.add_link(store, shop.strip, step)
        fits.add_fit(
            store, fits.FitEntry(hole, shop.journal, FitKind.RUNNING, master=Side.INNER, name=f"fit {turn}")
        )

    grow(0)  # one of each: what is not there at all is not asked for
    before = statements(store, machine)
    for turn in range(1, 13):
        grow(turn)
    assert statements(store, machine) == before
    assert before < 30


def answer(shop: Shop, now: dt.datetime = NOW) -> Work:
    with shop.store.read() as connection:
        return work_graph(connection, shop.machine, now)


def anew(shop: Shop, now: dt.datetime = NOW) -> Work:
    with shop.store.read() as connection:
        rule = Rule[shop.store.setting("verdict rule", Rule.CONFORMANCE_95.name)]
        return lay(facts(connection, shop.machine, rule), now)


def same(one: Work, two: Work) -> bool:
    return (one.facts, one.graph.nodes, one.graph.edges, one.graph.finishing) == (
        two.facts, two.graph.nodes, two.graph.edges, two.graph.finishing,
    )  # fmt: skip


def test_nothing_is_worked_out_again_while_nothing_changes(shop: Shop) -> None:
    first = answer(shop)
    with shop.store.read() as connection, counted(connection) as said:
        assert work_graph(connection, shop.machine, NOW) is first
    assert len(said) == 4, "begin, the rule, whether it only reads, and how far the journal has come"


def _oil(shop: Shop) -> None:
    from rebuild.model.records.lubrication import OilPoint

    with shop.store.act(Act.EDIT, "oil") as tx:
        tx.session.add(
            OilPoint(machine_id=shop.machine, task_id=shop.refit, number="1", feeds="front bearing")
        )


def _put_on(shop: Shop) -> None:
    attempt = begin_attempt(shop.store, shop.machine, shop.headstock)
    with shop.store.act(Act.EDIT, "refit") as tx:
        removal = Removal(attempt_id=attempt, at=NOW, what="cap")
        tx.session.add(removal)
        tx.session.flush()
        tx.session.add(RemovalPart(removal_id=removal.id, part_id=shop.cap))
        task = tx.get(tasks.Task, shop.refit, "step")
        task.kind = TaskKind.REFIT
        tx.session.add(RefitStep(attempt_id=attempt, removal_id=removal.id, task_id=shop.refit))


def _fit(shop: Shop) -> None:
    bore = spec.add_feature(shop.store, shop.cap, "bore", FeatureKind.BORE)
    fits.add_fit(
        shop.store, fits.FitEntry(bore, shop.journal, FitKind.RUNNING, master=Side.INNER, name="running")
    )


def _place(shop: Shop) -> None:
    place = identify.add_place(shop.store, "rust bath", PlaceKind.BATH)
    identify.put(shop.store, [shop.spindle], place)


def _sheet_tool(shop: Shop) -> None:
    from rebuild.model.records.making import MakingTool

    sheet = making.start_sheet(shop.store, shop.cap)
    with shop.store.act(Act.EDIT, "tool") as tx:
        tx.session.add(MakingTool(sheet_id=sheet, what="form tool"))


def _lack(shop: Shop) -> None:
    from rebuild.model.records.means import OneMeans, OneStepMeans

    with shop.store.act(Act.EDIT, "means") as tx:
        one = OneMeans(name="hoist", kind=MeansKind.HOIST)
        tx.session.add(one)
        tx.session.flush()
        tx.session.add(OneStepMeans(task_id=shop.refit, means_id=one.id))


CHANGES: dict[str, Callable[[Shop], object]] = {
    "task": lambda s: tasks.add_task(s.store, s.machine, None, "Sweep"),
    "link": lambda s: tasks.add_link(s.store, s.strip, s.refit),
    "part": lambda s: decide.decide(s.store, [s.spindle], Decision.BUY, reason="bent"),
    "place": _place,
    "attempt refit_step removal removal_part": _put_on,
    "task_constraint constraint_part": lambda s: tasks.add_constraint(
        s.store, s.measure, ConstraintKind.AT_POSITION, part_ids=[s.cap]
    ),
    "question": lambda s: notes.ask(s.store, s.machine, "Which?", task_id=s.strip),
    "clock": lambda s: clocks.start_clock(
        s.store,
        s.machine,
        ClockKind.CURE,
        "sealer",
        after=["2 d"],
        started=NOW,
        about=clocks.About(task_id=s.strip),
    ),
    "waiting": lambda s: waiting.add_waiting(s.store, s.machine, "cap", part_id=s.cap),
    "making_sheet making_tool": _sheet_tool,
    "oil_point": _oil,
    "fitting": lambda s: add_fitting(
        s.store, s.cap, FittingKind.REAM, "bore", {"condition": "the spindle turns", "task_id": str(s.refit)}
    ),
    "reading": lambda s: measure.record_reading(s.store, "59.98", measure.Entry(s.journal, s.near)),
    "feature fit": _fit,
    "means step_means": _lack,
    "subassembly": lambda s: identify.add_subassembly(s.store, s.machine, "Tailstock", "TS"),
}


@pytest.mark.parametrize("tables", CHANGES)
def test_a_change_of_any_table_is_heard_and_so_is_its_undoing(shop: Shop, tables: str) -> None:
    before = answer(shop)
    CHANGES[tables](shop)
    changed = answer(shop)
    assert changed.facts != before.facts, "the change must be one the graph rests on"
    assert same(changed, anew(shop))
    while shop.store.undo_label() is not None and not same(answer(shop), before):
        shop.store.undo()
    assert same(answer(shop), before)


def test_readings_instruments_and_stations_of_a_fit_are_heard(shop: Shop) -> None:
    _fit(shop)
    measure.record_reading(shop.store, "59.98", measure.Entry(shop.journal, shop.near))
    for change in (
        lambda: edit.edit(shop.store, "station", [shop.near], {"name": "spindle nose"}),
        lambda: edit.edit(shop.store, "instrument", [shop.micrometer], {"mpe": "0.05"}),
        lambda: measure.record_reading(shop.store, "59.97", measure.Entry(shop.journal, shop.far)),
    ):
        change()
        assert same(answer(shop), anew(shop))


#: What the gate before power, and before what cannot be undone, rests on beside the tables above.
AT_THE_GATE = {"concession", "control", "fastener", "joint", "machine", "photo", "run_look"}


def _loose(shop: Shop) -> None:
    """How the joint's fastener was found when the cap came off."""
    attempt = begin_attempt(shop.store, shop.machine, shop.headstock)
    with shop.store.act(Act.EDIT, "fastener") as tx:
        removal = Removal(attempt_id=attempt, at=NOW, what="cap")
        tx.session.add(removal)
        tx.session.flush()
        joint = tx.session.scalars(select(Joint)).one()
        tx.session.add(Fastener(removal_id=removal.id, joint_id=joint.id, state=FastenerState.LOOSE))


def test_how_a_joint_was_found_is_heard(shop: Shop) -> None:
    attempt = begin_attempt(shop.store, shop.machine, shop.headstock)
    joint = add_joint(shop.store, shop.machine, shop.headstock, "cap screws")
    tasks.tick(shop.store, shop.strip, tasks.Done(at=NOW))
    with shop.store.act(Act.EDIT, "off") as tx:
        removal = Removal(attempt_id=attempt, at=NOW, what="cap")
        tx.session.add(removal)
        tx.session.flush()
        held = Fastener(removal_id=removal.id, joint_id=joint, thread="M6", state=FastenerState.LOOSE)
        tx.session.add(held)
        tx.session.flush()
        key = held.id
    before = answer(shop)
    edit.edit(shop.store, "fastener", [key], {"state": FastenerState.TIGHT.value})
    assert answer(shop).facts.joints != before.facts.joints
    assert same(answer(shop), anew(shop))


def test_what_stands_before_power_is_heard(shop: Shop) -> None:
    power = tasks.add_task(shop.store, shop.machine, shop.headstock, "First power", TaskKind.COMMISSION)
    first = answer(shop)
    assert [held.task_id for held in first.facts.gates] == [power]
    with shop.store.read() as connection:
        looks = [row.id for row in checks(connection, shop.machine) if row.due is LookWhen.BEFORE_POWER]
    changes: tuple[Callable[[], object], ...] = (
        lambda: check_done(shop.store, looks[0], "seen"),
        lambda: add_joint(shop.store, shop.machine, shop.headstock, "cap screws"),
        lambda: _loose(shop),
        lambda: say_removal(shop.store, shop.machine, shop.headstock, "HS-02 u, 4 x M10 socket, found tight"),
        lambda: add_control(shop.store, shop.machine, "clutch lever"),
        lambda: edit.edit(shop.store, "machine", [shop.machine], {"kind": "shaper"}),
        lambda: tasks.tick(shop.store, power, confirmed=True, reason="seen by the electrician"),
    )
    for change in changes:
        change()
        assert same(answer(shop), anew(shop))
    assert answer(shop).facts.gates != first.facts.gates


def test_every_table_of_every_section_is_changed_by_a_test_here() -> None:
    changed = set(" ".join(CHANGES).split()) | {"station", "instrument"} | AT_THE_GATE
    assert set().union(*(section.tables for section in SECTIONS)) == changed == set(READS)
    assert len(Facts.__slots__) == 22


def test_the_clock_and_the_rule_are_inputs_too(shop: Shop) -> None:
    clocks.start_clock(
        shop.store, shop.machine, ClockKind.CURE, "sealer", after=["2 d"], started=NOW,
        about=clocks.About(task_id=shop.strip),
    )  # fmt: skip
    tasks.tick(shop.store, shop.strip, tasks.Done(at=NOW))
    assert answer(shop).graph.held_by(shop.measure)
    cured = NOW + dt.timedelta(days=2, minutes=1)
    assert not answer(shop, cured).graph.held_by(shop.measure)
    assert answer(shop, NOW).graph.held_by(shop.measure), "asked of an earlier moment again"
    before = answer(shop)
    shop.store.set_setting("verdict rule", Rule.SIMPLE.name)
    assert answer(shop) is not before


def test_an_act_sees_its_own_writes_and_leaves_nothing_behind(shop: Shop) -> None:
    before = answer(shop)
    with suppress(RuntimeError), shop.store.act(Act.EDIT, "given up") as tx:
        task = tx.get(tasks.Task, shop.strip, "step")
        task.title = "Draw the spindle"
        tx.session.flush()
        inside = work_graph(tx.connection, shop.machine, NOW).graph.node(shop.strip)
        raise RuntimeError("given up")
    assert inside is not None
    assert inside.title == "Draw the spindle"
    assert answer(shop) is before


def test_another_window_s_act_is_heard(shop: Shop) -> None:
    before = answer(shop)
    other = Store.open(shop.path)
    tasks.add_task(other, shop.machine, None, "Sweep")
    other.close()
    assert len(answer(shop).graph.nodes) == len(before.graph.nodes) + 1


def test_what_comes_next_is_told_anew_only_when_the_work_or_its_schedules_are_others(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    work = answer(shop)
    told = next_of(work)
    assert next_of(answer(shop)) is told
    monkeypatch.setattr(rows_input, "MOST_DRAWN", 1)
    edit.edit(shop.store, "task", [shop.strip], {"title": "Draw the spindle"})
    changed = answer(shop)
    undrawn = next_of(changed)
    assert any(node.title == "Draw the spindle" for node in undrawn.now)
    draw(changed)
    assert next_of(changed) != undrawn, "the chance of being critical is in its sentences"
    assert next_of(changed) is next_of(changed)
