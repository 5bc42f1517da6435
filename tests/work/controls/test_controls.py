"""Controls: the usual ones laid out, as found, proved after refit, and what is not proved stands before power."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rebuild.trade.run_in.controls import same_travel, usual_controls
from rebuild.words.controls import ControlKind
from rebuild.words.machines import MachineKind
from rebuild.words.run_in import LookWhen
from rebuild.work.controls import acts
from rebuild.work.controls.rows import ControlRow, controls
from rebuild.work.editing.acts import edit
from rebuild.work.machines.acts import add_machine
from rebuild.work.power.rows import before_power
from tests.support import refuses

if TYPE_CHECKING:
    from tests.conftest import Shop


def listed(shop: Shop) -> list[ControlRow]:
    with shop.store.read() as connection:
        return controls(connection, shop.machine)


def standing(shop: Shop) -> list[str]:
    with shop.store.read() as connection:
        return [one.text for one in before_power(connection, shop.machine) if one.sort == "control"]


def test_a_control_is_found_and_proved_and_until_then_stands_before_power(shop: Shop) -> None:
    crank = acts.add_control(
        shop.store, shop.machine, "cross slide crank", ControlKind.CRANK,
        {"does": "moves the cross slide", "per_turn": "0.2 in", "handed": "left hand: clockwise moves in",
         "engages": "always", "trapped": "the dial nut", "part_id": str(shop.cap)},
    )  # fmt: skip
    (row,) = listed(shop)
    assert (row.per_turn, row.stands) == ("5.080 mm", "to be proved before power")
    assert row.peculiar == "trapped by the dial nut; left hand: clockwise moves in"
    assert standing(shop) == ["cross slide crank: to be proved before power"]
    with refuses(shop.store, "As found: is empty"):
        acts.found(shop.store, crank, " ", "")
    acts.found(shop.store, crank, "0.4 mm lost motion", "4.9")
    with refuses(shop.store, "Proved how: is empty"):
        acts.prove(shop.store, crank, " ", "5.08")
    with refuses(
        shop.store, "A turn moves now: is empty, and a turn of cross slide crank should move 0.2 in"
    ):
        acts.prove(shop.store, crank, "full travel both ways")
    with refuses(shop.store, "A turn moves now: “5.2” is not the 0.2 in a turn"):
        acts.prove(shop.store, crank, "full travel both ways", "5.2")
    acts.prove(shop.store, crank, "full travel both ways", "5.07", "owner")
    (row,) = listed(shop)
    assert (row.found, row.found_turn, row.proved_turn, row.proved_by) == (
        "0.4 mm lost motion", "4.900 mm", "5.070 mm", "owner",
    )  # fmt: skip
    assert standing(shop) == []
    acts.unprove(shop.store, crank)
    assert (listed(shop)[0].proved_turn, len(standing(shop))) == ("", 1)
    shop.store.undo()
    assert listed(shop)[0].proved_by == "owner"
    acts.prove(shop.store, crank, "a metric screw was fitted on purpose", "5", sure=True)
    assert listed(shop)[0].proved_turn == "5.000 mm"


def test_a_double_is_another_control_of_the_same_machine(shop: Shop) -> None:
    first = acts.add_control(shop.store, shop.machine, "feed lever", ControlKind.LEVER)
    second = acts.add_control(shop.store, shop.machine, "feed knob", typed={"doubles_id": str(first)})
    assert listed(shop)[1].doubles == "feed lever"
    with refuses(shop.store, "Does the same as: “feed lever” is itself"):
        edit(shop.store, "control", [first], {"doubles_id": str(first)})
    other = add_machine(shop.store, "Shaper", {"unit": "in"})
    with refuses(shop.store, "Does the same as: “feed lever” belongs to another machine"):
        acts.add_control(shop.store, other, "clutch", ControlKind.CLUTCH, {"doubles_id": str(first)})
    with refuses(shop.store, "Proved how: is empty"):
        edit(shop.store, "control", [second], {"proved_at": "2026-03-01"})
    inch = acts.add_control(shop.store, other, "table crank", ControlKind.CRANK, {"per_turn": "0.1"})
    with shop.store.read() as connection:
        mm = connection.exec_driver_sql(f"SELECT per_turn_mm FROM control WHERE id = {inch}").scalar_one()
    assert mm == 2.54, "a bare number is in the machine's unit; an inch is 25.4 mm by definition"


def test_the_usual_controls_are_laid_out_once_and_those_under_power_wait_for_it(shop: Shop) -> None:
    acts.add_control(shop.store, shop.machine, "Half-nut lever", ControlKind.LEVER)
    made = acts.lay_out_controls(shop.store, shop.machine)
    assert len(made) == len(usual_controls(MachineKind.LATHE)) - 1
    assert acts.lay_out_controls(shop.store, shop.machine) == []
    first = [row.name for row in listed(shop) if row.due is LookWhen.FIRST_POWER]
    assert first == ["main switch", "emergency stop"]
    assert not {f"{name}: to be proved at first power" for name in first} & set(standing(shop))
    shop.store.undo()
    assert [row.name for row in listed(shop)] == ["Half-nut lever"]


def test_every_kind_of_machine_has_controls_and_a_shaper_no_half_nuts() -> None:
    for kind in MachineKind:
        names = [one.name for one in usual_controls(kind)]
        assert len(names) == len(set(names)) >= 2
        assert ("half-nut lever" in names) == (kind is MachineKind.LATHE)


def test_a_turn_moves_what_it_should_within_a_fiftieth() -> None:
    # Source: a screw of 10 threads an inch moves 25.4 mm / 10 a turn, by the definition of the inch.
    assert same_travel(25.4 / 10, 2.54 * 1.0199)
    assert not same_travel(25.4 / 10, 2.54 * 1.0201)
    # Source: a lead of 8 threads an inch taken for 10 (common practice, no source): it must be found out.
    assert not same_travel(25.4 / 10, 25.4 / 8)
