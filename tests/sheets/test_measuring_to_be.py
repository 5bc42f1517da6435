"""What is to be, in the figures an instrument shows."""

from __future__ import annotations

from rebuild.sheets.pages.measuring_sheet import grid_rows
from rebuild.work.readings import acts_features as spec
from rebuild.work.readings.told_in import told_spec
from tests.conftest import Shop


def test_a_class_is_written_with_its_figures(shop: Shop) -> None:
    """Source: ISO 286-2:2010, 60 h6 is 0/-19 um; typed limits stand as they were typed."""
    before = {told_spec(row, "mm") for row in grid_rows(shop.store, shop.machine, shop.headstock)}
    assert "60 -0.010/-0.029" in before
    spec.set_spec(shop.store, [shop.journal], "60 h6")
    after = {told_spec(row, "mm") for row in grid_rows(shop.store, shop.machine, shop.headstock)}
    assert "60 h6, 59.981 to 60.000" in after
