"""The hottest bearing that is taken, who is named for licensed work, and a check opened again."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from rebuild.words.run_in import LookWhen
from rebuild.work.run_in import acts as commission
from tests.support import refuses

if TYPE_CHECKING:
    from tests.conftest import Shop


@pytest.fixture
def step(shop: Shop) -> int:
    return commission.add_step(shop.store, shop.machine, "slow")


def cell(shop: Shop, table: str, key: int, column: str) -> object:
    with shop.store.read() as connection:
        return connection.exec_driver_sql(f"SELECT {column} FROM {table} WHERE id = {key}").scalar_one()


def test_a_bearing_may_be_read_up_to_what_any_can_bear(shop: Shop, step: int) -> None:
    assert commission.read_bearing(shop.store, step, "front", 0, "150 C")
    with refuses(shop.store, "Temperature, front: “150.1 C” is 150 °C, hotter than a bearing can run"):
        commission.read_bearing(shop.store, step, "front", 1, "150.1 C")
    with refuses(shop.store, "Temperature, front: “303 F” is 151 °C"):
        commission.read_bearing(shop.store, step, "front", 1, "303 F")


def test_a_minute_is_counted_from_the_start_and_a_refused_one_does_not_start_the_step(
    shop: Shop, step: int
) -> None:
    with refuses(shop.store, "Minute: “-0.1” is below nothing"):
        commission.read_bearing(shop.store, step, "front", -0.1, "20")
    with refuses(shop.store, "Minute: “nan” is below nothing"):
        commission.read_bearing(shop.store, step, "front", float("nan"), "20")
    with refuses(shop.store, "Bearing: is empty"):
        commission.read_bearing(shop.store, step, "  ", 0, "20")
    assert cell(shop, "run_step", step, "started_at") is None
    commission.read_bearing(shop.store, step, "front", 0, "20")
    assert cell(shop, "run_step", step, "started_at") is not None


def test_licensed_work_names_who_did_it_and_blanks_are_no_name(shop: Shop) -> None:
    wired = commission.add_check(
        shop.store, shop.machine, "Earth proved", LookWhen.BEFORE_POWER, {"licensed": "yes"}
    )
    plain = commission.add_check(shop.store, shop.machine, "Guards on")
    for by in ("", "  "):
        with refuses(shop.store, "By: is empty, and this is left to licensed hands"):
            commission.check_done(shop.store, wired, by)
    commission.check_done(shop.store, plain)
    commission.check_done(shop.store, wired, " the electrician ")
    assert cell(shop, "run_look", wired, "done_by") == "the electrician"


def test_a_check_opened_again_was_done_by_nobody(shop: Shop) -> None:
    key = commission.add_check(shop.store, shop.machine, "Guards on")
    commission.check_done(shop.store, key, "me", "all four")
    commission.check_again(shop.store, key)
    columns = ("done_at", "done_by", "note")
    assert [cell(shop, "run_look", key, column) for column in columns] == [None, "", "all four"]
    shop.store.undo()
    assert cell(shop, "run_look", key, "done_by") == "me"
