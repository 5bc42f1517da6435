"""The dialog that begins the next attempt: what stopped the last one and what was changed is noted on it."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtWidgets import QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.forms.add_dialog import AddDialog, Adding
from rebuild.window.forms.record_form import fields_named
from rebuild.work.teardown.acts_attempts import begin_attempt
from rebuild.work.teardown.rows_removals import AttemptRow


def ask_next_attempt(
    desk: Desk, machine_id: int, last: AttemptRow, begun: Callable[[int], None], parent: QWidget
) -> None:
    """Open the dialog; ``begun`` is told the new attempt, at the same subassembly as the last."""

    def act(typed: dict[str, str]) -> int:
        stopped, changed = typed.get("stopped_by", ""), typed.get("changed", "")
        return begin_attempt(desk.store, machine_id, last.subassembly_id, stopped_by=stopped, changed=changed)

    AddDialog(
        desk,
        Adding(
            "Taken down again",
            f"Attempt {last.number} on {last.of} is kept as it is.",
            fields_named("attempt", ("stopped_by", "changed")),
            act,
            begun,
            again=False,
        ),
        parent,
    ).open()
