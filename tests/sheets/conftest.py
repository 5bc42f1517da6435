"""A finished page of a making sheet, read from a real file; the demo's two books, written once."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest

from rebuild.sheets.book.build import build_book
from rebuild.sheets.book.options import BookOptions
from rebuild.store.reading import reading
from rebuild.words.decisions import Decision
from rebuild.words.readings import Stage
from rebuild.work.book.rows import read_book
from rebuild.work.decisions import acts as decide
from rebuild.work.making import acts as making, acts_sizes as making_sizes
from rebuild.work.making.rows_sheet import sheet_page
from rebuild.work.making.rows_sheet_lists import SheetPage
from tests.conftest import demo_copy
from tests.sheets.read_back import Read
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


@pytest.fixture(scope="session")
def demo_file(demo_template: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    return demo_copy(demo_template, tmp_path_factory.mktemp("demo"))


@pytest.fixture(scope="session", params=[1, 2], ids=["shaper", "lathe"])
def book(request: pytest.FixtureRequest, demo_file: Path) -> Read:
    target = demo_file.parent / f"book {request.param}.pdf"
    build_book(demo_file, request.param, target, BookOptions(cost=True, photos=True))
    with reading(demo_file) as connection:
        return Read(target, read_book(connection, request.param, demo_file))
