"""The dialog for a joint that is not in the list yet."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtWidgets import QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.forms.add_dialog import AddDialog, Adding
from rebuild.window.forms.new import where_it_goes
from rebuild.window.forms.record_form import fields_named
from rebuild.work.joints.acts import add_joint
from rebuild.work.machines.rows_tree import parts

#: What is asked of it at first; the rest stands among its fields.
_FIRST = (
    "name",
    "duty",
    "location",
    "part_id",
    "thread",
    "count",
    "grade",
    "tight",
    "wanted",
    "wanted_dress",
    "torque_wanted",
    "torque_source",
    "look_again",
)


def ask_new_joint(desk: Desk, machine_id: int, choose: Callable[[list[int]], None], parent: QWidget) -> None:
    """Open the dialog; the joint made is chosen."""
    group = _group(desk, machine_id)
    AddDialog(
        desk,
        Adding(
            "New joint",
            where_it_goes(desk, group),
            fields_named("joint", _FIRST),
            lambda typed: add_joint(desk.store, machine_id, group, typed.pop("name", ""), typed),
            lambda key: choose([key]),
            lambda: {"tight": "apart", "wanted": "snug", "count": "1"},
        ),
        parent,
    ).open()


def _group(desk: Desk, machine_id: int) -> int | None:
    """The subassembly a new joint goes to: the one chosen, else that of the chosen part."""
    chosen = desk.selection
    if chosen.subassembly_id is not None or not chosen.part_ids:
        return chosen.subassembly_id
    with desk.store.read() as connection:
        found = parts(connection, machine_id, list(chosen.part_ids[:1]))
    return found[0].subassembly_id if found else None
