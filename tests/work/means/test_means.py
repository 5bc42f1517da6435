"""Means: named by steps, lacking ones hold them and are offered as make, buy or borrow; lent ones too."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import pytest

from rebuild.words.means import MeansKind, MeansStand
from rebuild.words.places import PlaceKind
from rebuild.words.steps import ConstraintKind
from rebuild.words.waiting import WaitingKind
from rebuild.work.editing.acts import edit
from rebuild.work.editing.acts_ways_out import take
from rebuild.work.machines.acts import add_place
from rebuild.work.means import acts
from rebuild.work.means.rows import Lacking, MeansRow, lacking, means, of_steps
from rebuild.work.places.rows import lying, places
from rebuild.work.records.rows import card
from rebuild.work.records.ways_out import Refused, WayKind
from rebuild.work.steps.acts import add_constraint, tick
from rebuild.work.steps.rows import tasks
from rebuild.work.waiting import acts as waiting
from tests.support import refuses

if TYPE_CHECKING:
    from tests.conftest import Shop

NOW = dt.datetime(2026, 6, 15, 20, 0)
H, M, U, B, R = (
    WayKind.HAVE_MEANS, WayKind.MAKE_MEANS, WayKind.BUY_MEANS, WayKind.BORROW_MEANS, WayKind.BACK_MEANS,
)  # fmt: skip


def one(shop: Shop, key: int) -> MeansRow:
    with shop.store.read() as connection:
        return next(row for row in means(connection) if row.id == key)


def held(shop: Shop) -> dict[int, tuple[Lacking, ...]]:
    with shop.store.read() as connection:
        return lacking(connection, shop.machine)


def test_a_step_waits_for_what_the_shop_lacks_and_says_how_to_come_by_it(shop: Shop) -> None:
    tap = acts.name_means(shop.store, shop.remake, "left-hand tap 7/16-14", note="for the cap screw")
    (told,) = held(shop)[shop.remake]
    assert told.sentence == "needs left-hand tap 7/16-14: the shop has none"
    assert (told.ref.record, told.ref.id, told.step_id) == ("means", tap, shop.remake)
    assert [way.kind for way in told.ways] == [M, U, B, H]
    for key in (shop.strip, shop.measure):
        tick(shop.store, key)
    with refuses(
        shop.store, "“Make a new cap” needs left-hand tap 7/16-14: the shop has none", Refused
    ) as refusal:
        tick(shop.store, shop.remake)
    assert isinstance(refusal.value, Refused)
    have = next(way for way in refusal.value.ways if way.kind is H)
    assert take(shop.store, have), "the tick is tried again once the shop has it"
    assert held(shop) == {}
    tick(shop.store, shop.remake)
    shop.store.undo()
    shop.store.undo()
    assert list(held(shop)) == [shop.remake]
    tick(shop.store, shop.remake, confirmed=True, reason="a neighbour cut it")
    assert held(shop) == {}, "a step that is done waits for nothing"
    with shop.store.read() as connection:
        (named,) = of_steps(connection, [shop.remake])
    assert (named.note, named.means.name) == ("for the cap screw", "left-hand tap 7/16-14")


def test_made_first_it_is_a_step_before_those_that_need_it(shop: Shop) -> None:
    tool = acts.name_means(shop.store, shop.remake, "boring bar")
    (told,) = held(shop)[shop.remake]
    assert not take(shop.store, told.ways[0]), "made is not yet had"
    assert one(shop, tool).stand is MeansStand.BEING_MADE
    acts.name_means(shop.store, shop.refit, "boring bar")
    with shop.store.read() as connection:
        rows = {row.id: row for row in tasks(connection, shop.machine)}
    made = next(row for row in rows.values() if row.title == "Make boring bar")
    for key in (shop.remake, shop.refit):
        assert made.id in [before for before, _ in rows[key].waits_for]
    assert held(shop)[shop.remake][0].sentence == "needs boring bar: to be made first: “Make boring bar”"
    with refuses(shop.store, "What: “boring bar” is being made already"):
        acts.make(shop.store, tool)
    tick(shop.store, made.id)
    assert held(shop) == {}
    assert one(shop, tool).words == "made here"


def test_a_tool_made_by_the_step_that_names_it_holds_it_not(shop: Shop) -> None:
    tool = acts.add_means(shop.store, "lapping ring")
    made = acts.make(shop.store, tool, shop.machine)
    acts.name_means(shop.store, made, "lapping ring", note="its own size is turned first")
    acts.name_means(shop.store, shop.refit, "lapping ring")
    assert list(held(shop)) == [shop.refit]


@pytest.mark.parametrize("here", [True, False])
def test_bought_borrowed_and_lent_follow_their_line(shop: Shop, here: bool) -> None:
    shelf = add_place(shop.store, "A1", PlaceKind.SHELF)
    gauge = acts.add_means(shop.store, "plug gauge 24 H7", MeansKind.GAUGE, {"place_id": str(shelf)})
    acts.name_means(shop.store, shop.remake, "PLUG GAUGE 24 h7", MeansKind.GAUGE)
    line = acts.buy(shop.store, gauge, shop.machine)
    assert one(shop, gauge).stand is MeansStand.TO_ORDER
    with refuses(shop.store, "“plug gauge 24 H7” is on order already"):
        acts.borrow(shop.store, gauge)
    edit(
        shop.store,
        "waiting",
        [line],
        {"ordered_at": "2026-03-01", "promised_at": "2026-03-20", "who": "gauge house"},
    )
    assert one(shop, gauge).words == "ordered from gauge house, promised 20 Mar 2026"
    assert [way.kind for way in held(shop)[shop.remake][0].ways] == [R]
    if here:
        waiting.mark(shop.store, line, waiting.Mark.ARRIVED)
        assert one(shop, gauge).words == "bought"
        acts.have(shop.store, gauge)
    else:
        acts.back(shop.store, gauge)
    assert (one(shop, gauge).here, held(shop)) == (True, {})
    with refuses(shop.store, "To whom: is empty"):
        acts.lend(shop.store, gauge, " ")
    acts.lend(shop.store, gauge, "neighbour")
    assert held(shop)[shop.remake][0].sentence == "needs plug gauge 24 H7: lent to neighbour"
    with shop.store.read() as connection:
        told = {
            row.called: [one.called for one in lying(connection, row.id, NOW)] for row in places(connection)
        }
    assert told == {"shelf A1": [], "lent neighbour": ["plug gauge 24 H7"]}, "a loan is a place"
    with shop.store.read() as connection:
        kinds = connection.exec_driver_sql("SELECT kind FROM waiting ORDER BY id").scalars().all()
    assert kinds[-1] == WaitingKind.LENT.value
    with refuses(shop.store, "“plug gauge 24 H7” is lent out already"):
        acts.lend(shop.store, gauge, "another")
    assert take(shop.store, held(shop)[shop.remake][0].ways[0])
    assert one(shop, gauge).here


def test_a_thing_borrowed_is_here_until_it_is_given_back(shop: Shop) -> None:
    bar = acts.name_means(shop.store, shop.refit, "torque wrench 1/2 in")
    with refuses(shop.store, "“torque wrench 1/2 in” is not the shop's own"):
        acts.lend(shop.store, bar, "neighbour")
    acts.borrow(shop.store, bar, who="garage")
    assert one(shop, bar).words == "to be borrowed from garage"
    acts.back(shop.store, bar)
    assert (one(shop, bar).here, one(shop, bar).words) == (True, "borrowed from garage")
    acts.back(shop.store, bar)
    assert one(shop, bar).stand is MeansStand.LACKING
    with refuses(shop.store, "is neither lent, borrowed nor ordered"):
        acts.back(shop.store, bar)
    shop.store.undo()
    assert one(shop, bar).here


def test_two_people_or_a_hoist_are_asked_for_by_constraint_too(shop: Shop) -> None:
    add_constraint(shop.store, shop.refit, ConstraintKind.TWO_PEOPLE, "headstock casting")
    assert held(shop) == {}, "a shop that listed neither is not said to lack them"
    hoist = acts.add_means(shop.store, "engine hoist", MeansKind.HOIST)
    assert held(shop)[shop.refit][0].sentence == "needs engine hoist: the shop has none"
    acts.add_means(shop.store, "brother", MeansKind.HELPER, {"owned": "yes"})
    assert held(shop) == {}
    acts.name_means(shop.store, shop.refit, "engine hoist")
    assert len(held(shop)[shop.refit]) == 1, "named, it is wanted whoever helps"
    rags = acts.name_means(shop.store, shop.strip, "rags", MeansKind.CONSUMABLE)
    with refuses(shop.store, "“rags” is a consumable and is not made"):
        acts.make(shop.store, rags)
    with refuses(shop.store, "“Engine hoist” is on the list already"):
        acts.add_means(shop.store, "Engine hoist")
    with refuses(shop.store, "“engine hoist” is named by this step already"):
        acts.name_means(shop.store, shop.refit, "engine hoist")
    acts.have(shop.store, hoist)
    acts.have(shop.store, hoist, owned=False)
    assert not one(shop, hoist).here


def lent_places(shop: Shop) -> list[str]:
    with shop.store.read() as connection:
        return [row.name for row in places(connection) if row.kind is PlaceKind.LENT]


# Seen: a borrower typed anew left his place under the old name and got a second one.
def test_a_borrower_called_otherwise_keeps_one_place_and_one_line(shop: Shop) -> None:
    gauge = acts.add_means(shop.store, "bore gauge", typed={"owned": "yes"})
    bar = acts.add_means(shop.store, "test bar", typed={"owned": "yes"})
    line = acts.lend(shop.store, gauge, "neighbour")
    edit(shop.store, "waiting", [line], {"who": "the Miller boys"})
    assert lent_places(shop) == ["the Miller boys"]
    shop.store.undo()
    assert lent_places(shop) == ["neighbour"]
    other = acts.lend(shop.store, bar, "neighbour")
    edit(shop.store, "waiting", [line], {"who": "the Miller boys"})
    assert sorted(lent_places(shop)) == ["neighbour", "the Miller boys"], (
        "the bar is still with the neighbour"
    )
    with shop.store.read() as connection:
        (place,) = [row.id for row in places(connection) if row.name == "neighbour"]
    edit(shop.store, "place", [place], {"name": "neighbour, number 9"})
    with shop.store.read() as connection:
        assert card(connection, "waiting", other).fields["who"] == "neighbour, number 9"
        assert card(connection, "waiting", line).fields["who"] == "the Miller boys"
