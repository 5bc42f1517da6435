"""The last five values with their places, and the values without a row; each one key or click from its row."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QHBoxLayout, QMenu, QToolButton, QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.desk.live_page import LivePage
from rebuild.window.desk.values import KEPT
from rebuild.window.entry.value_button import ValueButton, two_lines
from rebuild.window.entry.values import Values
from rebuild.window.layout.plain import PlainLabel
from rebuild.work.landings import rows as landing_rows
from rebuild.work.landings.stored import Stored, UnplacedRow

MOVE, BACK, PUT = "Ctrl+Alt+{}", "Ctrl+Shift+{}", "Ctrl+Alt+0"


class RecentValues(LivePage):
    """One line: newest first, numbered as its keys are; then what waits for a row."""

    shows = (landing_rows,)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, "Last values and values without a row", parent)
        self.values = Values(desk)
        self._waiting: list[UnplacedRow] = []
        self.none = PlainLabel("the last values and their rows show here", self)
        self.none.setEnabled(False)
        self.buttons = [self._button(at) for at in range(1, KEPT + 1)]
        self.waiting = QToolButton(self)
        self.waiting.setAutoRaise(True)
        self.waiting.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        self.waiting.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.waiting.setAccessibleName("Values without a row")
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(4)
        layout.addWidget(self.waiting)
        layout.addWidget(self.none)
        for button in self.buttons:
            layout.addWidget(button, 1)
        self.setMinimumHeight(two_lines(self))
        self._give_keys()
        desk.recent_changed.connect(self.show_values)
        desk.landing_changed.connect(self.show_values)
        self.refresh()

    def _button(self, at: int) -> ValueButton:
        button = ValueButton(self)
        button.setAccessibleName(f"Value stored {at} before" if at > 1 else "Value stored last")
        return button

    def _give_keys(self) -> None:
        for at in range(1, KEPT + 1):
            QShortcut(QKeySequence(MOVE.format(at)), self, partial(self.values.move, at))
            QShortcut(QKeySequence(BACK.format(at)), self, partial(self.values.take_back, at))
        QShortcut(QKeySequence(PUT), self, self.values.put_oldest)

    def refresh(self) -> None:
        self._waiting = self.values.waiting()
        self.show_values()

    def show_values(self) -> None:
        """Show the last values and what waits, as they are now."""
        newest_first = list(reversed(self._desk.recent))
        here = self._desk.landing.words if self._desk.landing is not None else ""
        for at, button in enumerate(self.buttons, 1):
            stored = newest_first[at - 1] if at <= len(newest_first) else None
            button.setVisible(stored is not None)
            if stored is not None:
                self._fill(button, at, stored)
        self.none.setVisible(not newest_first)
        self._fill_waiting(here)

    def _fill(self, button: ValueButton, at: int, stored: Stored) -> None:
        button.show_value(f"{at}  {stored.said}", stored.landing.words)
        button.setAccessibleName(f"{at}  {stored.said} → {stored.landing.words}")
        if button.menu() is None:
            menu = QMenu(button)
            menu.aboutToShow.connect(partial(self._offer, menu, at))
            button.setMenu(menu)

    def _offer(self, menu: QMenu, at: int) -> None:
        """What can be done with a value, made when it is asked for: values come faster than menus are made."""
        menu.clear()
        if at > len(self._desk.recent):
            return
        stored = self._desk.recent[-at]
        here = self._desk.landing.words if self._desk.landing is not None else ""
        to = f"Move to {here}" if here else "Move to the row in hand: choose one first"
        line = menu.addAction(f"{to.replace('&', '&&')}\t{MOVE.format(at)}", partial(self.values.move, at))
        line.setEnabled(bool(here) and stored.landing != self._desk.landing)
        menu.addAction(f"Take it back\t{BACK.format(at)}", partial(self.values.take_back, at))

    def _fill_waiting(self, here: str) -> None:
        waiting = self._waiting
        self.waiting.setVisible(bool(waiting))
        if not waiting:
            return
        words = f"{len(waiting)} without a row: {', '.join(one.typed for one in waiting[:3])}"
        self.waiting.setText(words + (" …" if len(waiting) > 3 else ""))
        self.waiting.setAccessibleName(words)
        menu = QMenu(self.waiting)
        for at, one in enumerate(waiting):
            sent = f"{one.typed}, sent {one.sent_at:%Y-%m-%d %H:%M:%S} on {one.seen_on}".replace("&", "&&")
            under = menu.addMenu(sent)
            key = f"\t{PUT}" if at == 0 else ""
            line = under.addAction(f"Put on {here.replace('&', '&&') or 'the row in hand'}{key}")
            line.triggered.connect(partial(self.values.put, one))
            line.setEnabled(bool(here))
            under.addAction("Throw away").triggered.connect(partial(self.values.throw_away, one))
        _give(self.waiting, menu)


def _give(button: QToolButton, menu: QMenu) -> None:
    old = button.menu()
    button.setMenu(menu)
    if old is not None:
        old.deleteLater()
