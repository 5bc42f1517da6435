"""The Making page: the list, sizes typed in place, the live drawing, the entry line, acceptance, paper."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtGui import QImage
from PySide6.QtTest import QAbstractItemModelTester
from PySide6.QtWidgets import QApplication, QFileDialog, QPushButton, QStyle
from pytestqt.qtbot import QtBot

from rebuild.window.commands.dispatch import do_act
from rebuild.window.commands.pages import PAGES
from rebuild.window.desk.desk import Desk
from rebuild.window.forms.add_dialog import AddDialog
from rebuild.window.layout.plain import plain_tip
from rebuild.window.making.drawing_view import PartDrawing
from rebuild.window.making.lines import SIZE_COLUMNS
from rebuild.window.making.page import MakingPage
from rebuild.window.making.paper_acts import print_sheet, print_story, write_drawing
from rebuild.window.making.sheet_acts import BEGIN
from rebuild.words.decisions import Decision
from rebuild.words.making import MakingProgress, PartShape
from rebuild.words.readings import FeatureKind, Stage
from rebuild.work.decisions import acts as decide
from rebuild.work.machines import acts as identify
from rebuild.work.making import acts as making, acts_as_made as as_made, acts_sizes as making_sizes
from rebuild.work.making.acts_steps import add_tool
from rebuild.work.making.rows_sheet import sheet_page
from rebuild.work.readings import acts as measure, acts_features as spec
from rebuild.work.readings.acts import Entry
from rebuild.work.records.wall_clock import now
from tests.support import enter_as_made, tick_steps
from tests.window.conftest import close_all_windows
from tests.work.teardown.apron import Apron


@pytest.fixture
def apron(small_apron: Apron) -> Apron:
    decide.decide(
        small_apron.store,
        [small_apron.parts["AP-12"], small_apron.parts["AP-11"]],
        Decision.REMAKE,
        reason="worn oval",
    )
    small_apron.read("journal A", "0.6247", Stage.AS_MADE)
    return small_apron


@pytest.fixture
def bush(apron: Apron) -> int:
    """The bush's sheet, released, its length given."""
    sheet = making.start_sheet(apron.store, apron.parts["AP-12"])
    with apron.store.read() as connection:
        length = next(one for one in sheet_page(connection, sheet).sizes if one.name == "length")
    making_sizes.set_size(apron.store, length.id, "1.25 ±0.01")
    making.release(apron.store, sheet)
    return sheet


@pytest.fixture
def desk(qapp: QApplication, apron: Apron) -> Iterator[Desk]:
    made = Desk()
    made.open(apron.store.path)
    yield made
    close_all_windows()
    made.close()
    made.deleteLater()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


@pytest.fixture
def page(qtbot: QtBot, desk: Desk, bush: int) -> MakingPage:
    made = MakingPage(desk)
    made.resize(1250, 760)
    with qtbot.waitExposed(made):
        made.show()
    return made


def cell(page: MakingPage, size: str, column: str) -> str:
    model = page.view.sizes.table.plain
    for row in range(model.rowCount()):
        if model.text(row)[0] == size:
            return model.text(row)[SIZE_COLUMNS.index(column)]
    raise KeyError(size)


def choose(page: MakingPage, size: str) -> None:
    model = page.view.sizes.table.plain
    row = next(row for row in range(model.rowCount()) if model.text(row)[0] == size)
    page.view.sizes.table.selectRow(row)


def press(page: MakingPage, words: str) -> None:
    button = next(
        button
        for button in page.view.head.findChildren(QPushButton)
        if button.text().replace("&", "") == words and button.isVisible()
    )
    button.click()


def shown_buttons(page: MakingPage) -> set[str]:
    return {
        button.text().replace("&", "") for button in page.view.head.buttons.values() if button.isVisible()
    }


def dialog(page: MakingPage) -> AddDialog:
    (found,) = page.findChildren(AddDialog)
    return found


def type_value(qtbot: QtBot, page: MakingPage, text: str) -> None:
    field = page.view.entry.field
    field.setFocus()
    qtbot.keyClicks(field, text, delay=45)
    qtbot.keyClick(field, Qt.Key.Key_Return)


def test_the_page_is_in_the_frames_table() -> None:
    page = next(page for page in PAGES if page.key == "making")
    assert page.slot.present


