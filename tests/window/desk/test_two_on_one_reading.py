"""Two windows measure the same place: who is overwritten is told, by name and value."""

from __future__ import annotations

from rebuild.window.desk.desk import Desk
from rebuild.words.readings import Stage
from rebuild.work.landings.acts import put
from rebuild.work.landings.stored import How
from rebuild.work.readings.acts import Entry, record_reading
from rebuild.work.readings.landing import Landing, Surface
from tests.conftest import Shop


def test_a_value_replaced_by_another_window_is_said(desk: Desk, shop: Shop) -> None:
    said: list[str] = []
    desk.said.connect(lambda words, _how: said.append(words))
    landing = Landing(
        Surface.GRID,
        (shop.journal, shop.near),
        Stage.AS_FOUND.value,
        "",
        "HS-01 spindle, front journal, near",
    )
    desk.remember(put(desk.store, "59.98", landing, How()))
    record_reading(shop.store, "59.97", Entry(shop.journal, shop.far, Stage.AS_FOUND))
    record_reading(shop.store, "59.96", Entry(shop.journal, shop.near, Stage.CLEANED))
    desk._look_elsewhere()
    assert said[-1].startswith("Another window changed this file"), "other places and stages replace nothing"
    record_reading(shop.store, "59.95", Entry(shop.journal, shop.near, Stage.AS_FOUND))
    desk._look_elsewhere()
    assert said[-1] == (
        "Another window replaced 59.98 on HS-01 spindle, front journal, near by 59.95. "
        "The older stays in the history."
    )
