"""Runs of a survey: each its own, none with a gap, none in another unit."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from rebuild.words.surveys import SurveyMethod
from rebuild.work.surveys.acts import add_survey, enter_reading, enter_run
from tests.support import refuses
from tests.work.surveys.test_surveys import level

if TYPE_CHECKING:
    from tests.conftest import Shop


def typed(shop: Shop, line: int, run: int) -> list[str]:
    query = f"SELECT typed FROM survey_reading WHERE line_id = {line} AND run = {run} ORDER BY place"
    with shop.store.read() as connection:
        return list(connection.exec_driver_sql(query).scalars())


def test_a_second_run_leaves_the_first_and_a_run_entered_again_is_replaced(shop: Shop) -> None:
    _, line = level(shop)
    enter_run(shop.store, line, ["0.04", "0.02", "-0.02"])
    enter_run(shop.store, line, ["0.05", "0.03"], run=2)
    assert (typed(shop, line, 1), typed(shop, line, 2)) == (["0.04", "0.02", "-0.02"], ["0.05", "0.03"])
    enter_run(shop.store, line, ["0.06"])
    assert (typed(shop, line, 1), typed(shop, line, 2)) == (["0.06"], ["0.05", "0.03"])
    shop.store.undo()
    assert typed(shop, line, 1) == ["0.04", "0.02", "-0.02"]


def test_a_gap_in_a_run_stores_nothing_and_an_empty_end_is_not_read_yet(shop: Shop) -> None:
    _, line = level(shop)
    assert enter_run(shop.store, line, ["0.04", "0.02", "", " "]) == 2
    with refuses(shop.store, "front V, run 1, reading 2: is empty. Read that place too"):
        enter_run(shop.store, line, ["0.04", "", "0.02"])
    with refuses(shop.store, "front V, run 1, reading 3: is empty"):
        enter_reading(shop.store, line, 3, "0.01")
    enter_reading(shop.store, line, 2, "0.01")
    assert typed(shop, line, 1) == ["0.04", "0.02", "0.01"]


def test_a_reading_in_another_unit_stores_nothing(shop: Shop) -> None:
    _, line = level(shop)
    with refuses(shop.store, "front V, run 1, reading 2: “2 arcsec” is in arcsec; this survey is in mm/m"):
        enter_run(shop.store, line, ["0.04", "2 arcsec"])


@pytest.mark.parametrize("division", ["", "0"])
def test_divisions_without_their_value_are_not_a_unit(shop: Shop, division: str) -> None:
    given = {"unit": "divisions", "step": "200 mm", "division_um_per_m": division}
    with refuses(shop.store, r"One division \[µm/m\]: .*is not given. Type what the level is marked with"):
        add_survey(shop.store, shop.machine, "Front V", SurveyMethod.LEVEL, typed=given)
    assert add_survey(
        shop.store, shop.machine, "Front V", SurveyMethod.LEVEL, typed={**given, "division_um_per_m": "20"}
    )
