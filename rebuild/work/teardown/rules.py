"""What follows when a removal's fields are typed anew."""

from __future__ import annotations

from collections.abc import Mapping

from rebuild.model.records.teardown import Removal
from rebuild.store.tx import Tx
from rebuild.work.places.acts_follow import put_right


def removal(tx: Tx, row: Removal, _before: Mapping[str, object], typed: Mapping[str, str]) -> None:
    """Where it was put, and when, are of the parts too: their stays say the same."""
    if "place_id" in typed or "at" in typed:
        put_right(tx, row)
