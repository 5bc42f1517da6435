"""The dialog for a joint that is not in the list yet."""

from __future__ import annotations

from collections.abc import Callable, Mapping

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

    def where(typed: Mapping[str, str]) -> str:
        """A joint whose part is said stands where its part does (``rules.joint``)."""
        part = typed.get("part_id", "")
        return where_it_goes(desk, _of_part(desk, machine_id, int(part)) if part.isdigit() else group)

    AddDialog(
        desk,
        Adding(
            "New joint",
            where_it_goes(desk, group),
            fields_named("joint", _FIRST),
            lambda typed: add_joint(desk.store, machine_id, group, typed.pop("name", ""), typed),
            lambda key: choose([key]),
            lambda: {"tight": "apart", "wanted": "snug", "count": "1"},
            under_for=where,
        ),
        parent,
    ).open()


def _group(desk: Desk, machine_id: int) -> int | None:
    """The subassembly a new joint goes to: that of the chosen part, else the one chosen."""
    chosen = desk.selection
    return _of_part(desk, machine_id, chosen.part_ids[0]) if chosen.part_ids else chosen.subassembly_id


def _of_part(desk: Desk, machine_id: int, part_id: int) -> int | None:
    with desk.store.read() as connection:
        found = parts(connection, machine_id, [part_id])
    return found[0].subassembly_id if found else None
