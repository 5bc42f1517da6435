"""What makes a part ready to be put on, one thing at a time, and where it may not lie."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import pytest

from rebuild.words.places import PlaceKind
from rebuild.words.readings import FeatureKind, Stage
from rebuild.words.steps import ConstraintKind, LinkKind, TaskKind, TaskState
from rebuild.work.editing import acts as edit
from rebuild.work.editing.acts_ways_out import take
from rebuild.work.machines import acts as identify
from rebuild.work.readings import acts as measure, acts_features as spec
from rebuild.work.records.ways_out import Refused, WayKind
from rebuild.work.steps import acts as tasks, acts_again
from rebuild.work.waiting import acts as waiting
from tests.support import refuses

if TYPE_CHECKING:
    from tests.conftest import Shop

AT = dt.datetime(2026, 3, 14, 8, 0)


@pytest.fixture
def refit(shop: Shop) -> int:
    """A step that puts the cap on, which is decided remake."""
    return tasks.add_task(
        shop.store, shop.machine, shop.headstock, "Put the cap on", TaskKind.REFIT, part_id=shop.cap
    )


def refused(shop: Shop, refit: int, said: str) -> None:
    with refuses(shop.store, said, Refused):
        tasks.tick(shop.store, refit)


def taken(shop: Shop, refit: int) -> None:
    tasks.tick(shop.store, refit)
    with shop.store.read() as connection:
        state = connection.exec_driver_sql(f"SELECT state FROM task WHERE id = {refit}").scalar_one()
    assert state == TaskState.DONE


NOT_MADE = "HS-02 cap is decided remake and not made yet|HS-02 bearing cap is decided remake and not made yet"


@pytest.mark.parametrize("stage", [Stage.AS_FOUND, Stage.CLEANED])
def test_a_part_read_before_any_work_is_not_made(shop: Shop, refit: int, stage: Stage) -> None:
    width = spec.add_feature(shop.store, shop.cap, "width", FeatureKind.WIDTH)
    measure.record_reading(shop.store, "40.0", measure.Entry(width, stage=stage))
    refused(shop, refit, NOT_MADE)


@pytest.mark.parametrize("stage", [Stage.REWORKED, Stage.AS_MADE, Stage.FITTED])
def test_a_part_read_as_made_is_made_until_that_reading_is_struck(
    shop: Shop, refit: int, stage: Stage
) -> None:
    width = spec.add_feature(shop.store, shop.cap, "width", FeatureKind.WIDTH)
    made = measure.record_reading(shop.store, "40.0", measure.Entry(width, stage=stage))
    measure.strike_reading(shop.store, made.reading_id, "of the old cap")
    refused(shop, refit, NOT_MADE)
    shop.store.undo()
    taken(shop, refit)


def test_an_order_makes_a_part_ready_when_it_has_arrived(shop: Shop, refit: int) -> None:
    key = waiting.add_waiting(shop.store, shop.machine, "cap, cast", part_id=shop.cap)
    waiting.mark(shop.store, key, waiting.Mark.ORDERED, at=AT)
    refused(shop, refit, NOT_MADE)
    waiting.mark(shop.store, key, waiting.Mark.ARRIVED, at=AT)
    refused(shop, refit, "arrived and is not checked yet")
    waiting.mark(shop.store, key, waiting.Mark.CHECKED, at=AT)
    taken(shop, refit)


@pytest.mark.parametrize("origin", ["remade", "bought", "donor"])
def test_where_a_part_came_from_says_that_it_is_made(shop: Shop, refit: int, origin: str) -> None:
    edit.edit(shop.store, "part", [shop.cap], {"origin": "original"})
    refused(shop, refit, NOT_MADE)
    edit.edit(shop.store, "part", [shop.cap], {"origin": origin})
    taken(shop, refit)


# Seen: a cap decided rework and said to be done read "rework - remade"; a bought one too.
@pytest.mark.parametrize(
    ("decision", "words", "origin"),
    [
        ("rework", "is reworked", "original"),
        ("buy", "is bought and here", "bought"),
        ("remake", "is made", "remade"),
    ],
)
def test_done_as_decided_is_said_by_the_word_of_its_decision(
    shop: Shop, decision: str, words: str, origin: str
) -> None:
    lid = identify.add_part(shop.store, shop.machine, shop.headstock, "lid", "HS-07")
    on = tasks.add_task(shop.store, shop.machine, None, "Put the lid on", TaskKind.REFIT, part_id=lid)
    edit.edit(shop.store, "part", [lid], {"decision_reason": "cracked"})
    edit.edit(shop.store, "part", [lid], {"origin": "original", "decision": decision})
    with refuses(shop.store, "HS-07 lid is decided", Refused) as caught:
        tasks.tick(shop.store, on)
    refusal = caught.value
    assert isinstance(refusal, Refused)
    (way,) = [one for one in refusal.ways if one.kind is WayKind.MADE]
    assert way.words == f"HS-07 {words}"
    assert take(shop.store, way)
    with shop.store.read() as connection:
        said = connection.exec_driver_sql(f"SELECT origin FROM part WHERE id = {lid}").scalar_one()
    assert said == origin
    taken(shop, on)
    shop.store.undo()
    shop.store.undo()
    with refuses(shop.store, "HS-07 lid is decided", Refused):
        tasks.tick(shop.store, on)


def test_a_missing_part_is_not_put_on_whatever_was_read(shop: Shop, refit: int) -> None:
    edit.edit(shop.store, "part", [shop.cap], {"decision": "reuse", "origin": "missing"})
    refused(shop, refit, "HS-02 bearing cap is missing: .*Find or make it first")
    edit.edit(shop.store, "part", [shop.cap], {"origin": "original"})
    taken(shop, refit)


@pytest.mark.parametrize("kind", list(PlaceKind))
def test_a_part_in_a_bath_at_a_shop_or_lent_must_be_fetched_first(
    shop: Shop, refit: int, kind: PlaceKind
) -> None:
    edit.edit(shop.store, "part", [shop.cap], {"origin": "remade"})
    place = identify.add_place(shop.store, "corner", kind)
    identify.put(shop.store, [shop.cap], place)
    if kind in (PlaceKind.BATH, PlaceKind.AT_A_SHOP, PlaceKind.LENT):
        refused(shop, refit, "HS-02 bearing cap lies .* corner: .*Fetch it first and say where it lies")
    else:
        taken(shop, refit)


@pytest.mark.parametrize(
    ("state", "holds"), [("open", True), ("under way", True), ("left out", False), ("done", False)]
)
def test_an_opening_is_kept_for_a_step_until_it_is_done_or_left_out(
    shop: Shop, refit: int, state: str, holds: bool
) -> None:
    edit.edit(shop.store, "part", [shop.cap], {"origin": "remade"})
    setting = tasks.add_task(shop.store, shop.machine, shop.headstock, "Set the mesh")
    tasks.add_constraint(
        shop.store, setting, ConstraintKind.THROUGH_OPENING, "hand hole", part_ids=[shop.cap]
    )
    edit.edit(shop.store, "task", [setting], {"state": state})
    if holds:
        refused(shop, refit, "closes the opening that “Set the mesh” is done through")
    else:
        taken(shop, refit)


@pytest.mark.parametrize(("state", "holds"), [("open", True), ("under way", True), ("left out", False)])
def test_what_comes_before_holds_until_it_is_done_or_left_out(shop: Shop, state: str, holds: bool) -> None:
    edit.edit(shop.store, "task", [shop.strip], {"state": state})
    if holds:
        refused(shop, shop.measure, "A step before this one is still open: Take the spindle out → Measure")
    else:
        taken(shop, shop.measure)


@pytest.mark.parametrize(("state", "holds"), [("open", True), ("under way", True), ("left out", False)])
def test_what_is_done_while_it_is_off_waits_for_it_to_come_off(
    shop: Shop, refit: int, state: str, holds: bool
) -> None:
    off = tasks.add_task(
        shop.store, shop.machine, shop.headstock, "Take the cap off", TaskKind.REMOVE, part_id=shop.cap
    )
    lines = tasks.add_task(shop.store, shop.machine, shop.headstock, "Connect the lines")
    tasks.add_link(shop.store, lines, refit, LinkKind.WHILE_OFF)
    edit.edit(shop.store, "task", [off], {"state": state})
    if holds:
        refused(shop, lines, "has not come off yet: Take the cap off → Connect the lines")
    else:
        taken(shop, lines)


def test_an_inline_edit_asks_once_more_before_what_cannot_be_undone(shop: Shop) -> None:
    key = tasks.add_task(shop.store, shop.machine, None, "Ream the dog", typed={"irreversible": "yes"})
    with refuses(shop.store, "“Ream the dog” cannot be undone on the machine", Refused):
        edit.edit(shop.store, "task", [key], {"state": "done"})


def test_a_step_others_stand_on_is_not_opened_and_the_last_one_done_is(shop: Shop) -> None:
    for key in (shop.strip, shop.measure):
        tasks.tick(shop.store, key)
    with refuses(shop.store, "A step that comes after this one is done: Take the spindle out → Mea", Refused):
        acts_again.open_again(shop.store, shop.strip, "it came off again")
    with refuses(shop.store, "A step that comes after this one is done", Refused):
        edit.edit(shop.store, "task", [shop.strip], {"state": "open"})
    acts_again.open_again(shop.store, shop.measure, "it came off again")
    acts_again.open_again(shop.store, shop.strip, "it came off again")


def test_what_was_done_must_be_readable_or_the_step_stays_open(shop: Shop) -> None:
    for done, said in (
        (tasks.Done(torque="25"), "Torqued to: “25” has no unit"),
        (tasks.Done(measured="tight"), "Measured: “tight” is not a size"),
        (tasks.Done(joint="tightish"), "Joint: “tightish” is not a word for a joint"),
    ):
        with refuses(shop.store, said):
            tasks.tick(shop.store, shop.strip, done)
    with refuses(shop.store, "“snug” has no joint to land on; “Take the spindle out” puts no joint", Refused):
        tasks.tick(shop.store, shop.strip, tasks.Done("0.03", "25 N·m", joint="snug"))
    tasks.tick(shop.store, shop.strip, tasks.Done("0.03", "25 N·m"))


def test_links_refused_store_nothing(shop: Shop) -> None:
    other = identify.add_machine(shop.store, "Shaper")
    step = tasks.add_task(shop.store, other, None, "Lift the ram off")
    for first, second in ((shop.strip, step), (step, shop.strip)):
        with refuses(shop.store, "Step: “.*” belongs to another machine"):
            tasks.add_link(shop.store, first, second)
    with refuses(shop.store, "Link: “Take the spindle out” already comes first"):
        tasks.add_link(shop.store, shop.strip, shop.measure)
    with refuses(shop.store, "would wait for each other in a loop", Refused):
        tasks.add_link(shop.store, shop.measure, shop.strip)


@pytest.mark.parametrize(("at", "place"), [(-1, 0), (0, 0), (1, 1), (3, 3), (4, 4), (99, 4)])
def test_a_step_is_moved_to_the_place_asked_for(shop: Shop, at: int, place: int) -> None:
    drain = tasks.add_task(shop.store, shop.machine, shop.headstock, "Drain the oil")
    tasks.reorder(shop.store, [drain], at)
    with shop.store.read() as connection:
        order = connection.exec_driver_sql(
            f"SELECT id FROM task WHERE subassembly_id = {shop.headstock} ORDER BY position"
        )
        assert list(order.scalars()).index(drain) == place


def test_of_two_ways_off_the_one_left_out_does_not_hide_the_other(shop: Shop, refit: int) -> None:
    first, second = (
        tasks.add_task(shop.store, shop.machine, shop.headstock, title, TaskKind.REMOVE, part_id=shop.cap)
        for title in ("Pull the cap off", "Press the cap off")
    )
    lines = tasks.add_task(shop.store, shop.machine, shop.headstock, "Connect the lines")
    tasks.add_link(shop.store, lines, refit, LinkKind.WHILE_OFF)
    edit.edit(shop.store, "task", [first], {"state": "left out"})
    refused(shop, lines, "has not come off yet: Press the cap off → Connect the lines")
    edit.edit(shop.store, "task", [second], {"state": "left out"})
    taken(shop, lines)


@pytest.mark.parametrize(
    ("state", "refusing"), [("open", True), ("under way", True), ("left out", False), ("done", False)]
)
def test_the_order_of_a_list_minds_only_steps_still_to_do(shop: Shop, state: str, refusing: bool) -> None:
    edit.edit(shop.store, "task", [shop.strip], {"state": state})
    if refusing:
        with refuses(shop.store, "This order would break a constraint: Take the spindle out → Mea", Refused):
            tasks.reorder(shop.store, [shop.measure], 0)
    else:
        tasks.reorder(shop.store, [shop.measure], 0)
        with shop.store.read() as connection:
            first = connection.exec_driver_sql(
                f"SELECT id FROM task WHERE subassembly_id = {shop.headstock} ORDER BY position LIMIT 1"
            ).scalar_one()
        assert first == shop.measure


@pytest.mark.parametrize(("state", "refusing"), [("open", True), ("left out", False)])
def test_what_must_be_done_while_off_is_not_linked_to_what_is_on_again(
    shop: Shop, refit: int, state: str, refusing: bool
) -> None:
    edit.edit(shop.store, "part", [shop.cap], {"origin": "remade"})
    lines = tasks.add_task(shop.store, shop.machine, shop.headstock, "Connect the lines")
    taken(shop, refit)
    edit.edit(shop.store, "task", [lines], {"state": state})
    if refusing:
        with refuses(shop.store, "can only be done while it is still off, but it is on again", Refused):
            tasks.add_link(shop.store, lines, refit, LinkKind.WHILE_OFF)
    else:
        tasks.add_link(shop.store, lines, refit, LinkKind.WHILE_OFF)
