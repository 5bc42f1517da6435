"""A thing is in one place: put in, sent out, lent, bathed and put on again are one record, and undo takes each back."""

from __future__ import annotations

import ast
import datetime as dt
import random
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING

import rebuild
from rebuild.errors import BadEntry, Clash
from rebuild.words.places import PlaceKind
from rebuild.words.teardown import RemovalWay
from rebuild.words.waiting import ClockKind, WaitingKind
from rebuild.work.decisions.acts import decide
from rebuild.work.editing.acts import edit, remove
from rebuild.work.machines.acts import add_part, add_place, put
from rebuild.work.places.rows import Sort, StayRow, lying, places, stays, stays_in
from rebuild.work.teardown.acts import Off, log_removal
from rebuild.work.teardown.rows_removals import RemovalRow, current_attempt, removals
from rebuild.work.waiting import acts as waiting
from rebuild.work.waiting.acts_clocks import About, close_clock, start_clock
from rebuild.work.waiting.rows import Stand, WaitingRow, waiting as waiting_rows

if TYPE_CHECKING:
    from tests.conftest import Shop

DAY = dt.datetime(2026, 3, 2, 9, 0)
LATER = DAY + dt.timedelta(days=40)


def lay(shop: Shop, part_id: int) -> list[StayRow]:
    with shop.store.read() as connection:
        return stays(connection, part_id)


def waited(shop: Shop) -> list[WaitingRow]:
    with shop.store.read() as connection:
        return waiting_rows(connection, shop.machine, LATER)


def log_of(shop: Shop) -> list[RemovalRow]:
    with shop.store.read() as connection:
        attempt = current_attempt(connection, shop.machine, shop.headstock)
        assert attempt is not None
        return removals(connection, attempt.id)


def one_truth(shop: Shop) -> None:
    """Each part says what its stay not left says, and no part has two."""
    with shop.store.read() as connection:
        told = connection.exec_driver_sql(
            "SELECT part.id, part.place_id, part.placed_at, stay.place_id, stay.came_at, "
            "(SELECT count(*) FROM stay AS other WHERE other.part_id = part.id AND other.left_at IS NULL) "
            "FROM part LEFT JOIN stay ON stay.part_id = part.id AND stay.left_at IS NULL"
        ).all()
    for part_id, place, at, stay_place, came, count in told:
        assert (place, at, count) == (stay_place, came, count if count < 2 else 1), part_id


def test_put_in_and_place_are_one_and_what_came_before_stays(shop: Shop) -> None:
    bag = add_place(shop.store, "3", PlaceKind.BAG)
    shelf = add_place(shop.store, "B1", PlaceKind.SHELF)
    off = Off((shop.spindle,), RemovalWay.LIFTED, place_id=bag, at=DAY)
    removal = log_removal(shop.store, shop.machine, shop.headstock, off)
    assert [(row.place, row.words, row.why) for row in lay(shop, shop.spindle)] == [
        ("bag 3", "since 2 Mar 2026", "came off, no. 1 of its log")
    ]
    edit(shop.store, "removal", [removal], {"place_id": str(shelf)})
    assert [row.place for row in lay(shop, shop.spindle)] == ["shelf B1"]
    one_truth(shop)
    edit(shop.store, "part", [shop.spindle], {"place_id": str(bag)})
    (line,) = log_of(shop)
    assert line.place == "shelf B1"
    assert line.now.startswith("bag 3 since ")
    assert [row.place for row in lay(shop, shop.spindle)] == ["bag 3", "shelf B1"]
    with shop.store.read() as connection:
        assert [row.part for row in stays_in(connection, shelf)] == ["HS-01 spindle"]
        assert [(one.sort, one.called) for one in lying(connection, bag, LATER)] == [
            (Sort.PART, "HS-01 spindle")
        ]
        assert {row.called: row.things for row in places(connection)} == {"bag 3": 1, "shelf B1": 0}
    shop.store.undo()
    assert [row.place for row in lay(shop, shop.spindle)] == ["shelf B1"]
    one_truth(shop)
    remove(shop.store, "place", [shelf])
    assert [row.place for row in lay(shop, shop.spindle)] == ["nobody noted where"]
    one_truth(shop)


