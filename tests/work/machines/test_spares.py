"""Spares and sets of parts."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from rebuild.errors import BadEntry
from rebuild.work.editing import acts as edit
from rebuild.work.machines import acts as identify

if TYPE_CHECKING:
    from tests.conftest import Shop


def test_a_part_is_no_spare_of_itself_and_its_set_is_its_machines(shop: Shop) -> None:
    with pytest.raises(BadEntry, match="Spare of: “spindle” cannot be a spare of itself"):
        edit.edit(shop.store, "part", [shop.spindle], {"spare_of_id": str(shop.spindle)})
    other = identify.add_machine(shop.store, "Shaper")
    foreign = identify.add_matched_set(shop.store, other, "gib and slide")
    with pytest.raises(BadEntry, match="Matched set: “gib and slide” belongs to another machine"):
        edit.edit(shop.store, "part", [shop.spindle], {"matched_set_id": str(foreign)})
