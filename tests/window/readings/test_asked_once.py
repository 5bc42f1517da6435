"""Another machine: the grid asks for its rows once, however many panes choose something on it."""

from __future__ import annotations

from pathlib import Path

import pytest

from rebuild.window.bench.page import BenchPage
from rebuild.window.readings.grid import MeasurementGrid
from rebuild.window.shell.frame import Frame
from rebuild.work.machines import acts as identify
from rebuild.work.readings import acts_features as spec, rows_grid
from tests.conftest import Shop


def test_the_rows_of_another_machine_are_asked_for_once(
    frame: Frame, shop: Shop, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    store = frame.desk.store
    other = identify.add_machine(store, "Another")
    group = identify.add_subassembly(store, other, "Table", "T")
    part = identify.add_part(store, other, group, "table", "T-01")
    feature = spec.add_feature(store, part, "slot width", spec="14 H8")
    page = frame.page("bench")
    assert isinstance(page, BenchPage)
    assert isinstance(page.grid, MeasurementGrid)
    asked: list[rows_grid.Asked] = []
    real = rows_grid.keys

    def keys(connection, question, rule, limits):  # type: ignore[no-untyped-def]
        asked.append(question)
        return real(connection, question, rule, limits)

    monkeypatch.setattr("rebuild.window.readings.model.grid.keys", keys)
    for machine, rows in ((other, {feature}), (shop.machine, {shop.journal})):
        asked.clear()
        frame.desk.choose_machine(machine)
        assert {one.machine_id for one in asked} == {machine}
        assert len(asked) == 1
        assert rows <= {key[0] for key in page.grid.keys}
