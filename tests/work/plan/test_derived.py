"""What follows from what is known: from the first decision to the part being there, without a typed step.

The chains (sheet, material, make, accept; rework, accept; order, arrived, checked) and the usual durations are common
practice, no source.
"""

from __future__ import annotations

import datetime as dt

import pytest

from rebuild.errors import BadEntry, NotThere
from rebuild.model.records.making import MakingSheet
from rebuild.store.act import Act
from rebuild.store.store import Store
from rebuild.trade.schedule.graph import Node
from rebuild.trade.schedule.plan import chances, make_plan
from rebuild.words.decisions import Decision
from rebuild.words.making import MakingProgress
from rebuild.words.places import PlaceKind
from rebuild.words.readings import FeatureKind, Stage
from rebuild.words.steps import ConstraintKind, TaskKind
from rebuild.words.waiting import WaitingKind
from rebuild.words.work_graph import Standing
from rebuild.work.decisions import acts as decide
from rebuild.work.editing import acts as edit
from rebuild.work.log import acts as notes
from rebuild.work.machines import acts as identify
from rebuild.work.making.rows_order import making_order
from rebuild.work.plan.rows_graph import Work, work_graph
from rebuild.work.plan.rows_input import plan_input
from rebuild.work.plan.rows_tonight import Tonight, fits_tonight
from rebuild.work.plan.rows_what_next import what_next
from rebuild.work.readings import acts as measure, acts_features as spec
from rebuild.work.records.ways_out import Refused
from rebuild.work.steps import acts as tasks, rows as steps
from rebuild.work.steps.acts_take_over import take_over
from rebuild.work.waiting import acts as waiting
from rebuild.work.where_was_i.rows import where_was_i
from tests.support import refuses

NOW = dt.datetime(2026, 6, 15, 20, 0)


class Bare:
    """A file with one machine and what is decided of it."""

    def __init__(self, store: Store) -> None:
        self.store = store
        self.machine = identify.add_machine(store, "Small lathe", {"kind": "lathe"})

    def part(self, code: str, name: str, decision: Decision | None = None) -> int:
        key = identify.add_part(self.store, self.machine, None, name, code)
        if decision is not None:
            decide.decide(self.store, [key], decision, reason="worn")
        return key

    def work(self) -> Work:
        with self.store.read() as connection:
            return work_graph(connection, self.machine, NOW)

    def of(self, part_id: int) -> list[tuple[str, str]]:
        """The open work of a part: its kind, and how it stands."""
        graph = self.work().graph
        return [
            (node.kind.value, graph.standing(node.key).value)
            for node in graph.nodes
            if node.part_id == part_id and node.open
        ]

    def node(self, words: str) -> Node:
        return next(node for node in self.work().graph.nodes if words in node.title)

    def sheet(self, part_id: int, progress: MakingProgress, blank_at: str = "") -> int:
        with self.store.act(Act.EDIT, "sheet") as tx:
            row = MakingSheet(part_id=part_id, progress=progress, blank_at=blank_at)
            tx.session.add(row)
            tx.session.flush()
            return row.id


@pytest.fixture
def bare(store: Store) -> Bare:
    return Bare(store)


def test_three_remakes_a_rework_and_a_buy_appear_at_once_under_what_to_make(bare: Bare) -> None:
    for code in ("HS-01", "HS-02", "HS-03"):
        bare.part(code, "bush", Decision.REMAKE)
    bare.part("HS-04", "shaft", Decision.REWORK)
    bare.part("HS-05", "belt", Decision.BUY)
    with bare.store.read() as connection:
        found = what_next(connection, bare.machine, NOW)
        order = making_order(connection, bare.machine, NOW)
        given = plan_input(connection, bare.machine, NOW)
        back = where_was_i(connection, bare.machine, NOW)
    codes = {"HS-01", "HS-02", "HS-03", "HS-04", "HS-05"}
    assert {candidate.code for candidate in found.candidates} == codes
    assert all(candidate.startable for candidate in found.candidates)
    assert {row.title[:5] for row in order.rows} == codes
    assert all(row.tonight for row in order.rows)
    assert len(found.now) == 5
    assert len(back.next_actions) == 3
    assert not any("nothing waits for it" in action.why for action in back.next_actions), (
        "what is drawn up, asked for or ordered is waited for by the rest of the same part"
    )
    assert back.next_actions[0].title.startswith("Look whether HS-05 belt")
    assert back.next_actions[0].why == (
        "brings the finish 12.3 days nearer, unblocks 1 step at once, 3 in all, "
        "likely 35 min of work and 14 d of waiting"
    ), "what drives the finish comes first, and says what that saves"
    assert [row.title for row in order.rows] == [
        f"{candidate.code} {candidate.name}" for candidate in found.candidates
    ]
    plan = make_plan(given, NOW)
    assert plan.finish > NOW
    # Seen: the first screen and the dates named other things that drive the finish, and the first no date.
    assert back.finish == plan.finish
    said = [(words, lasts) for _, words, lasts in back.drives]
    assert said == [
        (name, "in every schedule drawn" if share == 1 else f"in {share * 100:.0f} % of the schedules drawn")
        for name, share in chances(given, NOW, draws=20).drivers[: len(said)]
    ]
    assert said
    assert plan.without_estimate == len(given.steps), "every duration is assumed, and said to be"
    assert fits_tonight(given, Tonight(60))


