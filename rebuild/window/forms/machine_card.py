"""A machine's own details, edited in place; and the machine removed."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.forms.record_card import RecordCard, edit_record
from rebuild.work.editing.acts import remove


def machine_card(desk: Desk, parent: QWidget | None) -> RecordCard:
    """Open the card of the machine shown."""
    return edit_record(desk, "machine", desk.machine_id or 0, parent)


def remove_machine(desk: Desk, _window: QWidget | None) -> object:
    """Remove the machine shown, with all its parts and steps."""
    key = desk.machine_id or 0
    return desk.attempt(
        lambda: remove(desk.store, "machine", [key]),
        "Machine removed; Ctrl+Z brings it back with everything.",
    )
