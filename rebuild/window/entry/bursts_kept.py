"""What is typed or sent with no row in hand is kept, and said; and whether the focus takes text."""

from __future__ import annotations

from rebuild.window.desk.desk import Desk, Say
from rebuild.window.entry.written import writing
from rebuild.work.landings.stored import How


def writes() -> bool:
    """Whether the focus is on a field that takes text."""
    return writing() is not None


#: Why a value is kept without a row.
NO_ROW = "had no row to go to"
HALF_TYPED = "came while another text was half typed"
NOT_CHOSEN = "was not chosen"


def keep(desk: Desk, text: str, seen_on: str, how: How | None = None, why: str = NO_ROW) -> None:
    """Keep a value without a row, and say so; ``why`` is what keeps it from one, as a part of the sentence."""
    from rebuild.work.landings.acts import keep_unplaced

    sent = text.strip()
    if desk.attempt(lambda: keep_unplaced(desk.store, sent, seen_on, how)) is not None:
        from rebuild.work.landings.rows import unplaced

        with desk.store.read() as connection:
            waiting = unplaced(connection)
        oldest = waiting[0].typed if waiting else sent
        which = "it" if len(waiting) < 2 else f"the one that waited longest, {oldest},"
        desk.say(
            f"{sent} {why} and is kept without a row. Choose its row; Ctrl+Alt+0 puts {which} there.",
            Say.ASK,
        )
