"""A machine's own details, edited in place."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.forms.record_card import RecordCard, edit_record


def machine_card(desk: Desk, parent: QWidget | None) -> RecordCard:
    """Open the card of the machine shown."""
    return edit_record(desk, "machine", desk.machine_id or 0, parent)
