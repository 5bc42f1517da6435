"""Gauges at one window: each burst goes to the row in hand, or is kept until there is one. Nothing else gets it."""

from __future__ import annotations

from typing import cast

from PySide6.QtCore import QEvent, QObject
from PySide6.QtGui import QGuiApplication, QWindow
from PySide6.QtWidgets import QApplication, QToolTip, QWidget
from shiboken6 import isValid

from rebuild.window.desk.desk import Desk
from rebuild.window.desk.leads import ShowsPages
from rebuild.window.entry.bursts_kept import keep, writes
from rebuild.window.entry.field import EntryField
from rebuild.window.entry.gauge import TAKES_GAUGE, GaugeCatcher
from rebuild.window.entry.loose_digits import LooseDigits

_KEPT = "this takes no text, so it is kept among the values without a row."


class Bursts(QObject):
    """One to a window, whichever of its pages takes readings, and to what that window opens: the part card, a
    drop-down list, a menu. A dialog that must be answered first keeps its keys while one of its fields has the focus:
    there the eye is. With the focus on a button of it, or on nothing, a burst is kept without a row.

    A page that takes readings gets every burst, wherever its focus is; out of a field for words it is taken again
    at its Enter, a field for numbers or a search keeps what is typed (``written``). On a page that takes none a value
    is kept without a row, unless the field in hand asks for a measured size (``TAKES_GAUGE``).
    """

    def __init__(self, desk: Desk, window: QWidget) -> None:
        super().__init__(window)
        self._desk = desk
        self._window = window
        self._loose = LooseDigits(desk, window)
        self._catcher = GaugeCatcher(
            self._wanted, self._spared, self, self._loose.take, self._lands, self._takes
        )
        self._catcher.caught.connect(self.take)
        self._catcher.lifted.connect(self._lifted)
        desk.landing_changed.connect(self._row_chosen)
        window.installEventFilter(self)
        self._catcher.watch(window.windowHandle())
        cast(QGuiApplication, QGuiApplication.instance()).focusWindowChanged.connect(self._turned)

    @classmethod
    def at(cls, desk: Desk, window: QWidget) -> Bursts:
        """The one of a window, made when it has none yet."""
        found = next((one for one in window.children() if isinstance(one, cls)), None)
        return found or cls(desk, window)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched is self._window and event.type() in (QEvent.Type.Show, QEvent.Type.WinIdChange):
            self._catcher.watch(self._window.windowHandle())
        return False

    def _turned(self, window: QWindow | None) -> None:
        """The keyboard went to another window: one of ours is watched as well."""
        if window is not None and isValid(window) and self._is_ours(window):
            self._catcher.watch(window)

    def _is_ours(self, window: QWindow) -> bool:
        """Whether a window lies over ours. The wrappers asked are held to the end: with one go those it gave out."""
        home, asked = self._window.windowHandle(), [window]
        while asked[-1] is not home:
            under = asked[-1].transientParent()
            if under is None or not isValid(under):
                return False
            asked.append(under)
        return True

    def _row_chosen(self) -> None:
        self._loose.row_chosen()

    def _wanted(self) -> bool:
        return self._desk.is_open and self._desk.from_gauge

    def _spared(self) -> bool:
        focus = QApplication.focusWidget()
        if isinstance(focus, EntryField):
            return True
        if QApplication.activeModalWidget() is not None:
            return writes()
        return self._desk.surface is None and focus is not None and bool(focus.property(TAKES_GAUGE))

    def _lands(self, field: QWidget) -> bool:
        surface = self._desk.surface
        return surface is not None and surface.field_in_hand() is field

    def _takes(self) -> bool:
        """Whether the page in view takes values at all."""
        return self._desk.surface is not None

    def _lifted(self, text: str, field: QWidget) -> None:
        """A burst taken out of a field again: said at the field, for there the eye is."""
        own = self._lands(field)
        named = field.accessibleName() or "this field"
        went = "it goes to the row in hand" if self._desk.landing is not None else "it is kept without a row"
        self.take(text)
        if isValid(field) and not own:
            self._tell_at(
                field, f"{text} came from a gauge: {went}. “{named}” holds again what it held before."
            )

    @staticmethod
    def _tell_at(field: QWidget, said: str) -> None:
        QToolTip.showText(field.mapToGlobal(field.rect().bottomLeft()), said, field)

    def take(self, text: str) -> None:
        """A burst: to the surface in view, or kept."""
        asked = QApplication.activeModalWidget()
        if asked is not None:
            keep(self._desk, text, asked.windowTitle() or "a dialog", self._desk.how_in_hand)
            self._tell_at(
                QApplication.focusWidget() or asked, f"{text} came at once, as from a gauge: {_KEPT}"
            )
        elif self._desk.surface is not None:
            self._desk.surface.take_burst(text.strip())
        else:
            page = self._window.page_shown if isinstance(self._window, ShowsPages) else ""
            keep(self._desk, text, page.replace("_", " ") or "a page without rows", self._desk.how_in_hand)
