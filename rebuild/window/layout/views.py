"""A row of quiet names over the views they turn to; Alt and a number turns to one."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QStackedWidget, QVBoxLayout, QWidget

from rebuild.window.layout.page_row import PageRow


class Views(QWidget):
    """Several views of one page, one shown at a time. ``row`` takes further widgets at its right end."""

    turned = Signal(int)

    def __init__(
        self, views: Sequence[tuple[str, QWidget]], parent: QWidget | None = None, *, keys: bool = True
    ) -> None:
        super().__init__(parent)
        self.stack = QStackedWidget(self)
        self.names = PageRow("Views of this page", self)
        self.names.offer(
            [(str(at), words, f"Alt+{at + 1}" if keys else "") for at, (words, _) in enumerate(views)]
        )
        for at, (words, view) in enumerate(views):
            if keys:
                self.names.name_of(str(at)).setShortcut(f"Alt+{at + 1}")
            self.names.name_of(str(at)).setAccessibleName(f"Show {words.lower()}")
            self.stack.addWidget(view)
        self.row = QHBoxLayout()
        self.row.setSpacing(2)
        self.row.addWidget(self.names)
        self.row.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(4)
        layout.addLayout(self.row)
        layout.addWidget(self.stack, 1)
        self.names.asked.connect(lambda key: self.show_view(int(key)))
        self.show_view(0)

    @property
    def shown(self) -> int:
        """The place of the view shown."""
        return self.stack.currentIndex()

    @property
    def view_shown(self) -> QWidget | None:
        """The view shown."""
        return self.stack.currentWidget()

    def show_widget(self, view: QWidget) -> None:
        """Turn to one of the views."""
        self.show_view(self.stack.indexOf(view))

    def show_view(self, place: int) -> None:
        """Turn to a view by its place."""
        named = self.names.isAncestorOf(self.focusWidget()) if self.focusWidget() is not None else False
        self.names.show_chosen(str(place))
        if named:  # the ring goes along: one name looks chosen, never two
            self.names.name_of(str(place)).setFocus()
        self.stack.setCurrentIndex(place)
        self.turned.emit(place)
