"""A user of the window: keys go to whatever has the focus, the mouse to what can be seen, eyes read it back."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, QModelIndex, QPoint, Qt, QTimer
from PySide6.QtGui import QKeyEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QApplication,
    QDialog,
    QFileDialog,
    QLabel,
    QLineEdit,
    QMenu,
    QWidget,
)
from pytestqt.qtbot import QtBot

from rebuild.window.bench.page import BenchPage
from rebuild.window.commands.groups import group_of
from rebuild.window.entry.line import EntryLine
from rebuild.window.readings.columns import Column
from rebuild.window.readings.grid import MeasurementGrid
from rebuild.window.shell.frame import Frame
from rebuild.window.steps.pane import TaskList

NONE = Qt.KeyboardModifier.NoModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier
CTRL = Qt.KeyboardModifier.ControlModifier
ALT = Qt.KeyboardModifier.AltModifier
_NAMED = {"\r": Qt.Key.Key_Return, "\t": Qt.Key.Key_Tab}
#: Time between a person's keys and a gauge's [ms].
PERSON, GAUGE = 140, 8


class Hands:
    """Keyboard and mouse of one user at one frame."""

    def __init__(self, bot: QtBot, frame: Frame) -> None:
        self.bot = bot
        self.frame = frame
        self._clock = 7_000_000

    # Keyboard

    def press(self, key: Qt.Key, modifier: Qt.KeyboardModifier = NONE) -> None:
        """One key, wherever the focus is."""
        self.bot.keyClick(self.focus(), key, modifier)

    def ctrl(self, key: Qt.Key, *, shift: bool = False) -> None:
        """A key with Ctrl (and Shift)."""
        self.press(key, CTRL | SHIFT if shift else CTRL)

    def alt(self, key: Qt.Key) -> None:
        """A key with Alt."""
        self.press(key, ALT)

    def type(self, text: str) -> None:
        """Type into the field that has the focus."""
        self.bot.keyClicks(self.focus(), text)

    def enter(self) -> None:
        """The Enter key."""
        self.press(Qt.Key.Key_Return)

    def replace(self, text: str) -> None:
        """Type over what the field holds."""
        self.ctrl(Qt.Key.Key_A)
        self.type(text)

    def person(self, text: str) -> None:
        """Keys of a person, as the system sends them; ``\\r`` and ``\\t`` are Enter and Tab."""
        self._send(text, PERSON)

    def gauge(self, text: str) -> None:
        """Keys of a gauge: a burst, as the system sends it."""
        self._send(text, GAUGE)

    def _send(self, text: str, gap: int) -> None:
        self.focus()
        self._clock += 2000
        for sign in text:
            self._clock += gap
            event = QKeyEvent(QEvent.Type.KeyPress, _NAMED.get(sign, Qt.Key(ord(sign.upper()))), NONE, sign)
            event.setTimestamp(self._clock)
            top = self.focus().window()  # held: without it the window of a drop-down list is let go
            QCoreApplication.sendEvent(top.windowHandle(), event)

    def tab_to(self, name: str, most: int = 90) -> None:
        """Tab until the control of this accessible name, or the button of this text, has the focus."""
        for _ in range(most):
            focus = self.focus()
            words = focus.text().replace("&", "") if isinstance(focus, QAbstractButton) else ""
            if name in (focus.accessibleName(), words):
                return
            self.press(Qt.Key.Key_Tab)
        pytest.fail(f"Tab never reached “{name}”")

    def focus(self) -> QWidget:
        """Who has the focus; offscreen there is no window manager to give it back when a dialog closes."""
        if QApplication.activeWindow() is None:
            dialogs = [one for one in self.frame.findChildren(QDialog) if one.isVisible()]
            top = dialogs[-1] if dialogs else self.frame
            with self.bot.waitActive(top):
                top.activateWindow()
        found = QApplication.focusWidget() or QApplication.activeWindow()
        assert found is not None
        return found

    def come_forward(self) -> None:
        """Turn to this window, when there are two."""
        with self.bot.waitActive(self.frame):
            self.frame.activateWindow()

    def dialog(self, title: str) -> QDialog:
        """The dialog of this title, once it is there."""

        def there() -> bool:
            self.focus()
            active = QApplication.activeWindow()
            return isinstance(active, QDialog) and active.windowTitle() == title

        self.bot.waitUntil(there)
        found = QApplication.activeWindow()
        assert isinstance(found, QDialog)
        return found

    def name_a_file(self, path: Path, press: Callable[[], None]) -> None:
        """Press what asks for a file, then type its name and Enter into the dialog."""

        def type_it() -> None:
            asked = QApplication.activeModalWidget()
            assert isinstance(asked, QFileDialog)
            name = asked.findChild(QLineEdit, "fileNameEdit")
            assert name is not None
            name.selectAll()
            QTest.keyClicks(name, str(path))
            QTest.keyClick(name, Qt.Key.Key_Return)

        QTimer.singleShot(150, type_it)
        press()

    # Mouse

    def click(self, widget: QWidget, at: QPoint | None = None) -> None:
        """The left button on a widget that can be seen."""
        assert widget.isVisible(), widget.accessibleName()
        if at is None:
            self.bot.mouseClick(widget, Qt.MouseButton.LeftButton)
        else:
            self.bot.mouseClick(widget, Qt.MouseButton.LeftButton, pos=at)

    def click_item(self, view: QAbstractItemView, index: QModelIndex) -> None:
        """The left button on an item of a list."""
        view.scrollTo(index)
        self.click(view.viewport(), view.visualRect(index).center())

    def double_click(self, view: QAbstractItemView, index: QModelIndex) -> None:
        """Twice on an item of a list."""
        view.scrollTo(index)
        self.bot.mouseDClick(view.viewport(), Qt.MouseButton.LeftButton, pos=view.visualRect(index).center())

    def button(self, text: str) -> QAbstractButton:
        """The button with these words that can be seen, once it is there."""

        def found() -> QAbstractButton | None:
            buttons = [one for one in QApplication.allWidgets() if isinstance(one, QAbstractButton)]
            meant = (one for one in buttons if text in (one.text().replace("&", ""), one.accessibleName()))
            return next((one for one in meant if one.isVisible()), None)

        self.bot.waitUntil(lambda: found() is not None, timeout=1000)
        button = found()
        assert button is not None
        return button

    def words(self, name: str) -> str:
        """What a label of this accessible name says, as far as it can be seen."""
        shown = [
            one for one in self.frame.findChildren(QLabel) if one.isVisible() and one.accessibleName() == name
        ]
        return " ".join(one.text() for one in shown)

    def menu(self, name: str, *lines: str) -> None:
        """Open a menu of the bar by the mouse and click the line that begins with these words, menus under it first."""
        bar = self.frame.menuBar()
        top = next(action for action in bar.actions() if action.text().replace("&", "") == name)
        self.bot.mouseClick(bar, Qt.MouseButton.LeftButton, pos=bar.actionGeometry(top).center())
        opened = top.menu()
        assert isinstance(opened, QMenu)
        for line in lines:
            self.bot.waitUntil(opened.isVisible)
            chosen = next(one for one in opened.actions() if one.text().replace("&", "").startswith(line))
            assert chosen.isEnabled(), line
            self.bot.mouseClick(opened, Qt.MouseButton.LeftButton, pos=opened.actionGeometry(chosen).center())
            under = chosen.menu()
            opened = under if isinstance(under, QMenu) else opened

    def page(self, key: str) -> QWidget:
        """Turn to a page by the mouse on its name."""
        chooser, group = self.frame.header.pages, group_of(key)
        if self.frame.page_shown not in group.pages:
            self.click(chooser.groups.name_of(group.key))
        if self.frame.page_shown != key:
            name = chooser.rows[group.key].name_of(key)
            self.bot.waitUntil(name.isVisible)  # the row is laid out once more when its group opens
            self.click(name)
        assert self.frame.page_shown == key
        return self.frame.page(key)

    # Eyes

    @property
    def bench(self) -> BenchPage:
        """The bench, made when it is first looked at."""
        page = self.frame.page("bench")
        assert isinstance(page, BenchPage)
        return page

    @property
    def grid(self) -> MeasurementGrid:
        """The measurement grid of the bench."""
        assert isinstance(self.bench.grid, MeasurementGrid)
        return self.bench.grid

    @property
    def line(self) -> EntryLine:
        """The entry line of the bench."""
        assert isinstance(self.bench.entry, EntryLine)
        return self.bench.entry

    @property
    def steps(self) -> TaskList:
        """The task list of the bench."""
        assert isinstance(self.bench.tasks, TaskList)
        return self.bench.tasks

    @property
    def lands_on(self) -> str:
        """Where the entry line says the next value lands."""
        return self.line.head.place.text()

    @property
    def answer(self) -> str:
        """What the entry line answers."""
        return self.line.answer.sentence.text()

    @property
    def said(self) -> str:
        """The sentence at the foot of the window."""
        return self.frame.messages.sentence

    def cell(self, part: str, feature: str, station: str, column: Column) -> str:
        """The text of a cell of the grid, found by what stands in its row."""
        return self._text(self.row(part, feature, station), column)

    def row(self, part: str, feature: str, station: str = "") -> int:
        """The grid row of a part, a feature and a station."""
        model = self.grid.model
        model.ensure(0, model.rowCount() - 1)
        for place in range(model.rowCount()):
            named = (
                self._text(place, Column.PART),
                self._text(place, Column.FEATURE),
                self._text(place, Column.STATION),
            )
            if part in named[0] and named[1] == feature and named[2] == station:
                return place
        pytest.fail(f"no row {part}, {feature}, {station} in the grid")

    def _text(self, row: int, column: Column) -> str:
        return str(self.grid.model.index(row, column).data() or "")

    def tree_lines(self) -> list[str]:
        """The lines of the part tree that can be seen, top to bottom: code, name and decision."""
        view = self.bench.tree.view
        found: list[str] = []
        index = view.model().index(0, 0)
        while index.isValid():
            found.append(
                " ".join(filter(None, (str(index.data()), str(index.siblingAtColumn(1).data() or ""))))
            )
            index = view.indexBelow(index)
        return found

    def step_titles(self) -> list[str]:
        """The titles of the task list, top to bottom."""
        model = self.steps.model
        return [str(model.index(row).data()) for row in range(model.rowCount())]

    def stand_on_step(self, words: str) -> None:
        """Put the keyboard on a step by walking the list with the arrow keys."""
        self.steps.view.setFocus()
        self.press(Qt.Key.Key_Home)
        for _ in range(self.steps.model.rowCount()):
            if words in str(self.steps.view.currentIndex().data()):
                return
            self.press(Qt.Key.Key_Down)
        pytest.fail(f"no step “{words}” in {self.step_titles()}")
