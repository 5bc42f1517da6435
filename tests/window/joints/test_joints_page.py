"""The Joints page, driven by the keyboard, with the store as the truth."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel
from pytestqt.qtbot import QtBot

from rebuild.trade.results.working import Working
from rebuild.window.desk.desk import Desk
from rebuild.window.forms.add_dialog import AddDialog
from rebuild.window.forms.editors import ReferenceEditor
from rebuild.window.joints.page import JointsPage
from rebuild.words.joints import Tightness
from rebuild.work.joints import acts as joints, rows as joint_rows
from rebuild.work.machines.acts import add_part, add_subassembly
from tests.conftest import Shop
from tests.window.seen import named, shown

ENTER = Qt.Key.Key_Return


@pytest.fixture
def walk(qtbot: QtBot, desk: Desk, shop: Shop) -> JointsPage:
    for name, location in (
        ("rear cap screws", "rear"),
        ("front cap screws", "front"),
        ("foot bolts", "tailstock end, low"),
    ):
        joints.add_joint(desk.store, shop.machine, shop.headstock, name, {
            "location": location, "thread": "3/8-16", "wanted": "torqued", "count": "4",
            "duty": "bolt and nut, steel to steel",
        })  # fmt: skip
    made = JointsPage(desk)
    shown(qtbot, made)
    return made


def test_one_key_says_how_the_chosen_joints_are(
    qtbot: QtBot, walk: JointsPage, desk: Desk, shop: Shop
) -> None:
    assert [walk.table.plain.text(row)[2] for row in range(3)] == [
        "front cap screws, 4 × 3/8-16", "foot bolts, 4 × 3/8-16", "rear cap screws, 4 × 3/8-16",
    ]  # fmt: skip
    assert "3 of 3 joints are not tight yet" in walk.sentence.text()
    walk.table.selectAll()
    qtbot.keyClick(walk.table, Qt.Key.Key_F)
    qtbot.keyClick(walk.table, Qt.Key.Key_O)
    with desk.store.read() as connection:
        assert {row.state for row in joint_rows.joints(connection, shop.machine)} == {"finger tight, oiled"}


def test_a_torque_is_typed_and_the_joint_leaves_the_list(
    qtbot: QtBot, walk: JointsPage, desk: Desk, shop: Shop
) -> None:
    workings: list[Working] = []
    desk.working_asked.connect(workings.append)
    walk.table.selectRow(0)
    assert "27-41 N·m (20-30 lb-ft)" in walk.torque.placeholderText()
    walk.activateWindow()
    walk.table.setFocus()
    qtbot.waitUntil(walk.table.hasFocus)
    qtbot.keyClick(walk.table, Qt.Key.Key_T)
    qtbot.keyClicks(walk.torque, "25")
    qtbot.keyClick(walk.torque, ENTER)
    assert walk.torque.text() == "25", "a torque has a unit; what was typed stays"
    qtbot.keyClicks(walk.torque, " lb-ft")
    qtbot.keyClick(walk.torque, ENTER)
    assert walk.table.plain.rowCount() == 2
    with desk.store.read() as connection:
        row = next(row for row in joint_rows.joints(connection, shop.machine) if "front" in row.name)
    assert (row.tight, row.torque_done) == (Tightness.TORQUED, "25 lb-ft")
    walk._working()
    assert "usual range" in workings[-1].text()


def test_alt_and_arrows_change_the_walk(qtbot: QtBot, walk: JointsPage, desk: Desk, shop: Shop) -> None:
    walk.activateWindow()
    walk.table.setFocus()
    qtbot.waitUntil(walk.table.hasFocus)
    walk.table.selectRow(2)
    qtbot.keyClick(walk.table, Qt.Key.Key_Up, Qt.KeyboardModifier.AltModifier)
    with desk.store.read() as connection:
        order = [row.name for row in joint_rows.joints(connection, shop.machine)]
    assert order == ["front cap screws", "rear cap screws", "foot bolts"]
    desk.undo()
    assert walk.table.plain.text(1)[2].startswith("foot bolts")
    named(walk)


def test_a_new_joint_says_where_its_part_stands(
    qtbot: QtBot, walk: JointsPage, desk: Desk, shop: Shop
) -> None:
    """Met in use: *In AP Apron* stood there, and the joint went to the tailstock with its part."""
    tail = add_subassembly(desk.store, shop.machine, "Tailstock", "TK")
    guard = add_part(desk.store, shop.machine, tail, "guard", "TK-01")
    desk.choose(subassembly_id=shop.headstock, part_ids=(guard,))
    walk.new_button.click()
    dialog = next(one for one in walk.findChildren(AddDialog) if one.isVisible())
    where = next(one for one in dialog.findChildren(QLabel) if one.accessibleName() == "Where it goes")
    assert where.text() == "In TK Tailstock", "it follows the chosen part"
    editor = dialog.form.boxes["part_id"].editor
    assert isinstance(editor, ReferenceEditor)
    for typed, said in ((str(shop.spindle), "In HS Headstock"), (str(guard), "In TK Tailstock")):
        editor.put(typed)
        editor.activated.emit(editor.currentIndex())
        assert where.text() == said
    qtbot.keyClicks(dialog.form.boxes["name"].widget, "guard screws")
    dialog.add_button.click()
    with desk.store.read() as connection:
        row = connection.exec_driver_sql("SELECT subassembly_id FROM joint ORDER BY id DESC").first()
    assert row is not None
    assert row[0] == tail
