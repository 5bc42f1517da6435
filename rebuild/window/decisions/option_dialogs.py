"""The dialogs of options: a further one for a part, and one that is changed."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.forms.add_dialog import AddDialog, Adding
from rebuild.words.decisions import Decision
from rebuild.work.decisions.acts_options import add_option
from rebuild.work.decisions.rows_options import OptionRow
from rebuild.work.decisions.rows_proposals import ToDecide
from rebuild.work.editing.acts import edit
from rebuild.work.records.fields import FIELDS
from rebuild.work.records.rows import card


def ask_new_option(desk: Desk, row: ToDecide, parent: QWidget) -> AddDialog:
    """The open dialog for a further option of a part."""

    def act(typed: dict[str, str]) -> int:
        decision = Decision(typed.pop("decision", Decision.OPEN.value))
        return add_option(desk.store, row.part_id, decision, typed)

    adding = Adding(
        "New option",
        f"For {row.title}",
        FIELDS["decision_option"],
        act=act,
        prefill=lambda: {"decision": "remake", "reversible": "yes"},
    )
    dialog = AddDialog(desk, adding, parent)
    dialog.open()
    return dialog


def ask_change(desk: Desk, chosen: OptionRow, parent: QWidget) -> AddDialog:
    """The open dialog that changes an option. Raises NotThere."""
    with desk.store.read() as connection:
        fields = card(connection, "decision_option", chosen.id).fields

    def act(typed: dict[str, str]) -> int:
        names = [field.name for field in FIELDS["decision_option"]]
        edit(desk.store, "decision_option", [chosen.id], {name: typed.get(name, "") for name in names})
        return chosen.id

    adding = Adding(
        "Change option",
        chosen.title,
        FIELDS["decision_option"],
        act=act,
        prefill=lambda: fields,
        again=False,
    )
    dialog = AddDialog(desk, adding, parent)
    dialog.add_button.setText("Store")
    dialog.open()
    return dialog