def test_a_put_in_typed_after_the_part_went_on_is_history(shop: Shop) -> None:
    bag, shelf = add_place(shop.store, "3", PlaceKind.BAG), add_place(shop.store, "B1", PlaceKind.SHELF)
    removal = log_removal(shop.store, shop.machine, shop.headstock, Off((shop.spindle,), at=DAY))
    put(shop.store, [shop.spindle], shelf, at=LATER)
    edit(shop.store, "removal", [removal], {"place_id": str(bag)})
    assert [(row.place, row.words) for row in lay(shop, shop.spindle)] == [
        ("shelf B1", "since 11 Apr 2026"), ("bag 3", "2 Mar 2026 to 11 Apr 2026"),
    ]  # fmt: skip
    one_truth(shop)


def test_a_part_at_a_shop_is_waited_for_until_it_is_put_elsewhere(shop: Shop) -> None:
    grinder = add_place(shop.store, "grinding shop", PlaceKind.AT_A_SHOP)
    bag = add_place(shop.store, "3", PlaceKind.BAG)
    put(shop.store, [shop.spindle], grinder, at=DAY)
    (line,) = waited(shop)
    assert (line.kind, line.what, line.who, line.ordered_at, line.stand) == (
        WaitingKind.SENT_OUT, "HS-01 spindle", "grinding shop", DAY, Stand.OPEN,
    )  # fmt: skip
    put(shop.store, [shop.spindle], grinder, at=LATER)
    assert lay(shop, shop.spindle)[0].came_at == DAY, "put where it lies already, it lies there since it came"
    put(shop.store, [shop.spindle], bag, at=LATER)
    (line,) = waited(shop)
    assert (line.stand, line.arrived_at) == (Stand.ARRIVED, LATER)
    one_truth(shop)
    shop.store.undo()
    assert waited(shop)[0].stand is Stand.OPEN
    shop.store.undo()
    shop.store.undo()
    assert waited(shop) == []
    assert lay(shop, shop.spindle) == []


def test_an_order_marked_gone_and_back_moves_its_part(shop: Shop) -> None:
    bag = add_place(shop.store, "3", PlaceKind.BAG)
    put(shop.store, [shop.spindle], bag, at=DAY)
    ground = waiting.add_waiting(
        shop.store, shop.machine, "journals ground", WaitingKind.SENT_OUT, part_id=shop.spindle,
        typed={"who": "county works"},
    )  # fmt: skip
    assert lay(shop, shop.spindle)[0].place == "bag 3"
    waiting.mark(shop.store, ground, waiting.Mark.ORDERED, at=DAY)
    assert [row.place for row in lay(shop, shop.spindle)] == ["at a shop county works", "bag 3"]
    assert lay(shop, shop.spindle)[0].why == "sent out: journals ground"
    waiting.mark(shop.store, ground, waiting.Mark.ARRIVED, place_id=bag, at=LATER)
    assert [row.place for row in lay(shop, shop.spindle)] == ["bag 3", "at a shop county works", "bag 3"]
    one_truth(shop)
    shop.store.undo()
    edit(shop.store, "waiting", [ground], {"arrived_at": "2026-04-11"})
    assert lay(shop, shop.spindle)[0].place == "nobody noted where"
    edit(shop.store, "waiting", [ground], {"place_id": str(bag)})
    assert lay(shop, shop.spindle)[0].place == "bag 3"
    one_truth(shop)


def test_of_a_part_to_be_remade_the_old_one_stays_where_it_is(shop: Shop) -> None:
    bag = add_place(shop.store, "3", PlaceKind.BAG)
    put(shop.store, [shop.cap], bag, at=DAY)
    made = waiting.add_waiting(
        shop.store, shop.machine, "new cap cast", WaitingKind.SENT_OUT, part_id=shop.cap,
        typed={"ordered_at": "2026-03-03", "who": "foundry"},
    )  # fmt: skip
    assert [row.place for row in lay(shop, shop.cap)] == ["bag 3"]
    lent = waiting.add_waiting(
        shop.store, shop.machine, "cap to copy", WaitingKind.LENT, part_id=shop.cap,
        typed={"ordered_at": "2026-03-04", "who": "neighbour"},
    )  # fmt: skip
    assert lay(shop, shop.cap)[0].place == "lent neighbour"
    waiting.mark(shop.store, lent, waiting.Mark.RETURNED, at=LATER)
    assert lay(shop, shop.cap)[0].place == "nobody noted where"
    assert made
    one_truth(shop)


