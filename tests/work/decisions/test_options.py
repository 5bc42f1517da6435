"""Two options of a part beside each other."""

from __future__ import annotations

import pytest

from rebuild.errors import BadEntry
from rebuild.words.decisions import Decision
from rebuild.work.decisions import acts_options as options, rows_options as option_lookup
from rebuild.work.steps import acts as tasks
from tests.work.teardown.apron import Apron


@pytest.fixture
def apron(small_apron: Apron) -> Apron:
    return small_apron


def test_two_options_are_compared_on_fits_cost_days_and_what_they_free(apron: Apron) -> None:
    store, part = apron.store, apron.parts["AP-12"]
    apron.read("outside", "0.8120")
    make = tasks.add_task(store, apron.machine, None, "Make the bush", part_id=part, typed={"kind": "make"})
    tasks.add_task(store, apron.machine, None, "Refit the apron", after=[make])
    leave = options.add_option(
        store, part, Decision.REUSE, {"method": "with retaining compound", "cost": "4"}
    )
    new = options.add_option(
        store,
        part,
        Decision.REMAKE,
        {"method": "new bush", "cost": "12.50", "work_min": "2 h", "wait_days": "3"},
    )
    with store.read() as connection:
        found = option_lookup.compare(connection, leave, new)
    lines = {row.label: row for row in found.rows}
    press = lines["AP-12 outside in AP-02 apron casting"]
    assert "does not conform (too loose)" in press.a
    assert press.b == "outside made 0.8136 to 0.8140 in to suit AP-02 apron casting, housing"
    assert lines["Fits in order"].better == "b"
    assert (lines["Cost"].a, lines["Cost"].b, lines["Cost"].better) == ("4.00", "12.50", "a")
    assert lines["Unblocks now"].a == "at once: Refit the apron"
    assert lines["Unblocks now"].b == "after 3 days and 2 h: Refit the apron"


def test_options_of_two_parts_are_not_compared(apron: Apron) -> None:
    a = options.add_option(apron.store, apron.parts["AP-12"], Decision.REUSE)
    b = options.add_option(apron.store, apron.parts["AP-11"], Decision.REUSE)
    with apron.store.read() as connection, pytest.raises(BadEntry, match="two different options of one part"):
        option_lookup.compare(connection, a, b)
