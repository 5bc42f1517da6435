"""Gauges act as keyboards: they type digits fast, then send Enter, Tab, or nothing.

A *burst* is a run of keys with less than 30 ms between them; a person never types three like that. It begins as
a number does and is whole to its end, words in it too (``0.6369 over 0.0645 wires``): nothing of it goes elsewhere.
A burst that ends in nothing counts as sent after 300 ms. Times are those of the key events, not of their
handling, so that a busy window does not tear a burst apart.
"""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QCoreApplication, QEvent, QObject, Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent, QWindow
from PySide6.QtWidgets import QApplication, QSpinBox, QWidget
from shiboken6 import isValid

from rebuild.window.desk.gauge_keys import (
    END_TEXTS,
    ENDS,
    GAP_MS,
    IDLE_MS,
    LATE_END_MS,
    LEAST,
    SHIFTS,
    STARTS,
    TAKES_DIGITS,
    TAKES_GAUGE,
    is_plain,
    is_sign,
    one_of,
    stamp,
)
from rebuild.window.entry.run_place import RunPlace
from rebuild.window.entry.written import WrittenBurst, writing

__all__ = ["GAP_MS", "IDLE_MS", "LEAST", "TAKES_DIGITS", "TAKES_GAUGE", "Burst", "GaugeCatcher", "stamp"]


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

    @property
    def last(self) -> float:
        """When its last key came [ms]."""
        return self._last if self._last is not None else -1e9

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

    A tree, a list, a button: the first keys are held back for up to 30 ms; when no burst follows they are handed
    on, so that a person's keys arrive. A field that takes text gets each key at once; only at the Enter of a
    whole burst is it taken out of there again (``WrittenBurst``). ``spared`` says whether the focus takes bursts
    itself. ``loose`` is offered each key before the focus gets it; ``lands`` says whether a field is the one the next
    value goes to, ``beside`` whether the page takes values: on another, what is written in a field for words is the
    field's. No window is kept: the wrapper of a drop-down list's goes with whoever asked for it, while the filter put
    on the window lives as long as the window.
    """

    caught = Signal(str)
    lifted = Signal(str, QWidget)  #: caught, and taken out again of this field

    def __init__(
        self,
        wanted: Callable[[], bool],
        spared: Callable[[], bool],
        parent: QObject | None = None,
        loose: Callable[[QKeyEvent], bool] = lambda _event: False,
        lands: Callable[[QWidget], bool] = lambda _field: False,
        beside: Callable[[], bool] = lambda: True,
    ) -> None:
        super().__init__(parent)
        self._loose = loose
        self._wanted = wanted
        self._spared = spared
        self._beside = beside
        self._written = WrittenBurst(lands, beside)
        self._began = RunPlace()
        self._held: list[QKeyEvent] = []
        self._held_for: QWidget | None = None
        self._last = 0.0
        self._sent_at = -1e9
        self._ended_by_itself = -1e9  # the time of its last key
        self._let_through: tuple[str, float] | None = None
        self._handing_on = False
        self._looked_again = False
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self._quiet)

    def watch(self, window: QWindow | None) -> None:
        """Watch a window's keys too; once more does no harm."""
        if window is not None and isValid(window):
            window.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() is QEvent.Type.MouseButtonPress:
            self._ended_by_itself = -1e9
            self._settle()  # before the click moves the keyboard: what was typed belongs where it was typed
        if event.type() is not QEvent.Type.KeyPress or self._handing_on or not isinstance(event, QKeyEvent):
            return False
        if _is_line_feed(event):
            return QCoreApplication.sendEvent(watched, _copy(event, Qt.Key.Key_Return))
        if self._is_late_end(event):
            return True
        field = self._field_written()
        stray = self._began.stray(event, field)
        if stray is not None:
            return self._bring_back(event, stray)
        if not self._wanted() or (self._spared() and not self._goes_on(event)):
            self._hand_on()
            self._written.forget()
            return self._loose(event)
        if 0 <= stamp(event) - self._sent_at <= GAP_MS and _ends(event):
            return True  # some gauges send two: carriage return and line feed
        if field is not None and not self._goes_on(event):
            self._hand_on()
            return self._write(event, field) or self._loose(event)
        self._written.forget()
        return self._key(event) or (not self._began.in_words and self._loose(event))

    def _field_written(self) -> QWidget | None:
        """The field that keys go into at once. One that counts takes no size: beside values its keys are held back."""
        field = writing()
        return None if isinstance(field, QSpinBox) and self._beside() else field

    def _is_late_end(self, event: QKeyEvent) -> bool:
        """Whether this is the Enter of a value that has been sent already, for nothing came behind it for a while."""
        last, self._ended_by_itself = self._ended_by_itself, -1e9
        return _ends(event) and is_plain(event) and 0 <= stamp(event) - last <= LATE_END_MS

    def _bring_back(self, event: QKeyEvent, field: QWidget) -> bool:
        """A key of a run whose field lost the keyboard in the middle of it."""
        if not self._write(event, field):
            QCoreApplication.sendEvent(field, _copy(event))
        return True

    def _goes_on(self, event: QKeyEvent) -> bool:
        """Whether a key goes on with, or ends, the run that is held."""
        quick = bool(self._held) and 0 <= stamp(event) - self._last <= GAP_MS
        return quick and (is_sign(event) or event.key() in SHIFTS or _ends(event))

    def _write(self, event: QKeyEvent, field: QWidget) -> bool:
        """A key for a text field; whether it was the Enter of a gauge."""
        text = self._written.key(event, field)
        if not text:
            return False
        self._sent_at = stamp(event)
        self.lifted.emit(text, field)
        return True

    def _key(self, event: QKeyEvent) -> bool:
        """Whether a key was taken for a burst."""
        if event.key() in SHIFTS:
            return False  # a sign may need one: the run goes on
        at, text = stamp(event), event.text()
        if self._held and _ends(event):
            if len(self._held) >= LEAST and at - self._last <= IDLE_MS:
                self._send()
                self._sent_at = at
                return True
            self._hand_on()
            return False
        if self._goes_on(event):
            return self._hold(event, at)
        self._hand_on()
        if is_sign(event) and one_of(text, STARTS) and not self._began.in_words:
            return self._hold(event, at)
        return False

    def _hold(self, event: QKeyEvent, at: float) -> bool:
        if not self._held:
            self._held_for = _receiver()
        self._held.append(_copy(event))
        self._last = at
        self._looked_again = False
        self._timer.start(IDLE_MS if len(self._held) >= LEAST else GAP_MS + 5)
        return True

    def _quiet(self) -> None:
        """Nothing came for a while. A busy window hears its timers before the keys that came: those go first."""
        if self._looked_again:
            self._settle()
        else:
            self._looked_again = True
            self._timer.start(1)

    def _settle(self) -> None:
        """Send a burst, hand on anything less."""
        if len(self._held) >= LEAST:
            last = self._last
            self._send()
            self._ended_by_itself = last
        else:
            self._hand_on()

    def _send(self) -> None:
        text = "".join(event.text() for event in self._held)
        first = self._held[0].timestamp()
        if self._let_through is not None and first and first - self._let_through[1] <= GAP_MS:
            text = self._let_through[0] + text
        self._held.clear()
        self._held_for = None
        self._let_through = None
        self._timer.stop()
        self.caught.emit(text)

    def _hand_on(self) -> None:
        """Give held keys to whom they were meant for, in order; behind one that moved the keyboard, to where it is."""
        self._timer.stop()
        held, self._held = self._held, []
        meant, self._held_for = self._held_for, None
        if not held:
            return
        # A busy window may have let a burst's first key through late: it is remembered by its own time.
        self._let_through = ("".join(event.text() for event in held), float(held[-1].timestamp()))
        self._handing_on = True
        for event in held:
            if self._loose(event):
                meant = _receiver()
            elif meant is not None and isValid(meant):
                before = QApplication.focusWidget()
                QCoreApplication.sendEvent(meant, event)
                if QApplication.focusWidget() is not before:
                    meant = _receiver()  # the key opened a cell: those behind it are written there
        self._handing_on = False


def _receiver() -> QWidget | None:
    """Who gets the keys now: what a list dropped down or a menu has in hand, else what has the focus."""
    popup = QApplication.activePopupWidget()
    if popup is not None:
        return popup.focusWidget() or popup
    return QApplication.focusWidget() or QApplication.activeWindow()


def _ends(event: QKeyEvent) -> bool:
    return event.key() in ENDS or event.text() in END_TEXTS


def _is_line_feed(event: QKeyEvent) -> bool:
    """Whether a key is the line feed some gauges send as a key of its own: no field knows it, all know Enter."""
    return event.text() == "\n" and event.key() not in ENDS and is_plain(event)


def _copy(event: QKeyEvent, key: Qt.Key | None = None) -> QKeyEvent:
    made = QKeyEvent(
        QEvent.Type.KeyPress,
        key or event.key(),
        event.modifiers(),
        event.text(),
        event.isAutoRepeat(),
        event.count(),
    )
    made.setTimestamp(event.timestamp())
    return made
