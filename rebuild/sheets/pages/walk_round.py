"""The walk round the machine on paper: every joint not final, by where one stands, to be ticked and written on."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import TYPE_CHECKING, Any

from rebuild.sheets.pages.tray_list import TICK
from rebuild.sheets.paper import A4, Heading, Paper, build, words
from rebuild.sheets.table import ruled
from rebuild.trade.results.cautions import caution
from rebuild.words.counted import counted
from rebuild.work.joints.rows import JointRow, after_run_in, not_final
from rebuild.work.machines.rows_tree import machines

if TYPE_CHECKING:
    from rebuild.store.store import Store

_HEAD = ("", "Joint", "Where", "Now", "Lacks", "Torque", "Set to")
_SHARES = (0.05, 0.23, 0.18, 0.14, 0.17, 0.11, 0.12)


def write_walk_round(
    store: Store, machine_id: int, target: Path, on: Paper = A4, *, printed: dt.datetime | None = None
) -> int:
    """Print the joints to see to before power, and those to look at again after the run-in; returns the pages.

    Raises:
        FileTrouble: it cannot be written there.
    """
    with store.read() as connection:
        open_ones, again = not_final(connection, machine_id), after_run_in(connection, machine_id)
        machine = next(row.name for row in machines(connection) if row.id == machine_id)
    count = counted(len(open_ones), "joint")
    heading = Heading("Walk round", machine, (f"{count} not final",), foot=f"Walk round · {machine}")
    story: list[Any] = []
    for stand in dict.fromkeys(row.stand for row in open_ones):
        mine = [row for row in open_ones if row.stand == stand]
        story += [words(f"Stand: {stand}", "strong"), _table(mine, on.inside_mm)]
    if not open_ones:
        story.append(
            words("Every joint written down is final. What was never written down is not on this page.")
        )
    if again:
        story += [words("After the run-in, again", "strong"), _table(again, on.inside_mm)]
    said = caution("lockout")
    story.append(words(f"{said.title}: {said.text} {said.defer_to}", "caution"))
    return build(target, heading, story, on, printed=printed)


def _table(rows: list[JointRow], wide: float) -> Any:
    lines = [
        (TICK, f"{row.name}{f' × {row.count}' if row.count != 1 else ''}", row.location, row.state, row.lacks,
         row.torque_wanted, "")
        for row in rows
    ]  # fmt: skip
    return ruled([_HEAD, *lines], [share * wide for share in _SHARES], least_mm=9.0, boxed=(6,))
