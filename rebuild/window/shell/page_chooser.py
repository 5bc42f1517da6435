"""The groups of pages in the order of the job, and beside them the pages of the open one."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtGui import QPainter, QPaintEvent, QPalette
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QStackedWidget, QWidget

from rebuild.window.commands.groups import Group, group_of
from rebuild.window.commands.pages import Page
from rebuild.window.layout.page_row import PageName, PageRow

_ROUND_RULE = 13


class PageChooser(QWidget):
    """Two rows of names side by side; a group turns to the page last shown in it, asked again to the next."""

    asked = Signal(str)

    def __init__(self, groups: Sequence[Group], pages: Sequence[Page], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName("Pages")
        self._groups, self._pages = list(groups), list(pages)
        self._last = {group.key: group.pages[0] for group in groups}
        self._page = ""
        self.groups = PageRow("Groups of pages", self)
        self.groups.offer([(group.key, group.name, f"{group.help} ({group.keys})") for group in groups])
        self.groups.asked.connect(self.ask_group)
        self.rows = {group.key: self._row_of(group) for group in groups}
        # As wide as the widest group's pages, whichever is open: the names of the groups stand still.
        self._open = QStackedWidget(self)
        self._open.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Preferred)
        self._none = QWidget(self._open)
        for page in (self._none, *self.rows.values()):
            self._open.addWidget(page)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self.groups)
        layout.addSpacing(_ROUND_RULE)
        layout.addWidget(self._open)
        layout.addStretch(1)
        self.setFocusProxy(self.groups)

    def _row_of(self, group: Group) -> PageRow:
        row = PageRow(f"Pages of {group.name}", self)
        row.offer([(page.key, page.name, page.help) for page in self._pages if page.key in group.pages])
        row.asked.connect(self.asked)
        return row

    def ask_group(self, key: str) -> None:
        """Ask for a group's page: the one last shown, or the next one when the group is open."""
        group = next(group for group in self._groups if group.key == key)
        page = self._last[key]
        if self._page in group.pages:
            page = group.pages[(group.pages.index(self._page) + 1) % len(group.pages)]
        self.asked.emit(page)

    def show_chosen(self, key: str) -> None:
        """Mark a page, and its group, as open."""
        group = group_of(key)
        self._page = key
        self._last[group.key] = key
        self.groups.show_chosen(group.key)
        self._open.setCurrentWidget(self.rows[group.key] if len(group.pages) > 1 else self._none)
        self.rows[group.key].show_chosen(key)
        self.update()

    def name_of(self, key: str) -> PageName:
        """The name to press for a page: its own, or its group's when the group is not open."""
        row = self.rows[group_of(key).key]
        return row.name_of(key) if row.isVisibleTo(self) else self.groups.name_of(group_of(key).key)

    @property
    def chosen(self) -> str:
        """The key of the open page."""
        return self._page

    @property
    def hidden(self) -> list[str]:
        """The groups and the pages of the open group there is no room for."""
        shown = [row for row in self.rows.values() if row.isVisibleTo(self)]
        return self.groups.hidden + [key for row in shown for key in row.hidden]

    def paintEvent(self, event: QPaintEvent) -> None:
        row = next((row for row in self.rows.values() if row.isVisibleTo(self)), None)
        if row is None:
            return
        painter = QPainter(self)
        painter.setPen(self.palette().color(QPalette.ColorRole.Mid))
        x = self._open.x() - _ROUND_RULE // 2
        painter.drawLine(x, 5, x, self.height() - 7)
        painter.end()
