"""A making sheet as PDF with its drawing, and a sheet worked out for the screen, after first use.

Run: ``pytest tests/benchmarks/bench_making.py -s``. The limit is 0.5 s for the PDF; the floor writes two empty
pages with the same letters.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path
from statistics import median
from typing import Any

import pytest

from rebuild.sheets import fonts
from rebuild.sheets.dxf import write_dxf
from rebuild.sheets.making_sheet import write_making_sheet
from rebuild.store.store import Store
from rebuild.trade.drawing.lay_out import best_fit
from rebuild.words.decisions import Decision
from rebuild.words.readings import Stage
from rebuild.work.decisions import acts as decide
from rebuild.work.making import acts as making, acts_sizes as making_sizes
from rebuild.work.making.rows import sheets
from rebuild.work.making.rows_sheet import sheet_page
from tests.work.teardown.apron import build

MOST_S = 0.5


def timed(act: Callable[[], object], times: int = 15) -> float:
    """The median time of ``act`` after two runs to warm up [s]."""
    taken = []
    for number in range(times + 2):
        start = time.perf_counter()
        act()
        if number > 1:
            taken.append(time.perf_counter() - start)
    return median(taken)


@pytest.fixture(scope="module")
def bush(tmp_path_factory: pytest.TempPathFactory) -> Any:
    store = Store.create(Path(tmp_path_factory.mktemp("making")) / "making.rebuild")
    shop = build(store)
    decide.decide(store, [shop.parts["AP-12"], shop.parts["AP-11"]], Decision.REMAKE, reason="worn oval")
    shop.read("journal A", "0.6247", Stage.AS_MADE)
    sheet = making.start_sheet(store, shop.parts["AP-12"])
    with store.read() as connection:
        length = next(one for one in sheet_page(connection, sheet).sizes if one.name == "length")
    making_sizes.set_size(store, length.id, "1.25 ±0.01")
    making.release(store, sheet)
    yield store, shop.machine, sheet
    store.close()


def test_the_pdf_with_its_drawing(bush: Any, tmp_path: Path) -> None:
    store, _machine, sheet = bush

    def write() -> None:
        with store.read() as connection:
            page = sheet_page(connection, sheet)
        write_making_sheet(page, tmp_path / "sheet.pdf")

    def floor() -> None:
        from reportlab.pdfgen.canvas import Canvas

        fonts.register()
        canvas = Canvas(str(tmp_path / "floor.pdf"))
        for _ in range(2):
            canvas.setFont(fonts.NORMAL, 10)
            canvas.drawString(100, 100, "Making sheet")
            canvas.showPage()
        canvas.save()

    ours, bare = timed(write), timed(floor)
    print(f"\nmaking sheet as PDF {ours * 1000:.0f} ms, two bare pages {bare * 1000:.0f} ms")
    assert ours < MOST_S


def test_the_page_its_layout_and_the_drawing_file(bush: Any, tmp_path: Path) -> None:
    store, machine, sheet = bush
    with store.read() as connection:
        page = sheet_page(connection, sheet)
        for name, act in (
            ("sheet worked out", lambda: sheet_page(connection, sheet)),
            ("list of sheets", lambda: sheets(connection, machine)),
            ("drawing laid out to fit", lambda: best_fit(page.drawing.drawn, 120.0, 80.0, "in")),
            ("drawing as DXF", lambda: write_dxf(page.drawing.drawn, tmp_path / "bush.dxf", "in")),
        ):
            taken = timed(act)
            print(f"\n{name} {taken * 1000:.1f} ms")
            assert taken < MOST_S
