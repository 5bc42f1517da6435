"""Naming what is there: machines, groups, parts, places and sets; and moving them about."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from rebuild.errors import BadEntry, NotThere
from rebuild.store.store import Store
from rebuild.words.places import PlaceKind
from rebuild.work.machines import acts as identify, rows_tree as tree
from rebuild.work.records.rows import card

if TYPE_CHECKING:
    from tests.conftest import Shop


def fields(store: Store, record: str, key: int) -> dict[str, str]:
    with store.read() as connection:
        return card(connection, record, key).fields


def part_order(shop: Shop, group: int | None) -> list[str]:
    with shop.store.read() as connection:
        return [row.name for row in tree.parts(connection, shop.machine) if row.subassembly_id == group]


def test_a_machine_from_typed_text(store: Store) -> None:
    key = identify.add_machine(
        store, " Crank shaper ", {"kind": "shaper", "unit": "in", "scope": "recondition"}
    )
    shown = fields(store, "machine", key)
    assert (shown["name"], shown["kind"], shown["unit"], shown["scope"]) == (
        "Crank shaper",
        "shaper",
        "in",
        "recondition",
    )
    assert store.undo_label() == "new machine Crank shaper"


@pytest.mark.parametrize(
    ("name", "typed", "said"),
    [
        ("", {}, "Name: is empty. Type a name."),
        ("x", {"kind": "spaceship"}, "Kind: “spaceship” is not one of the words. Choose lathe, mill"),
        ("x", {"unit": "cubit"}, "Unit: “cubit” is not a unit the grid shows. Type mm or in."),
        ("x" * 300, {}, "Name: “xxxx"),
    ],
)
def test_a_machine_refused(store: Store, name: str, typed: dict[str, str], said: str) -> None:
    with pytest.raises(BadEntry) as refusal:
        identify.add_machine(store, name, typed)
    assert str(refusal.value).startswith(said)
    assert store.undo_label() is None


def test_groups_nest_and_keep_their_order(shop: Shop) -> None:
    inner = identify.add_subassembly(shop.store, shop.machine, "Bearings", "HS-B", parent_id=shop.headstock)
    with shop.store.read() as connection:
        rows = tree.subassemblies(connection, shop.machine)
    assert tree.order_of_subassemblies(rows) == [shop.headstock, inner, shop.carriage]
    assert tree.with_descendants(rows, shop.headstock) == {shop.headstock, inner}


def test_a_group_cannot_lie_inside_itself_or_in_another_machine(shop: Shop) -> None:
    inner = identify.add_subassembly(shop.store, shop.machine, "Bearings", parent_id=shop.headstock)
    with pytest.raises(BadEntry, match="would lie inside itself"):
        identify.move_subassembly(shop.store, shop.headstock, inner)
    other = identify.add_machine(shop.store, "Shaper")
    ram = identify.add_subassembly(shop.store, other, "Ram")
    with pytest.raises(BadEntry, match="belongs to another machine"):
        identify.move_subassembly(shop.store, inner, ram)
    with pytest.raises(BadEntry, match=r"Subassembly: “Ram” belongs to another machine"):
        identify.add_subassembly(shop.store, shop.machine, "x", parent_id=ram)
    with pytest.raises(BadEntry, match="belongs to another machine"):
        identify.add_part(shop.store, shop.machine, ram, "x")
    with pytest.raises(BadEntry, match="belongs to another machine"):
        identify.move_parts(shop.store, [shop.cap], ram)


def test_a_group_is_moved_among_its_siblings(shop: Shop) -> None:
    identify.move_subassembly(shop.store, shop.carriage, None, 0)
    with shop.store.read() as connection:
        assert [row.id for row in tree.subassemblies(connection, shop.machine)] == [
            shop.carriage,
            shop.headstock,
        ]
    assert shop.store.undo_label() == "move of CA Carriage"


def test_a_tag_names_one_part(shop: Shop) -> None:
    with pytest.raises(BadEntry) as refusal:
        identify.add_part(shop.store, shop.machine, shop.carriage, "apron", "HS-01")
    assert str(refusal.value) == (
        "Code: “HS-01” is already the code of “spindle”. Choose another; a tag must name one part."
    )
    identify.add_part(shop.store, shop.machine, None, "unknown pin")
    identify.add_part(shop.store, shop.machine, None, "unknown shim")
    other = identify.add_machine(shop.store, "Shaper")
    identify.add_part(shop.store, other, None, "pin", "HS-01")


def test_parts_are_moved_together_and_in_order(shop: Shop) -> None:
    gear = identify.add_part(shop.store, shop.machine, shop.headstock, "gear", "HS-03")
    identify.move_parts(shop.store, [gear, shop.cap], shop.headstock, 0)
    assert part_order(shop, shop.headstock) == ["gear", "bearing cap", "spindle"]
    identify.move_parts(shop.store, [shop.spindle, shop.cap], shop.carriage)
    assert part_order(shop, shop.carriage) == ["spindle", "bearing cap"]
    assert shop.store.undo_label() == "move of HS-01 spindle and 1 more to CA Carriage"
    identify.move_parts(shop.store, [gear], None)
    assert part_order(shop, None) == ["gear"]
    for _ in range(3):
        shop.store.undo()
    assert part_order(shop, shop.headstock) == ["spindle", "bearing cap", "gear"]


def test_moving_nothing_or_to_where_it_is_leaves_no_trace(shop: Shop) -> None:
    label = shop.store.undo_label()
    identify.move_parts(shop.store, [], shop.carriage)
    identify.move_parts(shop.store, [shop.spindle], shop.headstock, 0)
    identify.put(shop.store, [], None)
    assert shop.store.undo_label() == label


def test_putting_parts_away(shop: Shop) -> None:
    bag = identify.add_place(shop.store, "3", PlaceKind.BAG)
    identify.put(shop.store, [shop.spindle, shop.cap], bag)
    assert shop.store.undo_label() == "putting away HS-01 spindle and 1 more in bag 3"
    with shop.store.read() as connection:
        assert {row.place for row in tree.parts(connection, shop.machine)} == {"bag 3"}
    identify.put(shop.store, [shop.cap], None)
    assert shop.store.undo_label() == "putting away HS-02 bearing cap nowhere known"
    with pytest.raises(NotThere, match=r"The place no\. 77 is no longer there"):
        identify.put(shop.store, [shop.cap], 77)


def test_a_matched_set_is_of_one_machine(shop: Shop) -> None:
    key = identify.add_matched_set(shop.store, shop.machine, "spindle and cap", [shop.spindle, shop.cap])
    assert fields(shop.store, "part", shop.cap)["matched_set_id"] == str(key)
    other = identify.add_machine(shop.store, "Shaper")
    with pytest.raises(BadEntry, match="belongs to another machine"):
        identify.add_matched_set(shop.store, other, "ram", [shop.spindle])


@pytest.mark.parametrize("act", ["add_subassembly", "add_part", "add_matched_set"])
def test_a_machine_that_is_gone(shop: Shop, act: str) -> None:
    calls = {
        "add_subassembly": lambda: identify.add_subassembly(shop.store, 99, "x"),
        "add_part": lambda: identify.add_part(shop.store, 99, None, "x"),
        "add_matched_set": lambda: identify.add_matched_set(shop.store, 99, "x"),
    }
    with pytest.raises(NotThere, match=r"The machine no\. 99 is no longer there\. It may have been removed"):
        calls[act]()
