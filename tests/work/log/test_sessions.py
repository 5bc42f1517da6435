"""Sessions of the bench log."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest
from sqlalchemy import text

from rebuild.errors import BadEntry
from rebuild.work.log import acts as notes

if TYPE_CHECKING:
    from tests.conftest import Shop


def row(shop: Shop, table: str, key: int) -> Any:
    with shop.store.read() as connection:
        return connection.execute(text(f"SELECT * FROM {table} WHERE id = {key}")).one()


def test_a_session_in_the_bench_log(shop: Shop) -> None:
    key = notes.log_session(
        shop.store,
        shop.machine,
        {"did": "scraped", "hours": "2,5", "temperature_c": "65 F", "at": "2026-03-14 19:30"},
    )
    found = row(shop, "log_entry", key)
    assert (found.at, found.hours, found.temperature_c) == (
        "2026-03-14T19:30:00",
        2.5,
        pytest.approx(18.333333),
    )
    assert shop.store.undo_label() == "bench log entry of 14 Mar 2026"


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ({}, "Did: is empty. Write what was done"),
        ({"hours": "3"}, "Did: is empty."),
        ({"did": "x", "hours": "long"}, "Hours: “long” is not an amount. Type it as 1.5, 90 min or 1:30."),
        ({"did": "x", "hours": "-1"}, "Hours: “-1” is not an amount. Type it as 1.5, 90 min or 1:30."),
        ({"did": "x", "hours": "1,500"}, "Hours: “1,500” has a comma that may mark decimals or thousands."),
        ({"did": "x", "hours": "inf"}, "Hours: “inf” is not an amount. Type it as 1.5, 90 min or 1:30."),
        (
            {"did": "x", "hours": "90"},
            "Hours: “90” is long for one session. Type 90 min (minutes) or 90 h (hours).",
        ),
        ({"did": "x", "at": "some day"}, "When: “some day” is not a date. Type it as 2026-03-14"),
        (
            {"did": "x", "at": "0001-03-14"},
            "When: “0001-03-14” is of the year 1; dates here lie between 1900",
        ),
        ({"did": "x", "at": "19422-03-14"}, "When: “19422-03-14” is of the year 19422; dates here lie"),
        ({"did": "x", "at": ""}, "When: is empty."),
    ],
)
def test_a_session_refused(shop: Shop, typed: dict[str, str], said: str) -> None:
    with pytest.raises(BadEntry) as refusal:
        notes.log_session(shop.store, shop.machine, typed)
    assert str(refusal.value).startswith(said)
