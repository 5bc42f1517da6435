"""Outside checks, by source: each row checked is counted, and the run ends with a table of counts."""

from __future__ import annotations

import csv
from collections.abc import Callable
from itertools import dropwhile
from pathlib import Path
from typing import Any

import pytest

from tests.tally import EXACT, LAST_DIGIT, NOT_COVERED

DATA = Path(__file__).parent / "data"


def rows(name: str) -> list[dict[str, str]]:
    """The rows of one reference file, below its ``# key: value`` lines if it has any."""
    with (DATA / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(dropwhile(lambda line: line.startswith("# "), file)))


class Checker:
    """Compares rows with a source and keeps the count in the test's report."""

    def __init__(self, node: pytest.Item) -> None:
        self._node = node
        self.failures: list[str] = []

    def number(
        self, source: str, row: str, got: float, want: float, *, last_digit: float, why: str = ""
    ) -> None:
        """``got`` must round to ``want``; one unit of ``last_digit`` off passes only with a ``why``."""
        off = abs(got - want)
        if off <= last_digit * 0.5 + 1e-9 * max(1.0, abs(want)):
            self._count(source, EXACT, row, "")
        elif why and off <= last_digit * 1.5 + 1e-9:
            self._count(source, LAST_DIGIT, row, why)
        else:
            self.failures.append(f"{source}: {row}: got {got!r}, published {want!r}")

    def text(self, source: str, row: str, got: object, want: object) -> None:
        """``got`` must equal ``want``."""
        if got == want:
            self._count(source, EXACT, row, "")
        else:
            self.failures.append(f"{source}: {row}: got {got!r}, published {want!r}")

    def not_covered(self, source: str, row: str, why: str) -> None:
        """A row we do not answer, with the reason; shows in the table."""
        self._count(source, NOT_COVERED, row, why)

    def _count(self, source: str, outcome: str, row: str, why: str) -> None:
        self._node.user_properties.append(("published", (source, outcome, row, why)))


@pytest.fixture
def published(request: pytest.FixtureRequest) -> Any:
    """A ``Checker``; at the end of the test any row that failed is listed."""
    checker = Checker(request.node)
    yield checker
    assert not checker.failures, "\n".join(checker.failures)


@pytest.fixture
def reference() -> Callable[[str], list[dict[str, str]]]:
    """Reads a reference file's rows by name."""
    return rows