def test_the_sheet_is_shown_with_its_drawing(page: MakingPage) -> None:
    QAbstractItemModelTester(page.view.sizes.table.plain, QAbstractItemModelTester.FailureReportingMode.Fatal)
    assert page.view.head.title.text() == "AP-12 apron bush"
    assert page.view.head.state.text() == "ready"
    assert cell(page, "outside diameter", "Limits") == "0.8136 to 0.8140 in"
    choose(page, "bore")
    assert "limits to suit AP-11 pinion shaft, journal A" in page.view.sizes.about.text()
    assert page.view.drawing.laid is not None
    assert "bore 0.6257 to 0.6262" in page.view.drawing.accessibleDescription().replace("Ø", "")
    assert shown_buttons(page) == {"Begin", "Remove"}


def test_looking_again_reads_and_shows_the_sheet_once(
    page: MakingPage, monkeypatch: pytest.MonkeyPatch
) -> None:
    shown: list[int | None] = []
    whole = page.view.show_page
    monkeypatch.setattr(
        page.view, "show_page", lambda *given: (shown.append(given[0].head.part_id), whole(*given))
    )
    page.refresh()
    page.look_again()
    assert len(shown) == 2
    assert len(set(shown)) == 1


def test_one_click_from_a_part(page: MakingPage, desk: Desk, apron: Apron) -> None:
    turned: list[str] = []
    desk.page_asked.connect(turned.append)
    desk.choose(part_ids=(apron.parts["XS-04"],))
    assert page.list.new_button.text().replace("&", "") == "New sheet: XS-04 cross nut"
    do_act("make_sheet", desk, page)
    assert turned == ["making"]
    assert page.view.head.title.text() == "XS-04 cross nut"
    assert page.view.head.state.text() == "draft"
    do_act("make_sheet", desk, page)
    with desk.store.read() as connection:
        assert connection.exec_driver_sql("SELECT count(*) FROM making_sheet").scalar() == 2


def test_a_size_is_typed_beneath_the_table_and_the_drawing_follows(qtbot: QtBot, page: MakingPage) -> None:
    choose(page, "length")
    before = page.view.drawing.laid
    page.view.sizes.limits.setText("1.5 ±0.01")
    qtbot.keyClick(page.view.sizes.limits, Qt.Key.Key_Return)
    assert cell(page, "length", "Limits") == "1.5 ±0.01 in"
    after = page.view.drawing.laid
    assert before is not None
    assert after is not None
    assert before.bounds != after.bounds or before.scale != after.scale


# Seen: after Enter the text stayed, the next ran on behind it ("1.248-1.2500.5000-0.5007"), and at the end what was
# stored long since was offered among the kept entries as "not stored".
def test_limits_typed_one_after_the_other_land_on_the_sizes_that_have_none(
    qtbot: QtBot, page: MakingPage, desk: Desk
) -> None:
    sizes = page.view.sizes
    sheet = page.view.page
    assert sheet is not None
    for name in ("shoulder", "flange"):
        making_sizes.add_size(desk.store, sheet.id, name)
    open_ones = [one for one in page.view.page.sizes if not one.measure.given]  # type: ignore[union-attr]
    assert [one.name for one in open_ones] == ["shoulder", "flange"]
    choose(page, open_ones[0].name)
    sizes.limits.setFocus()
    for typed in ("1.498-1.500", "1.502-1.504"):
        qtbot.keyClicks(sizes.limits, typed)
        assert sizes.limits.unsaved
        qtbot.keyClick(sizes.limits, Qt.Key.Key_Return)
        assert not sizes.limits.unsaved
    assert [cell(page, one.name, "Limits") for one in open_ones] == ["1.498 to 1.500 in", "1.502 to 1.504 in"]
    assert sizes.limits.selectedText() == sizes.limits.text() != "", "typed over, never typed on"


