"""Every act by its words: the lines of the menus, the pages, and the buttons of the page shown.

Nothing is listed by hand: what stands in a menu or on a button is found, also when it was added yesterday.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, Qt, QTimer
from PySide6.QtGui import QAction, QKeyEvent
from PySide6.QtWidgets import (
    QAbstractButton,
    QDialog,
    QLineEdit,
    QMainWindow,
    QMenu,
    QMenuBar,
    QVBoxLayout,
    QWidget,
)

from rebuild.window.commands.also_said import ALSO
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.leads import HasPages, ShowsTopics
from rebuild.window.layout.page_row import PageName
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.plain_table import PlainTable

if TYPE_CHECKING:
    from rebuild.trade.results.figure import Figure

SIZE = (720, 520)
_NOT_YET = "not now: choose what it is done to first"


@dataclass(frozen=True, slots=True)
class Doable:
    """One act: its words, where it stands, its key, what is told of it, and how it is done."""

    words: str
    where: str
    keys: str
    told: str
    ready: bool
    do: Callable[[], object]
    #: What else it is called at a bench.
    also: str = ""
    #: How near it is to what is asked, where it has words besides: least first, None where it is not meant.
    near: Callable[[str], int | None] = lambda _asked: None

    def matches(self, asked: str) -> bool:
        """Whether every word asked for stands in its words, its place or what is told of it."""
        said = f"{self.words} {self.where} {self.told} {self.also}".casefold()
        return all(word in said for word in asked.casefold().split()) or self.near(asked) is not None

    def order(self, asked: str) -> tuple[int, bool, bool, int]:
        """Where the words stand first, see ``place``; then what can be done now, what begins so, what is nearest."""
        near = self.near(asked)
        begins = self.words.casefold().startswith(asked.casefold())
        return self.place(asked), not self.ready, not begins, 9 if near is None else near

    def place(self, asked: str) -> int:
        """0: all words stand whole in its name; 1: they begin words there; 2: with its menu and what else it is
        called; 3: they are parts of words of its name; 4: they stand only in what is told of it.
        """
        wanted = asked.casefold().split()
        name, named = _words(self.words), _words(f"{self.words} {self.where} {self.also}")
        if all(word in name for word in wanted):
            return 0
        if all(any(had.startswith(word) for had in name) for word in wanted):
            return 1
        if all(any(had.startswith(word) for had in named) for word in wanted):
            return 2
        return 3 if all(word in self.words.casefold() for word in wanted) else 4


def doables(window: QMainWindow) -> list[Doable]:
    """All acts of a window as it stands now, menus first, then the buttons in sight."""
    found = [one for menu in _menus(window) for one in _of_menu(menu)]
    return [*found, *_buttons(window), *_of_panes(window), *_figures(window)]


def _figures(window: QMainWindow) -> Iterator[Doable]:
    """Everything the handbook works out, by its title and the shop's words for it."""
    if not isinstance(window, HasPages):
        return
    # The engineering modules are read when first asked for, not when the window opens.
    from rebuild.trade.figures import all_figures
    from rebuild.trade.results.figure_find import found_by, in_british, rank

    def near(figure: Figure, asked: str) -> int | None:
        found = asked.strip() and found_by((figure,), asked)
        return rank(figure, in_british(asked).split()) if found else None

    for figure in all_figures().values():
        told = f"{figure.about} ({figure.words})" if figure.words else figure.about
        yield Doable(
            figure.title,
            "handbook",
            "",
            told,
            bool(window.page_shown),
            partial(to_figure, window, figure.topic),
            near=partial(near, figure),
        )


def to_figure(window: HasPages, topic: str) -> None:
    """Turn to a figure of the handbook."""
    page = window.page("figures")
    if isinstance(page, ShowsTopics):
        page.choose_topic(topic)


def _menus(window: QMainWindow) -> Iterator[QMenu]:
    for action in window.menuBar().actions():
        menu = action.menu()
        if isinstance(menu, QMenu):
            yield menu


def _of_menu(menu: QMenu) -> Iterator[Doable]:
    for action in menu.actions():
        inner = action.menu()
        if isinstance(inner, QMenu):
            yield from _of_menu(inner)
        elif not action.isSeparator():
            yield _line(action, _plain(menu.title()))


