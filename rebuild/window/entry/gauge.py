"""Gauges act as keyboards: they type digits fast, then send Enter, Tab, or nothing.

A *burst* is a run of keys with less than 30 ms between them; a person never types three like that. A
burst that ends in nothing counts as sent after 300 ms. Times are those of the key events, not of their
handling, so that a busy window does not tear a burst apart.
"""

from __future__ import annotations

import re
import time
from collections.abc import Callable

from PySide6.QtCore import QCoreApplication, QEvent, QObject, Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent, QWindow
from shiboken6 import isValid

GAP_MS = 30
IDLE_MS = 300
LEAST = 3
#: The property of a field that asks for a measured size, on a page where no row takes one.
TAKES_GAUGE = "takes_gauge"
#: The property of a row of numbered ways out, whose keys digits are.
TAKES_DIGITS = "takes_digits"

_STARTS = frozenset("0123456789.,-+")
_INSIDE = _STARTS | frozenset(" \"'µmin/" + "cMINU")
_END_TEXTS = ("\r", "\n")  #: some keyboards have a key of its own for the line feed
#: What a gauge sends: a sign, a number or an inch fraction, a unit. ``40 +0.2/-0.2`` is typed by somebody.
_READING = re.compile(r"[-+]?\s*[\d.,]+(\s+\d+)?(/\d+)?\s*[\"'µa-zA-Z]*\s*")
_SHIFTS = (Qt.Key.Key_Shift, Qt.Key.Key_AltGr, Qt.Key.Key_CapsLock, Qt.Key.Key_NumLock)
_ENDS = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Tab)

__all__ = ["GAP_MS", "IDLE_MS", "LEAST", "Burst", "GaugeCatcher", "stamp"]


def stamp(event: QKeyEvent) -> float:
    """When a key was pressed [ms]; the clock where the system does not say."""
    return float(event.timestamp() or time.monotonic() * 1000.0)


class Burst:
    """Follows keys arriving and tells whether the last of them came as a burst.

    >>> burst = Burst()
    >>> for at in (0, 8, 16, 24): burst.key(at, at // 8)
    >>> burst.is_burst, burst.start
    (True, 0)
    >>> burst.key(200, 4); burst.is_burst
    False
    """

    def __init__(self) -> None:
        self.start = 0
        self._count = 0
        self._last: float | None = None

    @property
    def is_burst(self) -> bool:
        """Whether the run in hand is long and quick enough."""
        return self._count >= LEAST

    def key(self, at: float, place: int) -> None:
        """A key at a time [ms] that lands at a place in the text."""
        if self._last is None or at - self._last > GAP_MS:
            self.start, self._count = place, 0
        self._count += 1
        self._last = at

    def ends_at(self, at: float) -> bool:
        """Whether an Enter or Tab at this time [ms] belongs to the burst."""
        return self.is_burst and self._last is not None and at - self._last <= IDLE_MS

    def forget(self) -> None:
        """Start anew."""
        self._count, self._last, self.start = 0, None, 0


