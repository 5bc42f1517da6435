"""Another window acts between the moment undo is asked for and the moment it writes."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import pytest
from sqlalchemy import Connection

from rebuild.errors import Stale
from rebuild.store import next_undo as undoing
from rebuild.store.store import Store
from rebuild.work.machines import acts as identify

if TYPE_CHECKING:
    from tests.conftest import Shop


@pytest.fixture
def other(shop: Shop) -> Iterator[Store]:
    """The same file in another window."""
    opened = Store.open(shop.path)
    yield opened
    opened.close()


def places(store: Store) -> list[str]:
    with store.read() as connection:
        return list(connection.exec_driver_sql("SELECT name FROM place ORDER BY id").scalars())


@pytest.mark.parametrize("undo", [True, False])
def test_what_was_asked_for_is_not_done_to_something_else(
    shop: Shop, other: Store, monkeypatch: pytest.MonkeyPatch, undo: bool
) -> None:
    identify.add_place(shop.store, "shelf one")
    if not undo:
        shop.store.undo()
    asked = undoing.next_step
    done: list[int] = []

    def meanwhile(connection: Connection, *, undo: bool) -> undoing.Step | None:
        step = asked(connection, undo=undo)
        if not done:
            done.append(0)
            done.append(identify.add_place(other, "shelf two"))
        return step

    monkeypatch.setattr(undoing, "next_step", meanwhile)
    with pytest.raises(Stale, match=r"Another window has done something in this very moment\. Look at what"):
        (shop.store.undo if undo else shop.store.redo)()
    assert places(shop.store) == (["shelf one", "shelf two"] if undo else ["shelf two"])
    monkeypatch.undo()
    assert shop.store.undo() == "new place shelf two"
