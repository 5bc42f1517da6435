"""What another window did to the values last stored here, as a sentence."""

from __future__ import annotations

from collections.abc import Sequence

from rebuild.store.changed import Changed
from rebuild.store.store import Store
from rebuild.work.landings.stored import Stored


def replaced_words(store: Store, recent: Sequence[Stored], changed: Changed) -> str:
    """Says that another window put a value over one of the last here: the newer speaks, the older stays.

    Empty when it put none.
    """
    mine = {one.id: one for one in recent if one.record == "reading"}
    added = changed.rows("reading").added
    if not mine or not added:
        return ""
    from rebuild.work.landings.rows_replaced import replaced_by

    with store.read() as connection:
        found = replaced_by(connection, sorted(mine), sorted(added))
    told = [f"{typed} on {mine[key].landing.words} by {other}" for key, typed, other in found]
    return f"Another window replaced {'; '.join(told)}. The older stays in the history." if told else ""