def test_a_size_that_cannot_be_stays_in_its_field_with_the_sentence(qtbot: QtBot, page: MakingPage) -> None:
    choose(page, "length")
    page.view.sizes.limits.setText("long")
    qtbot.keyClick(page.view.sizes.limits, Qt.Key.Key_Return)
    assert page.view.sizes.limits.text() == "long"
    assert page.view.sizes.trouble.isVisible()
    assert cell(page, "length", "Limits") == "1.25 ±0.01 in"
    page.view.sizes.limits.setText("31.75")
    qtbot.keyClick(page.view.sizes.limits, Qt.Key.Key_Return)
    assert "25.4 times" in page.view.sizes.trouble.text()
    qtbot.keyClick(page.view.sizes.limits, Qt.Key.Key_Return)
    assert cell(page, "length", "Limits") == "31.75 in"


def test_a_wall_that_cannot_be_is_said_in_the_place_of_the_drawing(page: MakingPage, desk: Desk) -> None:
    size = next(one for one in page.view.page.sizes if one.name == "bore")  # type: ignore[union-attr]
    making_sizes.set_size(desk.store, size.id, "0.81-0.812", confirmed=True)
    assert page.view.drawing.laid is None
    assert "leaves a wall of" in page.view.drawing.accessibleDescription()


def test_a_chosen_size_is_marked_in_the_drawing(qtbot: QtBot, page: MakingPage) -> None:
    view = page.view.drawing
    choose(page, "length")
    one = view.grab().toImage()
    choose(page, "bore")
    assert view.grab().toImage() != one


def test_stale_is_said_and_refreshed(page: MakingPage, desk: Desk, apron: Apron) -> None:
    said: list[str] = []
    desk.said.connect(lambda sentence, _how: said.append(sentence))
    head = page.view.head
    places = [head.buttons[BEGIN].pos(), head.print_button.pos(), head.story_button.pos()]
    apron.read("housing", "0.8131", Stage.CLEANED)
    desk.store.poll()
    assert page.view.head.state.text() == "ready, stale"
    assert "measured again 0.8131 in cleaned" in page.view.head.warning.text()
    assert page.list.about.text() == "1 sheet, 1 stale"
    press(page, "Begin")
    assert "limits are stale" in page.view.head.warning.text()
    assert "Begin all the same" in shown_buttons(page)
    head.warning.setText("one\ntwo\nthree\nfour\nfive")
    QCoreApplication.processEvents()
    assert head.buttons[BEGIN].pos() == places[0], "no button moves with what is to be known"
    assert head.print_button.y() == places[1].y()
    press(page, "Refresh")
    assert "Release it again as issue 2" in said[-1]
    assert "outside diameter was 0.8136 to 0.8140 in, is 0.8139 to 0.8143 in" in said[-1]
    assert "stale" not in said[-1], "the message line no longer says stale"
    assert "no longer stands" in head.warning.text()
    press(page, "Release")
    QCoreApplication.processEvents()
    QCoreApplication.processEvents()
    assert [head.buttons[BEGIN].pos(), head.print_button.pos(), head.story_button.pos()] == places
    assert page.view.head.state.text() == "ready"
    assert cell(page, "outside diameter", "Limits") == "0.8139 to 0.8143 in"


def test_a_mate_with_the_same_thread_is_offered(page: MakingPage, desk: Desk, apron: Apron) -> None:
    """The buttons stand there only while it is offered; what is wanted is typed once, and the limits follow."""
    store = desk.store
    screw = identify.add_part(store, apron.machine, None, "travel screw", "TS-1")
    nut = identify.add_part(store, apron.machine, None, "travel nut", "TN-1")
    typed = {"thread": "1/2-10 LH ACME"}
    thread = spec.add_feature(store, screw, "thread", FeatureKind.THREAD, unit="in", typed=typed)
    entry = Entry(thread, None, Stage.CLEANED)
    measure.record_reading(store, "0.5050 over 0.0516 wires", entry, confirmed=True)
    sheet = making.start_sheet(store, nut, shape=PartShape.NUT)
    making.change_sheet(store, sheet, typed)
    store.poll()
    page.choose(sheet)
    assert "Does this 1/2-10 LH ACME run on TS-1 travel screw?" in page.view.head.warning.text()
    assert {"Make the fit…", "Not its mate"} <= shown_buttons(page)
    press(page, "Make the fit…")
    asked = dialog(page)
    asked.form.boxes["wanted"].fill("0.002-0.005")
    asked.add_button.click()
    store.poll()
    assert not {"Make the fit…", "Not its mate"} & shown_buttons(page)
    # 0.5050 over 0.0516 wires is 0.44014 (tests/work/making/test_offered.py); + 0.002 to 0.005, rounded inwards.
    assert cell(page, "pitch diameter", "Limits") == "0.4422 to 0.4451 in"


