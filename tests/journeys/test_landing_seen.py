"""One landing, and everything shows it: what a toolmaker's trial found in the window, as runs by real keys."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication, QLineEdit

from rebuild.window.bench.bench_mode import BenchMode
from rebuild.window.charts.page import ChartPage
from rebuild.window.log.questions import QuestionsPage
from rebuild.window.parts.card_window import PartCardWindow
from rebuild.window.parts.glance_leaf import GlanceLeaf
from rebuild.window.readings.columns import STAGE_COLUMNS, Column
from rebuild.window.run_in.page import RunInPage
from rebuild.words.readings import STAGES, FeatureKind, Stage
from rebuild.work.landings.rows import unplaced
from rebuild.work.log.acts import ask
from rebuild.work.part_card.rows import About
from rebuild.work.readings.acts import Entry, record_reading
from rebuild.work.readings.acts_features import add_feature, add_instrument
from tests.conftest import Shop
from tests.journeys.hands import Hands
from tests.journeys.test_landing import in_tree, typed, waiting
from tests.support import readings_of

NEAR = "HS-01 spindle  ·  front journal  ·  near"
FAR = "HS-01 spindle  ·  front journal  ·  far"
FOUND, CLEANED = (STAGE_COLUMNS[STAGES.index(stage)] for stage in (Stage.AS_FOUND, Stage.CLEANED))


def on_cell(user: Hands, station: str, column: int) -> None:
    user.grid.headings.show_column(column)
    row = user.row("HS-01", "front journal", station)
    user.click_item(user.grid.view, user.grid.model.index(row, column))


def instrument(user: Hands, name: str) -> None:
    box = user.line.controls.instrument
    box.setCurrentIndex(box.findText(name))


def test_a_burst_past_the_part_card_or_a_drop_down_list_reaches_the_row(hands: Hands, shop: Shop) -> None:
    """With the card open the digits went into its field *Place*; with the list of instruments open they vanished."""
    user, store = hands, hands.frame.desk.store
    in_tree(user, "spindle")
    assert user.lands_on == f"{NEAR}  ·  as found"
    user.press(Qt.Key.Key_F4)
    card = next(one for one in user.frame.findChildren(PartCardWindow) if one.isVisible())
    card.activateWindow()
    user.bot.waitUntil(lambda: QApplication.activeWindow() is card, timeout=1000)
    place = next(one for one in card.findChildren(QLineEdit) if one.isVisible() and not one.isReadOnly())
    place.setFocus()
    user.bot.waitUntil(place.hasFocus, timeout=1000)
    before = place.text()
    user.gauge("59.985\r")
    assert place.text() == before
    assert typed(store, shop.journal, shop.near) == ["59.985"]
    user.person("7")
    user.bot.waitUntil(lambda: "7" in place.text(), timeout=1000)
    place.setText(before)
    card.close()

    user.come_forward()
    instruments = user.line.controls.instrument
    instruments.showPopup()
    box = instruments.view().window()
    user.bot.waitUntil(lambda: QGuiApplication.focusWindow() == box.windowHandle(), timeout=1000)
    user.gauge("59.980\r")
    assert typed(store, shop.journal, shop.far) == ["59.980"]
    instruments.hidePopup()
    assert waiting(user) == []


def test_undo_brings_the_line_back_and_redo_the_strip(hands: Hands, shop: Shop) -> None:
    """After undo the line stayed a row further and still said *stored*; redo left the strip of last values empty."""
    user, store = hands, hands.frame.desk.store
    in_tree(user, "spindle")
    user.gauge("59.985\r")
    assert user.lands_on == f"{FAR}  ·  as found"
    assert "Stored on" in user.answer
    user.grid.view.setFocus()
    user.frame.do("undo")
    assert user.lands_on == f"{NEAR}  ·  as found"
    assert "Stored" not in user.answer
    assert user.said == "Undone: reading 59.985 mm on HS-01 spindle, front journal, near, as found."
    assert not user.line.recent.buttons[0].isVisible()
    user.frame.do("redo")
    assert user.lands_on == f"{FAR}  ·  as found"
    assert user.line.recent.buttons[0].isVisible()
    assert "59.985" in user.line.recent.buttons[0].number
    both = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier
    user.press(Qt.Key.Key_1, both)
    assert typed(store, shop.journal, shop.near) == []
    assert "no longer on" in user.answer
    user.frame.do("undo")
    assert user.line.recent.buttons[0].isVisible(), "taking back was undone"


def test_a_number_typed_while_the_tree_has_the_keyboard_reaches_the_row(hands: Hands, shop: Shop) -> None:
    """Slower than a gauge, its digits were a search in the tree: the value was gone without a word."""
    user, store = hands, hands.frame.desk.store
    in_tree(user, "spindle")
    tree = user.bench.tree.view
    assert QApplication.focusWidget() is tree
    user.person("59.985\r")
    assert typed(store, shop.journal, shop.near) == ["59.985"]
    tree.setFocus()
    user.person("c")
    assert "Carriage" in str(tree.currentIndex().data()), "letters still search"
    user.frame.desk.choose(subassembly_id=shop.carriage, part_ids=(), key=None)
    tree.setFocus()
    user.person("12.7")
    user.bot.waitUntil(lambda: "12.7" in user.said, timeout=1000)
    user.person("5\r")
    assert waiting(user) == ["12.75"]
    user.person("8.")
    user.person("25")
    user.bot.waitUntil(lambda: "8.25" in user.said, timeout=1000)
    in_tree(user, "Headstock")
    in_tree(user, "spindle")
    assert user.line.field.text() == "8.25", "the row chosen meanwhile takes what was typed"


def test_a_pasted_column_is_one_of_the_last_values(hands: Hands, shop: Shop) -> None:
    """Moved, or taken back, whole by one key; it did not count among them at all."""
    user, store = hands, hands.frame.desk.store
    in_tree(user, "spindle")
    on_cell(user, "near", FOUND)
    QGuiApplication.clipboard().setText("59.985\n59.981\n")
    user.grid.paste()
    assert typed(store, shop.journal, shop.far) == ["59.981"]
    first = user.line.recent.buttons[0]
    assert first.isVisible()
    assert first.number == "1  59.985 and 1 more"
    on_cell(user, "near", CLEANED)
    user.press(Qt.Key.Key_1, Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier)
    with store.read() as connection:
        stages = [one.stage for one, *_ in readings_of(connection, (shop.journal, shop.far))]
    assert stages == [Stage.CLEANED]
    user.frame.do("undo")
    user.click_item(user.grid.view, user.grid.model.index(user.row("HS-02", "lost motion"), FOUND))
    user.press(Qt.Key.Key_1, Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier)
    assert "does not fit: 2 values, and from there down only 1 row." in user.frame.messages.troubles[-1]
    assert typed(store, shop.journal, shop.near) == ["59.985"]
    user.press(Qt.Key.Key_1, Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier)
    assert typed(store, shop.journal, shop.near) == typed(store, shop.journal, shop.far) == []


def test_after_a_correction_the_very_next_row_is_offered_at_its_first_unread_stage(
    hands: Hands, shop: Shop
) -> None:
    """Near and far are read as found, a third row is not. Near is corrected: the line went past far to the third."""
    user, store = hands, hands.frame.desk.store
    for station, text in ((shop.near, "59.985"), (shop.far, "59.984")):
        record_reading(store, text, Entry(shop.journal, station))
    in_tree(user, "Headstock")
    on_cell(user, "near", FOUND)
    assert user.lands_on == f"{NEAR}  ·  as found"
    user.gauge("59.983\r")
    assert "It replaces 59.985, which stays in the history" in user.answer
    assert user.lands_on == f"{FAR}  ·  cleaned", "far is read as found, and not yet cleaned"
    on_cell(user, "far", FOUND)
    user.gauge("59.982\r")
    assert user.lands_on.endswith("lost motion  ·  as found"), "nothing is read there"
    assert typed(store, shop.journal, shop.near) == ["59.983", "59.985"]
    assert typed(store, shop.journal, shop.far) == ["59.982", "59.984"]


def test_in_bench_mode_the_sentence_and_the_digits_tell_the_pasted_value(hands: Hands, shop: Shop) -> None:
    """After a paste the sentence went on about the value typed before it, over the large digits of the pasted one."""
    user = hands
    in_tree(user, "spindle")
    user.frame.do("bench_mode")
    mode = user.frame.findChild(BenchMode)
    assert mode is not None
    user.line.focus_entry()
    user.person("59.985\r")
    user.bot.waitUntil(lambda: user.answer.startswith("59.985"), timeout=2000)
    assert user.lands_on == f"{FAR}  ·  as found"
    QGuiApplication.clipboard().setText("59.981\n0.0031 in\n")
    user.ctrl(Qt.Key.Key_V)
    assert "holds 2 values" in user.answer
    user.press(Qt.Key.Key_1)
    user.bot.waitUntil(lambda: mode.stored.text().startswith("59.981"), timeout=2000)
    assert user.answer.startswith("59.981 mm"), user.answer
    assert f"Pasted on {FAR}  ·  as found, and 1 more below it." in user.answer
    assert mode.verdict.text().endswith(f"stored on {FAR}  ·  as found")
    user.frame.do("undo")
    assert user.answer.startswith("59.981 and 1 more taken back.")
    assert mode.stored.text().startswith("59.985")


def test_the_cell_clicked_is_where_hand_and_gauge_land(hands: Hands, shop: Shop) -> None:
    """A click on *cleaned*, read or not, left another stage in the heading; typed by hand it went to the cell."""
    user, store = hands, hands.frame.desk.store
    record_reading(store, "59.985", Entry(shop.journal, shop.near))
    record_reading(store, "59.984", Entry(shop.journal, shop.near, Stage.CLEANED))
    view = user.grid.view
    for station, column, landing in (
        ("near", CLEANED, f"{NEAR}  ·  cleaned"),
        ("near", FOUND, f"{NEAR}  ·  as found"),
        ("far", FOUND, f"{FAR}  ·  as found"),
        ("far", CLEANED, f"{FAR}  ·  cleaned"),
    ):
        on_cell(user, station, column)
        assert user.lands_on == landing
        assert view.currentIndex().column() == column
    on_cell(user, "near", FOUND)
    assert "59.985" in user.line.head.warning.text()
    assert "stays in the history" in user.line.head.warning.text()
    in_tree(user, "bearing cap")
    in_tree(user, "spindle")
    assert f"·  {STAGES[STAGE_COLUMNS.index(Column(view.currentIndex().column()))].value}" in user.lands_on

    on_cell(user, "far", FOUND)
    user.person("59.971\r")
    assert typed(store, shop.journal, shop.far) == ["59.971"]
    assert f"Stored on {FAR}  ·  as found" in user.answer, "a value typed in a cell is read back as well"


def test_the_instrument_tells_unit_reach_and_fineness(hands: Hands, shop: Shop) -> None:
    """An outside micrometer in a bore conformed; an inch one read mm; 59.971 on a 0.01 mm scale was taken unasked."""
    user, store = hands, hands.frame.desk.store
    bore = add_feature(store, shop.cap, "bore", FeatureKind.BORE, spec="60.000-60.030")
    small = add_feature(store, shop.cap, "pin", FeatureKind.OUTSIDE_DIAMETER, spec="25 h7")
    add_instrument(
        store, "Inch micrometer", {"kind": "outside micrometer", "unit": "in", "resolution": "0.0001"}
    )
    in_tree(user, "spindle")
    on_cell(user, "near", FOUND)
    instrument(user, "Micrometer 50-75")
    user.gauge("59.971\r")
    assert "is finer than Micrometer 50-75 reads" in user.answer
    assert typed(store, shop.journal, shop.near) == []
    user.ctrl(Qt.Key.Key_A)
    user.person("2 23/64 in\r")
    assert "is a fraction of an inch" in user.answer
    user.ctrl(Qt.Key.Key_A)
    user.person("59.975\r")
    assert typed(store, shop.journal, shop.near) == ["59.975"]

    instrument(user, "Inch micrometer")
    assert user.line.controls.unit.text() == "in"
    assert "No error limit of Inch micrometer is known" in user.line.head.warning.text()
    assert "±" not in user.line.head.warning.text()
    user.gauge("2.3612\r")
    assert typed(store, shop.journal, shop.far) == ["2.3612 in"]

    in_tree(user, "bearing cap")
    desk = user.frame.desk
    desk.choose(key=(bore, 0))
    instrument(user, "Micrometer 50-75")
    assert user.line.head.warning.text().startswith("Micrometer 50-75 measures outside; this is a bore.")
    user.gauge("60.015\r")
    assert "measures outside; this is a bore" in user.answer
    user.bot.wait(160)
    user.person("\r")
    assert typed(store, bore) == ["60.015"]
    assert "undecided" in user.answer.lower()
    assert "conforms" not in user.answer.lower()
    desk.choose(key=(small, 0))
    assert "reaches 50.000 mm to 75.000 mm; this is 25.000 mm" in user.line.head.warning.text()


def test_a_value_kept_on_another_page_keeps_its_instrument(hands: Hands, shop: Shop) -> None:
    """A value that came on the page of what is next was kept without its instrument."""
    user, store = hands, hands.frame.desk.store
    in_tree(user, "spindle")
    instrument(user, "Micrometer 50-75")
    user.page("plan")
    user.gauge("59.985\r")
    with store.read() as connection:
        (kept,) = unplaced(connection)
    assert kept.instrument_id == shop.micrometer
    user.page("bench")
    in_tree(user, "spindle")
    both = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier
    user.press(Qt.Key.Key_0, both)
    with store.read() as connection:
        (row,) = readings_of(connection, (shop.journal, shop.near))
    assert row[0].instrument_id == shop.micrometer


def test_the_level_and_a_test_piece_take_values_as_the_others_do(hands: Hands, shop: Shop) -> None:
    """On the levelling and the cut tests a gauge's value had no row: both have one and move on."""
    user, store = hands, hands.frame.desk.store
    chart = user.page("chart")
    assert isinstance(chart, ChartPage)
    chart.show_view(1)
    level = chart.levelling
    assert level.strip.place.text() == "level  ·  headstock end  ·  across"
    user.gauge("0.02\r")
    assert level.strip.place.text() == "level  ·  tailstock end  ·  across"
    user.gauge("-0.01\r")
    assert level.strip.place.text() == "level  ·  headstock end  ·  along"
    with store.read() as connection:
        rows = connection.exec_driver_sql("SELECT place, way, typed FROM level_reading ORDER BY id").all()
    assert [tuple(row) for row in rows] == [
        ("headstock end", "across", "0.02 mm/m"), ("tailstock end", "across", "-0.01 mm/m"),
    ]  # fmt: skip
    assert level.strip.recent.buttons[0].number == "1  -0.01"
    user.press(Qt.Key.Key_1, Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier)
    with store.read() as connection:
        assert connection.exec_driver_sql("SELECT count(*) FROM level_reading").scalar() == 1
    level.value.setText("0.0")
    user.gauge("0.03\r")
    assert waiting(user) == ["0.03"], "past a value half typed it is kept"
    level.value.clear()

    run_in = user.page("run-in")
    assert isinstance(run_in, RunInPage)
    run_in.show_view(2)
    cuts = run_in.cuts
    assert cuts.strip.place.text() == "two collars  ·  Collar near the spindle  ·  after"
    user.gauge("40.00\r")
    assert cuts.strip.place.text() == "two collars  ·  Collar at the free end  ·  after"
    user.gauge("40.03\r")
    user.gauge("150\r")
    assert cuts.table.plain.text(0)[3] == "larger at the free end by 0.030 mm on diameter over 150 mm"
    user.press(Qt.Key.Key_0, Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier)
    assert cuts.fields["first"].text() == "0.03"
    assert waiting(user) == []


