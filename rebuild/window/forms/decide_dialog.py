"""Decide what becomes of one or several parts: decision, reason, criterion, what would change it."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtWidgets import QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.forms.add_dialog import AddDialog, Adding
from rebuild.window.forms.editors import ReferenceEditor
from rebuild.window.forms.record_form import fields_named
from rebuild.words.decisions import Decision
from rebuild.work.decisions.acts import concede, decide
from rebuild.work.machines import rows_parts as part_sheet
from rebuild.work.records.field import Field, FieldKind
from rebuild.work.records.fields import FIELDS
from rebuild.work.records.rows import Choice, card

_FIELDS = ("decision", "decision_reason", "decision_criterion", "decision_would_change")
_SHOWN = 6


def decide_parts(desk: Desk, parent: QWidget | None) -> AddDialog:
    """The dialog that settles the chosen parts; it starts with what is decided on the first."""
    part_ids = desk.selection.part_ids
    first, named = _now(desk, part_ids)

    def act(typed: dict[str, str]) -> int:
        decide(
            desk.store,
            part_ids,
            Decision(typed.get("decision", Decision.OPEN.value)),
            reason=typed.get("decision_reason", ""),
            criterion=typed.get("decision_criterion", ""),
            would_change=typed.get("decision_would_change", ""),
        )
        return part_ids[0]

    adding = Adding(
        "Decide", named, fields_named("part", _FIELDS), act=act, prefill=lambda: first, again=False
    )
    dialog = AddDialog(desk, adding, parent)
    dialog.add_button.setText("Decide")
    dialog.form.boxes["decision"].widget.setFocus()
    dialog.open()
    return dialog


def _now(desk: Desk, part_ids: Sequence[int]) -> tuple[dict[str, str], str]:
    with desk.store.read() as connection:
        fields = card(connection, "part", part_ids[0]).fields
        named = part_sheet.names(connection, part_ids)
    more = f" and {len(named) - _SHOWN} more" if len(named) > _SHOWN else ""
    return {name: fields[name] for name in _FIELDS}, "On " + "; ".join(named[:_SHOWN]) + more


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
