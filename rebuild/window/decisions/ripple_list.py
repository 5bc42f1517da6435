"""What a decision will touch, shown before it is taken."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QListWidget, QListWidgetItem, QVBoxLayout, QWidget

from rebuild.window.layout.plain import PlainLabel
from rebuild.words.counted import counted
from rebuild.work.decisions.rows_ripple import Ripple


class RippleList(QWidget):
    """A count and the things touched, by how they are."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.heading = PlainLabel(self)
        self.heading.setWordWrap(True)
        self.list = QListWidget(self)
        self.list.setWordWrap(True)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.setAccessibleName("What the decision touches")
        self.heading.setBuddy(self.list)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(3)
        layout.addWidget(self.heading)
        layout.addWidget(self.list, 1)
        self.show_ripple(None)

    def show_ripple(self, found: Ripple | None) -> None:
        """Show what would be touched."""
        self.list.clear()
        if found is None:
            self.heading.setText("Touches")
            return
        parts = len(found.parts)
        self.heading.setText(
            f"“{found.decision.value}” on {found.part} touches {counted(len(found.touched), 'thing')}"
            + (f" and {counted(parts, 'other part')}" if parts else "")
        )
        for how in dict.fromkeys(touch.how for touch in found.touched):
            same = [touch for touch in found.touched if touch.how is how]
            head = QListWidgetItem(f"{how.value}: {len(same)}", self.list)
            font = head.font()
            font.setBold(True)
            head.setFont(font)
            head.setFlags(Qt.ItemFlag.ItemIsEnabled)
            for touch in same:
                QListWidgetItem(touch.sentence, self.list)