def test_a_remake_goes_from_sheet_to_material_to_making_to_acceptance(bare: Bare) -> None:
    bush = bare.part("HS-01", "bush", Decision.REMAKE)
    chain = [("decide", "ready"), ("buy", "held"), ("make", "held"), ("inspect", "held")]
    assert bare.of(bush) == chain
    sheet = bare.sheet(bush, MakingProgress.DRAFT)
    assert bare.of(bush) == chain
    left = {
        MakingProgress.RELEASED: [("buy", "ready"), ("make", "held"), ("inspect", "held")],
        MakingProgress.BEING_MADE: [("make", "ready"), ("inspect", "held")],
        MakingProgress.MADE: [("inspect", "ready")],
        MakingProgress.ACCEPTED: [],
    }
    for progress, wanted in left.items():
        with bare.store.act(Act.EDIT, "sheet") as tx:
            tx.get(MakingSheet, sheet, "sheet").progress = progress
        assert bare.of(bush) == wanted, progress
    with bare.store.act(Act.EDIT, "sheet") as tx:
        tx.get(MakingSheet, sheet, "sheet").progress = MakingProgress.SCRAPPED
    assert bare.of(bush) == chain, "a scrapped one is begun anew"


def test_a_bought_part_is_looked_for_ordered_awaited_and_checked(bare: Bare) -> None:
    belt = bare.part("HS-05", "belt", Decision.BUY)
    refit = tasks.add_task(bare.store, bare.machine, None, "Belt on", TaskKind.REFIT, part_id=belt)
    assert bare.of(belt)[1:] == [("buy", "ready"), ("buy", "held"), ("inspect", "held")]
    order = waiting.add_waiting(bare.store, bare.machine, "belt A 1250", part_id=belt)
    waiting.mark(bare.store, order, waiting.Mark.ORDERED, at=NOW)
    assert sorted(bare.of(belt)[1:]) == [("buy", "runs by itself"), ("inspect", "held")]
    assert "is not there yet" in bare.work().graph.held_by(refit)[-1].sentence
    waiting.mark(bare.store, order, waiting.Mark.ARRIVED, at=NOW)
    assert bare.of(belt) == [("refit", "held"), ("inspect", "ready")], "on the plan until checked"
    check = bare.node("Check HS-05 belt as it arrived")
    assert (check.ref.table, check.ref.id) == ("waiting", order)
    with refuses(bare.store, "HS-05 belt arrived and is not checked yet", Refused):
        tasks.tick(bare.store, refit)
    waiting.mark(bare.store, order, waiting.Mark.CHECKED, at=NOW)
    assert bare.of(belt) == [("refit", "ready")]


def test_an_order_settles_its_typed_buying_step_and_a_sheet_its_making_step(bare: Bare) -> None:
    belt, bush = bare.part("HS-05", "belt", Decision.BUY), bare.part("HS-01", "bush", Decision.REMAKE)
    buy = tasks.add_task(bare.store, bare.machine, None, "Order the belt", TaskKind.BUY, part_id=belt)
    make = tasks.add_task(bare.store, bare.machine, None, "Turn the bush", TaskKind.MAKE, part_id=bush)
    order = waiting.add_waiting(bare.store, bare.machine, "belt", part_id=belt, task_id=buy)
    assert bare.work().graph.standing(buy) is Standing.READY
    waiting.mark(bare.store, order, waiting.Mark.ORDERED, at=NOW)
    node = bare.work().graph.node(buy)
    assert node is not None
    assert (node.open, node.settled) == (False, "ordered 15 Jun 2026")
    bare.sheet(bush, MakingProgress.ACCEPTED)
    with bare.store.read() as connection:
        listed = {step.id: step.settled for step in steps.tasks(connection, bare.machine)}
    assert listed == {buy: "ordered 15 Jun 2026", make: "its making sheet is accepted"}
    node = bare.work().graph.node(make)
    assert node is not None
    assert node.settled == "its making sheet is accepted"
    bare.store.undo()
    assert bare.work().graph.standing(make) is Standing.READY


