"""Gauges act as keyboards: bursts are told from typing, caught, ended, and never taken from an editor."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from hypothesis import given, strategies as st
from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtGui import QKeyEvent, QWindow
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit, QListWidget, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot
from shiboken6 import isValid

from rebuild.window.desk.gauge_keys import GIVES_BACK, LATE_END_MS
from rebuild.window.entry.gauge import GAP_MS, IDLE_MS, LEAST, Burst, GaugeCatcher
from rebuild.window.entry.written import BY_HAND_MS

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


def test_a_field_for_words_gets_each_key_at_once_and_gives_a_whole_burst_back(
    bench: Bench, hands: Hands
) -> None:
    lifted: list[tuple[str, QWidget]] = []
    bench.catcher.lifted.connect(lambda text, field: lifted.append((text, field)))
    bench.editor.setProperty(GIVES_BACK, True)
    bench.editor.setText("as it lay")
    bench.editor.setFocus()
    bench.editor.setSelection(3, 2)
    for sign, now in (("2", "as 2 lay"), ("4", "as 24 lay"), (".", "as 24. lay"), ("9", "as 24.9 lay")):
        hands.press(sign, 8)
        assert bench.editor.text() == now, "no key is held back"
    hands.press("\r\n", 8)
    assert lifted == [("24.9", bench.editor)]
    assert (bench.editor.text(), bench.editor.selectedText()) == ("as it lay", "it")
    assert bench.caught == []


@pytest.mark.parametrize(
    ("typed", "gap"),
    [("dia 24.98\r", 15), ("Spindle bearing 6205\r", 15), ("M10\r", 15), ("24.98", 15), ("24.98\t", 15),
     ("24.98\r", GAP_MS + 1), ("40 +0.2/-0.2\r", 2), ("24\r", 8)],
)  # fmt: skip
def test_what_is_no_whole_burst_with_enter_is_text(
    bench: Bench, hands: Hands, qtbot: QtBot, typed: str, gap: int
) -> None:
    """Met in a trial: a clue lost its sizes, an order line its bearing number."""
    bench.editor.setProperty(GIVES_BACK, True)
    bench.editor.setFocus()
    caught: list[str] = []
    bench.catcher.lifted.connect(lambda text, _field: caught.append(text))
    hands.press(typed, gap)
    assert bench.editor.text() == typed.strip("\r\t")
    qtbot.wait(GAP_MS + 20)
    assert (caught, bench.caught) == ([], [])


def test_behind_what_a_person_typed_a_burst_is_text_until_two_seconds_later(
    bench: Bench, hands: Hands
) -> None:
    bench.editor.setProperty(GIVES_BACK, True)
    bench.editor.setFocus()
    caught: list[str] = []
    bench.catcher.lifted.connect(lambda text, _field: caught.append(text))
    hands.press("no ", 120)
    hands.press("6", 400)
    hands.press("205\r", 8)
    assert (bench.editor.text(), caught) == ("no 6205", [])
    hands.press("2", BY_HAND_MS + 1)
    hands.press("4.98\r", 8)
    assert (bench.editor.text(), caught) == ("no 6205", ["24.98"])


def test_a_field_for_numbers_and_a_search_give_nothing_back(bench: Bench, hands: Hands) -> None:
    bench.editor.setFocus()
    for at, (name, clears) in enumerate((("Minute", False), ("Temperature", False), ("What to find", True))):
        bench.editor.clear()
        bench.editor.setAccessibleName(name)
        bench.editor.setClearButtonEnabled(clears)
        hands.gauge("24.98\r")
        assert (at, bench.editor.text(), bench.caught) == (at, "24.98", [])


def test_the_last_digit_stays_where_it_was_typed_though_another_field_is_clicked(
    bench: Bench, hands: Hands, qtbot: QtBot
) -> None:
    """Met in a trial: 700 and 2800 typed in neighbouring fields became 70 and 02800."""
    other = QLineEdit(bench)
    bench.layout().addWidget(other)
    other.show()
    bench.editor.setFocus()
    hands.press("700", 60)
    other.setFocus()
    hands.press("2800", 60)
    qtbot.wait(GAP_MS + 20)
    assert (bench.editor.text(), other.text()) == ("700", "2800")


def test_a_key_held_for_a_list_goes_to_it_before_a_click_moves_the_keyboard(
    bench: Bench, hands: Hands
) -> None:
    hands.press("5", 60)
    assert bench.pressed == []
    at = bench.editor.geometry().center()
    QTest.mouseClick(bench.windowHandle(), Qt.MouseButton.LeftButton, pos=at)
    hands.press("7", 60)
    assert (bench.pressed, bench.editor.text()) == (["5"], "7")


def test_keys_handled_late_are_judged_by_when_they_were_pressed(bench: Bench, hands: Hands) -> None:
    """Met in a trial: 1.7491 at 12 ms a key became 1.7 typed and 491 from the gauge."""
    hands.press("1.7", 12)
    bench.catcher._quiet()  # the timer is heard before the keys that wait
    hands.press("491\r", 12)
    assert (bench.caught, bench.pressed) == (["1.7491"], [])


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


def test_no_window_is_kept_and_one_that_is_gone_is_not_touched(qtbot: QtBot) -> None:
    """Met in the first minute: a drop-down list closed by Enter, and its window was asked for a filter."""
    catcher = GaugeCatcher(lambda: True, lambda: False)
    window = QWidget()
    window.show()
    gone = window.windowHandle()
    catcher.watch(gone)
    window.close()
    window.deleteLater()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    QApplication.processEvents()
    assert not isValid(gone)
    catcher.watch(gone)
    assert not any(isinstance(one, QWindow) for one in vars(catcher).values())
    other = QWidget()
    qtbot.addWidget(other)
    other.show()
    catcher.watch(other.windowHandle())
    caught: list[str] = []
    catcher.caught.connect(caught.append)
    Hands(other).gauge("24.98\r")
    assert caught == ["24.98"]


LONG = "0.6369 over 0.0645 wires"


def test_a_long_text_at_a_gauges_speed_is_one_value(bench: Bench, hands: Hands, qtbot: QtBot) -> None:
    """Met in use: it was torn at its first letter; two values came of it, and the list searched by the rest."""
    hands.press(LONG + "\r", 2)
    assert (bench.caught, bench.pressed) == ([LONG], [])
    hands.now += 1000
    hands.press(LONG, 2)
    qtbot.waitUntil(lambda: bench.caught == [LONG, LONG], timeout=2 * IDLE_MS)
    assert bench.pressed == []


def test_what_began_with_a_letter_is_the_lists_to_its_end(bench: Bench, hands: Hands, qtbot: QtBot) -> None:
    hands.press("Mill 6205\r", 8)
    qtbot.wait(GAP_MS + 20)
    assert (bench.caught, "".join(bench.pressed)) == ([], "Mill 6205\r")


def test_a_run_goes_whole_to_the_field_it_began_in(bench: Bench, hands: Hands) -> None:
    """A page that opens late takes the keyboard in the middle of it."""
    other = QLineEdit(bench)
    bench.layout().addWidget(other)
    other.show()
    bench.editor.setFocus()
    hands.press("0.6369 ov", 2)
    other.setFocus()
    hands.press("er 0.0645", 2)
    bench.list.setFocus()
    hands.press(" wires", 2)
    assert (bench.editor.text(), other.text(), bench.pressed) == (LONG, "", [])
    hands.now += 1000
    hands.press(LONG[:9], 2)
    bench.editor.setFocus()
    hands.press(LONG[9:] + "\r", 2)
    assert (bench.caught, bench.editor.text()) == ([LONG], LONG)


def test_the_enter_behind_a_value_sent_already_is_its_own(bench: Bench, hands: Hands, qtbot: QtBot) -> None:
    """Met in use: the value was stored, and the Enter pressed then opened the working of the next row."""
    for later, pressed in ((IDLE_MS + 200, []), (LATE_END_MS + 1, ["\r"])):
        bench.caught.clear()
        hands.gauge("24.98")
        qtbot.waitUntil(lambda: bench.caught == ["24.98"], timeout=2 * IDLE_MS)
        hands.press("\r", later)
        assert bench.pressed == pressed


def test_on_a_page_that_takes_no_values_a_field_for_words_keeps_what_is_typed(
    bench: Bench, hands: Hands
) -> None:
    """Met in use: a size typed quickly in *New joint* was taken out of its field."""
    catcher = GaugeCatcher(lambda: True, lambda: False, bench, beside=lambda: False)
    bench.windowHandle().removeEventFilter(bench.catcher)
    catcher.watch(bench.windowHandle())
    bench.editor.setProperty(GIVES_BACK, True)
    bench.editor.setFocus()
    hands.gauge("24.98\r")
    assert bench.editor.text() == "24.98"


def test_a_line_feed_of_its_own_is_enter_in_every_field(bench: Bench, hands: Hands) -> None:
    """Met in a trial by real keys: the value stood in the line and was not stored; no field knows that key."""
    entered: list[str] = []
    bench.editor.returnPressed.connect(lambda: entered.append(bench.editor.text()))
    bench.editor.setFocus()
    bench.spared = bench.editor
    hands.gauge("24.98\n")
    assert entered == ["24.98"]
