"""Where a part lies and since when, who may join a set, and codes: each refusal leaves the file as it was."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import pytest

from rebuild.words.places import PlaceKind
from rebuild.work.editing import acts as edit
from rebuild.work.machines import acts as identify
from tests.support import refuses

if TYPE_CHECKING:
    from tests.conftest import Shop

AT = dt.datetime(2026, 3, 14, 8, 0)


def part(shop: Shop, key: int, column: str) -> object:
    with shop.store.read() as connection:
        return connection.exec_driver_sql(f"SELECT {column} FROM part WHERE id = {key}").scalar_one()


def test_a_part_lies_where_it_was_put_since_then(shop: Shop) -> None:
    bag = identify.add_place(shop.store, "bag 3", PlaceKind.BAG)
    identify.put(shop.store, [shop.cap], bag, at=AT)
    assert (part(shop, shop.cap, "place_id"), part(shop, shop.cap, "placed_at")) == (bag, AT.isoformat())
    later = AT + dt.timedelta(days=2)
    identify.put(shop.store, [shop.cap], None, at=later)
    assert (part(shop, shop.cap, "place_id"), part(shop, shop.cap, "placed_at")) == (None, later.isoformat())
    shop.store.undo()
    assert part(shop, shop.cap, "placed_at") == AT.isoformat()


def test_a_place_set_by_editing_says_since_when_and_another_field_does_not(shop: Shop) -> None:
    bag = identify.add_place(shop.store, "bag 3", PlaceKind.BAG)
    edit.edit(shop.store, "part", [shop.cap], {"condition": "worn"})
    assert part(shop, shop.cap, "placed_at") is None
    edit.edit(shop.store, "part", [shop.cap], {"place_id": str(bag)})
    assert part(shop, shop.cap, "placed_at") is not None


def test_a_code_is_one_part_s_on_its_machine_only(shop: Shop) -> None:
    with refuses(shop.store, "Code: “HS-01” is already the code of “spindle”"):
        identify.add_part(shop.store, shop.machine, shop.headstock, "spacer", "HS-01")
    with refuses(shop.store, "Code: “HS-01” is already the code of “spindle”"):
        edit.edit(shop.store, "part", [shop.cap], {"code": "HS-01"})
    edit.edit(shop.store, "part", [shop.spindle], {"code": "HS-01", "name": "main spindle"})
    other = identify.add_machine(shop.store, "Shaper")
    assert identify.add_part(shop.store, other, None, "ram", "HS-01")


def test_a_code_typed_anew_may_be_the_part_s_own(shop: Shop) -> None:
    edit.edit(shop.store, "part", [shop.spindle], {"code": "HS-1"})
    edit.edit(shop.store, "part", [shop.spindle], {"code": "HS-01"})
    assert part(shop, shop.spindle, "code") == "HS-01"


def test_a_set_and_a_place_among_others_are_of_one_machine(shop: Shop) -> None:
    other = identify.add_machine(shop.store, "Shaper")
    ram = identify.add_part(shop.store, other, None, "ram")
    with refuses(shop.store, "Part: “ram” belongs to another machine"):
        identify.add_matched_set(shop.store, shop.machine, "pair", [shop.cap, ram])
    with refuses(shop.store, "Part: “ram” belongs to another machine"):
        identify.move_parts(shop.store, [shop.cap, ram], shop.headstock)
    with refuses(shop.store, "belongs to another machine"):
        identify.move_parts(shop.store, [ram], shop.headstock)


def test_a_group_may_not_lie_inside_itself_at_any_depth(shop: Shop) -> None:
    inner = identify.add_subassembly(shop.store, shop.machine, "Gearbox", parent_id=shop.headstock)
    inmost = identify.add_subassembly(shop.store, shop.machine, "Cluster", parent_id=inner)
    for target in (shop.headstock, inner, inmost):
        with refuses(shop.store, "Subassembly: “Headstock” would lie inside itself"):
            identify.move_subassembly(shop.store, shop.headstock, target)
    identify.move_subassembly(shop.store, inmost, shop.headstock)


@pytest.mark.parametrize("reason", ["", " \t"])
@pytest.mark.parametrize("decision", ["remake", "buy", "rework", "defer"])
def test_a_decision_that_costs_wants_a_reason_however_it_is_set(
    shop: Shop, decision: str, reason: str
) -> None:
    typed = {"decision": decision, "decision_reason": reason}
    with refuses(shop.store, f"Reason: is empty. Say in a few words why to {decision}"):
        edit.edit(shop.store, "part", [shop.spindle], typed)
    edit.edit(shop.store, "part", [shop.spindle], {**typed, "decision_reason": "worn"})


def test_a_part_is_no_spare_of_itself(shop: Shop) -> None:
    with refuses(shop.store, "Spare of: “bearing cap” cannot be a spare of itself"):
        edit.edit(shop.store, "part", [shop.cap], {"spare_of_id": str(shop.cap)})
    edit.edit(shop.store, "part", [shop.cap], {"spare_of_id": str(shop.spindle)})
