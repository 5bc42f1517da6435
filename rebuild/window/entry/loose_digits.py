"""Digits a person types while a tree, a list or a button of a page has the keyboard: no list searches by them.

They are meant for the row in hand and go into its line or field. With no row in hand they are gathered on the
message line with whatever follows them, words too (``0.6369 over 0.0645 wires``); Enter keeps them among the values
without a row, Esc drops them, a row chosen meanwhile takes them.
"""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QAbstractItemView, QAbstractSpinBox, QApplication, QComboBox, QTreeView, QWidget

from rebuild.window.desk.desk import Desk, Say
from rebuild.window.desk.gauge_keys import TAKES_DIGITS, is_plain, is_sign, stamp
from rebuild.window.entry.bursts_kept import keep, writes

_FIRST = frozenset("0123456789.")
#: In a tree these open and close a branch.
_SIGNS = frozenset("-+,")
_ENTERS = (Qt.Key.Key_Return, Qt.Key.Key_Enter)


class LooseDigits:
    """One to a window: ``take`` says of each key that is no gauge's whether it was a digit for the row in hand."""

    def __init__(self, desk: Desk, window: QWidget) -> None:
        self._desk = desk
        self._window = window
        self._typed = ""

    def take(self, event: QKeyEvent) -> bool:
        """Whether the key was taken."""
        focus, surface = QApplication.focusWidget(), self._desk.surface
        if surface is None or not self._desk.is_open or not self._is_here(focus) or _takes_itself(focus):
            self.keep()
            return False
        if self._typed and self._desk.landing is None:
            return self._go_on(event)
        if not _is_first(event, focus):
            return False
        if self._desk.landing is not None:
            return surface.take_key(event.text(), stamp(event))
        self._typed = event.text()
        self._tell()
        return True

    def row_chosen(self) -> None:
        """A row came into hand: what was gathered is for it."""
        surface = self._desk.surface
        if self._typed and surface is not None and self._desk.landing is not None:
            typed, self._typed = self._typed, ""
            surface.take_key(typed)

    def keep(self) -> None:
        """Nothing typed is lost: what was gathered waits among the values without a row."""
        typed, self._typed = self._typed.strip(), ""
        if typed and self._desk.is_open:
            keep(self._desk, typed, "a page with no row chosen", self._desk.how_in_hand)

    def _go_on(self, event: QKeyEvent) -> bool:
        if event.key() in _ENTERS:
            self.keep()
        elif event.key() == Qt.Key.Key_Escape:
            self._typed = ""
            self._desk.say("Dropped.")
        elif event.key() == Qt.Key.Key_Backspace:
            self._typed = self._typed[:-1]
            self._tell()
        elif is_sign(event):
            self._typed += event.text()
            self._tell()
        else:
            return False
        return True

    def _tell(self) -> None:
        if self._typed:
            self._desk.say(
                f"“{self._typed}”, and no row is in hand: choose its row, or Enter keeps it without one, Esc drops it.",
                Say.ASK,
            )

    def _is_here(self, focus: QWidget | None) -> bool:
        """Whether the keyboard is on the page itself: not in a dialog, a card of its own or a list dropped down."""
        popup = QApplication.activePopupWidget() or QApplication.activeModalWidget()
        return popup is None and focus is not None and focus.window() is self._window


def _is_first(event: QKeyEvent, focus: QWidget | None) -> bool:
    begins = _FIRST if isinstance(focus, QTreeView) else _FIRST | _SIGNS
    return len(event.text()) == 1 and event.text() in begins and is_plain(event)


def _takes_itself(focus: QWidget | None) -> bool:
    """Whether digits are the focus's own: a field, a choice, a cell that is typed into, numbered ways out."""
    if writes() or isinstance(focus, QComboBox | QAbstractSpinBox):
        return True
    if isinstance(focus, QAbstractItemView):
        typed_into = bool(focus.editTriggers() & QAbstractItemView.EditTrigger.AnyKeyPressed)
        if typed_into and focus.currentIndex().isValid():
            return True
    while focus is not None:
        if focus.property(TAKES_DIGITS):
            return True
        focus = focus.parentWidget()
    return False
