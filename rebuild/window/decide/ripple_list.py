"""What a decision will touch, shown before it is taken."""

from __future__ import annotations

from PySide6.QtWidgets import QLabel, QTreeWidget, QTreeWidgetItem, QVBoxLayout, QWidget

from rebuild.work.lookup.ripple import Ripple


class RippleList(QWidget):
    """A count and the things touched, by how they are."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.heading = QLabel(self)
        self.tree = QTreeWidget(self)
        self.tree.setHeaderHidden(True)
        self.tree.setUniformRowHeights(False)
        self.tree.setWordWrap(True)
        self.tree.setAccessibleName("What the decision touches")
        self.heading.setBuddy(self.tree)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(3)
        layout.addWidget(self.heading)
        layout.addWidget(self.tree, 1)
        self.show_ripple(None)

    def show_ripple(self, found: Ripple | None) -> None:
        """Show what would be touched."""
        self.tree.clear()
        if found is None:
            self.heading.setText("Touches")
            return
        parts = len(found.parts)
        self.heading.setText(
            f"“{found.decision.value}” on {found.part} touches {len(found.touched)} things"
            + (f" and {parts} other parts" if parts else "")
        )
        groups: dict[str, QTreeWidgetItem] = {}
        for touch in found.touched:
            head = groups.get(touch.how.value)
            if head is None:
                head = groups[touch.how.value] = QTreeWidgetItem([touch.how.value])
                self.tree.addTopLevelItem(head)
            item = QTreeWidgetItem([touch.sentence])
            item.setToolTip(0, touch.sentence)
            head.addChild(item)
        for head in groups.values():
            head.setText(0, f"{head.text(0)}: {head.childCount()}")
            head.setExpanded(True)
