"""The entry line: where values land, what it reads back, what it holds and asks; keyboard alone."""

from __future__ import annotations

import time
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QComboBox, QLineEdit, QSpinBox, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from rebuild.trade.results.working import Working
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.memory import Memory
from rebuild.window.entry import entering as module
from rebuild.window.entry.field import ANSWER_MS
from rebuild.window.entry.line import EntryLine
from rebuild.window.ink.shapes import Shape
from rebuild.window.readings.columns import STAGE_COLUMNS, Column
from rebuild.window.readings.grid import MeasurementGrid
from rebuild.words.readings import FeatureKind, Stage
from rebuild.work.editing import acts as edit
from rebuild.work.editing.acts import remove
from rebuild.work.landings.rows import unplaced
from rebuild.work.readings import acts_features as spec
from rebuild.work.readings.acts import Entry, record_reading
from rebuild.work.readings.acts_features import set_spec
from rebuild.work.readings.rows_grid import Key
from rebuild.work.records.acts_settings import set_owner
from rebuild.work.records.rows_settings import decimal_comma
from tests.conftest import Shop
from tests.support import readings_of

NO_WAIT = Qt.KeyboardModifier.NoModifier


class Bench(QWidget):
    """Grid and entry line, put together as the bench page does."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.grid = MeasurementGrid(desk, self)
        self.line = EntryLine(desk, self)
        self.line.follow(self.grid)
        layout = QVBoxLayout(self)
        layout.addWidget(self.grid, 1)
        layout.addWidget(self.line)
        self.resize(900, 620)
        self.now = 5_000_000

    def type(self, text: str) -> None:
        """As a person: each key long after the one before."""
        self._keys(text, 150)

    def gauge(self, text: str) -> None:
        """As a gauge, into the field."""
        self.now += 1000
        self._keys(text, 8)

    def _keys(self, text: str, gap: int) -> None:
        special = {"\r": Qt.Key.Key_Return, "\t": Qt.Key.Key_Tab}
        for sign in text:
            self.now += gap
            key = special.get(sign) or Qt.Key(ord(sign.upper()))
            event = QKeyEvent(QEvent.Type.KeyPress, key, NO_WAIT, sign)
            event.setTimestamp(self.now)
            QCoreApplication.sendEvent(self.line.field, event)

    def press(self, key: Qt.Key, modifier: Qt.KeyboardModifier = NO_WAIT) -> None:
        QTest.keyClick(self.line.field, key, modifier)

    @property
    def lands_on(self) -> str:
        return self.line.head.place.text()

    @property
    def answer(self) -> str:
        return self.line.answer.sentence.text()

    @property
    def ways(self) -> list[str]:
        return [way.words for way in self.line.answer.ways]


@pytest.fixture
def bench(desk: Desk, shop: Shop, qtbot: QtBot) -> Bench:
    made = Bench(desk)
    qtbot.addWidget(made)
    with qtbot.waitActive(made):
        made.show()
        made.activateWindow()
    desk.choose(key=(shop.journal, shop.near), part_ids=(shop.spindle,))
    made.line.focus_entry()
    return made


def readings(desk: Desk, key: Key) -> list[tuple[str, Stage]]:
    with desk.store.read() as connection:
        return [(row[0].typed, row[0].stage) for row in readings_of(connection, key) if not row[3]]


# Where it lands, and on it goes


def test_it_shows_where_the_next_value_lands(desk: Desk, shop: Shop, bench: Bench) -> None:
    assert bench.lands_on == "HS-01 spindle  ·  front journal  ·  near  ·  as found"
    assert bench.line.head.spec.text() == "spec 60 -0.010/-0.029 mm"
    assert bench.line.controls.unit.text() == "mm"
    assert bench.line.field.accessibleDescription() == bench.lands_on
    set_spec(desk.store, [shop.journal], "60 mm h6")
    assert bench.line.head.spec.text() == "spec 60 mm h6"
    edit.edit(desk.store, "feature", [shop.journal], {"unit": "in"})
    set_spec(desk.store, [shop.journal], "")
    assert bench.line.head.spec.text() == "no spec yet; numbers are in inches"


def test_a_run_of_readings_with_the_keyboard_alone(desk: Desk, shop: Shop, bench: Bench) -> None:
    bench.type("59.985\r")
    assert bench.lands_on.startswith("HS-01 spindle  ·  front journal  ·  far")
    bench.type("59,981\r")
    assert bench.ways, "59,981 may be thousands: asked once"
    bench.type("3\r")
    QTest.qWait(80)
    assert bench.lands_on.startswith("HS-02 bearing cap  ·  lost motion")
    bench.type(".0035\r")
    assert readings(desk, (shop.journal, shop.near)) == [("59.985", Stage.AS_FOUND)]
    assert readings(desk, (shop.journal, shop.far)) == [("59,981", Stage.AS_FOUND)]
    assert readings(desk, (shop.lost_motion, 0)) == [(".0035", Stage.AS_FOUND)]
    assert bench.lands_on == "Choose a row", "it was the last row, and nothing is unread"
    assert bench.grid.view.hasFocus()
    QTest.keyClick(bench.grid.view, Qt.Key.Key_Down)
    assert bench.lands_on == "HS-01 spindle  ·  front journal  ·  near  ·  cleaned", "its first unread stage"
    assert not bench.grid.view.isColumnHidden(STAGE_COLUMNS[1])
    bench.line.focus_entry()
    bench.press(Qt.Key.Key_Down, Qt.KeyboardModifier.ControlModifier)
    assert bench.lands_on.endswith("reworked")
    bench.press(Qt.Key.Key_Up, Qt.KeyboardModifier.ControlModifier)
    bench.type("59.984\r")
    assert readings(desk, (shop.journal, shop.near))[0] == ("59.984", Stage.CLEANED)


def test_it_passes_over_rows_already_read(desk: Desk, shop: Shop, bench: Bench) -> None:
    record_reading(desk.store, "59.981", Entry(shop.journal, shop.far))
    bench.type("59.985\r")
    assert "lost motion" in bench.lands_on


def test_correcting_a_read_row_moves_on_says_what_it_replaces_and_keeps_it(
    desk: Desk, shop: Shop, bench: Bench
) -> None:
    record_reading(desk.store, "59.981", Entry(shop.journal, shop.near))
    record_reading(desk.store, "59.982", Entry(shop.journal, shop.far))
    record_reading(desk.store, "0.003", Entry(shop.lost_motion))
    bench.press(Qt.Key.Key_Up, Qt.KeyboardModifier.ControlModifier)
    bench.type("59.985\r")
    assert "It replaces 59.981, which stays in the history" in bench.answer
    assert "near" in bench.answer
    assert bench.lands_on.startswith("HS-01 spindle  ·  front journal  ·  far")
    bench.gauge("59.984\r")
    kept = [typed for typed, _ in readings(desk, (shop.journal, shop.near))]
    assert kept == ["59.985", "59.981"], "the next value did not go over it"


def test_behind_the_last_row_the_line_wants_another_one(desk: Desk, shop: Shop, bench: Bench) -> None:
    record_reading(desk.store, "59.985", Entry(shop.journal, shop.near))
    record_reading(desk.store, "59.981", Entry(shop.journal, shop.far))
    desk.choose(key=(shop.lost_motion, 0))
    bench.line.focus_entry()
    bench.type("0.003\r")
    assert bench.lands_on == "Choose a row"
    assert "It was the last row here: choose a row." in bench.answer
    assert not bench.line.field.isEnabled()
    window_burst(bench, "0.004\r")
    assert [typed for typed, _ in readings(desk, (shop.lost_motion, 0))] == ["0.003"]
    assert waiting(desk) == ["0.004"]


def test_unread_rows_are_walked_in_the_order_of_the_grid(desk: Desk, shop: Shop, bench: Bench) -> None:
    bench.grid.headings._clicked(Column.PART)
    bench.grid.headings._clicked(Column.PART)
    assert bench.grid.keys[0] == (shop.lost_motion, 0)
    bench.type("59.985\r")
    assert "far" in bench.lands_on
    bench.type("59.981\r")
    assert "lost motion" in bench.lands_on, "round to the first row, once"


def test_up_and_down_move_the_row_in_hand(desk: Desk, shop: Shop, bench: Bench) -> None:
    bench.press(Qt.Key.Key_Down)
    assert desk.selection.key == (shop.journal, shop.far)
    assert bench.grid.view.currentIndex().row() == 1
    bench.press(Qt.Key.Key_Up)
    bench.press(Qt.Key.Key_Up)
    assert desk.selection.key == (shop.journal, shop.near), "there is none before the first"


def test_with_no_row_in_hand_the_line_is_disabled_and_a_key_begins_at_the_first_unread_one(
    desk: Desk, shop: Shop, bench: Bench
) -> None:
    bench.grid.view.setFocus()
    desk.choose(key=None)
    assert bench.lands_on == "Choose a row"
    assert not bench.line.field.isEnabled()
    record_reading(desk.store, "59.985", Entry(shop.journal, shop.near))
    bench.line.setFocus()
    assert desk.selection.key == (shop.journal, shop.far)
    assert bench.line.field.hasFocus()


# Reading back


def test_the_value_is_read_back_in_both_units_with_its_verdict(desk: Desk, shop: Shop, bench: Bench) -> None:
    bench.line.controls.choose_instrument("Micrometer 50-75")
    bench.line.controls.temperature.setText("20")
    bench.type("59.940")
    assert bench.line.controls.live.text() == "= 59.940 mm (2.3598 in)"
    bench.type("\r")
    assert bench.answer.startswith(
        "59.940 mm (2.3598 in).  Does not conform; it is 0.0310 mm below the low limit"
    )
    assert bench.line.answer.mark.shape is Shape.DOES_NOT
    asked: list[Working] = []
    desk.working_asked.connect(asked.append)
    bench.line.answer.working.click()
    assert asked[0].title == "Verdict on HS-01 spindle, front journal, near, as found"
    with desk.store.read() as connection:
        row = readings_of(connection, (shop.journal, shop.near))[0][0]
    assert (row.instrument_id, row.temperature_c) == (shop.micrometer, 20.0)


def test_an_instrument_too_coarse_is_said_before_anything_is_read(bench: Bench) -> None:
    assert bench.line.head.warning.text() == ""
    bench.line.controls.choose_instrument("Micrometer 50-75")
    assert "too coarse for a tolerance of 0.0190 mm" in bench.line.head.warning.text()
    assert bench.line.head.warning.isVisible()


def test_a_temperature_that_cannot_be_read_is_named_and_the_value_stays(
    desk: Desk, shop: Shop, bench: Bench
) -> None:
    bench.line.controls.temperature.setText("warm")
    bench.type("59.985\r")
    assert "warm" in bench.answer
    assert bench.line.field.text() == "59.985"
    assert readings(desk, (shop.journal, shop.near)) == []


def test_text_that_is_no_size_stays_in_the_line(desk: Desk, shop: Shop, bench: Bench) -> None:
    bench.type("5o.985\r")
    assert bench.line.field.text() == "5o.985"
    assert "“5o.985”" in bench.answer
    assert bench.line.answer.mark.shape is Shape.CAUTION
    assert readings(desk, (shop.journal, shop.near)) == []


def test_readings_are_signed_by_the_owner_of_the_file(desk: Desk, shop: Shop, bench: Bench) -> None:
    set_owner(desk.store, "the owner")
    desk.choose(key=(shop.journal, shop.far))
    bench.type("59.981\r")
    with desk.store.read() as connection:
        assert connection.exec_driver_sql("SELECT taken_by FROM reading").scalars().all() == ["the owner"]


# Held and asked


def test_an_implausible_value_is_held_for_one_more_enter(
    desk: Desk, shop: Shop, bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(module, "SETTLE_S", 0.0)
    bench.type("599.85\r")
    assert readings(desk, (shop.journal, shop.near)) == []
    assert "ten times" in bench.answer
    assert bench.line.field.text() == "599.85"
    bench.type("\r")
    assert readings(desk, (shop.journal, shop.near)) == [("599.85", Stage.AS_FOUND)]


def test_a_gauges_second_enter_does_not_confirm_what_is_held(desk: Desk, shop: Shop, bench: Bench) -> None:
    bench.gauge("599.85\r\r")
    assert readings(desk, (shop.journal, shop.near)) == []
    assert "ten times" in bench.answer


def test_escape_goes_back_to_the_text_and_mending_it_asks_anew(desk: Desk, shop: Shop, bench: Bench) -> None:
    bench.type("599.85\r")
    bench.press(Qt.Key.Key_Escape)
    assert bench.line.field.text() == "599.85"
    assert bench.answer == ""
    time.sleep(module.SETTLE_S)
    bench.type("\r")
    assert "ten times" in bench.answer, "held again, not stored"
    bench.line.field.setText("")
    bench.type("59.985\r")
    assert readings(desk, (shop.journal, shop.near)) == [("59.985", Stage.AS_FOUND)]


def test_escape_clears_and_ctrl_z_brings_the_text_back(bench: Bench) -> None:
    bench.type("59.9")
    bench.press(Qt.Key.Key_Escape)
    assert bench.line.field.text() == ""
    bench.press(Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert bench.line.field.text() == "59.9"


def test_two_honest_readings_are_offered_by_number(desk: Desk, shop: Shop, bench: Bench) -> None:
    bench.type("59,985\r")
    assert bench.ways[:2] == ["59.985 mm (decimal comma)", "59985 mm (thousands)"]
    bench.type("\r")
    assert bench.answer.startswith("Press the number")
    bench.type("1\r")
    QTest.qWait(80)
    assert readings(desk, (shop.journal, shop.near)) == [("59.985 mm", Stage.AS_FOUND)]
    assert bench.line.field.text() == ""


def test_the_comma_is_settled_for_the_whole_file_by_one_key(desk: Desk, shop: Shop, bench: Bench) -> None:
    bench.type("59,985\r")
    bench.type("3")
    QTest.qWait(ANSWER_MS + 80)  # a digit alone is an answer once nothing more comes
    assert decimal_comma(desk.store) is True
    bench.type("59,981\r")
    assert readings(desk, (shop.journal, shop.far)) == [("59,981", Stage.AS_FOUND)]


def test_a_question_is_answered_by_a_click_as_well(desk: Desk, shop: Shop, bench: Bench) -> None:
    bench.type("59,985\r")
    button = next(
        one for one in bench.line.answer.findChildren(QAbstractButton) if one.text().startswith("1 ")
    )
    button.click()
    assert readings(desk, (shop.journal, shop.near)) == [("59.985 mm", Stage.AS_FOUND)]


def test_escape_leaves_the_question_and_keeps_the_text(bench: Bench) -> None:
    bench.type("59,985\r")
    bench.press(Qt.Key.Key_Escape)
    assert bench.ways == []
    assert bench.line.field.text() == "59,985"


# Several readings, again, undo


def test_repeats_are_collected_and_their_mean_stored(desk: Desk, shop: Shop, bench: Bench) -> None:
    bench.line.controls.repeats.setValue(3)
    bench.type("59.985\r")
    assert bench.line.field.text() == "59.985; "
    assert bench.answer.startswith("1 of 3 readings")
    bench.type("bad\r")
    assert bench.line.field.text() == "59.985; bad"
    bench.line.field.setText("59.985; ")
    bench.type("59.987\r")
    bench.type("59.986\r")
    assert readings(desk, (shop.journal, shop.near)) == [("59.985; 59.987; 59.986", Stage.AS_FOUND)]
    assert bench.answer.startswith("59.986 mm")


def test_fewer_repeats_are_stored_by_ctrl_enter(desk: Desk, shop: Shop, bench: Bench) -> None:
    bench.line.controls.repeats.setValue(3)
    bench.type("59.985\r59.987\r")
    bench.press(Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)
    assert readings(desk, (shop.journal, shop.near)) == [("59.985; 59.987", Stage.AS_FOUND)]


def test_again_goes_back_to_the_row_stored_last(desk: Desk, shop: Shop, bench: Bench) -> None:
    bench.type("59.985\r")
    bench.line.controls.again.click()
    assert desk.selection.key == (shop.journal, shop.near)
    bench.type("59.986\r")
    assert [typed for typed, _ in readings(desk, (shop.journal, shop.near))] == ["59.986", "59.985"]
    assert desk.selection.key == (shop.journal, shop.far)


def test_again_with_nothing_stored_says_so(bench: Bench) -> None:
    bench.line.again()
    assert bench.answer == "Nothing has been stored from this line yet."


def test_ctrl_z_in_an_empty_line_takes_the_reading_back(desk: Desk, shop: Shop, bench: Bench) -> None:
    bench.type("59.985\r")
    bench.press(Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert readings(desk, (shop.journal, shop.near)) == []
    assert desk.selection.key == (shop.journal, shop.near)


# Typed text is never lost


def test_text_begun_on_one_row_is_held_for_a_key_on_another(
    desk: Desk, shop: Shop, bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(module, "SETTLE_S", 0.0)
    bench.type("59.9")
    desk.choose(key=(shop.journal, shop.far))
    assert "far" in bench.lands_on, "the line is where the eye is"
    assert bench.line.head.warning.text().startswith("What is typed was meant for HS-01 spindle")
    bench.type("85\r")
    assert "was typed for" in bench.answer
    assert readings(desk, (shop.journal, shop.near)) == readings(desk, (shop.journal, shop.far)) == []
    desk.choose(key=(shop.journal, shop.near))
    assert bench.answer == "", "it was said of another row"
    bench.type("\r")
    assert readings(desk, (shop.journal, shop.near)) == [], "asked anew, for this row"
    desk.choose(key=(shop.journal, shop.far))
    bench.type("\r\r")
    assert readings(desk, (shop.journal, shop.far)) == [("59.985", Stage.AS_FOUND)]
    desk.undo()
    assert "taken back" in bench.answer
    desk.choose(key=(shop.journal, shop.near))
    assert bench.answer == ""


def test_clearing_the_text_lets_the_line_follow_again(desk: Desk, shop: Shop, bench: Bench) -> None:
    bench.type("59.9")
    desk.choose(key=(shop.lost_motion, 0))
    bench.press(Qt.Key.Key_Escape)
    assert "lost motion" in bench.lands_on
    bench.press(Qt.Key.Key_Down)
    assert bench.line.field.text() == ""


def test_moving_with_text_in_the_line_asks_to_store_or_clear(desk: Desk, shop: Shop, bench: Bench) -> None:
    bench.type("59.9")
    bench.press(Qt.Key.Key_Down)
    assert desk.selection.key == (shop.journal, shop.near)
    assert "Store what is typed" in bench.answer


def test_text_whose_row_is_removed_waits_for_another(
    desk: Desk, shop: Shop, bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(module, "SETTLE_S", 0.0)
    bench.type("59.985")
    remove(desk.store, "feature", [shop.journal])
    assert bench.lands_on == "Choose a row"
    assert bench.line.field.text() == "59.985"
    desk.undo()
    desk.choose(key=(shop.journal, shop.far))
    bench.line.focus_entry()
    bench.type("\r\r")
    assert bench.line.field.text() == ""
    assert readings(desk, (shop.journal, shop.far)) == [("59.985", Stage.AS_FOUND)]


def test_text_outlives_its_file_and_does_not_land_in_another(desk: Desk, shop: Shop, bench: Bench) -> None:
    bench.type("59.985")
    path = desk.store.path
    desk.close()
    assert bench.line.field.text() == "59.985"
    desk.open(path)
    assert bench.lands_on == "Choose a row"
    assert not bench.line.field.isEnabled()
    bench.type("\r")
    assert bench.line.field.text() == "59.985"
    assert readings(desk, (shop.journal, shop.near)) == []


# Gauges


@pytest.mark.parametrize("end", ["\r", "\t"])
def test_a_burst_into_the_line_is_stored_at_its_end(desk: Desk, shop: Shop, bench: Bench, end: str) -> None:
    bench.gauge("59.985" + end)
    assert readings(desk, (shop.journal, shop.near)) == [("59.985", Stage.AS_FOUND)]
    assert bench.line.field.hasFocus()


def test_a_burst_that_just_stops_is_stored_after_a_pause(
    desk: Desk, shop: Shop, bench: Bench, qtbot: QtBot
) -> None:
    bench.gauge("+59.985mm")
    assert readings(desk, (shop.journal, shop.near)) == []
    qtbot.waitUntil(
        lambda: readings(desk, (shop.journal, shop.near)) == [("+59.985mm", Stage.AS_FOUND)], timeout=1500
    )


def test_a_person_pausing_is_never_stored(desk: Desk, shop: Shop, bench: Bench) -> None:
    bench.type("59.985")
    QTest.qWait(400)
    assert readings(desk, (shop.journal, shop.near)) == []
    assert bench.line.field.text() == "59.985"


def test_tab_after_typing_moves_the_focus_and_keeps_the_text(bench: Bench) -> None:
    bench.type("59.985\t")
    assert not bench.line.field.hasFocus()
    assert bench.line.field.text() == "59.985"


def test_with_gauges_off_a_burst_is_only_text(desk: Desk, shop: Shop, bench: Bench) -> None:
    bench.line.controls.gauge.setChecked(False)
    bench.gauge("59.985")
    QTest.qWait(400)
    assert bench.line.field.text() == "59.985"
    assert readings(desk, (shop.journal, shop.near)) == []


def test_a_burst_into_half_typed_text_asks_which_is_meant(desk: Desk, shop: Shop, bench: Bench) -> None:
    bench.type("59.9")
    bench.gauge("59.985\r")
    assert bench.line.field.text() == "59.9"
    assert bench.ways == ["store 59.985 from the gauge", "keep 59.9"]
    bench.type("1\r")
    QTest.qWait(80)
    assert readings(desk, (shop.journal, shop.near)) == [("59.985", Stage.AS_FOUND)]


def test_keeping_what_was_typed_stores_nothing(desk: Desk, shop: Shop, bench: Bench) -> None:
    bench.type("59.9")
    bench.gauge("59.985\r")
    bench.line.answer.take(2)
    assert bench.line.field.text() == "59.9"
    assert readings(desk, (shop.journal, shop.near)) == []


def test_a_burst_during_a_question_answers_nothing_and_is_not_lost(
    desk: Desk, shop: Shop, bench: Bench
) -> None:
    bench.type("59,985\r")
    bench.gauge("1.9851\r")
    assert readings(desk, (shop.journal, shop.near)) == []
    assert bench.ways[-1] == "1.9851 instead"
    assert bench.line.field.text() == "59,985"


def test_bursts_fill_the_repeats(desk: Desk, shop: Shop, bench: Bench) -> None:
    bench.line.controls.repeats.setValue(2)
    bench.gauge("59.985\r")
    bench.gauge("59.987\r")
    assert readings(desk, (shop.journal, shop.near)) == [("59.985; 59.987", Stage.AS_FOUND)]


def waiting(desk: Desk) -> list[str]:
    with desk.store.read() as connection:
        return [one.typed for one in unplaced(connection)]


def window_burst(bench: Bench, text: str) -> None:
    special = {"\r": Qt.Key.Key_Return}
    bench.now += 1000
    for sign in text:
        bench.now += 8
        event = QKeyEvent(QEvent.Type.KeyPress, special.get(sign) or Qt.Key(ord(sign)), NO_WAIT, sign)
        event.setTimestamp(bench.now)
        QCoreApplication.sendEvent(bench.windowHandle(), event)


def test_a_burst_lands_on_the_line_while_the_grid_has_the_focus(desk: Desk, shop: Shop, bench: Bench) -> None:
    bench.grid.view.setFocus()
    bench.grid.view.setCurrentIndex(bench.grid.model.index(1, STAGE_COLUMNS[0]))
    window_burst(bench, "59.981\r")
    assert readings(desk, (shop.journal, shop.far)) == [("59.981", Stage.AS_FOUND)]
    assert bench.grid.view.hasFocus()
    assert desk.selection.key == (shop.lost_motion, 0)


@pytest.mark.parametrize("where", ["readings", "note", "stage", "instrument"])
def test_a_burst_lands_on_the_row_in_hand_wherever_the_keyboard_is(
    desk: Desk, shop: Shop, bench: Bench, where: str
) -> None:
    controls = bench.line.controls
    focus: dict[str, QWidget] = {
        "readings": controls.repeats,
        "note": controls.note,
        "stage": controls.stage,
        "instrument": controls.instrument,
    }
    before = (controls.repeats.value(), controls.temperature.text(), controls.instrument.currentIndex())
    focus[where].setFocus()
    window_burst(bench, "59.981\r")
    assert readings(desk, (shop.journal, shop.near)) == [("59.981", Stage.AS_FOUND)]
    assert bench.grid.filters.text.text() == controls.note.text() == bench.line.field.text() == ""
    assert before == (
        controls.repeats.value(),
        controls.temperature.text(),
        controls.instrument.currentIndex(),
    )


@pytest.mark.parametrize("where", ["filter", "temperature"])
def test_a_search_and_a_field_for_numbers_keep_what_is_typed_however_fast(
    desk: Desk, shop: Shop, bench: Bench, where: str
) -> None:
    """Met in a trial: digits typed quickly into Find became a reading on a pin."""
    field = bench.grid.filters.text if where == "filter" else bench.line.controls.temperature
    field.setFocus()
    window_burst(bench, "21.5\r")
    assert field.text() == "21.5"
    assert readings(desk, (shop.journal, shop.near)) == []


def test_a_person_types_into_another_field_as_ever(bench: Bench, qtbot: QtBot) -> None:
    bench.grid.filters.text.setFocus()
    for digit in "59":
        bench.now += 200
        QTest.qWait(45)
        event = QKeyEvent(QEvent.Type.KeyPress, Qt.Key(ord(digit)), NO_WAIT, digit)
        event.setTimestamp(bench.now)
        QCoreApplication.sendEvent(bench.windowHandle(), event)
    qtbot.waitUntil(lambda: bench.grid.filters.text.text() == "59", timeout=1000)


def test_a_digit_typed_in_the_grid_starts_the_line(bench: Bench) -> None:
    bench.grid.view.setFocus()
    bench.grid.view.setCurrentIndex(bench.grid.model.index(0, Column.FEATURE))
    QTest.keyClicks(bench.grid.view, "5")
    assert bench.line.field.hasFocus()
    assert bench.line.field.text() == "5"


def test_cells_take_readings_the_way_the_line_does(desk: Desk, shop: Shop, bench: Bench) -> None:
    bench.line.controls.choose_instrument("Micrometer 50-75")
    index = bench.grid.model.index(0, STAGE_COLUMNS[0])
    assert bench.grid._acts.take(index, "59.985", "")
    with desk.store.read() as connection:
        row = readings_of(connection, (shop.journal, shop.near))[0][0]
    assert row.instrument_id == shop.micrometer


# Odds and ends


def test_instruments_come_and_go_in_the_chooser(desk: Desk, shop: Shop, bench: Bench) -> None:
    bench.line.controls.choose_instrument("Micrometer 50-75")
    added = spec.add_instrument(desk.store, "Bore gauge")
    names = [
        bench.line.controls.instrument.itemText(n) for n in range(bench.line.controls.instrument.count())
    ]
    assert names == ["no instrument named", "Micrometer 50-75", "Bore gauge", "New instrument…"]
    assert bench.line.course.instrument_id == shop.micrometer
    remove(desk.store, "instrument", [shop.micrometer, added])
    assert bench.line.course.instrument_id is None


def test_instrument_and_text_are_remembered(desk: Desk, bench: Bench, qtbot: QtBot, tmp_path: Path) -> None:
    bench.line.controls.choose_instrument("Micrometer 50-75")
    bench.type("59.9")
    memory = Memory(tmp_path / "window.ini")
    bench.line.remember(memory)
    other = EntryLine(desk)
    qtbot.addWidget(other)
    other.recall(memory)
    assert other.controls.instrument.currentText() == "Micrometer 50-75"
    assert other.field.text() == "59.9 mm", "the row it comes back to may go by inches"


def test_a_note_goes_with_one_reading(desk: Desk, shop: Shop, bench: Bench) -> None:
    bench.line.controls.note.setText("burr left on")
    bench.type("59.985\r")
    bench.type("59.981\r")
    with desk.store.read() as connection:
        notes = connection.exec_driver_sql("SELECT note FROM reading ORDER BY id").scalars().all()
    assert notes == ["burr left on", ""]


def test_a_feature_without_spec_is_read_back_without_verdict(desk: Desk, shop: Shop, bench: Bench) -> None:
    feature = spec.add_feature(desk.store, shop.cap, "width", FeatureKind.WIDTH)
    desk.choose(key=(feature, 0))
    assert bench.line.head.spec.text() == "no spec yet; numbers are in mm"
    bench.type("40.2\r")
    assert bench.answer.startswith("40.200 mm (1.5827 in).  No limits are set")
    assert bench.line.answer.mark.shape is Shape.NO_SPEC


def test_every_control_has_a_name(bench: Bench) -> None:
    nameless = [
        type(one).__name__
        for kind in (QComboBox, QLineEdit, QSpinBox, QAbstractButton)
        for one in bench.line.findChildren(kind)
        if one.isVisible()
        and not (one.accessibleName() or getattr(one, "text", str)())
        and not isinstance(one.parent(), QSpinBox | QComboBox | QLineEdit)
    ]
    assert nameless == []


def test_an_empty_desk_takes_nothing(empty_desk: Desk, qtbot: QtBot) -> None:
    line = EntryLine(empty_desk)
    qtbot.addWidget(line)
    assert not line.controls.isEnabled()
    assert line.head.place.text() == "Choose a row"


def test_digits_from_elsewhere_join_no_refused_text_and_answer_an_open_question(
    desk: Desk, shop: Shop, bench: Bench
) -> None:
    """Met in use: “0” was joined to a refused text, “0.6369 over 0.0645 wires0”, and the rest was another's."""
    said: list[str] = []
    desk.said.connect(lambda sentence, _how: said.append(sentence))
    long = "0.6369 over 0.0645 wires"
    bench.type(long + "\r")
    bench.line.take_burst(long)
    assert (bench.line.field.text(), bench.ways) == (long, []), "the same text again asks nothing"
    bench.line.take_key("5", bench.now + 500.0)
    assert bench.line.field.text() == "5"
    bench.type("9.9")
    bench.gauge("59.985\r")
    assert bench.ways == ["store 59.985 from the gauge", "keep 59.9"]
    for at, sign in enumerate("59.98"):
        bench.line.take_key(sign, bench.now + 500.0 + 150 * at)
    assert (bench.line.field.text(), bench.ways) == ("59.98", [])
    assert waiting(desk) == ["59.985", "59.9"]
    assert said[-1].startswith("59.9 was not chosen and is kept without a row")
    bench.type("\r")
    assert readings(desk, (shop.journal, shop.near)) == [("59.98", Stage.AS_FOUND)]


def test_what_waits_is_read_in_the_unit_of_the_row_in_hand(desk: Desk, shop: Shop, bench: Bench) -> None:
    """Met in use: typed on a row in mm, “= 0.637 mm” still stood there on a row in inches."""
    edit.edit(desk.store, "feature", [shop.lost_motion], {"unit": "in"})
    bench.type("0.5")
    assert bench.line.controls.live.text().startswith("= 0.500 mm")
    desk.choose(key=(shop.lost_motion, 0), part_ids=(shop.cap,))
    assert bench.line.course.unit == "in"
    assert bench.line.controls.live.text().startswith("= 0.5000 in (12.7")
