"""The Unknown things page: a thing noted in one line, its clues, its suspects, merged, undone, not ours."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLineEdit
from pytestqt.qtbot import QtBot

from rebuild.window.boxes.page import ALL, BoxesPage
from rebuild.window.shell.frame import Frame
from rebuild.words.places import PlaceKind
from rebuild.words.readings import FeatureKind
from rebuild.work.boxes.rows import things
from rebuild.work.machines.acts import add_machine, add_part, add_place, put
from rebuild.work.readings.acts_features import add_feature
from tests.conftest import Shop
from tests.window.seen import named

ENTER = Qt.Key.Key_Return


def test_a_box_is_gone_through(qtbot: QtBot, frame: Frame, shop: Shop) -> None:
    desk = frame.desk
    shaper = add_machine(desk.store, "Shaper")
    bush = add_part(desk.store, shaper, None, "idler bush", "ID-04", typed={"origin": "missing"})
    add_feature(desk.store, bush, "bore", FeatureKind.BORE, spec="25 H7")
    frame.resize(1280, 800)
    frame.show_page("boxes")
    page = frame.page("boxes")
    assert isinstance(page, BoxesPage)
    named(page)
    assert page.list.empty.isVisible()
    page.name.setFocus()
    qtbot.keyClicks(page.name, "bronze ring")
    qtbot.keyClicks(page.box, "box 2")
    qtbot.keyClicks(page.clues, "thread of some kind")
    qtbot.keyClick(page.clues, ENTER)
    assert "is not a thread designation" in page.trouble.text()
    assert (page.name.text(), page.list.plain.rowCount()) == ("bronze ring", 0), "nothing typed is lost"
    page.clues.setText("bore 25.01")
    qtbot.keyClick(page.clues, ENTER)
    assert page.list.plain.text(0) == (
        "X-01 bronze ring", "Toolroom lathe", "unknown", "box 2", "bore 25.01 mm", "",
    )  # fmt: skip
    assert (page.name.text(), page.box.text()) == ("", "box 2"), "the next thing comes out of the same box"
    pane = page.thing
    assert pane.suspects.plain.text(0)[:2] == ("ID-04 idler bush", "Shaper")
    assert pane.suspects.plain.text(0)[2].startswith("missing; bore 25.010 mm")
    qtbot.keyClicks(pane.clue, "stamped 418")
    qtbot.keyClick(pane.clue, ENTER)
    assert [pane.clues.plain.text(at)[0] for at in range(2)] == ["bore 25.01 mm", "stamped 418"]
    pane.suspects.choose(bush)
    pane.buttons["suspect"].click()
    assert page.list.plain.text(0)[2] == "suspected: ID-04 idler bush"
    pane.suspects.choose(bush)
    pane.buttons["is"].click()
    assert page.list.plain.rowCount() == 0
    desk.undo()
    assert page.list.plain.rowCount() == 1
    _named_by_hand(qtbot, page, frame, bush)
    page.list.choose(page.list.plain.ids[0])
    pane.machine.setCurrentIndex(pane.machine.findData(shaper))
    pane.of_machine()
    assert page.list.plain.text(0)[1] == "Shaper"
    pane.went_to.setText("neighbour")
    pane.buttons["away"].click()
    assert page.list.plain.rowCount() == 0
    assert page.said.text() == "0 things not settled, 1 not ours"
    page.which.setCurrentText(ALL)
    page.refresh()
    assert page.list.plain.text(0)[5] == "went to neighbour"
    with shop.store.read() as connection:
        (row,) = things(connection)
    page.list.choose(row.part_id)
    pane.ask()
    assert (frame.page_shown, desk.machine_id, desk.selection.part_ids) == (
        "questions",
        shaper,
        (row.part_id,),
    )
    frame.do("find_all")
    qtbot.keyClicks(frame.header.finder, "stamped 418")
    qtbot.keyClick(frame.header.finder, ENTER)
    assert (frame.page_shown, page.list.chosen()) == ("boxes", row.part_id)
    pane.photos.strip.model.stop()


def enter(qtbot: QtBot, line: QLineEdit) -> None:
    """Enter, and what it asks for: with the names open it is done when the list has gone."""
    qtbot.keyClick(line, ENTER)
    QApplication.processEvents()


def _named_by_hand(qtbot: QtBot, page: BoxesPage, frame: Frame, bush: int) -> None:
    """The part typed in the line, not outright, not at all, and lying in a bag already."""
    page.list.choose(page.list.plain.ids[0])
    it_is, store = page.thing.it_is, frame.desk.store
    qtbot.keyClicks(it_is.line, "gudgeon")
    enter(qtbot, it_is.line)
    assert "“gudgeon” is none of those there" in it_is.trouble.text()
    it_is.line.clear()
    qtbot.keyClicks(it_is.line, "idler")
    enter(qtbot, it_is.line)
    assert it_is.trouble.text() == (
        "▸ ID-04 idler bush? Enter again if it is that part, or type more of its name."
    )
    put(store, [bush], add_place(store, "1", PlaceKind.BAG))
    enter(qtbot, it_is.line)
    assert "lies in bag 1 already" in it_is.trouble.text()
    assert (it_is.same.isVisible(), it_is.alike.isVisible(), it_is.line.text()) == (True, True, "idler")
    it_is.alike.click()
    assert page.list.plain.rowCount() == 0
    frame.desk.undo()
    frame.desk.undo()
    frame.desk.undo()
    page.list.choose(page.list.plain.ids[0])
    it_is.line.clear()
    qtbot.keyClicks(it_is.line, "id4")
    enter(qtbot, it_is.line)
    assert page.list.plain.rowCount() == 0, "its code said short is the whole code"
    frame.desk.undo()


def test_enter_in_the_list_of_names_settles_a_thing_and_the_program_lives(
    qtbot: QtBot, frame: Frame, shop: Shop
) -> None:
    """Seen by a stranger, four times of four: with the names open under the line Enter ended the program."""
    add_part(frame.desk.store, shop.machine, None, "idler bush", "ID-04")
    frame.show_page("boxes")
    page = frame.page("boxes")
    assert isinstance(page, BoxesPage)
    for name in ("bronze ring", "second ring"):
        page.name.setText(name)
        qtbot.keyClick(page.clues, ENTER)
    page.list.choose(page.list.plain.ids[0])
    line = page.thing.it_is.line
    line.setFocus()
    qtbot.keyClicks(line, "ID-0")
    names = line.completer()
    names.complete()
    assert names.popup().isVisible()
    qtbot.keyClick(names.popup(), Qt.Key.Key_Down)
    qtbot.keyClick(names.popup(), ENTER)
    qtbot.waitUntil(lambda: page.list.plain.rowCount() == 1, timeout=4_000)
    assert line.completer() is names, "a new one ends the one at work"
    assert str(frame.desk.store.undo_label()).startswith("merging X-0")