def test_as_made_values_go_through_the_entry_line(qtbot: QtBot, page: MakingPage, desk: Desk) -> None:
    assert not page.view.entry.isVisible()
    press(page, "Begin")
    assert page.view.entry.isVisible()
    assert page.view.entry.course.stage is Stage.AS_MADE
    choose(page, "bore")
    choose(page, "outside diameter")
    assert "·  outside  ·" in page.view.entry.head.place.text()
    type_value(qtbot, page, "0.8138")
    assert cell(page, "outside diameter", "As made") == "0.8138 in"
    assert "bore" in page.view.entry.head.place.text()
    assert page.view.sizes.chosen_size is not None
    assert page.view.sizes.chosen_size.name == "bore before pressing", "as it is made, before the bore"
    type_value(qtbot, page, "0.6130")
    assert page.view.sizes.chosen_size.name == "bore"
    type_value(qtbot, page, "0.6260")
    assert cell(page, "bore", "Verdict") in ("conforms", "undecided")
    press(page, "Finished")
    assert "no as-made value yet" in page.view.head.warning.text()
    press(page, "Finished all the same")
    press(page, "Accept")
    assert "length: has limits, 1.25" in page.view.head.warning.text()
    assert "lead chamfer: 0.03 ±0.007 in, never read" in page.view.head.warning.text()
    choose(page, "length")
    type_value(qtbot, page, "1.251")
    assert (
        "Still open, tick its operation when it is made: lead chamfer."
        in page.view.entry.answer.sentence.text()
    )
    tick_steps(desk.store, page.view.page.id)  # type: ignore[union-attr]
    desk.store.poll()
    press(page, "Accept")
    asked = dialog(page)
    assert asked.windowTitle() == "Accept though undecided", "the bore is, by its bare micrometer"
    asked.form.boxes["reason"].editor.put("the shaft turns")
    asked.add(again=False)
    assert page.view.head.state.text() == "accepted"
    assert not page.view.entry.isVisible()
    assert shown_buttons(page) == {"Spare made", "Make again"}


def test_a_deviation_wants_a_concession_with_its_reason(
    qtbot: QtBot, page: MakingPage, desk: Desk, apron: Apron, bush: int
) -> None:
    press(page, "Begin")
    size = next(one for one in page.view.page.sizes if one.name == "outside diameter")  # type: ignore[union-attr]
    enter_as_made(desk.store, size.id, "0.8131", apron.micrometer)
    as_made.finish(desk.store, bush, sure=True)
    assert cell(page, "outside diameter", "Verdict") == "does not conform"
    enter_as_made(desk.store, size.id, "0.8121", apron.micrometer)
    assert cell(page, "outside diameter", "Verdict") == "does not conform"
    press(page, "Accept")
    assert "accept it by concession with a reason" in page.view.head.warning.text()
    assert page.view.page is not None
    for one in page.view.page.sizes:
        if one.name in ("bore", "length"):
            enter_as_made(
                desk.store, one.id, {"bore": "0.62595", "length": "1.251"}[one.name], apron.micrometer
            )
    press(page, "By concession…")
    asked = dialog(page)
    line = "outside diameter: 0.8136 to 0.8140 in, reads 0.8121 in, 0.0015 in under"
    assert line in asked.adding.under, "what is conceded is said"
    asked.add(again=False)
    assert page.view.page.course.progress is MakingProgress.MADE
    asked.form.boxes["reason"].editor.put("slip fit, held by retaining compound")
    asked.add(again=False)
    assert page.view.head.state.text() == "accepted"
    assert "slip fit" in page.view.head.warning.text()


# Seen at 1280x800: from Begin on the drawing was squeezed to scale 1:10, 18 px wide.
def test_the_drawing_keeps_its_scale_while_the_part_is_being_made(qtbot: QtBot, page: MakingPage) -> None:
    drawing = page.view.drawing
    scales: dict[str, list[float]] = {"before": [], "begun": []}
    for state, heights in scales.items():
        for height in (620, 700, 900):
            page.resize(1180, height)
            QCoreApplication.processEvents()
            assert drawing.laid is not None
            heights.append(drawing.laid.scale)
        if state == "before":
            press(page, "Begin")
    assert page.view.entry.isVisible()
    assert scales["begun"] == scales["before"]
    assert page.view.beneath.minimumSizeHint().width() <= 940, "beside the list, in 1280 px"


