"""The book of a machine with 2,500 parts and 20,000 readings, and how long 200 of its pages take.

Run: ``pytest tests/benchmarks/bench_book.py -s``. The floor writes as many pages of bare lines of text.
"""

from __future__ import annotations

import time
from itertools import pairwise
from pathlib import Path

import pytest
from pypdf import PdfReader
from reportlab.pdfgen.canvas import Canvas

from rebuild.sheets.book.build import build_book
from tests.benchmarks.big_file import make

#: What the design asks for: 200 pages in under 10 s.
PAGES, SECONDS = 200, 10.0


@pytest.fixture(scope="module")
def big(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("book") / "big.rebuild"
    make(path, 1)
    return path


def floor(target: Path, pages: int) -> float:
    """Seconds for as many pages of 60 plain lines."""
    start = time.perf_counter()
    canvas = Canvas(str(target), invariant=1, pageCompression=1)
    for _ in range(pages):
        for line in range(60):
            canvas.drawString(50, 780 - 12 * line, f"reading {line} 59.9850 mm as found, micrometer 50-75 mm")
        canvas.showPage()
    canvas.save()
    return time.perf_counter() - start


def test_two_hundred_pages_take_less_than_ten_seconds(big: Path, tmp_path: Path) -> None:
    told: list[tuple[float, float]] = []
    start = time.perf_counter()

    def hear(share: float, _words: str) -> bool:
        told.append((time.perf_counter() - start, share))
        return True

    target = build_book(big, 1, tmp_path / "big.pdf", progress=hear)
    taken = time.perf_counter() - start
    pages = len(PdfReader(target).pages)
    each = taken / pages
    quiet = max(b[0] - a[0] for a, b in pairwise(told))
    print(
        f"\n{pages} pages in {taken:.1f} s: {each * PAGES:.1f} s for {PAGES}; floor "
        f"{floor(tmp_path / 'floor.pdf', PAGES):.1f} s; longest silence {quiet:.1f} s; "
        f"{target.stat().st_size / 1e6:.1f} MB"
    )
    assert pages > PAGES
    assert each * PAGES < SECONDS
