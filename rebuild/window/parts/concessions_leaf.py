"""Where a part was accepted outside its spec: what, why, by whom, when."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.parts.leaf import TableLeaf
from rebuild.work.editing.acts import remove
from rebuild.work.machines import rows_parts as part_sheet


class ConcessionsLeaf(TableLeaf):
    """The concessions of one part."""

    shows = (part_sheet,)

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(
            desk,
            "Concessions on the part",
            ("Accepted", "On", "Value", "By", "Reason"),
            parent,
        )
        self.add_button("New concession…", self._add)
        self.add_button("Remove", self._remove)

    def rows(self, part_id: int) -> list[tuple[int, tuple[str, ...]]]:
        with self.desk.store.read() as connection:
            found = part_sheet.concessions(connection, part_id)
        return [(row.id, (row.at, row.feature, row.accepted, row.by, row.reason)) for row in found]

    def _add(self) -> None:
        if self.part_id is not None:
            from rebuild.window.forms.concede_dialog import concede_part

            concede_part(self.desk, self.window(), self.part_id)

    def _remove(self) -> None:
        key = self.table.chosen()
        if key is not None:
            self.desk.attempt(
                lambda: remove(self.desk.store, "concession", [key]),
                "Concession removed; Ctrl+Z brings it back.",
            )
