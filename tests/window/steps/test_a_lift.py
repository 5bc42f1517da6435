"""A step typed in a list that names a hoist asks for two people or a hoist, in the same act."""

from __future__ import annotations

from rebuild.window.desk.desk import Desk
from rebuild.window.steps.acts import add
from rebuild.words.steps import ConstraintKind
from rebuild.work.steps.rows import tasks
from tests.conftest import Shop


# Seen: "Overarm off with the hoist" stood as work for one pair of hands.
def test_a_step_that_names_a_hoist_is_a_lift(desk: Desk, shop: Shop) -> None:
    lift = add(desk, shop.headstock, "Overarm off with the hoist")
    plain = add(desk, shop.headstock, "Take the pin out")
    with desk.store.read() as connection:
        asked = {row.id: [kind for kind, _ in row.constraints] for row in tasks(connection, shop.machine)}
    assert asked[lift or 0] == [ConstraintKind.TWO_PEOPLE]
    assert asked[plain or 0] == []
    desk.store.undo()
    desk.store.undo()
    with desk.store.read() as connection:
        assert lift not in [row.id for row in tasks(connection, shop.machine)]