def _line(action: QAction, where: str) -> Doable:
    words, told = _plain(action.text()), action.toolTip()
    return Doable(
        words,
        where,
        action.shortcut().toString(),
        told if told != words else "",
        action.isEnabled(),
        action.trigger,
        str(action.property(ALSO) or ""),
    )


def _buttons(window: QMainWindow) -> Iterator[Doable]:
    for button in window.findChildren(QAbstractButton):
        is_page = isinstance(button, PageName)
        if button.isVisible() and button.window() is window and button.text() and not is_page:
            keys, told = button.shortcut().toString(), button.toolTip()
            yield Doable(_plain(button.text()), "on this page", keys, told, button.isEnabled(), button.click)


def _of_panes(window: QMainWindow) -> Iterator[Doable]:
    """What a right click or a key does in the panes of the page shown."""
    for pane in window.findChildren(QWidget):
        if (
            pane.isVisible()
            and pane.window() is window
            and not isinstance(pane, QMenu | QMenuBar | QLineEdit)
        ):
            for action in pane.actions():
                if action.text() and not action.isSeparator():
                    yield _line(action, f"in {pane.accessibleName() or 'this page'}".lower())


def _words(text: str) -> frozenset[str]:
    return frozenset(re.findall(r"[^\W_]+", text.casefold()))


def _plain(text: str) -> str:
    return text.replace("&&", "\0").replace("&", "").replace("\0", "&").rstrip("…")


class ActFinder(QDialog):
    """A line to type words into and the acts that hold them; Enter does the chosen one."""

    def __init__(self, window: QMainWindow) -> None:
        super().__init__(window)
        self._window = window
        self._all = doables(window)
        self.setWindowTitle("Find an act")
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.asked = QLineEdit(self)
        self.asked.setAccessibleName("Words of the act")
        self.asked.setPlaceholderText(
            "what you want to do, in any of its words: put away, decide, oil, import"
        )
        self.asked.installEventFilter(self)
        self.table = PlainTable("Acts", ("Act", "Where", "Key", "What it does"), self)
        self.table.when_empty("No act has all these words. Fewer words, or Shift+F1 for every key.")
        self.said = PlainLabel("", self)
        layout = QVBoxLayout(self)
        for part in (self.asked, self.table, self.said):
            layout.addWidget(part)
        self.resize(*SIZE)
        self.asked.textChanged.connect(lambda _text: self._fill())
        self.table.activated.connect(lambda _index: self.do_chosen())
        self._fill()
        self.asked.setFocus()
        self.open()

    def _fill(self) -> None:
        shown = [(at, one) for at, one in enumerate(self._all) if one.matches(self.asked.text())]
        shown.sort(key=lambda pair: pair[1].order(self.asked.text()))
        self.table.plain.fill(
            [(at, (one.words, one.where, one.keys, one.told if one.ready else _NOT_YET)) for at, one in shown]
        )
        if shown:
            self.table.selectRow(0)
        self.said.setText(f"{len(shown)} of {len(self._all)} acts; Enter does the chosen one")

    def do_chosen(self) -> None:
        """Close, then do the chosen act; one that cannot be done now says so and stays."""
        at = self.table.chosen()
        if at is None:
            return
        one = self._all[at]
        if not one.ready:
            self.said.setText(f"“{one.words}” cannot be done now: choose what it is done to first.")
            return
        self.accept()
        # The window has its focus back before the act looks what is chosen.
        QTimer.singleShot(0, self._window, lambda: one.do())

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """The arrows go along the list while words are typed."""
        if watched is self.asked and isinstance(event, QKeyEvent) and event.type() is QEvent.Type.KeyPress:
            step = {
                Qt.Key.Key_Up: -1,
                Qt.Key.Key_Down: 1,
                Qt.Key.Key_PageUp: -10,
                Qt.Key.Key_PageDown: 10,
            }.get(Qt.Key(event.key()), 0)
            if step:
                last = self.table.plain.rowCount() - 1
                self.table.selectRow(max(0, min(last, self.table.currentIndex().row() + step)))
                return True
            if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
                self.do_chosen()
                return True
        return super().eventFilter(watched, event)


def find_act(_desk: Desk, window: QWidget) -> ActFinder | None:
    """Open the finder over a window with menus."""
    return ActFinder(window) if isinstance(window, QMainWindow) else None