def test_a_line_of_the_card_leads_to_the_very_row(hands: Hands, shop: Shop) -> None:
    """A reading on the card led to the first row of the part, a step or a question to the top of its list."""
    user, desk = hands, hands.frame.desk
    runout = add_feature(desk.store, shop.spindle, "nose runout", FeatureKind.RUNOUT, spec="max 0.01")
    second = ask(desk.store, shop.machine, "Which grease in the rear bearing?", part_id=shop.spindle)
    desk.choose(subassembly_id=shop.headstock, part_ids=(shop.spindle,), key=None)
    user.bench.details.show_leaf("card")
    leaf = user.bench.details.leaf("card")
    assert isinstance(leaf, GlanceLeaf)

    def follow(about: About, words: str) -> None:
        told = [line.words for line in leaf.found.of(about)] if leaf.found is not None else []
        leaf.sections[about].body.linkActivated.emit(
            str(next(at for at, line in enumerate(told) if words in line))
        )

    follow(About.READ, "nose runout")
    assert desk.selection.key == (runout, 0)
    assert "nose runout" in user.lands_on
    follow(About.STEPS, "Measure the journals")
    assert user.steps._current_id() == shop.measure
    desk.choose(subassembly_id=shop.headstock, part_ids=(shop.spindle,), key=None)
    for question, words in ((shop.question, "Which oil"), (second, "Which grease")):
        user.page("bench")
        follow(About.QUESTIONS, words)
        page = user.frame.page("questions")
        assert isinstance(page, QuestionsPage)
        row = page._current()
        assert row is not None
        assert row.id == question
