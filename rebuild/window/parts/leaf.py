"""What every leaf has in common: it shows one part, and reads only while it is seen."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.desk.live_page import LivePage
from rebuild.window.lists.plain_table import PlainTable
from rebuild.window.lists.verdict_model import VerdictModel


class TableLeaf(LivePage):
    """A leaf that is one table with buttons beneath."""

    beside = True

    def __init__(self, desk: Desk, name: str, headings: Sequence[str], parent: QWidget) -> None:
        super().__init__(desk, parent=parent)
        self.desk = desk
        self.part_id: int | None = None
        model = VerdictModel(headings, self) if "Verdict" in headings else None
        self.table = PlainTable(name, headings, self, model=model)
        self.table.setFrameShape(PlainTable.Shape.NoFrame)
        self._buttons = QHBoxLayout()
        self._buttons.setContentsMargins(6, 2, 6, 4)
        self._buttons.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self.table, 1)
        layout.addLayout(self._buttons)
        self.setFocusProxy(self.table)

    def add_button(self, text: str, act: Callable[[], object]) -> QPushButton:
        """A button under the table."""
        button = QPushButton(text, self)
        button.clicked.connect(lambda _checked=False: act())
        self._buttons.insertWidget(self._buttons.count() - 1, button)
        return button

    def show_part(self, part_id: int | None) -> None:
        """Turn to a part; read now if seen, else when it comes into view."""
        if part_id != self.part_id:
            self.part_id = part_id
            self.look_again()

    def refresh(self) -> None:
        """Read the rows of the part again."""
        shown = self.part_id is not None and self.desk.is_open
        self.table.plain.fill(self.rows(self.part_id) if shown and self.part_id is not None else [])

    def rows(self, part_id: int) -> list[tuple[int, tuple[str, ...]]]:
        """The rows of a part: id and strings."""
        raise NotImplementedError
