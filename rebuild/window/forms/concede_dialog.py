"""Accept a part outside its spec: which feature, what value, by whom, why."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtWidgets import QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.forms.add_dialog import AddDialog, Adding
from rebuild.window.forms.editors import ReferenceEditor
from rebuild.work.decisions.acts import concede
from rebuild.work.machines import rows_parts as part_sheet
from rebuild.work.records.field import Field, FieldKind
from rebuild.work.records.fields import FIELDS
from rebuild.work.records.rows import Choice


def concede_part(desk: Desk, parent: QWidget | None, part_id: int | None = None) -> AddDialog:
    """The dialog that accepts a part outside its spec: which feature, what value, by whom, why.

    Without ``part_id`` it is the first of the chosen parts.
    """
    part = desk.selection.part_ids[0] if part_id is None else part_id
    with desk.store.read() as connection:
        listed = part_sheet.features(connection, part)
        named = "; ".join(part_sheet.names(connection, (part,)))
    feature = Field("feature", "Feature", FieldKind.REFERENCE, refers_to="feature of the part")
    shown = [feature, *(field for field in FIELDS["concession"] if field.name != "accepted_at")]

    def act(typed: dict[str, str]) -> int:
        chosen = feature.read(typed.get("feature", ""))["feature"]
        return concede(
            desk.store,
            part,
            typed.get("reason", ""),
            feature_id=chosen if isinstance(chosen, int) else None,
            accepted=typed.get("accepted", ""),
            by=typed.get("accepted_by", ""),
        )

    dialog = AddDialog(desk, Adding("Concession", f"On {named}", shown, act=act, again=False), parent)
    offer_features(dialog, listed)
    dialog.add_button.setText("Accept")
    dialog.open()
    return dialog


def offer_features(dialog: AddDialog, listed: Sequence[tuple[int, str]]) -> None:
    """Put a part's own features into the list."""
    editor = dialog.form.boxes["feature"].widget
    assert isinstance(editor, ReferenceEditor)
    editor.offer([Choice(key, name) for key, name in listed])
