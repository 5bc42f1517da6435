"""Add a point to the oil card."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtWidgets import QCompleter, QLineEdit, QWidget

from rebuild.trade.lubrication.duties import duty_names
from rebuild.window.desk.desk import Desk
from rebuild.window.forms.add_dialog import AddDialog, Adding
from rebuild.window.forms.record_form import RecordForm, fields_named
from rebuild.words.lubrication import OilPointKind
from rebuild.work.lubrication.acts import add_point

_FIRST = (
    "number", "kind", "feeds", "path", "fed_by_id", "old_oil", "duty", "quantity", "interval", "part_id", "task_id",
    "dose_ml", "delivery_ml", "note",
)  # fmt: skip


def new_point(desk: Desk, parent: QWidget, number: str, after: Callable[[int], None]) -> AddDialog | None:
    """Open the dialog; ``number`` is proposed for the point."""
    machine = desk.machine_id
    if machine is None:
        desk.say("There is no machine yet. Add one first (Ctrl+M).")
        return None

    def act(typed: dict[str, str]) -> int:
        kind = OilPointKind(typed.pop("kind", OilPointKind.OIL_HOLE.value))
        return add_point(desk.store, machine, typed.pop("feeds", ""), kind, typed)

    dialog = AddDialog(
        desk,
        Adding(
            "New oil point",
            "Pump, lines and metering units are points too: what they feed hangs on them.",
            fields_named("oil_point", _FIRST),
            act=act,
            after=after,
            prefill=lambda: {"kind": OilPointKind.OIL_HOLE.value, "number": number},
        ),
        parent,
    )
    offer_duties(dialog.form)
    dialog.open()
    return dialog


def offer_duties(form: RecordForm) -> None:
    """Complete the duty from the list of duties."""
    editor = form.boxes["duty"].widget
    if isinstance(editor, QLineEdit):
        editor.setCompleter(QCompleter(list(duty_names()), editor))
        editor.setPlaceholderText(", ".join(duty_names()[1:4]) + " …")
