"""What the entry line and the paste preview ask: the way on, coarse instruments, odd cells, titled workings."""

from __future__ import annotations

import pytest

from rebuild.errors import NotThere
from rebuild.trade.limits.verdict import Rule, Verdict
from rebuild.words.readings import Stage
from rebuild.work.readings.acts import Entry, Pasted, record_reading, strike_reading
from rebuild.work.readings.rows_destination import (
    instrument_sentence,
    judged_reading,
    next_unread,
    read_back,
    stages_of,
    stages_read,
)
from rebuild.work.readings.rows_grid import Asked, keys, rows
from rebuild.work.readings.rows_judged import instrument_limits
from rebuild.work.readings.rows_paste_block import look_over
from tests.conftest import Shop


def order(shop: Shop) -> list[tuple[int, int]]:
    with shop.store.read() as connection:
        return keys(connection, Asked(shop.machine), Rule.SIMPLE, {})


def way_on(shop: Shop, after: tuple[int, int] | None, stage: Stage = Stage.AS_FOUND, *, wrap: bool = True):
    with shop.store.read() as connection:
        return next_unread(connection, order(shop), after, stage, wrap=wrap)


def test_the_way_on_passes_what_is_read_at_that_stage(shop: Shop) -> None:
    near, far, lost = order(shop)
    assert way_on(shop, None) == near
    assert way_on(shop, near) == far
    record_reading(shop.store, "59.981", Entry(shop.journal, shop.far))
    assert way_on(shop, near) == lost
    assert way_on(shop, near, Stage.CLEANED) == far


def test_the_way_on_goes_round_once(shop: Shop) -> None:
    near, far, lost = order(shop)
    assert way_on(shop, lost) == near
    assert way_on(shop, lost, wrap=False) is None
    for key in (near, far):
        record_reading(shop.store, "59.981", Entry(key[0], key[1]))
    assert way_on(shop, lost) is None, "only the row in hand is unread"
    assert way_on(shop, (999, 0)) == lost, "from a row that is not in the list: from the top"


def test_a_struck_reading_leaves_its_row_unread(shop: Shop) -> None:
    near, _, lost = order(shop)
    taken = record_reading(shop.store, "59.981", Entry(*near))
    assert way_on(shop, lost) != near
    strike_reading(shop.store, taken.reading_id, "jaws not clean")
    assert way_on(shop, lost) == near


def test_an_instrument_is_too_coarse_by_its_limit_tolerance_and_temperature(shop: Shop) -> None:
    near, _, lost = order(shop)
    with shop.store.read() as connection:
        limit = instrument_limits(connection)[shop.micrometer]
        journal, motion = rows(connection, [near, lost], Rule.SIMPLE, {})
        known = instrument_sentence(connection, journal, limit, 20.0)
        unknown = instrument_sentence(connection, journal, limit, None)
        wide = instrument_sentence(connection, motion, limit, 20.0)
    assert known.startswith("Micrometer 50-75 reads to ±")
    assert "too coarse for a tolerance of 0.0190 mm" in known
    assert "with no temperature noted" in unknown
    assert wide == "", "a tenth of a millimetre is wide enough for it"


def test_a_stored_reading_is_read_back_in_both_units(shop: Shop) -> None:
    entry = Entry(shop.journal, shop.near, Stage.CLEANED, shop.micrometer, "20")
    taken = record_reading(shop.store, "59.940", entry)
    with shop.store.read() as connection:
        back = read_back(connection, taken.reading_id, Rule.CONFORMANCE_95)
    assert back.both == "59.940 mm (2.3598 in)"
    assert back.verdict is Verdict.DOES_NOT
    assert back.judged.working.title == "Verdict on HS-01 spindle, front journal, near, cleaned"
    assert back.judged.working.steps[-1].text == back.sentence
    assert back.sentence == f"{back.judged.value.reading}: {back.judged.value.finding}"
    assert back.judged.value.reading == "59.940 mm"


def test_a_reading_taken_back_has_no_working(shop: Shop) -> None:
    taken = record_reading(shop.store, "59.981", Entry(shop.journal, shop.near))
    shop.store.undo()
    with shop.store.read() as connection, pytest.raises(NotThere):
        judged_reading(connection, taken.reading_id, Rule.SIMPLE)


def test_stages_at_which_something_stands(shop: Shop) -> None:
    first = record_reading(shop.store, "59.981", Entry(shop.journal, shop.near))
    other = record_reading(shop.store, "0.003", Entry(shop.lost_motion, None, Stage.REWORKED))
    strike_reading(shop.store, first.reading_id, "wrong row")
    with shop.store.read() as connection:
        assert stages_read(connection, Asked(shop.machine)) == {Stage.REWORKED}
        assert stages_read(connection, Asked(shop.machine, part_ids=frozenset({shop.spindle}))) == set()
        assert stages_read(connection, Asked(shop.machine, frozenset({shop.carriage}))) == set()
        assert stages_of(connection, {first.reading_id, other.reading_id}) == {Stage.REWORKED}


@pytest.mark.parametrize(
    ("typed", "odd", "stops"),
    [
        ("59.981", "", False),
        ("59.981; 59.983", "", False),
        ("about 60", "is not a size.", True),
        ("59,981", "has a comma that may mark decimals or thousands. 59.981 mm or 59981 mm?", True),
        ("59.981; 2.36 in", "mixes units among its repeats.", True),
        ("2.361", "is far from the nominal 60.000 mm (1/25.4: inches typed for millimetres?).", False),
    ],
)
def test_a_block_is_looked_over_cell_by_cell(shop: Shop, typed: str, odd: str, stops: bool) -> None:
    cell = Pasted(typed, Entry(shop.journal, shop.near))
    with shop.store.read() as connection:
        landing = look_over(connection, [cell], None)[0]
    assert (landing.odd, landing.stops) == (odd, stops)
    assert landing.where == "HS-01 spindle, front journal, near, as found"
    assert landing.clear == (odd == "")


def test_a_block_on_a_row_that_is_gone_says_so(shop: Shop) -> None:
    with shop.store.read() as connection:
        landing = look_over(connection, [Pasted("1", Entry(999))], None)[0]
    assert landing.stops
    assert "removed" in landing.odd
