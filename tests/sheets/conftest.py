"""A finished page of a making sheet, read from a real file."""

from __future__ import annotations

import datetime as dt

import pytest

from rebuild.words.decisions import Decision
from rebuild.words.readings import Stage
from rebuild.work.decisions import acts as decide
from rebuild.work.making import acts as making, acts_sizes as making_sizes
from rebuild.work.making.rows_sheet import sheet_page
from rebuild.work.making.rows_sheet_lists import SheetPage
from tests.work.teardown.apron import Apron

PRINTED = dt.datetime(2026, 11, 8, 20, 15)


@pytest.fixture
def apron(small_apron: Apron) -> Apron:
    decide.decide(
        small_apron.store,
        [small_apron.parts["AP-12"], small_apron.parts["AP-11"]],
        Decision.REMAKE,
        reason="worn oval",
    )
    small_apron.read("bore", "0.6450")
    small_apron.read("journal A", "0.6247", Stage.AS_MADE)
    return small_apron


@pytest.fixture
def bush(apron: Apron) -> int:
    """The sheet of the apron bush, released."""
    sheet = making.start_sheet(apron.store, apron.parts["AP-12"])
    with apron.store.read() as connection:
        length = next(one for one in sheet_page(connection, sheet).sizes if one.name == "length")
    making_sizes.set_size(apron.store, length.id, "1.250 ±0.010")
    making.release(apron.store, sheet)
    return sheet


@pytest.fixture
def page(apron: Apron, bush: int) -> SheetPage:
    with apron.store.read() as connection:
        return sheet_page(connection, bush)