def test_work_sent_out_holds_what_puts_the_part_on_until_it_is_back(bare: Bare) -> None:
    shaft = bare.part("HS-04", "shaft", Decision.REUSE)
    refit = tasks.add_task(bare.store, bare.machine, None, "Shaft in", TaskKind.REFIT, part_id=shaft)
    job = waiting.add_waiting(
        bare.store, bare.machine, "shaft to be plated", WaitingKind.SENT_OUT, part_id=shaft
    )
    waiting.mark(bare.store, job, waiting.Mark.ORDERED, at=NOW)
    with refuses(bare.store, "shaft to be plated is not back yet", Refused):
        tasks.tick(bare.store, refit)
    waiting.mark(bare.store, job, waiting.Mark.ARRIVED, at=NOW)
    tasks.tick(bare.store, refit)


def test_what_is_measured_and_not_decided_is_to_be_decided(bare: Bare) -> None:
    part = bare.part("HS-06", "collar")
    bore = spec.add_feature(bare.store, part, "bore", FeatureKind.BORE)
    assert bare.of(part) == []
    measure.record_reading(bare.store, "25.0", measure.Entry(bore))
    assert bare.of(part) == [("decide", "ready")]
    decide.decide(bare.store, [part], Decision.REUSE, reason="sound")
    assert bare.of(part) == []


@pytest.mark.parametrize(
    ("condition", "held"),
    [
        ("lining may hold asbestos", True),
        ("old lead paint under the green", True),
        ("sight glass with unknown fluid", True),
        ("mercury switch inside", True),
        ("lining, asbestos-free", False),
        ("tested: no asbestos found", False),
        ("leadscrew bracket, painted", False),
    ],
)
def test_what_is_suspected_is_tested_before_it_is_worked(bare: Bare, condition: str, held: bool) -> None:
    part = bare.part("CL-02", "cone facing", Decision.REUSE)
    edit.edit(bare.store, "part", [part], {"condition": condition})
    clean = tasks.add_task(bare.store, bare.machine, None, "Clean the facing", TaskKind.CLEAN, part_id=part)
    assert (bare.work().graph.standing(clean) is Standing.HELD) is held
    if held:
        with refuses(bare.store, "tested before it is worked, by the rules of your place", Refused):
            tasks.tick(bare.store, clean)


def test_a_typed_test_takes_the_place_of_the_derived_one_and_done_it_clears(bare: Bare) -> None:
    part = bare.part("CL-02", "lining", Decision.REUSE)
    edit.edit(bare.store, "part", [part], {"condition": "may hold asbestos"})
    clean = tasks.add_task(bare.store, bare.machine, None, "Clean the lining", TaskKind.CLEAN, part_id=part)
    sample = tasks.add_task(
        bare.store,
        bare.machine,
        None,
        "Send a sample to be tested for asbestos",
        TaskKind.SEND_OUT,
        part_id=part,
    )
    assert [hold.key for hold in bare.work().graph.held_by(clean)] == [sample]
    tasks.tick(bare.store, sample)
    assert bare.work().graph.standing(clean) is Standing.READY


def test_a_part_not_ready_holds_the_step_that_puts_it_on_and_what_comes_after(bare: Bare) -> None:
    bush = bare.part("HS-01", "bush", Decision.REMAKE)
    on = tasks.add_task(bare.store, bare.machine, None, "Press the bush in", TaskKind.REFIT, part_id=bush)
    cover = tasks.add_task(bare.store, bare.machine, None, "Cover on", after=[on])
    with refuses(bare.store, "HS-01 bush is decided remake and not made yet", Refused):
        tasks.tick(bare.store, on)
    graph = bare.work().graph
    assert [hold.key for hold in graph.held_by(cover)] == [on]
    making = graph.of_part(bush)
    assert making is not None
    assert graph.behind([node.key for node in making.own]) == 3, "both steps, and the checks before power"
    edit.edit(bare.store, "part", [bush], {"origin": "remade"})
    tasks.tick(bare.store, on)


def test_a_step_at_a_position_waits_for_what_must_stand_there(bare: Bare) -> None:
    ram = bare.part("RM-01", "ram", Decision.REUSE)
    on = tasks.add_task(bare.store, bare.machine, None, "Ram on", TaskKind.REFIT, part_id=ram)
    pin = tasks.add_task(bare.store, bare.machine, None, "Drive the pin")
    tasks.add_constraint(bare.store, pin, ConstraintKind.AT_POSITION, "mid stroke", part_ids=[ram])
    with refuses(bare.store, "RM-01 ram must stand at its position first", Refused):
        tasks.tick(bare.store, pin)
    tasks.tick(bare.store, on)
    tasks.tick(bare.store, pin)


