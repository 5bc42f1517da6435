"""How much is in the demo; read by the tests and said in reports."""

from __future__ import annotations

from rebuild.store.store import Store
from rebuild.work.records.rows_counts import counts


def demo_counts(store: Store) -> dict[str, int]:
    """Rows by table name."""
    with store.read() as connection:
        return counts(connection)
