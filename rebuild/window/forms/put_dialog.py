"""Say where parts lie now, or move them to another subassembly: one list to find by typing."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtWidgets import QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.forms.add_dialog import AddDialog, Adding
from rebuild.window.forms.editors import ReferenceEditor
from rebuild.words.places import PlaceKind
from rebuild.work.machines import rows_parts as part_sheet, rows_tree as tree
from rebuild.work.machines.acts import add_place, move_parts, put
from rebuild.work.records.field import Field, FieldKind
from rebuild.work.records.fields import field_of
from rebuild.work.records.rows import Choice

PLACE = Field(
    "place",
    "Place",
    FieldKind.REFERENCE,
    refers_to="place",
    help="Type any part of its name, or make a new one below.",
)
NEW = Field("new", "Or a new place", help="Its name, e.g. tote 7.")
TARGET = Field(
    "target", "Subassembly", FieldKind.REFERENCE, refers_to="subassembly", help="Empty: the loose parts."
)


def put_parts(
    desk: Desk, parent: QWidget | None, part_ids: Sequence[int] = (), *, asks: str = "Put away"
) -> AddDialog:
    """The dialog that puts parts away, the chosen ones unless others are given."""
    part_ids = part_ids or desk.selection.part_ids

    def act(typed: dict[str, str]) -> int:
        if typed.get("new"):
            kind = PlaceKind(typed.get("kind", PlaceKind.OTHER.value))
            place: object = add_place(desk.store, typed["new"], kind)
        else:
            place = PLACE.read(typed.get("place", ""))["place"]
        put(desk.store, part_ids, place if isinstance(place, int) else None)
        return part_ids[0]

    shown = [PLACE, NEW, field_of("place", "kind")]
    adding = Adding(
        asks,
        _named(desk, part_ids),
        shown,
        act=act,
        again=False,
        prefill=lambda: {"kind": PlaceKind.TOTE.value},
    )
    dialog = AddDialog(desk, adding, parent)
    dialog.add_button.setText("Put there")
    dialog.form.boxes["place"].widget.setFocus()
    dialog.open()
    return dialog


def move_dialog(desk: Desk, parent: QWidget | None) -> AddDialog:
    """The dialog that moves the chosen parts to another subassembly with the keyboard."""
    part_ids = desk.selection.part_ids

    def act(typed: dict[str, str]) -> int:
        target = TARGET.read(typed.get("target", ""))["target"]
        move_parts(desk.store, part_ids, target if isinstance(target, int) else None)
        return part_ids[0]

    dialog = AddDialog(desk, Adding("Move", _named(desk, part_ids), [TARGET], act=act, again=False), parent)
    with desk.store.read() as connection:
        rows = tree.subassemblies(connection, desk.machine_id or 0)
    editor = dialog.form.boxes["target"].widget
    assert isinstance(editor, ReferenceEditor)
    editor.offer([Choice(row.id, f"{row.code} {row.name}".strip()) for row in rows])
    dialog.add_button.setText("Move")
    dialog.open()
    return dialog


def _named(desk: Desk, part_ids: Sequence[int]) -> str:
    with desk.store.read() as connection:
        named = part_sheet.names(connection, part_ids)
    return "; ".join(named[:6]) + (f" and {len(named) - 6} more" if len(named) > 6 else "")
