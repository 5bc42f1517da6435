"""Instruments and their limits."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sqlalchemy import text

from rebuild.work.editing import acts as edit

if TYPE_CHECKING:
    from tests.conftest import Shop


def row(shop: Shop, table: str, key: int) -> Any:
    with shop.store.read() as connection:
        return connection.execute(text(f"SELECT * FROM {table} WHERE id = {key}")).one()


def test_limits_of_an_instrument_are_edited_with_their_unit(shop: Shop) -> None:
    edit.edit(shop.store, "instrument", [shop.micrometer], {"mpe": "0.0002 in"})
    found = row(shop, "instrument", shop.micrometer)
    assert (found.mpe_text, found.mpe_unit, found.mpe_mm) == ("0.0002 in", "in", 0.00508)
