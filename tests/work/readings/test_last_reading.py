"""What a value is held against as the last reading: the newest that stands, of the same place."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from rebuild.errors import Implausible
from rebuild.words.readings import FeatureKind
from rebuild.work.readings import acts as measure, acts_features as spec
from rebuild.work.readings.acts import Entry, Pasted
from tests.support import refuses

if TYPE_CHECKING:
    from tests.conftest import Shop


@pytest.fixture
def slot(shop: Shop) -> int:
    """A width without nominal or limits: only its last reading says what to expect."""
    return spec.add_feature(shop.store, shop.cap, "slot", FeatureKind.WIDTH, stations=("near", "far"))


def stations(shop: Shop, feature: int) -> list[int]:
    with shop.store.read() as connection:
        query = f"SELECT id FROM station WHERE feature_id = {feature} ORDER BY position"
        return list(connection.exec_driver_sql(query).scalars())


def test_a_value_nine_times_the_last_is_held_and_one_below_is_taken(shop: Shop, slot: int) -> None:
    measure.record_reading(shop.store, "2.00", Entry(slot))
    with refuses(shop.store, r"“18\.0” is far from the last reading 2\.00.*\(9 times\)", Implausible):
        measure.record_reading(shop.store, "18.0", Entry(slot))
    measure.record_reading(shop.store, "17.9", Entry(slot))


def test_a_struck_reading_is_no_longer_the_last(shop: Shop, slot: int) -> None:
    measure.record_reading(shop.store, "2.00", Entry(slot))
    wrong = measure.record_reading(shop.store, "20.00", Entry(slot), confirmed=True)
    measure.strike_reading(shop.store, wrong.reading_id, "jaws not clean")
    with refuses(shop.store, r"far from the last reading 2\.00.*ten times: a decimal place", Implausible):
        measure.record_reading(shop.store, "20.01", Entry(slot))
    measure.record_reading(shop.store, "2.01", Entry(slot))


def test_the_last_reading_is_the_newest_and_of_the_same_station(shop: Shop, slot: int) -> None:
    near, far = stations(shop, slot)
    measure.record_reading(shop.store, "2.00", Entry(slot, near))
    measure.record_reading(shop.store, "30.00", Entry(slot, far))
    with refuses(shop.store, r"near: “30\.0” is far from the last reading 2\.00", Implausible):
        measure.record_reading(shop.store, "30.0", Entry(slot, near))
    measure.record_reading(shop.store, "18.10", Entry(slot, near), confirmed=True)
    measure.record_reading(shop.store, "30.0", Entry(slot, near))


def test_a_pasted_block_is_held_by_the_last_reading_and_stores_nothing_by_halves(
    shop: Shop, slot: int
) -> None:
    measure.record_reading(shop.store, "2.00", Entry(slot))
    block = [Pasted("2.01", Entry(slot)), Pasted("20.1", Entry(slot))]
    with refuses(shop.store, "far from the last reading", Implausible):
        measure.paste_readings(shop.store, block)
    assert len(measure.paste_readings(shop.store, block, confirmed=True)) == 2


def test_a_reading_is_struck_only_with_a_reason(shop: Shop, slot: int) -> None:
    taken = measure.record_reading(shop.store, "2.00", Entry(slot))
    with refuses(shop.store, "Reason: is empty. Say why the reading does not count."):
        measure.strike_reading(shop.store, taken.reading_id, " \t")
