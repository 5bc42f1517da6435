"""Everything that was ever done to a part, its features and readings, newest first."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.lists.said import moment
from rebuild.window.parts.leaf import TableLeaf
from rebuild.work.records import rows_history
from rebuild.work.records.rows_history import history_of_part


class HistoryLeaf(TableLeaf):
    """The journal of one part."""

    shows = (rows_history,)

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(
            desk,
            "History of the part",
            ("When", "What was done", "Of", "Field", "Before", "After"),
            parent,
        )

    def rows(self, part_id: int) -> list[tuple[int, tuple[str, ...]]]:
        found = history_of_part(self.desk.store, part_id)
        return [
            (
                place,
                (moment(past.at), past.label, past.record, past.field, past.before, past.after),
            )
            for place, past in enumerate(found)
        ]
