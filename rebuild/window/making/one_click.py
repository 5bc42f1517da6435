"""One click from a part: its making sheet, made when it has none that is still open, and the page turned to it."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from rebuild.window.desk.desk import Desk
from rebuild.work.making.acts import start_sheet
from rebuild.work.making.rows import newest_of, open_of


def make_sheet(desk: Desk, _window: QWidget | None = None) -> int | None:
    """Make the sheet of the first chosen part, or turn to the one it has; returns its id."""
    return sheet_of(desk, desk.selection.part_ids[0])


def sheet_of(desk: Desk, part_id: int) -> int | None:
    """Make the sheet of a part, or turn to the one it has; returns its id."""
    with desk.store.read() as connection:
        held = open_of(connection, part_id)
    if held is None:
        made = desk.attempt(
            lambda: start_sheet(desk.store, part_id), "Sheet made; look it through, then release it."
        )
        if made is None:
            with desk.store.read() as connection:
                made = newest_of(connection, part_id)
        held = made
    desk.choose(part_ids=(part_id,))
    desk.page_asked.emit("making")
    return held
