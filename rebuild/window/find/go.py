"""Go to what was found: its machine, its page, and the very row."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractItemView, QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.desk.leads import STEP_TABLES, HasPanes, HasSurfaces, ShowsRows
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
    task = (found.target,) if found.table in STEP_TABLES and found.target is not None else ()
    parts = (found.part_id,) if found.part_id is not None else ()
    key: Key | None = (found.feature_id, found.station_id or 0) if found.feature_id is not None else None
    desk.choose(subassembly_id=found.subassembly_id, part_ids=() if task else parts, key=key, task_ids=task)
    page = turn(found.page)
    if isinstance(page, ShowsRows) and found.target is not None:
        page.show_row(found.table, found.target)
    take_keyboard(page, found)


def take_keyboard(page: QWidget, found: Found | None = None) -> None:
    """Put the keyboard where the found row stands: what is typed or sent next is meant for it."""
    surface = None
    if isinstance(page, HasSurfaces) and found is not None:
        surface = page.surface_of(found.table, measured=found.feature_id is not None)
    if surface is None:
        listed = [view for view in page.findChildren(QAbstractItemView) if _takes_keys(view)]
        chosen = [view for view in listed if view.currentIndex().isValid()]
        panes = page.panes() if isinstance(page, HasPanes) else []
        surface = next(iter([*chosen, *panes, *listed]), page)
    surface.setFocus(Qt.FocusReason.OtherFocusReason)
    focus = page.window().focusWidget()
    if focus is None or not (focus is page or page.isAncestorOf(focus)):
        page.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        page.setFocus(Qt.FocusReason.OtherFocusReason)


def _takes_keys(view: QAbstractItemView) -> bool:
    return view.isVisible() and view.isEnabled() and view.focusPolicy() != Qt.FocusPolicy.NoFocus


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
