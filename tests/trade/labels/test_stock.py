"""Stocks of labels as typed: what is read, where each label lies, what is refused."""

from __future__ import annotations

import pytest

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.labels.stock import PAPERS, READY, placed, read_stock


@pytest.mark.parametrize("words", READY)
def test_a_ready_stock_fits_its_paper_and_no_two_labels_overlap(words: str) -> None:
    stock = read_stock(words)
    spots = placed(stock, stock.on_a_page)
    assert len({(one.left, one.top) for one in spots}) == stock.on_a_page
    assert all(one.page == 0 for one in spots)
    assert all(one.left + stock.wide <= stock.page_wide + 0.05 for one in spots)
    assert all(one.top + stock.high <= stock.page_high + 0.05 for one in spots)
    for one in spots:
        for other in spots:
            apart = (
                abs(one.left - other.left) >= stock.wide - 1e-9
                or abs(one.top - other.top) >= stock.high - 1e-9
            )
            assert one == other or apart


def test_papers_are_those_of_the_standards() -> None:
    # Source: ISO 216:2007 A4 = 210 x 297 mm; ANSI/ASME Y14.1 size A = 8.5 x 11 in.
    assert PAPERS["A4"] == (210.0, 297.0)
    assert PAPERS["Letter"] == (pytest.approx(8.5 * 25.4), pytest.approx(11 * 25.4))


def test_a_sheet_begun_before_goes_on_at_the_next_label_and_on_the_next_page() -> None:
    stock = read_stock("A4, 70 x 36, 3 x 8, margin 0 x 4.5")
    spots = placed(stock, 3, 23)
    assert [(one.page, one.left, one.top) for one in spots] == [(0, 70, 256.5), (0, 140, 256.5), (1, 0, 4.5)]
    for wrong in (0, 25):
        with pytest.raises(OutOfRange, match=r"First label: .*which has 24"):
            placed(stock, 1, wrong)
    assert placed(stock, 1, 24)[0].page == 0


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("", "Labels: is empty. Type a sheet as"),
        ("A4", "is no stock of labels"),
        ("A5, 70 x 36, 3 x 8", "is no stock of labels"),
        ("A4, 70 x 36, 3 x 8, edge 2 x 2", "is no stock of labels"),
        ("roll 62 x 29, hole 4, hole 5", "is no stock of labels"),
        ("A4, 70.1 x 36, 3 x 8", "does not fit: the labels take 210.3 x 288 mm of 210 x 297"),
        ("A4, 70 x 37.2, 3 x 8", "does not fit"),
        ("tag 40 x 30, hole 17", "too small to be read"),
        ("roll 24 x 11", "too small to be read"),
    ],
)
def test_what_is_no_stock_is_refused_with_a_way_out(words: str, said: str) -> None:
    with pytest.raises((BadEntry, OutOfRange), match=said):
        read_stock(words)


def test_the_smallest_stock_and_the_fullest_sheet_are_taken() -> None:
    assert read_stock("roll 24 x 12").high == 12
    assert read_stock("tag 41 x 30, hole 17").hole == 17
    assert read_stock("A4, 70 x 37.125, 3 x 8").on_a_page == 24
    assert read_stock("letter, 66,7 x 25,4, 3 x 10, gap 3 x 0").gap_across == 3
