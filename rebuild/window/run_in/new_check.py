"""Add a check, or a step of the run-in."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtWidgets import QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.forms.add_dialog import AddDialog, Adding
from rebuild.window.forms.record_form import fields_named
from rebuild.words.run_in import LookWhen
from rebuild.work.records.field import Field
from rebuild.work.run_in.acts import add_check, add_step, run_again


def new_check(desk: Desk, parent: QWidget, after: Callable[[int], None]) -> AddDialog | None:
    """Add a check before power, at first power or after the run-in."""
    machine = desk.machine_id
    if machine is None:
        desk.say("There is no machine yet. Add one first (Ctrl+M).")
        return None

    def act(typed: dict[str, str]) -> int:
        due = LookWhen(typed.pop("due", LookWhen.BEFORE_POWER.value))
        return add_check(desk.store, machine, typed.pop("text", ""), due, typed)

    return _open(
        desk,
        parent,
        Adding(
            "New check",
            "",
            fields_named("run_look", ("due", "text", "licensed", "note")),
            act=act,
            after=after,
            prefill=lambda: {"due": LookWhen.BEFORE_POWER.value, "licensed": "no"},
        ),
    )


def new_step(desk: Desk, parent: QWidget, after: Callable[[int], None]) -> AddDialog | None:
    """Add a step of the run-in."""
    machine = desk.machine_id
    if machine is None:
        desk.say("There is no machine yet. Add one first (Ctrl+M).")
        return None
    first = ("name", "speed_rpm", "planned_min", "limit_c", "limit_origin", "limit_status", "ambient_c")
    return _open(
        desk,
        parent,
        Adding(
            "New run-in step",
            "Say where its bearing limit comes from.",
            fields_named("run_step", first),
            after=after,
            act=lambda typed: add_step(desk.store, machine, typed.pop("name", ""), typed),
            prefill=lambda: {"limit_status": "the owner's own"},
        ),
    )


def run_once_more(desk: Desk, parent: QWidget, step_id: int, after: Callable[[int], None]) -> AddDialog:
    """Run a speed again that did not stand; the earlier try stays with its temperatures."""
    why = Field("reason", "Why again", required=True, help="Say what was seen to.")

    def act(typed: dict[str, str]) -> int:
        return run_again(desk.store, step_id, typed.get("reason", ""))

    under = "From cold, from the slowest speed up where the bearing was opened."
    return _open(
        desk, parent, Adding("Run this speed again", under, (why,), act=act, after=after, again=False)
    )


def _open(desk: Desk, parent: QWidget, adding: Adding) -> AddDialog:
    dialog = AddDialog(desk, adding, parent)
    dialog.open()
    return dialog