def test_scrap_turns_to_the_next_attempt(page: MakingPage) -> None:
    press(page, "Begin")
    press(page, "Scrap…")
    asked = dialog(page)
    asked.form.boxes["reason"].editor.put("parted off short")
    asked.add(again=False)
    assert page.view.head.title.text() == "AP-12 apron bush, attempt 2"
    assert "attempt 1: parted off short" in (page.view.page.head.do_not_copy if page.view.page else "")
    assert page.list.about.text() == "2 sheets"


def test_steps_are_added_moved_done_and_edited(qtbot: QtBot, page: MakingPage) -> None:
    steps = page.view.steps
    cards = steps.cards
    assert [card.words.number for card in cards.cards] == list(range(1, len(cards.cards) + 1))
    steps.new.setText("Try it in the casting")
    qtbot.keyClick(steps.new, Qt.Key.Key_Return)
    assert cards.cards[1].words.what == "Try it in the casting"
    assert steps.form.parentWidget() is cards.cards[1], "it is edited in place"
    box = steps.form.boxes["tool"]
    box.editor.put("plug gauge")
    box.is_touched = True
    steps.form.commit("tool")
    assert "plug gauge" in cards.cards[1].words.facts
    next(button for button in steps.findChildren(QPushButton) if button.text() == "Up").click()
    assert cards.cards[0].words.what == "Try it in the casting"
    cards.cards[0].setFocus()
    qtbot.keyClick(cards.cards[0], Qt.Key.Key_Space)
    assert cards.cards[0].words.done.endswith(str(now().year))
    qtbot.keyClick(cards.cards[0], Qt.Key.Key_Down)
    assert steps.form.parentWidget() is cards.cards[1]


def test_fields_are_stored_when_left(page: MakingPage) -> None:
    page.view.leaves.show_view(3)
    box = page.view.what.form.boxes["material"]
    box.editor.put("phosphor bronze")
    box.is_touched = True
    page.view.what.form.commit("material")
    assert "phosphor bronze" in page.view.head.about.text()
    thread = page.view.what.form.boxes["thread"]
    thread.editor.put("about an inch")
    thread.is_touched = True
    page.view.what.form.commit("thread")
    assert "not a thread designation" in thread.trouble


def test_paper_and_drawing_are_written(page: MakingPage, desk: Desk, apron: Apron, tmp_path: Path) -> None:
    said: list[str] = []
    desk.said.connect(lambda words, _how: said.append(words))
    shown = page.view.page
    assert shown is not None
    print_sheet(desk, shown, tmp_path / "sheet.pdf")
    write_drawing(desk, shown, tmp_path / "bush.dxf")
    print_story(desk, shown.head.part_id, tmp_path / "story.pdf")
    assert [(tmp_path / name).stat().st_size > 1000 for name in ("sheet.pdf", "bush.dxf", "story.pdf")] == [
        True
    ] * 3
    assert said[0] == "Written to sheet.pdf, 2 pages."
    apron.read("housing", "0.8131", Stage.CLEANED)
    desk.store.poll()
    assert page.view.page is not None
    print_sheet(desk, page.view.page, tmp_path / "sheet.pdf")
    assert "limits are stale" in said[-1]


def test_print_asks_where(page: MakingPage, tmp_path: Path) -> None:
    page.view.head.print_button.click()
    (asked,) = page.findChildren(QFileDialog)
    asked.fileSelected.emit(str(tmp_path / "chosen.pdf"))
    assert (tmp_path / "chosen.pdf").exists()


def test_the_drawing_draws_in_both_schemes(qtbot: QtBot, page: MakingPage) -> None:
    view = page.view.drawing
    image = view.grab().toImage().convertToFormat(QImage.Format.Format_RGB32)
    colours = {image.pixel(x, y) for x in range(0, image.width(), 3) for y in range(0, image.height(), 3)}
    assert len(colours) > 5
    empty = PartDrawing()
    qtbot.addWidget(empty)
    empty.show_drawing(None, "mm", "Length: is not given yet.")
    assert empty.accessibleDescription() == "Length: is not given yet."
    assert empty.missing() == "Length: is not given yet."
    assert b"<polyline" in view.as_svg() or b"<path" in view.as_svg(), "copied and saved in lines"


