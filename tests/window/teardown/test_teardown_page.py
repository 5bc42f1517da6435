"""The Teardown page, driven by the keyboard, with the store as the truth."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QAbstractItemModelTester
from pytestqt.qtbot import QtBot

from rebuild.trade.results.working import Working
from rebuild.window.boxes.page import BoxesPage
from rebuild.window.desk.desk import Desk
from rebuild.window.forms.add_dialog import AddDialog
from rebuild.window.parts.tree.lines import read_lines
from rebuild.window.shell.frame import Frame
from rebuild.window.teardown.page import TeardownPage
from rebuild.words.places import PlaceKind
from rebuild.words.steps import LinkAnswer
from rebuild.work.decisions.rows_proposals import to_decide
from rebuild.work.editing import acts as edit
from rebuild.work.machines import acts as identify
from rebuild.work.machines.rows_tree import parts
from rebuild.work.records.ways_out import Refused, WayKind
from rebuild.work.refit import acts as refit
from rebuild.work.steps import acts as tasks
from rebuild.work.teardown import acts as teardown, rows_removals as removals
from rebuild.work.teardown.acts_line import say_removal
from tests.conftest import Shop
from tests.window.readings.test_grid_model import statements
from tests.window.seen import named, shown

ENTER = Qt.Key.Key_Return


@pytest.fixture
def page(qtbot: QtBot, desk: Desk, shop: Shop) -> TeardownPage:
    desk.choose(subassembly_id=shop.headstock)
    made = TeardownPage(desk)
    shown(qtbot, made)
    return made


def log_rows(desk: Desk, shop: Shop) -> list[removals.RemovalRow]:
    with desk.store.read() as connection:
        attempt = removals.current_attempt(connection, shop.machine, shop.headstock)
        return removals.removals(connection, attempt.id) if attempt else []


def say(qtbot: QtBot, page: TeardownPage, line: str) -> None:
    page.off.line.setFocus()
    qtbot.keyClicks(page.off.line, line)
    qtbot.keyClick(page.off.line, ENTER)


def test_two_keys_log_the_next_part_and_three_another_one(
    qtbot: QtBot, page: TeardownPage, desk: Desk, shop: Shop
) -> None:
    assert page.off.next_off.text() == "Next off: HS-01 spindle"
    qtbot.keyClick(page.off.line, Qt.Key.Key_Down)
    assert page.off.next_off.text() == "Next off: HS-02 bearing cap"
    say(qtbot, page, "l")
    assert page.off.next_off.text() == "Next off: HS-01 spindle"
    say(qtbot, page, "w")
    assert [row.called for row in log_rows(desk, shop)] == ["HS-02 bearing cap", "HS-01 spindle"]
    assert page.log.plain.rowCount() == 2
    assert page.off.line.text() == ""


def test_what_was_understood_is_read_back_before_enter(qtbot: QtBot, page: TeardownPage, desk: Desk) -> None:
    identify.add_place(desk.store, "3 grey", PlaceKind.TOTE)
    page.off.line.setFocus()
    qtbot.keyClicks(page.off.line, "cap u, 4 x M10 x 40 socket, found shim, > tote 3")
    words = page.off.understood.text()
    for part in (
        "HS-02 bearing cap",
        "unscrewed",
        "4 × M10 × 40 mm socket screw",
        "found: shim",
        "→ tote 3 grey",
    ):
        assert part in words


def test_a_key_asks_the_file_for_little_and_what_is_logged_elsewhere_is_heard(
    qtbot: QtBot, page: TeardownPage, desk: Desk, shop: Shop
) -> None:
    page.off.line.setFocus()
    qtbot.keyClicks(page.off.line, "cap u, 4 x M10 ")
    with statements(desk.store) as asked:
        qtbot.keyClicks(page.off.line, "x")
    assert "HS-02 bearing cap" in page.off.understood.text()
    few = [one for one in asked if not one.startswith("BEGIN")]
    assert len(few) <= 5, few
    assert not [one for one in few if "FROM removal" in one or "FROM task" in one], (
        "nothing was logged meanwhile"
    )
    say_removal(desk.store, shop.machine, shop.headstock, "cap l")
    qtbot.keyClicks(page.off.line, "4")
    assert "is off already" in page.off.understood.text()


def test_a_line_that_cannot_be_stored_stays_with_its_sentence(qtbot: QtBot, page: TeardownPage) -> None:
    say(qtbot, page, "hs99 l")
    assert page.off.line.text() == "hs99 l"
    assert "“hs99” is none of those there" in page.off.ways.sentence.text()


def test_what_is_not_there_yet_is_made_by_one_confirming_enter(
    qtbot: QtBot, page: TeardownPage, desk: Desk, shop: Shop
) -> None:
    before = desk.store.undo_label()
    say(
        qtbot, page, "Gib, tapered l, from the rear, thick end up, mark two dots, cracked at the ear, > bag 7"
    )
    assert "new: Gib, tapered" in page.off.understood.text()
    assert "→ new: bag 7" in page.off.understood.text()
    assert "the part “Gib, tapered” and bag 7 are not there yet" in page.off.ways.sentence.text()
    assert log_rows(desk, shop) == []
    qtbot.keyClicks(page.off.line, "0")  # another line is asked about anew
    qtbot.keyClick(page.off.line, ENTER)
    assert log_rows(desk, shop) == []
    qtbot.keyClick(page.off.line, Qt.Key.Key_Backspace)
    qtbot.keyClick(page.off.line, ENTER)
    qtbot.keyClick(page.off.line, ENTER)
    row = page.log.plain.text(0)
    assert row[1:7] == (
        "HS-03 Gib, tapered", "lifted from the rear", "thick end up", "two dots", "cracked at the ear", "bag 7",
    )  # fmt: skip
    with desk.store.read() as connection:
        group = connection.exec_driver_sql(
            "SELECT subassembly_id FROM part WHERE name = 'Gib, tapered'"
        ).scalar_one()
        assert [one.title for one in to_decide(connection, shop.machine)][:1] == ["HS-03 Gib, tapered"]
    assert group == shop.headstock
    say(qtbot, page, "spindel l")
    assert "did you mean HS-01 spindle?" in page.off.understood.text()
    page.off.line.clear()
    desk.store.undo()
    assert desk.store.undo_label() == before, "part, place and removal were one act"


def test_the_log_says_which_it_is_and_shows_the_whole_machine(
    qtbot: QtBot, page: TeardownPage, desk: Desk, shop: Shop
) -> None:
    say(qtbot, page, "cap l")
    assert page.heading.text().startswith("Log of HS ")
    page.groups.setCurrentIndex(0)
    page.groups.activated.emit(0)
    assert page.heading.text() == "Log of the whole machine: every subassembly, in order of time"
    assert [page.log.plain.text(0)[at] for at in (0, 1)] == ["HS Headstock 1", "HS-02 bearing cap"]
    assert page.counts.text() == "1 off, 0 on again"
    edit.remove(desk.store, "removal", [log_rows(desk, shop)[0].id])
    assert desk.store.undo_label() == "removal of logged removal no. 1", (
        "the log's own number, and no word twice"
    )


def test_a_part_off_twice_offers_its_ways_and_one_key_takes_one(
    qtbot: QtBot, page: TeardownPage, desk: Desk, shop: Shop
) -> None:
    say(qtbot, page, "cap l")
    say(qtbot, page, "cap l")
    assert [way.kind for way in page.off.ways.ways][:2] == [WayKind.ALIKE, WayKind.NEW_ATTEMPT]
    assert page.off.line.text() == "cap l"
    qtbot.keyClick(page.off.line, Qt.Key.Key_N, Qt.KeyboardModifier.AltModifier)
    assert len(log_rows(desk, shop)) == 1, "a new attempt says first why"
    qtbot.keyClicks(page.off.ways.reason, "it leaked")
    qtbot.keyClick(page.off.ways.reason, ENTER)
    assert page.attempt is not None
    assert (page.attempt.number, page.attempts.count()) == (2, 2)
    assert len(log_rows(desk, shop)) == 1


def test_who_types_on_while_it_asks_answers_nothing(
    qtbot: QtBot, page: TeardownPage, desk: Desk, shop: Shop
) -> None:
    say(qtbot, page, "cap l")
    say(qtbot, page, "cap l")
    assert [way.kind for way in page.off.ways.ways][:2] == [WayKind.ALIKE, WayKind.NEW_ATTEMPT]
    type_into_window(qtbot, page, "; spacer ring s, thick side out")
    assert page.off.line.text() == "cap l; spacer ring s, thick side out", "what is typed is typed"
    assert page.off.ways.ways == (), "another line is asked about anew"
    assert page.attempt is not None
    assert (page.attempt.number, len(log_rows(desk, shop))) == (1, 1)
    page.off.line.clear()
    say(qtbot, page, "cap l")
    qtbot.keyClick(page.off.line, Qt.Key.Key_Escape)
    assert (page.off.ways.ways, page.off.line.text()) == ((), "cap l"), (
        "Esc leaves the question, not the text"
    )
    qtbot.keyClick(page.off.line, ENTER)
    qtbot.keyClick(page.off.line, Qt.Key.Key_K, Qt.KeyboardModifier.AltModifier)
    assert [row.called for row in log_rows(desk, shop)] == ["HS-02 bearing cap", "HS-03 bearing cap 2"], (
        "another one alike is a part of its own"
    )
    assert page.off.line.text() == ""


def test_a_name_that_begins_another_s_is_asked_about(
    qtbot: QtBot, page: TeardownPage, desk: Desk, shop: Shop
) -> None:
    alt = Qt.KeyboardModifier.AltModifier
    say(qtbot, page, "bearing l")
    assert page.off.ways.ways[0].words == "It is HS-02 bearing cap"
    qtbot.keyClick(page.off.line, Qt.Key.Key_I, alt)
    assert log_rows(desk, shop)[-1].called == "HS-02 bearing cap"
    say(qtbot, page, "Front bearing cover u")
    qtbot.keyClick(page.off.line, ENTER)
    say(qtbot, page, "Front bearing w, open side out")
    assert "“Front bearing” begins the name of HS-03 Front bearing cover" in page.off.ways.sentence.text()
    qtbot.keyClick(page.off.line, ENTER)
    assert len(log_rows(desk, shop)) == 2, "a second Enter takes neither"
    qtbot.keyClick(page.off.line, Qt.Key.Key_D, alt)
    assert [row.called for row in log_rows(desk, shop)][1:] == [
        "HS-03 Front bearing cover",
        "HS-04 Front bearing",
    ]
    assert page.off.line.text() == ""
    say(qtbot, page, "bearing l")
    assert "“new” before it" in page.off.ways.sentence.text(), "several begin so"
    page.off.line.clear()
    say(qtbot, page, "Front bearing w")
    assert "Front bearing is off already" in page.off.ways.sentence.text(), "an exact name wins"
    assert WayKind.NEW_PART not in [way.kind for way in page.off.ways.ways]
    page.off.line.clear()
    say(qtbot, page, "cap l")
    assert WayKind.NEW_PART in [way.kind for way in page.off.ways.ways], "taken for one that is off"
    qtbot.keyClick(page.off.line, Qt.Key.Key_D, alt)
    assert log_rows(desk, shop)[-1].called == "HS-05 cap"


def test_what_a_line_says_against_itself_is_asked_once(
    qtbot: QtBot, page: TeardownPage, desk: Desk, shop: Shop
) -> None:
    say(qtbot, page, "cap d, from the front, wide end at the front")
    assert "struck at the front, where its wide end was" in page.off.ways.sentence.text()
    assert log_rows(desk, shop) == []
    qtbot.keyClick(page.off.line, ENTER)
    assert log_rows(desk, shop)[0].orientation == "wide end at the front"
    identify.add_place(desk.store, "3", PlaceKind.BAG)
    page.off.line.setFocus()
    qtbot.keyClicks(page.off.line, "spindle m, lost, > bag 3")
    assert "  ·  lost  ·  → bag 3" in page.off.understood.text(), "lost is not broken"
    qtbot.keyClick(page.off.line, ENTER)
    assert page.off.ways.sentence.text().startswith("▸ A part that is lost or not there lies in no place")
    assert len(log_rows(desk, shop)) == 1
    page.off.line.clear()
    say(qtbot, page, "spindle l, lost")
    lines = read_lines(desk.store, shop.machine).lines
    lies = {line.name: line.texts[2] for line in lines.values()}
    assert (lies["spindle"], lies["bearing cap"].split(" ")[0]) == ("missing", "off")
    page.off.line.clear()
    identify.add_part(desk.store, shop.machine, shop.headstock, "lever", "HS-09")
    say(qtbot, page, "lever x sheared off flush, > bag 3")
    lines = read_lines(desk.store, shop.machine).lines
    assert {line.name: line.texts[2] for line in lines.values()}["lever"] == "broken · bag 3"


def test_the_samples_are_in_the_machine_s_own_unit(page: TeardownPage, desk: Desk, shop: Shop) -> None:
    lines = (page.off.line, page.detail.fastener_line, page.detail.shim_line)
    for unit, thread, leaf in (("mm", "M10", "0.20"), ("in", "3/8-16", "0.009")):
        edit.edit(desk.store, "machine", [shop.machine], {"unit": unit})
        page.refresh()
        assert all(thread in line.placeholderText() for line in lines[:2])
        assert all(leaf in line.placeholderText() for line in lines[::2])


def type_into_window(qtbot: QtBot, page: TeardownPage, words: str) -> None:
    """Each key to whatever has the keyboard then, as a hand types that does not look up."""
    for letter in words:
        focus = page.window().focusWidget()
        assert focus is not None
        qtbot.keyClicks(focus, letter)


def test_fasteners_and_shims_are_added_to_the_chosen_removal(
    qtbot: QtBot, page: TeardownPage, desk: Desk, shop: Shop
) -> None:
    workings: list[Working] = []
    desk.working_asked.connect(workings.append)
    say(qtbot, page, "cap u")
    qtbot.keyClicks(page.detail.fastener_line, "2 x M10 x 40 hex")
    qtbot.keyClick(page.detail.fastener_line, ENTER)
    qtbot.keyClicks(page.detail.shim_line, "left 0.05 + 2 x 0.1")
    qtbot.keyClick(page.detail.shim_line, ENTER)
    assert page.detail.fasteners.plain.text(0)[0] == "2 × M10 × 40 mm hex bolt"
    assert page.detail.shims.plain.text(0) == ("left", "0.05 mm + 0.1 mm + 0.1 mm", "0.250 mm (0.0098 in)")
    page.detail.shims.selectRow(0)
    assert "0.05 mm + 0.1 mm + 0.1 mm = 0.250 mm" in workings[-1].text()
    qtbot.keyClicks(page.detail.shim_line, "left 12")
    qtbot.keyClick(page.detail.shim_line, ENTER)
    assert page.detail.shim_line.text() == "left 12"


def test_drafting_shows_the_steps_beside_the_log(
    qtbot: QtBot, page: TeardownPage, desk: Desk, shop: Shop
) -> None:
    say(qtbot, page, "cap u")
    say(qtbot, page, "spin l")
    page.views.show_view(1)
    page.back.draft_button.click()
    assert "2 steps of 2 things off, 0 on again." in page.back.said.text()
    titles = [page.back.steps.model.line(row) for row in range(page.back.steps.model.rowCount())]
    assert "Refit HS-02 bearing cap" in [line.title for line in titles if line]
    assert page.log.plain.text(0)[7] == "drafted"
    # Seen: "1 off, 0 on again" of the machine as a whole, and below it a grey button with "Log something off first".
    desk.choose(subassembly_id=None)
    assert page.shows_every
    assert page.back.draft_button.isEnabled()
    assert "2 steps of 2 things off" in page.back.said.text()
    other = identify.add_subassembly(desk.store, shop.machine, "Guards", "GU")
    guard = identify.add_part(desk.store, shop.machine, other, "belt guard", "GU-01")
    teardown.log_removal(desk.store, shop.machine, other, teardown.Off((guard,)))
    assert "2 steps of 3 things off" in page.back.said.text()
    qtbot.mouseClick(page.back.draft_button, Qt.MouseButton.LeftButton)
    assert "3 steps of 3 things off, 0 on again." in page.back.said.text()
    desk.store.undo()
    assert "2 steps of 3 things off" in page.back.said.text(), "one act"
    desk.choose(subassembly_id=shop.headstock)
    qtbot.keyClicks(page.off.line, "GU-01 u")
    assert "it is of another subassembly" in page.off.understood.text()
    page.off.line.selectAll()
    qtbot.keyClicks(page.off.line, "HS-01 u")
    assert "another subassembly" not in page.off.understood.text()
    page.off.line.clear()


def test_a_link_to_an_attempt_stands_at_its_draft(qtbot: QtBot, page: TeardownPage, desk: Desk) -> None:
    """What is to be put back and not drafted yet leads there from Where was I and Plan."""
    say(qtbot, page, "cap u")
    assert page.attempt is not None
    key = page.attempt.id
    page.views.show_view(0)
    page.show_row("attempt", key)
    assert page.attempt is not None
    assert page.attempt.id == key
    assert page.back.draft_button.isVisible()
    assert page.back.draft_button.hasFocus()


def test_taken_down_again_asks_what_stopped_it_and_the_missed_link_is_accepted_with_enter(
    qtbot: QtBot, page: TeardownPage, desk: Desk, shop: Shop
) -> None:
    say(qtbot, page, "cap u")
    say(qtbot, page, "spin l")
    assert page.attempt is not None
    refit.draft(desk.store, page.attempt.id)
    with desk.store.read() as connection:
        rows = removals.removals(connection, page.attempt.id)
    for row in rows:  # the cap first: the wrong way round
        try:
            tasks.tick(desk.store, row.refit_id or 0)
        except Refused:
            tasks.tick(desk.store, row.refit_id or 0, reason="the wrong way round")
    page.begin_next()
    dialog = next(child for child in page.findChildren(AddDialog))
    dialog.form.boxes["stopped_by"].editor.put("spindle would not enter")
    dialog.add(again=False)
    assert page.attempt is not None
    assert page.attempt.number == 2
    say(qtbot, page, "cap u")
    say(qtbot, page, "spin l")
    page.views.show_view(2)
    assert "spindle would not enter" in page.second.heading.text()
    assert page.second.proposals.plain.text(0)[:2] == ("HS-01 spindle", "HS-02 bearing cap")
    page.second.accept()
    assert page.second.proposals.plain.text(0)[3] == LinkAnswer.ACCEPTED.value


def test_the_log_model_keeps_qt_s_rules_and_controls_have_names(qtbot: QtBot, page: TeardownPage) -> None:
    tester = QAbstractItemModelTester(
        page.log.plain, QAbstractItemModelTester.FailureReportingMode.Fatal, page
    )
    say(qtbot, page, "cap u")
    page.refresh()
    assert tester.model() is page.log.plain
    named(page)


def test_what_is_typed_on_arriving_goes_into_the_removal_line(qtbot: QtBot, frame: Frame, shop: Shop) -> None:
    frame.desk.choose(subassembly_id=shop.headstock)
    frame.show_page("bench")
    frame.show_page("teardown")
    page = frame.page("teardown")
    assert isinstance(page, TeardownPage)
    assert page.focusWidget() is page.off.line
    frame.show_page("boxes")
    boxes = frame.page("boxes")
    assert isinstance(boxes, BoxesPage)
    assert boxes.focusWidget() is boxes.name
    page.log.setFocus()
    frame.show_page("teardown")
    assert page.focusWidget() is page.off.line, "also on coming back"


def test_another_one_alike_and_a_part_of_another_subassembly_go_where_they_belong(
    qtbot: QtBot, page: TeardownPage, desk: Desk, shop: Shop
) -> None:
    """A pin of a name that is off elsewhere is a second pin; a part of elsewhere goes into its own log."""
    alt = Qt.KeyboardModifier.AltModifier
    tail = identify.add_subassembly(desk.store, shop.machine, "Tailstock", "TS")
    identify.add_part(desk.store, shop.machine, tail, "taper pin")
    identify.add_part(desk.store, shop.machine, tail, "handwheel", "TS-03")
    desk.choose(subassembly_id=tail)
    page.refresh()
    say(qtbot, page, "taper pin d small end, > bag 1")
    qtbot.keyClick(page.off.line, ENTER)
    assert "bag 1" in page.log.plain.text(0)[6]
    desk.choose(subassembly_id=shop.headstock)
    page.refresh()
    line = "taper pin d, wide end at the front, from the rear, > bag 3"
    page.off.line.setFocus()
    qtbot.keyClicks(page.off.line, line)
    assert "is off already: no. 1 of TS Tailstock, in bag 1" in page.off.understood.text(), "before Enter"
    qtbot.keyClick(page.off.line, ENTER)
    qtbot.keyClick(page.off.line, ENTER)
    asked = page.off.ways.sentence.text()
    assert "off already: no. 1 of TS Tailstock" in asked
    assert asked.count("bag 1") == 1
    assert len(log_rows(desk, shop)) == 0
    qtbot.keyClick(page.off.line, Qt.Key.Key_K, alt)
    if page.off.line.text():
        qtbot.keyClick(page.off.line, ENTER)
    mine = log_rows(desk, shop)[0]
    with desk.store.read() as connection:
        theirs = removals.of_machine(connection, shop.machine)[0][1]
        places = {row.id: (row.subassembly_id, row.place) for row in parts(connection, shop.machine)}
    assert theirs.part_ids != mine.part_ids
    assert (theirs.place, theirs.now, mine.place, mine.now) == ("bag 1", "", "bag 3", "")
    assert places[mine.part_ids[0]] == (shop.headstock, "bag 3")
    said: list[str] = []
    desk.said.connect(lambda words, _say: said.append(words))
    say(qtbot, page, "handwheel u, > bag 1")
    assert "TS-03 handwheel is a part of TS Tailstock" in page.off.ways.sentence.text()
    assert "TS-03 handwheel of TS Tailstock" in page.off.understood.text()
    qtbot.keyClick(page.off.line, Qt.Key.Key_I, alt)
    assert (len(log_rows(desk, shop)), page.off.line.text()) == (1, "")
    assert said[-1] == "Logged in the log of TS Tailstock: No. 2 TS-03 handwheel: unscrewed, in bag 1"
    say(qtbot, page, "clamp l, in tailstock")
    qtbot.keyClick(page.off.line, ENTER)
    assert said[-1] == "Logged in the log of TS Tailstock: No. 3 TS-04 clamp: lifted"
    assert len(log_rows(desk, shop)) == 1


def test_what_is_typed_on_the_box_of_subassemblies_goes_into_the_removal_line(
    qtbot: QtBot, page: TeardownPage, shop: Shop
) -> None:
    page.groups.setFocus()
    at = page.groups.currentIndex()
    qtbot.keyClicks(page.groups, "t")
    assert (page.off.line.text(), page.groups.currentIndex()) == ("t", at)
    page.off.line.clear()
    page.groups.setFocus()
    page.groups.activated.emit(at)
    assert page.focusWidget() is page.off.line, "the choice hands the keys on"


def test_a_half_typed_line_stays_with_its_log(
    qtbot: QtBot, page: TeardownPage, desk: Desk, shop: Shop
) -> None:
    """Met in use: begun in one subassembly's log, the line stood in the next one's without a word."""
    said: list[str] = []
    desk.said.connect(lambda sentence, _how: said.append(sentence))
    tail = identify.add_subassembly(desk.store, shop.machine, "Tailstock", "TK")
    page.off.line.setFocus()
    qtbot.keyClick(page.off.line, Qt.Key.Key_Down)
    qtbot.keyClicks(page.off.line, "u, 4 x M10")
    desk.choose(subassembly_id=tail, part_ids=())
    assert page.off.line.text() == ""
    assert "u, 4 x M10" in said[-1]
    assert "HS Headstock" in said[-1]
    qtbot.keyClicks(page.off.line, "quill s")
    assert [one.text for one in page.off.laid_by()] == ["u, 4 x M10", "quill s"]
    assert "HS Headstock" in page.off.laid_by()[0].meant_for
    desk.choose(subassembly_id=shop.headstock, part_ids=())
    assert page.off.line.text() == "u, 4 x M10"
    assert "HS-02 bearing cap" in page.off.understood.text(), "the part chosen with the arrows is meant still"
    assert log_rows(desk, shop) == []
    qtbot.keyClick(page.off.line, ENTER)
    assert [row.called for row in log_rows(desk, shop)] == ["HS-02 bearing cap"]
    desk.choose(subassembly_id=tail, part_ids=())
    assert page.off.line.text() == "quill s"
    desk.choose(subassembly_id=shop.headstock, part_ids=())
    qtbot.keyClicks(page.off.line, "spindle w")
    page.put_by()
    with desk.store.read() as connection:
        kept = connection.exec_driver_sql("SELECT meant_for, typed FROM kept_entry ORDER BY id").all()
    assert [row[1] for row in kept] == ["quill s", "spindle w"], "nothing typed is lost"
    assert "TK Tailstock" in kept[0][0]
    assert (page.off.line.text(), page.off.laid_by()) == ("", [])


def test_a_log_without_lines_says_what_another_log_has_of_it(
    page: TeardownPage, desk: Desk, shop: Shop
) -> None:
    """Seen by a stranger: the tree said one of four off, the log of the subassembly said nothing off yet."""
    desk.choose(subassembly_id=shop.headstock)
    page.refresh()
    assert page.heading.text().endswith("nothing off yet")
    teardown.log_removal(desk.store, shop.machine, None, teardown.Off(part_ids=(shop.spindle,)))
    page.refresh()
    assert page.heading.text().endswith(
        "nothing in it; 1 part of it is off by another log: see “The machine as a whole”"
    )
