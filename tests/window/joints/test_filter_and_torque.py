"""Which joints the page shows, that it hears of them, and that a refused torque stays typed."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from rebuild.window.desk.desk import Desk
from rebuild.window.forms.add_dialog import AddDialog
from rebuild.window.joints.page import JointsPage
from rebuild.window.joints.which import AFTER_RUN_IN, ALL, NOT_FINAL
from rebuild.window.layout.plain import PlainLabel
from rebuild.words.joints import Tightness
from rebuild.work.joints import acts as joints, rows as joint_rows
from tests.conftest import Shop
from tests.support import acts_in
from tests.window.seen import shown

STEEL = "bolt and nut, steel to steel"


@pytest.fixture
def keys(desk: Desk, shop: Shop) -> dict[str, int]:
    return {
        name: joints.add_joint(
            desk.store,
            shop.machine,
            shop.headstock,
            name,
            {"location": "front", "thread": "3/8-16", "duty": STEEL, **more},
        )
        for name, more in {
            "cap": {"wanted": "torqued", "tight": "finger"},
            "guard": {"wanted": "snug", "tight": "snug"},
            "foot": {"wanted": "snug", "tight": "snug", "look_again": "yes"},
        }.items()
    }


@pytest.fixture
def page(qtbot: QtBot, desk: Desk, keys: dict[str, int]) -> JointsPage:
    made = JointsPage(desk)
    shown(qtbot, made)
    return made


def listed(page: JointsPage, which: str) -> set[int]:
    page.which.setCurrentText(which)
    page.refresh()
    return set(page.table.plain.ids)


def test_each_list_holds_what_its_name_says(page: JointsPage, keys: dict[str, int], desk: Desk) -> None:
    assert listed(page, NOT_FINAL) == {keys["cap"]}
    assert listed(page, ALL) == set(keys.values())
    assert listed(page, AFTER_RUN_IN) == {keys["foot"]}
    joints.looked_again(desk.store, [keys["foot"]])
    assert page.table.plain.ids == []
    joints.set_joints(desk.store, [keys["foot"]], joints.JointState(Tightness.APART))
    assert page.table.plain.ids == [keys["foot"]]


def test_the_page_hears_of_a_joint_that_changed(page: JointsPage, keys: dict[str, int], desk: Desk) -> None:
    assert "1 of 3 joints is not tight yet" in page.sentence.text()
    joints.set_joints(desk.store, [keys["guard"]], joints.JointState(Tightness.LOOSE))
    assert "2 of 3 joints are not tight yet" in page.sentence.text()
    desk.undo()
    assert "1 of 3 joints is not tight yet" in page.sentence.text()


def test_a_refused_torque_stays_in_its_line_and_stores_nothing(
    qtbot: QtBot, page: JointsPage, shop: Shop, desk: Desk
) -> None:
    said: list[str] = []
    desk.said.connect(lambda sentence, _how: said.append(sentence))
    page.table.selectRow(0)
    before = acts_in(shop.path)
    page.torque.setText("25")
    qtbot.keyClick(page.torque, Qt.Key.Key_Return)
    assert "Torqued to: “25” has no unit" in said[-1]
    assert page.torque.text() == "25"
    assert acts_in(shop.path) == before
    page.torque.setText("25 lb-ft")
    qtbot.keyClick(page.torque, Qt.Key.Key_Return)
    assert page.torque.text() == ""


def test_a_new_joint_says_where_it_goes_and_keeps_the_band_a_manual_prints(
    qtbot: QtBot, page: JointsPage, shop: Shop, desk: Desk
) -> None:
    said: list[str] = []
    desk.said.connect(lambda sentence, _how: said.append(sentence))
    desk.choose(subassembly_id=None, part_ids=(shop.cap,), key=None)
    page.new_button.click()
    dialog = next(one for one in page.findChildren(AddDialog) if one.isVisible())
    assert any(one.text() == "In HS Headstock" for one in dialog.findChildren(PlainLabel))
    boxes = dialog.form.boxes
    for name, text in (("name", "retaining plate"), ("thread", "3/8-16"), ("torque_wanted", "45-40 ft-lb")):
        boxes[name].take(text)
    dialog.add(again=True)
    assert dialog.focusWidget() is boxes["name"].widget
    dialog.close()
    with desk.store.read() as connection:
        made = next(
            row for row in joint_rows.joints(connection, shop.machine) if row.name == "retaining plate"
        )
        (group,) = connection.exec_driver_sql(
            "SELECT subassembly_id FROM joint WHERE id = ?", (made.id,)
        ).one()
    assert group == shop.headstock
    # 40 and 45 ft·lbf are 54.2 and 61.0 N·m: 1 ft·lbf is 1.3558179 N·m (NIST SP 811, appendix B).
    band = joint_rows.wanted_torque(made).value
    assert (round(band.low_Nm, 1), round(band.high_Nm, 1)) == (54.2, 61.0)
    assert joint_rows.doubt_of(made, "42.5 ft-lb") == ""
    assert joint_rows.doubt_of(made, "30 ft-lb") == "to be 45-40 ft-lb"
    page.show_row("joint", made.id)
    page.form.boxes["torque_done"].take("42 ft-lb")
    page.form.commit("torque_done")
    assert said[-1] == "Torqued to 42 ft-lb, read as 57 N·m (42 lb-ft)."
    page.form.boxes["torque_done"].take("40-45 ft-lb")
    page.form.commit("torque_done")
    assert "is a range" in page.form.boxes["torque_done"].trouble
    page.form.boxes["torque_done"].take("44 ft-lb")
    assert not page.form.boxes["torque_done"].trouble
