"""A gear is not released as a plain ring: its teeth stand on its sheet first."""

from __future__ import annotations

import pytest

from rebuild.errors import BadEntry
from rebuild.store.store import Store
from rebuild.words.making import MakingProgress, PartShape
from rebuild.work.machines import acts as identify
from rebuild.work.making import acts as making, acts_sizes as making_sizes
from rebuild.work.making.rows_sheet import sheet_page
from tests.support import refuses


@pytest.fixture
def pinion(store: Store) -> int:
    """A sheet of a rack pinion with every turned size, and no word of its teeth."""
    machine = identify.add_machine(store, "Bench drill", {"unit": "in"})
    part = identify.add_part(store, machine, None, "rack pinion", "SP-03")
    sheet = making.start_sheet(store, part, shape=PartShape.GEAR)
    with store.read() as connection:
        for row in sheet_page(connection, sheet).sizes:
            if row.measure.low_mm is None and row.measure.high_mm is None:
                making_sizes.set_size(store, row.id, "1.000 ±0.005" if row.role != "bore" else "0.500-0.5007")
    return sheet


def progress(store: Store, sheet: int) -> MakingProgress:
    with store.read() as connection:
        return MakingProgress(
            connection.exec_driver_sql(f"SELECT progress FROM making_sheet WHERE id = {sheet}").scalar_one()
        )


def test_without_teeth_it_is_not_released(store: Store, pinion: int) -> None:
    """Seen: "ready" with outside diameter, bore and face width alone."""
    with refuses(store, "teeth and pitch: are not known yet", BadEntry):
        making.release(store, pinion, sure=True)
    making.change_sheet(store, pinion, {"gear": "14 T DP 16 20"})
    making.release(store, pinion, sure=True)
    assert progress(store, pinion) is not MakingProgress.DRAFT


def test_teeth_of_another_form_go_by_a_size_of_ones_own(store: Store, pinion: int) -> None:
    row = making_sizes.add_size(store, pinion, "tooth depth")
    making_sizes.set_size(store, row, "0.135-0.137")
    making.release(store, pinion, sure=True)
    assert progress(store, pinion) is not MakingProgress.DRAFT