class GaugeCatcher(QObject):
    """Catches bursts arriving at a window, whatever has the focus in it.

    The first keys are held back for up to 30 ms; when no burst follows they are handed on, so trees, lists and
    editors keep a person's keys. ``spared`` says whether the focus takes bursts itself, ``writes`` whether it takes
    text: a quick text that is no reading stays whole there. ``loose`` is offered each key before the focus gets it.
    """

    caught = Signal(str)

    def __init__(
        self,
        wanted: Callable[[], bool],
        spared: Callable[[], bool],
        parent: QObject | None = None,
        writes: Callable[[], bool] = lambda: False,
        loose: Callable[[QKeyEvent], bool] = lambda _event: False,
    ) -> None:
        super().__init__(parent)
        self._writes, self._loose = writes, loose
        self._wanted = wanted
        self._spared = spared
        self._window: QWindow | None = None
        self._held: list[QKeyEvent] = []
        self._last = 0.0
        self._sent_at = -1e9
        self._let_through: tuple[str, float] | None = None
        self._handing_on = False
        self._looked_again = False
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self._quiet)

    def watch(self, window: QWindow | None) -> None:
        """Watch another window's keys."""
        if window is self._window:
            return
        # The wrapper of a list's window may be let go while the window lives on; its filter then stays, unharmed.
        if self._window is not None and isValid(self._window):
            self._window.removeEventFilter(self)
            self._window.destroyed.disconnect(self._gone)
        self._window = window
        if window is not None:
            window.installEventFilter(self)
            window.destroyed.connect(self._gone)

    def _gone(self, gone: QObject | None = None) -> None:
        """The window watched is gone; one let go before may say so late, and is none of ours any more."""
        if gone is None or gone is self._window or not isValid(self._window):
            self._window = None

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() is not QEvent.Type.KeyPress or self._handing_on or not isinstance(event, QKeyEvent):
            return False
        if not self._wanted() or self._spared():
            self._hand_on()
            return self._loose(event)
        return self._key(event) or self._loose(event)

    def _key(self, event: QKeyEvent) -> bool:
        """Whether a key was taken for a burst."""
        if event.key() in _SHIFTS:
            return False  # a sign may need one: the run goes on
        at, text = stamp(event), event.text()
        ends = event.key() in _ENDS or text in _END_TEXTS
        if self._held and ends:
            if len(self._held) >= LEAST and at - self._last <= IDLE_MS and not self._is_writing():
                self._send()
                self._sent_at = at
                return True
            self._hand_on()
            return False
        if ends and 0 <= at - self._sent_at <= GAP_MS:
            return True  # some gauges send two: carriage return and line feed
        if self._held and at - self._last <= GAP_MS and _only(text, _INSIDE):
            return self._hold(event, at)
        self._hand_on()
        plain = not event.modifiers() & ~(
            Qt.KeyboardModifier.KeypadModifier | Qt.KeyboardModifier.ShiftModifier
        )
        if plain and not event.isAutoRepeat() and _only(text, _STARTS):
            return self._hold(event, at)
        return False

    def _hold(self, event: QKeyEvent, at: float) -> bool:
        self._held.append(_copy(event))
        self._last = at
        self._looked_again = False
        self._timer.start(IDLE_MS if len(self._held) >= LEAST else GAP_MS + 5)
        return True

    def _quiet(self) -> None:
        """Nothing came for a while: send a burst, hand on anything less."""
        if len(self._held) >= LEAST and not self._is_writing():
            self._send()
        elif self._looked_again or len(self._held) >= LEAST:
            self._hand_on()
        else:
            # A busy window hears its timers before the keys that came meanwhile: those are let in first.
            self._looked_again = True
            self._timer.start(1)

    def _is_writing(self) -> bool:
        """Whether what is held is no reading, but text for the field in hand."""
        text = "".join(event.text() for event in self._held)
        return _READING.fullmatch(text) is None and self._writes()

    def _send(self) -> None:
        text = "".join(event.text() for event in self._held)
        first = self._held[0].timestamp()
        if self._let_through is not None and first and first - self._let_through[1] <= GAP_MS:
            text = self._let_through[0] + text
        self._held.clear()
        self._let_through = None
        self._timer.stop()
        self.caught.emit(text)

    def _hand_on(self) -> None:
        """Give held keys to whom they were meant for, in order."""
        self._timer.stop()
        held, self._held = self._held, []
        if not held or self._window is None or not isValid(self._window):
            return
        # A busy window may have let a burst's first key through late: it is remembered by its own time.
        self._let_through = ("".join(event.text() for event in held), float(held[-1].timestamp()))
        self._handing_on = True
        for event in held:
            if not self._loose(event):
                QCoreApplication.sendEvent(self._window, event)
        self._handing_on = False


def _only(text: str, allowed: frozenset[str]) -> bool:
    return len(text) == 1 and text in allowed


def _copy(event: QKeyEvent) -> QKeyEvent:
    made = QKeyEvent(
        QEvent.Type.KeyPress,
        event.key(),
        event.modifiers(),
        event.text(),
        event.isAutoRepeat(),
        event.count(),
    )
    made.setTimestamp(event.timestamp())
    return made
