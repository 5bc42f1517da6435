"""What is to be bought, on paper: what stands on no order yet with boxes to write in, and what comes from whom."""

from __future__ import annotations

import datetime as dt
from itertools import groupby
from pathlib import Path
from typing import TYPE_CHECKING, Any

from rebuild.sheets.pages.tray_list import TICK
from rebuild.sheets.paper import A4, Heading, Paper, build, words
from rebuild.sheets.table import ruled
from rebuild.words.counted import counted
from rebuild.work.machines.rows_tree import machines
from rebuild.work.records.wall_clock import now
from rebuild.work.waiting.rows import Stand, WaitingRow, waiting
from rebuild.work.waiting.rows_to_buy import to_buy

if TYPE_CHECKING:
    from rebuild.store.store import Store

_HEAD = ("", "What", "For", "Why", "From", "Price")
_SHARES = (0.05, 0.3, 0.22, 0.19, 0.14, 0.1)
_ORDERED_HEAD = ("", "What", "For", "How it stands", "Their reference")
_ORDERED_SHARES = (0.05, 0.31, 0.24, 0.25, 0.15)
#: What a supplier still has to answer, send or take back.
_RUNNING = (Stand.LATE, Stand.OPEN, Stand.WANTED, Stand.ASKED)
_NOBODY = "no supplier named"


def write_shopping_list(
    store: Store, machine_id: int, target: Path, on: Paper = A4, *, printed: dt.datetime | None = None
) -> int:
    """Print what is to be bought for a machine and what is on its way, by supplier; returns the pages.

    Raises:
        FileTrouble: it cannot be written there.
    """
    with store.read() as connection:
        wanted = to_buy(connection, machine_id)
        rows = waiting(connection, machine_id, printed or now())
        machine = next(row.name for row in machines(connection) if row.id == machine_id)
    running = sorted((row for row in rows if row.stand in _RUNNING), key=lambda row: _from(row).casefold())
    count = f"{counted(len(wanted), 'thing')} to buy"
    heading = Heading("To buy", machine, (count, f"{len(running)} on order"), foot=f"To buy · {machine}")
    story: list[Any] = []
    if wanted:
        lines = [(TICK, row.what, row.about, row.why, "", "") for row in wanted]
        shares = [share * on.inside_mm for share in _SHARES]
        story += [
            words("Not ordered yet", "strong"),
            ruled([_HEAD, *lines], shares, least_mm=9.0, boxed=(4, 5)),
        ]
    else:
        story.append(words("Nothing is left to buy that stands on no order."))
    for name, theirs in groupby(running, key=_from):
        story += [words(f"From {name}" if name != _NOBODY else "From whom is not noted", "strong"),
                  _ordered(list(theirs), on.inside_mm)]  # fmt: skip
    return build(target, heading, story, on, printed=printed)


def _from(row: WaitingRow) -> str:
    return row.who or _NOBODY


def _ordered(rows: list[WaitingRow], wide: float) -> Any:
    lines = [
        (
            TICK,
            f"{f'{row.quantity} × ' if row.quantity != 1 else ''}{row.what}",
            row.about,
            row.words,
            row.reference,
        )
        for row in rows
    ]
    return ruled([_ORDERED_HEAD, *lines], [share * wide for share in _ORDERED_SHARES], least_mm=8.0)
