"""A few of the thousand corruptions and odd strings, and that both scripts can see a fault."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from rebuild.words.readings import Stage
from rebuild.work.readings.acts import Entry, record_reading
from tests.conftest import Shop
from tests.depth import examples
from tests.faults import corrupt, strings


@pytest.fixture
def filled(shop: Shop) -> Path:
    """The small shop with a list of readings, closed."""
    for number in range(60):
        record_reading(
            shop.store, f"59.9{number:02}", Entry(shop.journal, shop.near, Stage.AS_FOUND, shop.micrometer),
            confirmed=True,
        )  # fmt: skip
    shop.close()
    return shop.path


SPOILT = examples(12)


@pytest.mark.slow
def test_corruptions_are_found_or_harmless(filled: Path) -> None:
    tally = corrupt.run(filled, SPOILT, seed=11)
    assert tally.faults == []
    assert tally.count["found"] + tally.count["harmless"] == SPOILT
    assert tally.count["found"] > 0


def test_a_silent_change_would_be_seen(filled: Path) -> None:
    was = corrupt.contents(filled)
    raw = sqlite3.connect(filled)
    raw.execute("UPDATE part SET note = 'other' WHERE id = 1")
    raw.execute("UPDATE j_part SET a_note = 'other' WHERE a_id = 1")
    raw.commit()
    raw.close()
    tally = corrupt.Tally()
    corrupt.one(filled, 0, was, tally, None)
    assert tally.count["silent"] == 1
    assert "silent change at byte 0: part" in tally.faults[0]


@pytest.mark.slow
def test_odd_strings_are_stored_or_refused(filled: Path) -> None:
    tally = strings.run(filled, 400, seed=5)
    tracebacks = [fault for fault in tally.faults if " ms" not in fault]
    assert tracebacks == []
    assert tally.endless == 0
    assert min(tally.taken, tally.refused) > 50
