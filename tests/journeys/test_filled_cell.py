"""A filled cell is chosen by mouse, and a gauge or a quick hand writes more than a number into it."""

from __future__ import annotations

import pytest

from rebuild.window.readings.columns import STAGE_COLUMNS
from rebuild.words.readings import STAGES, FeatureKind, Stage
from rebuild.work.readings.acts import Entry, record_reading
from rebuild.work.readings.acts_features import add_feature
from tests.conftest import Shop
from tests.journeys.hands import Hands
from tests.journeys.test_landing import typed


@pytest.mark.parametrize("slow", [False, True], ids=["quickly", "by hand"])
def test_text_after_a_number_typed_on_a_filled_cell_keeps_its_digits(
    hands: Hands, shop: Shop, *, slow: bool
) -> None:
    """Seen: "0.5353 over 0.0577 in wires" was read as "0over 0.0577 in wires"; the digits were gone."""
    user, store = hands, hands.frame.desk.store
    screw = add_feature(
        store, shop.spindle, "screw", FeatureKind.THREAD, unit="in", typed={"thread": "1/2-10 Acme LH"}
    )
    record_reading(store, "0.4401", Entry(screw))
    user.frame.desk.choose(part_ids=(shop.spindle,), key=(screw, 0))
    grid = user.grid
    at = grid.model.index(user.row("HS-01", "screw"), STAGE_COLUMNS[STAGES.index(Stage.AS_FOUND)])
    user.click_item(grid.view, at)
    (user.person if slow else user.gauge)("0.5353 over 0.0577 in wires\r")
    said = " ".join((user.answer, user.said, *typed(store, screw, 0)))
    assert "0over" not in said
    assert sorted(typed(store, screw, 0)) == ["0.4401", "0.5353"], said