def test_a_lent_part_is_fetched_before_it_is_measured(bare: Bare) -> None:
    part = bare.part("TS-01", "centre", Decision.REUSE)
    look = tasks.add_task(bare.store, bare.machine, None, "Measure the taper", TaskKind.MEASURE, part_id=part)
    tasks.add_task(bare.store, bare.machine, None, "Centre in", TaskKind.REFIT, part_id=part)
    place = identify.add_place(bare.store, "neighbour", PlaceKind.LENT)
    identify.put(bare.store, [part], place)
    assert [hold.sentence for hold in bare.work().graph.held_by(look)] == [
        "TS-01 centre lies in lent neighbour"
    ]


def test_the_owner_s_own_next_comes_first_or_it_is_said_why_not(bare: Bare) -> None:
    first = tasks.add_task(bare.store, bare.machine, None, "Scrape the saddle")
    tasks.add_task(bare.store, bare.machine, None, "Polish the handwheel rim")
    then = tasks.add_task(bare.store, bare.machine, None, "Fit the apron gears", after=[first])
    at = NOW - dt.timedelta(days=1)

    def back(note: str) -> tuple[str, str]:
        notes.log_session(
            bare.store, bare.machine, {"did": "swept", "next_step": note, "at": f"{at:%Y-%m-%d %H:%M}"}
        )
        with bare.store.read() as connection:
            found = where_was_i(connection, bare.machine, NOW)
        bare.store.undo()
        first_of = found.next_actions[0]
        assert first_of.why.startswith("first because you wrote it as your next") == (
            first_of.title.lower() in note
        )
        return first_of.title, found.own_next

    assert back("polish the handwheel rim, then tea") == ("Polish the handwheel rim", "")
    with bare.store.read() as connection:
        whys = {
            action.title: action.why for action in where_was_i(connection, bare.machine, NOW).next_actions
        }
    assert "unblocks 1 step at once" in whys["Scrape the saddle"]
    assert "1 step waits for it with others" in whys["Polish the handwheel rim"], "the checks before power"
    assert "first because" not in whys["Polish the handwheel rim"], "undone, so nothing is said of a note"
    title, said = back("fit the apron gears")
    assert title == "Scrape the saddle"
    assert (
        said
        == "You meant to go on with “fit the apron gears”; not yet: step “Scrape the saddle” comes first."
    )
    assert "no open work is called like that" in back("buy milk")[1]
    assert then


def test_taken_over_the_making_becomes_typed_steps_that_keep_their_ties(bare: Bare) -> None:
    bush = bare.part("HS-01", "bush", Decision.REMAKE)
    on = tasks.add_task(bare.store, bare.machine, None, "Press the bush in", TaskKind.REFIT, part_id=bush)
    key = bare.node("Make HS-01 bush").key
    ids = take_over(bare.store, bare.machine, key)
    assert bare.store.undo_label() == "taking work over “Make HS-01 bush” and 3 more"
    assert bare.of(bush) == [
        ("refit", "held"), ("decide", "ready"), ("buy", "held"), ("make", "held"), ("inspect", "held"),
    ]  # fmt: skip
    graph = bare.work().graph
    assert not any(node.derived and node.ref.table != "run_look" for node in graph.nodes)
    assert {hold.title for hold in graph.held_by(on)} >= {"Measure HS-01 bush as made and accept it"}
    edit.edit(bare.store, "task", [ids[0]], {"title": "Turn the bush from bronze", "likely_min": "90"})
    assert bare.work().graph.node(ids[0]) is not None
    bare.store.undo()
    bare.store.undo()
    assert bare.node("Make HS-01 bush").key == key


def test_a_test_or_decision_taken_over_stays_one_piece_of_work(bare: Bare) -> None:
    part = bare.part("CL-02", "lining")
    edit.edit(bare.store, "part", [part], {"condition": "may hold asbestos"})
    clean = tasks.add_task(bare.store, bare.machine, None, "Clean the lining", TaskKind.CLEAN, part_id=part)
    (sample,) = take_over(bare.store, bare.machine, bare.node("tested for asbestos").key)
    assert {hold.key for hold in bare.work().graph.held_by(clean)} == {sample}
    bore = spec.add_feature(bare.store, part, "bore", FeatureKind.BORE)
    measure.record_reading(bare.store, "25.0", measure.Entry(bore, stage=Stage.CLEANED))
    take_over(bare.store, bare.machine, bare.node("Decide what becomes").key)
    assert not any(node.derived and node.ref.table != "run_look" for node in bare.work().graph.nodes)


def test_what_only_follows_cannot_be_taken_over(bare: Bare) -> None:
    bare.part("HS-05", "belt", Decision.BUY)
    arriving = bare.node("to arrive")
    with refuses(bare.store, "only follows from what is known and cannot be a step of its own", BadEntry):
        take_over(bare.store, bare.machine, arriving.key)
    with refuses(bare.store, "no longer follows from anything", NotThere):
        take_over(bare.store, bare.machine, -123)
