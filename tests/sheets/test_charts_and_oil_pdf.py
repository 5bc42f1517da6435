"""Test chart and oil card on paper: one page each, and what stands on it, read back by a PDF library."""

from __future__ import annotations

import datetime as dt
import re
from pathlib import Path

import pytest
from pypdf import PdfReader

from rebuild.errors import FileTrouble
from rebuild.sheets.charts import write_test_chart
from rebuild.sheets.oil_card import write_oil_card
from rebuild.sheets.paper import A4, LETTER, Paper
from rebuild.trade.limits.judgement import Rule
from rebuild.words.charts import ChartStage
from rebuild.words.lubrication import FlowProof, OilPointKind
from rebuild.work.charts import acts as chart
from rebuild.work.charts.rows import chart as read_chart
from rebuild.work.editing.acts import edit
from rebuild.work.lubrication import acts as lubricate
from rebuild.work.lubrication.rows import oil_card
from rebuild.work.readings.acts_features import add_instrument
from tests.conftest import Shop

DAY = dt.datetime(2026, 11, 8, 20)


def text_of(path: Path) -> str:
    return re.sub(r"\s+", " ", " ".join(page.extract_text() for page in PdfReader(path).pages))


@pytest.fixture
def filled(shop: Shop) -> Shop:
    chart.lay_out(shop.store, shop.machine)
    lever = add_instrument(shop.store, "Lever indicator", {"resolution": "0.001", "mpe": "0.002"})
    with shop.store.read() as connection:
        tests = read_chart(connection, shop.machine, Rule.CONFORMANCE_95)
    lines = {(test.number, line.key): line.id for test in tests for line in test.lines}
    for stage, text in ((ChartStage.AS_FOUND, "0.031 falling"), (ChartStage.AFTER, "0.009 rising")):
        entry = chart.Reading(stage, "300", lever, "18", DAY)
        chart.read_position(shop.store, lines["6", "vertical"], text, entry, confirmed=True)
    pump = lubricate.add_point(
        shop.store, shop.machine, "plunger pump", OilPointKind.PUMP, {"number": "P"}, at=(0.5, 0.7)
    )
    pipe = lubricate.add_point(
        shop.store, shop.machine, "pipe", OilPointKind.LINE, {"fed_by_id": str(pump), "number": "L"}
    )
    for at in range(1, 31):
        typed = {
            "old_oil": "300 SUS spindle oil",
            "duty": "central",
            "number": str(at),
            "quantity": "2 drops",
            "interval": "daily",
            "fed_by_id": str(pipe),
        }
        lubricate.add_point(
            shop.store, shop.machine, f"bearing {at}", OilPointKind.BALL_OILER, typed, at=(at / 40, 0.5)
        )
    lubricate.prove_flow(shop.store, [pipe], FlowProof.BLOCKED)
    return shop


@pytest.mark.parametrize("on", [A4, LETTER], ids=["A4", "Letter"])
def test_the_chart_stands_on_one_page(filled: Shop, tmp_path: Path, on: Paper) -> None:
    target = tmp_path / "chart.pdf"
    assert write_test_chart(filled.store, filled.machine, target, on, printed=DAY) == 1
    (page,) = PdfReader(target).pages
    assert float(page.mediabox.width) == pytest.approx(on.width_mm * 72 / 25.4, abs=0.1)
    text = text_of(target)
    for words in (
        "Toolroom lathe",
        "14 tests, 22 positions",
        "6 Spindle axis parallel to the carriage",
        "8 Nov 2026, 20:00",
        "serial number …………",
        "1 / 1",
        "falling toward the free end",
        "does not conform, then conforms",
        "one maker's record",
        "14 Leadscrew in line with the half nuts",
        "Not finished: horizontal not read",
    ):
        assert words in text, words


def test_both_stages_and_their_numbers_are_on_it(filled: Shop, tmp_path: Path) -> None:
    target = tmp_path / "chart.pdf"
    write_test_chart(filled.store, filled.machine, target, printed=DAY)
    text = text_of(target)
    assert "-0.031 mm" in text
    assert "+0.009 mm" in text
    write_test_chart(filled.store, filled.machine, target, unit="in", printed=DAY)
    assert "-0.0012 in" in text_of(target)


@pytest.mark.parametrize("on", [A4, LETTER], ids=["A4", "Letter"])
def test_the_oil_card_stands_on_one_page_with_thirty_points(filled: Shop, tmp_path: Path, on: Paper) -> None:
    target = tmp_path / "oil.pdf"
    assert write_oil_card(filled.store, filled.machine, target, on, printed=DAY) == 1
    text = text_of(target)
    for words in (
        "bearing 30",
        "300 SUS spindle oil",
        "ISO VG 68, L-AN",
        "starves behind L",
        "32 points not proved",
        "L pipe is blocked",
        "Extreme-pressure oil and bronze",
    ):
        assert words in text, words


def test_what_starves_names_the_piece_before_it_by_its_whole_number(filled: Shop, tmp_path: Path) -> None:
    with filled.store.read() as connection:
        pipe = next(row.id for row in oil_card(connection, filled.machine).rows if row.number == "L")
    edit(filled.store, "oil_point", [pipe], {"number": "L 2, rear"})
    write_oil_card(filled.store, filled.machine, tmp_path / "oil.pdf", printed=DAY)
    assert "starves behind L 2, rear" in text_of(tmp_path / "oil.pdf")


def test_the_same_data_gives_the_same_page(filled: Shop, tmp_path: Path) -> None:
    one, two = tmp_path / "one.pdf", tmp_path / "two.pdf"
    for target in (one, two):
        write_oil_card(filled.store, filled.machine, target, printed=DAY)
    assert one.read_bytes() == two.read_bytes()


def test_an_empty_chart_and_card_are_pages_too(shop: Shop, tmp_path: Path) -> None:
    assert write_test_chart(shop.store, shop.machine, tmp_path / "chart.pdf") == 1
    assert write_oil_card(shop.store, shop.machine, tmp_path / "oil.pdf") == 1


def test_a_folder_that_is_not_there_is_said(filled: Shop, tmp_path: Path) -> None:
    with pytest.raises(FileTrouble, match=r"chart\.pdf"):
        write_test_chart(filled.store, filled.machine, tmp_path / "nowhere" / "chart.pdf")
