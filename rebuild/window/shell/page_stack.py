"""The pages of the window: each made when it is first shown, kept, put by and made anew."""

from __future__ import annotations

from typing import Protocol, runtime_checkable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QStackedWidget, QWidget

from rebuild.window.commands.pages import Page, present_pages
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.gc_pause import gc_paused
from rebuild.window.desk.leads import HasPanes
from rebuild.window.desk.look_over import STUMBLED
from rebuild.window.desk.memory import Memory


@runtime_checkable
class Remembers(Protocol):
    """A page that keeps its state between days."""

    def remember(self, memory: Memory) -> None: ...

    def recall(self, memory: Memory) -> None: ...


@runtime_checkable
class PutsBy(Protocol):
    """A page that hands text not stored yet to the kept entries before the file closes."""

    def put_by(self) -> None: ...


@runtime_checkable
class TakesTyping(Protocol):
    """A page with a line one types into as soon as the page is there."""

    def line_to_type_in(self) -> QWidget: ...


class PageStack(QStackedWidget):
    """The pages made so far, one shown; ``key`` is that of the page turned to last."""

    def __init__(self, desk: Desk, memory: Memory, frame: QWidget) -> None:
        super().__init__(frame)
        self.pages = present_pages()
        self.key = ""
        self._desk = desk
        self._memory = memory
        self._frame = frame
        self._made: dict[str, QWidget] = {}

    def get(self, key: str) -> QWidget | None:
        """The page of a key, or None when it was not made yet."""
        return self._made.get(key)

    def made(self, key: str) -> QWidget | None:
        """The page of a key, made when nobody asked for it before; None when there is no such page."""
        page = next((page for page in self.pages if page.key == key), None)
        if page is None or key in self._made:
            return self._made.get(key)
        with gc_paused():
            made = self._make(page)
        self._made[key] = made
        self.addWidget(made)
        if isinstance(made, Remembers):
            made.recall(self._memory)
        return made

    def turn_to(self, key: str) -> None:
        """Show a page that was made; the keyboard goes to its line when another was shown before."""
        turned = key != self.key
        self.key = key
        shown = self._made[key]
        self.setCurrentWidget(shown)
        if turned and isinstance(shown, TakesTyping):
            shown.line_to_type_in().setFocus(Qt.FocusReason.OtherFocusReason)

    def next_pane(self) -> None:
        """Put the keyboard into the next pane of the page."""
        page = self._made.get(self.key)
        panes: list[QWidget] = page.panes() if isinstance(page, HasPanes) else []
        if not panes:
            return
        focus = QApplication.focusWidget()
        here = next(
            (place for place, pane in enumerate(panes) if focus is not None and _within(focus, pane)), -1
        )
        panes[(here + 1) % len(panes)].setFocus(Qt.FocusReason.ShortcutFocusReason)

    def put_by(self) -> None:
        """Text not stored yet goes to the kept entries, page by page."""
        for made in self._made.values():
            if isinstance(made, PutsBy):
                made.put_by()

    def remember(self) -> None:
        """Each page that keeps its state between days writes it down."""
        for made in self._made.values():
            if isinstance(made, Remembers):
                made.remember(self._memory)

    def drop_all(self) -> None:
        """Let every page go after it wrote down its state; each is made anew when it is shown."""
        for made in self._made.values():
            if isinstance(made, Remembers):
                made.remember(self._memory)
            self.removeWidget(made)
            made.hide()
            made.deleteLater()
        self._made.clear()

    def _make(self, page: Page) -> QWidget:
        """The widget of a page; one that stumbles over a file not looked over yet is made again when that is done."""
        before = self._frame.children()
        try:
            return page.slot.make(self._desk, self._frame)
        except STUMBLED:
            if not self._desk.look_over_at_once():
                raise
            for half_made in self._frame.children():
                if half_made not in before:
                    half_made.deleteLater()
            return page.slot.make(self._desk, self._frame)


def _within(widget: QWidget, pane: QWidget) -> bool:
    return widget is pane or pane.isAncestorOf(widget)