def test_story_data_mates_and_cautions_are_there(page: MakingPage, desk: Desk) -> None:
    page.view.leaves.show_view(7)
    assert page.view.story.told is not None
    assert page.view.story.told.part == "AP-12 apron bush"
    assert page.view.mates.plain.rowCount() == 2
    assert "Pressing in" in page.view.cautions.text()
    asked: list[object] = []
    desk.working_asked.connect(asked.append)
    page.view.data.activated.emit(page.view.data.plain.index(1, 0))
    assert len(asked) == 1


def test_every_control_has_a_name(page: MakingPage) -> None:
    for widget in (
        page.list.tree,
        page.list.search,
        page.view.sizes.table,
        page.view.sizes.limits,
        page.view.drawing,
        page.view.steps.cards,
        page.view.mates,
        page.view.data,
    ):
        assert widget.accessibleName()


def test_no_file_no_sheet(qtbot: QtBot, page: MakingPage, desk: Desk) -> None:
    desk.close()
    assert page.view.page is None
    assert page.view.nothing.isVisible()


# Seen: after Release the focus jumped to Remove, and a Space took the whole sheet away unasked.
def test_after_release_the_focus_is_on_begin_and_remove_asks(
    page: MakingPage, desk: Desk, qtbot: QtBot
) -> None:
    desk.store.undo()
    head = page.view.head
    release, begin, remove = (
        next(button for words, button in head.buttons.items() if words.replace("&", "") == name)
        for name in ("Release", "Begin", "Remove")
    )
    page.activateWindow()
    qtbot.waitUntil(release.isVisible)
    release.setFocus()
    qtbot.keyClick(release, Qt.Key.Key_Space)
    assert begin.isVisible()
    assert page.focusWidget() is begin
    assert "Without limits" not in head.warning.text()
    assert head.page is not None
    length = next(one for one in head.page.sizes if one.name == "length")
    making_sizes.set_size(desk.store, length.id, "1.25")
    assert "Without limits, so nothing judges it: length." in head.warning.text()
    remove.click()
    assert "is released: shall the whole sheet go?" in head.warning.text()
    assert remove.text() == "Rem&ove all the same"
    remove.click()
    assert desk.store.undo_label().startswith("removal of making sheet")


def test_limits_are_never_cut_in_their_field(page: MakingPage) -> None:
    limits = page.view.sizes.limits
    page.resize(900, 600)
    for text in ("1.0011-1.0019", "0.62495-0.62505 in"):
        limits.put(text)
        for _ in range(4):
            QApplication.processEvents()
        room = limits.width() - 2 * limits.style().pixelMetric(QStyle.PixelMetric.PM_DefaultFrameWidth) - 4
        assert room >= limits.fontMetrics().horizontalAdvance(text), text


def test_a_low_list_of_sizes_keeps_its_rows_and_tells_the_rest_on_hover(
    page: MakingPage, qtbot: QtBot
) -> None:
    sizes = page.view.sizes
    sizes.resize(500, 400)
    assert not sizes.about.isHidden()
    sizes.resize(500, 150)
    assert sizes.about.isHidden()
    assert sizes.name.toolTip() == plain_tip(sizes.about.text()) != ""
    sizes.resize(500, 400)
    assert not sizes.about.isHidden()


def test_a_tool_leads_to_its_own_row_where_it_is_said_to_be_in_hand(
    page: MakingPage, desk: Desk, apron: Apron
) -> None:
    """Seen: the link of "Get ready…: Form cutter" opened the sheet at its steps."""
    sheet = making.start_sheet(desk.store, apron.parts["AP-11"])
    made = add_tool(desk.store, sheet, "Form cutter")
    add_tool(desk.store, sheet, "Reamer")
    page.show_row("making_tool", made)
    assert page.view.page is not None
    assert page.view.page.id == sheet
    assert page.view.leaves.view_shown is page.view.tools
    assert page.view.tools.table.chosen() == made
    assert page.view.tools.form.boxes["in_hand"].widget.hasFocus() or not page.isActiveWindow()
