"""A part comes off again: every step that put it on is opened, with why."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.forms.add_dialog import AddDialog, Adding
from rebuild.work.machines.rows_parts import names
from rebuild.work.records.field import Field, FieldKind
from rebuild.work.steps.acts_again import take_apart_again

_WHY = Field("reason", "Why again", FieldKind.LONG_TEXT, required=True, help="Say what stopped it.")


def take_apart(desk: Desk, parent: QWidget | None, part_id: int | None = None) -> AddDialog:
    """The dialog that takes a part apart again; without ``part_id`` it is the first of the chosen parts."""
    part = desk.selection.part_ids[0] if part_id is None else part_id
    with desk.store.read() as connection:
        named = "; ".join(names(connection, (part,)))

    def act(typed: dict[str, str]) -> int:
        return take_apart_again(desk.store, part, typed.get("reason", ""))

    under = f"{named}: the steps that put it on are opened; what was noted at them stays as an attempt."
    dialog = AddDialog(desk, Adding("Taken apart again", under, (_WHY,), act=act, again=False), parent)
    dialog.add_button.setText("Take apart")
    dialog.open()
    return dialog
