"""Go to what was found: its machine, its page, and the very row."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.desk.leads import ShowsRows
from rebuild.work.find.rows import Found
from rebuild.work.readings.rows_grid_keys import Key

if TYPE_CHECKING:
    from rebuild.window.forms.record_list import RecordList

#: Turns to a page by its key and returns it.
Turn = Callable[[str], QWidget]


def go_to(desk: Desk, found: Found, turn: Turn, window: QWidget) -> None:
    """Show what was found where it lies."""
    if found.machine_id is not None:
        desk.choose_machine(found.machine_id)
    if found.page in _LISTS:
        _in_list(desk, found, window)
        return
    task = (found.target,) if found.table in _STEPS and found.target is not None else ()
    parts = (found.part_id,) if found.part_id is not None else ()
    key: Key | None = (found.feature_id, found.station_id or 0) if found.feature_id is not None else None
    desk.choose(subassembly_id=found.subassembly_id, part_ids=() if task else parts, key=key, task_ids=task)
    page = turn(found.page)
    if isinstance(page, ShowsRows) and found.target is not None:
        page.show_row(found.table, found.target)


_STEPS = ("task", "task_constraint", "task_caution", "link", "step_means")
_LISTS = ("instruments", "sets")


def _in_list(desk: Desk, found: Found, window: QWidget) -> None:
    """What stands in a list of the shop's."""
    from rebuild.window.forms.shop_lists import instrument_list, matched_set_list

    made: dict[str, Callable[[Desk, QWidget | None], RecordList | None]] = {
        "instruments": instrument_list,
        "sets": matched_set_list,
    }
    shown = made[found.page](desk, window)
    if shown is not None and found.target is not None:
        shown.table.choose(found.target)
