"""What the summary asks of a file: so many statements a machine, whatever lies in the others."""

from __future__ import annotations

from collections.abc import Callable

from sqlalchemy import Connection, Engine, event

from rebuild.work.machines import acts as identify
from rebuild.work.plan.rows_summary import shop_state
from tests.conftest import Shop


def said_by(what: Callable[[], object]) -> list[str]:
    """Every statement sent meanwhile, by any connection."""
    said: list[str] = []

    def hear(_connection: Connection, _cursor: object, statement: str, *_rest: object) -> None:
        said.append(statement)

    event.listen(Engine, "before_cursor_execute", hear)
    try:
        what()
    finally:
        event.remove(Engine, "before_cursor_execute", hear)
    return said


def test_a_machine_more_costs_its_own_statements_only(shop: Shop) -> None:
    shop_state(shop.store)  # what is asked once in a session
    counts = []
    for name in ("one more", "another", "and another"):
        counts.append(len(said_by(lambda: shop_state(shop.store))))
        identify.add_machine(shop.store, name)
    first, second = counts[1] - counts[0], counts[2] - counts[1]
    assert first == second <= 45