def test_a_bath_is_a_place_and_its_clock_goes_with_it(shop: Shop) -> None:
    bag, bath = add_place(shop.store, "3", PlaceKind.BAG), add_place(shop.store, "rust bath", PlaceKind.BATH)
    about = About(part_id=shop.spindle)
    (clock,) = start_clock(shop.store, shop.machine, ClockKind.BATH, "", about=about, started=DAY)
    assert lay(shop, shop.spindle)[0].place_id == bath
    put(shop.store, [shop.spindle], bag, at=LATER)
    with shop.store.read() as connection:
        closed = connection.exec_driver_sql(f"SELECT closed_note FROM clock WHERE id = {clock}").scalar_one()
    assert closed == "taken out of the bath"
    (again,) = start_clock(
        shop.store, shop.machine, ClockKind.BATH, "RUST BATH, again", about=about, started=LATER
    )
    close_clock(shop.store, [again], at=LATER)
    assert [row.place for row in lay(shop, shop.spindle)][:2] == ["nobody noted where", "rust bath"]
    one_truth(shop)


def test_a_place_that_becomes_a_shop_sends_out_what_lies_in_it(shop: Shop) -> None:
    corner = add_place(shop.store, "corner", PlaceKind.OTHER)
    put(shop.store, [shop.spindle], corner, at=DAY)
    edit(shop.store, "place", [corner], {"kind": "at a shop"})
    assert [(line.kind, line.who) for line in waited(shop)] == [(WaitingKind.SENT_OUT, "corner")]
    new = add_part(shop.store, shop.machine, None, "spare belt", typed={"place_id": str(corner)})
    assert lay(shop, new)[0].place == "at a shop corner"
    assert len(waited(shop)) == 2
    one_truth(shop)


def test_whatever_moves_a_part_it_lies_in_one_place(shop: Shop) -> None:
    """A hundred acts in any order, undo among them: part, stay, put in and line never say two things."""
    chance = random.Random(13)
    store = shop.store
    rooms = [add_place(store, kind.value, kind) for kind in PlaceKind]
    line = waiting.add_waiting(
        store,
        shop.machine,
        "ground",
        WaitingKind.SENT_OUT,
        part_id=shop.spindle,
        typed={"who": "county works"},
    )
    removal = log_removal(store, shop.machine, shop.headstock, Off((shop.spindle, shop.cap), at=DAY))
    (clock,) = start_clock(store, shop.machine, ClockKind.BATH, "soak", about=About(part_id=shop.spindle))
    for turn in range(100):
        at = DAY + dt.timedelta(hours=turn)
        room = chance.choice(rooms)
        part = chance.choice((shop.spindle, shop.cap))
        acts = (
            lambda part=part, room=room, at=at: put(store, [part], room, at=at),
            lambda part=part, room=room: edit(store, "part", [part], {"place_id": str(room)}),
            lambda room=room: edit(store, "removal", [removal], {"place_id": str(room)}),
            lambda at=at: waiting.mark(store, line, chance.choice(list(waiting.Mark)), at=at),
            lambda at=at: edit(
                store, "waiting", [line], {"arrived_at": "", "returned_at": "", "inspected_at": ""}
            ),
            lambda at=at: close_clock(store, [clock], at=at),
            store.undo,
        )
        with suppress(BadEntry, Clash):
            chance.choice(acts)()
        one_truth(shop)
        for key in (shop.spindle, shop.cap):
            ends = [(row.came_at, row.left_at) for row in lay(shop, key)]
            assert all(came is None or left is None or came <= left for came, left in ends)
    decide(store, [shop.spindle], chance.choice(list(_decisions())), reason="tried")
    one_truth(shop)


def _decisions() -> tuple[object, ...]:
    from rebuild.words.decisions import Decision

    return (Decision.REUSE, Decision.REWORK)


def test_only_the_move_writes_where_a_part_lies() -> None:
    """``part.place_id = …`` anywhere else would be a second truth; typed fields go through it by their rule."""
    folder = Path(rebuild.__file__).parent
    writers = {
        path.relative_to(folder).as_posix()
        for path in folder.rglob("*.py")
        if any(name in (text := path.read_text("utf-8")) for name in ("place_id", "placed_at"))
        for node in ast.walk(ast.parse(text))
        if isinstance(node, (ast.Assign, ast.AugAssign))
        for target in (node.targets if isinstance(node, ast.Assign) else [node.target])
        for one in ast.walk(target)
        if isinstance(one, ast.Attribute)
        and one.attr in ("place_id", "placed_at")
        and isinstance(one.value, ast.Name)
        and one.value.id == "part"
    }
    assert writers == {
        "work/places/acts_move.py",
        "work/places/acts_follow.py",
        "work/lists/acts_rows.py",  # on a part not stored yet; the move follows it
    }
