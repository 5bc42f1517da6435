"""Gauges act as keyboards: bursts are told from typing, caught, ended, and never taken from an editor."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from hypothesis import given, strategies as st
from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication, QLineEdit, QListWidget, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from rebuild.window.entry.gauge import GAP_MS, IDLE_MS, LEAST, Burst, GaugeCatcher

KEYS = {"\r": Qt.Key.Key_Return, "\t": Qt.Key.Key_Tab}


class Hands:
    """Presses keys in a window at given times; time starts late so that no stamp is 0."""

    def __init__(self, window: QWidget) -> None:
        self.window = window
        self.now = 1_000_000

    def press(self, text: str, gap: int) -> None:
        for sign in text:
            self.now += gap
            key = KEYS.get(sign, Qt.Key(ord(sign.upper())))
            event = QKeyEvent(QEvent.Type.KeyPress, key, Qt.KeyboardModifier.NoModifier, sign)
            event.setTimestamp(self.now)
            QCoreApplication.sendEvent(self.window.windowHandle(), event)

    def gauge(self, text: str) -> None:
        self.now += 1000
        self.press(text, 8)

    def person(self, text: str) -> None:
        self.now += 1000
        self.press(text, 120)


class Bench(QWidget):
    """A list that has the focus and remembers its keys, and an editor."""

    def __init__(self) -> None:
        super().__init__()
        self.pressed: list[str] = []
        self.caught: list[str] = []
        self.on = True
        self.list = QListWidget(self)
        self.list.addItems(["24 tooth gear", "spindle"])
        self.list.keyPressEvent = lambda event: self.pressed.append(event.text())  # type: ignore[method-assign]
        self.editor = QLineEdit(self)
        layout = QVBoxLayout(self)
        layout.addWidget(self.list)
        layout.addWidget(self.editor)
        self.spared: QWidget | None = None
        self.catcher = GaugeCatcher(lambda: self.on, lambda: QApplication.focusWidget() is self.spared, self)
        self.catcher.caught.connect(self.caught.append)


@pytest.fixture
def bench(qtbot: QtBot) -> Iterator[Bench]:
    made = Bench()
    qtbot.addWidget(made)
    with qtbot.waitActive(made):
        made.show()
        made.activateWindow()
    made.list.setFocus()
    made.catcher.watch(made.windowHandle())
    yield made
    made.catcher.watch(None)


@pytest.fixture
def hands(bench: Bench) -> Hands:
    return Hands(bench)


@given(st.lists(st.integers(GAP_MS + 1, 5000), min_size=1, max_size=30))
def test_a_person_is_never_a_burst(gaps: list[int]) -> None:
    burst, at = Burst(), 0
    for place, gap in enumerate(gaps):
        at += gap
        burst.key(at, place)
        assert not burst.is_burst


@given(st.lists(st.integers(1, GAP_MS), min_size=LEAST, max_size=30), st.integers(0, 9))
def test_a_gauge_is_a_burst_from_where_it_began(gaps: list[int], before: int) -> None:
    burst, at = Burst(), 0
    for place in range(before):
        at += 200
        burst.key(at, place)
    at += 1000
    burst.key(at, before)
    for place, gap in enumerate(gaps, before + 1):
        at += gap
        burst.key(at, place)
    assert burst.is_burst
    assert burst.start == before
    assert burst.ends_at(at + IDLE_MS)
    assert not burst.ends_at(at + IDLE_MS + 1)


@pytest.mark.parametrize("end", ["\r", "\t"])
def test_a_burst_ended_by_enter_or_tab_is_caught_at_once(bench: Bench, hands: Hands, end: str) -> None:
    hands.gauge("24.98" + end)
    assert bench.caught == ["24.98"]
    assert bench.pressed == []


def test_a_burst_ended_by_nothing_is_caught_after_a_pause(bench: Bench, hands: Hands, qtbot: QtBot) -> None:
    hands.gauge("-0,020 mm")
    assert bench.caught == []
    qtbot.waitUntil(lambda: bench.caught == ["-0,020 mm"], timeout=2 * IDLE_MS)
    assert bench.pressed == []


def test_a_line_feed_of_its_own_ends_a_burst(bench: Bench, hands: Hands) -> None:
    hands.gauge("24.98\n")
    assert bench.caught == ["24.98"]
    assert bench.pressed == []


def test_two_ends_are_one(bench: Bench, hands: Hands) -> None:
    hands.gauge("24.98\r\r")
    assert bench.caught == ["24.98"]
    assert bench.pressed == []


def test_a_persons_keys_reach_their_list(bench: Bench, hands: Hands, qtbot: QtBot) -> None:
    hands.person("24\r")
    qtbot.waitUntil(lambda: bench.pressed == ["2", "4", "\r"], timeout=1000)
    assert bench.caught == []


def test_two_quick_keys_are_handed_on_in_order(bench: Bench, hands: Hands, qtbot: QtBot) -> None:
    hands.gauge("24")
    assert bench.pressed == []
    qtbot.waitUntil(lambda: bench.pressed == ["2", "4"], timeout=1000)
    assert bench.caught == []


def test_letters_and_shortcuts_are_not_held(bench: Bench, hands: Hands) -> None:
    hands.person("sp")
    assert bench.pressed == ["s", "p"]
    event = QKeyEvent(QEvent.Type.KeyPress, Qt.Key.Key_2, Qt.KeyboardModifier.ControlModifier, "2")
    QCoreApplication.sendEvent(bench.windowHandle(), event)
    assert bench.pressed[-1] == "2"


def test_an_editor_gets_a_persons_keys_but_no_burst(bench: Bench, hands: Hands, qtbot: QtBot) -> None:
    bench.editor.setFocus()
    hands.gauge("24.98\r")
    assert bench.editor.text() == ""
    assert bench.caught == ["24.98"]
    hands.person("24")
    qtbot.waitUntil(lambda: bench.editor.text() == "24", timeout=1000)


def test_a_field_that_takes_bursts_itself_is_spared(bench: Bench, hands: Hands) -> None:
    bench.editor.setFocus()
    bench.spared = bench.editor
    hands.gauge("24.98")
    assert bench.editor.text() == "24.98"
    assert bench.caught == []


def test_nothing_is_caught_while_not_wanted(bench: Bench, hands: Hands) -> None:
    bench.on = False
    hands.gauge("24.98\r")
    assert bench.caught == []
    assert bench.pressed == ["2", "4", ".", "9", "8", "\r"]


def test_a_first_key_let_through_by_a_busy_window_is_not_lost(bench: Bench, hands: Hands) -> None:
    hands.gauge("2")
    bench.catcher._quiet()
    bench.catcher._quiet()
    assert bench.pressed == ["2"]
    hands.press("4.98\r", 8)
    assert bench.caught == ["24.98"]


def test_two_values_one_after_the_other(bench: Bench, hands: Hands) -> None:
    hands.gauge("24.98\r")
    hands.gauge("24.99\r")
    assert bench.caught == ["24.98", "24.99"]


def test_a_window_that_closes_is_let_go(qtbot: QtBot) -> None:
    catcher = GaugeCatcher(lambda: True, lambda: False)
    window = QWidget()
    window.show()
    catcher.watch(window.windowHandle())
    window.close()
    window.deleteLater()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    QApplication.processEvents()
    other = QWidget()
    qtbot.addWidget(other)
    other.show()
    catcher.watch(other.windowHandle())
    assert catcher._window is other.windowHandle()
    catcher.watch(None)
