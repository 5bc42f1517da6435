"""Torques that were once let through, tried in the window: ten times the figure, none at all, and a gib's jam nut."""

from __future__ import annotations

from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from rebuild.window.desk.desk import Desk
from rebuild.window.joints.page import JointsPage
from rebuild.words.joints import JointDuty, Tightness
from rebuild.work.joints import acts as joints, rows as joint_rows
from rebuild.work.joints.rows import JointRow
from tests.conftest import Shop
from tests.support import acts_in
from tests.window.seen import shown


# Source of 25 N·m: ISO 898-1:2013 proof strength 580 MPa x 36.6 mm2 x 0.75 x K 0.20 x 8 mm = 25.5 N·m (dry).
def test_a_wild_torque_no_torque_and_a_gib_s_jam_nut_in_the_window(
    qtbot: QtBot, desk: Desk, shop: Shop
) -> None:
    bolt, jam = (
        joints.add_joint(desk.store, shop.machine, shop.headstock, name, typed)
        for name, typed in (
            ("motor clamp", {"thread": "M8", "grade": "8.8", "wanted": "torqued", "tight": "finger",
                             "duty": "bolt and nut, steel to steel"}),
            ("ram gib jam nuts", {"thread": "1/2-13", "wanted": "locked"}),
        )
    )  # fmt: skip
    page = JointsPage(desk)
    shown(qtbot, page)

    def row(key: int) -> JointRow:
        with desk.store.read() as connection:
            return next(one for one in joint_rows.joints(connection, shop.machine) if one.id == key)

    def enter(text: str) -> None:
        page.torque.setText(text)
        qtbot.keyClick(page.torque, Qt.Key.Key_Return)

    page.table.choose(bolt)
    assert "25 N·m (19 lb-ft)" in page.torque.placeholderText()
    before = acts_in(shop.path)
    enter("250 N·m")
    assert "“250 N·m” is 10 times the 25 N·m" in page.row.sentence.text()
    assert page.torque.text() == "250 N·m", "what was typed stays"
    enter("")
    qtbot.keyClick(page.table, Qt.Key.Key_T)
    page.form.boxes["tight"].take("torqued")
    page.form.commit("tight")
    assert "is empty" in page.form.boxes["torque_done"].trouble + page.form.boxes["tight"].trouble
    assert acts_in(shop.path) == before, "nothing was stored"
    assert (row(bolt).tight, row(bolt).final) == (Tightness.FINGER, False)

    page.table.choose(jam)
    assert row(jam).duty is JointDuty.JAM_NUT
    assert "No torque from its thread" in page.setting.text()
    at = page.table.plain.ids.index(jam)
    assert not any("lb-ft" in text or "N·m" in text for text in page.table.plain.text(at))
    assert page.torque.placeholderText().startswith("How it was set")
    enter("drags at mid travel")
    assert (row(jam).how_set, row(jam).torque_done) == ("drags at mid travel", "")


# Seen: the question about a torque was a wall of text without a field for the class.
def test_a_torque_whose_class_is_not_said_asks_shortly_and_takes_the_class_there(
    qtbot: QtBot, desk: Desk, shop: Shop
) -> None:
    typed = {"thread": "M8", "duty": "bearing cap", "wanted": "torqued"}
    key = joints.add_joint(desk.store, shop.machine, None, "front cap", typed)
    page = JointsPage(desk)
    shown(qtbot, page)
    told: list[str] = []
    desk.said.connect(lambda sentence, _how: told.append(sentence))
    page.show_row("joint", key)
    page.torque.setFocus()
    qtbot.keyClicks(page.torque, "250 N·m")
    qtbot.keyClick(page.torque, Qt.Key.Key_Return)
    said = page.row.sentence.text()
    assert "is far over what any class of M8x1.25 takes: at most 43 N·m (31 lb-ft), class 12.9 dry" in said
    assert len(said) < 260, said
    page.row.clear()
    page.torque.clear()
    qtbot.keyClicks(page.torque, "25 N·m")
    qtbot.keyClick(page.torque, Qt.Key.Key_Return)
    said = page.row.sentence.text()
    # Source: ISO 898-1 proof strengths by the usual T = K d F of handbooks, as in test_tightness.
    assert "M8x1.25 takes 10 N·m (7 lb-ft) at class 4.6 to 43 N·m (31 lb-ft) at class 12.9, dry" in said
    assert len(said) < 260, said
    assert page.row.grade.isVisible()
    qtbot.keyClicks(page.row.grade, "nine")
    qtbot.keyClick(page.row.grade, Qt.Key.Key_Return)
    assert "“nine”" in told[-1], "what is no class is refused"
    assert page.torque.text() == "25 N·m", "what was typed waits"
    page.torque.setFocus()
    qtbot.keyClick(page.torque, Qt.Key.Key_Return)
    qtbot.keyClicks(page.row.grade, "8.8")
    qtbot.keyClick(page.row.grade, Qt.Key.Key_Return)
    with desk.store.read() as connection:
        row = next(one for one in joint_rows.joints(connection, shop.machine) if one.id == key)
    assert (row.grade, row.torque_done, row.torque_reason) == ("8.8", "25 N·m", "")
    assert not page.row.isVisible()
