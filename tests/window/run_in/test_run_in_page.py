"""The Run-in page through the window: the gate, temperatures, cut tests."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton
from pytestqt.qtbot import QtBot

from rebuild.window.desk.desk import Desk
from rebuild.window.run_in.open_groups import GROUPS
from rebuild.window.run_in.page import RunInPage
from rebuild.window.steps.ways_out_row import WaysOutRow
from rebuild.words.run_in import LookWhen
from rebuild.words.steps import TaskKind
from rebuild.work.controls.acts import add_control
from rebuild.work.editing.acts import edit, remove
from rebuild.work.gates.rows import gone_on
from rebuild.work.lubrication import acts as lubricate
from rebuild.work.power.rows import before_power
from rebuild.work.records.wall_clock import now
from rebuild.work.run_in import acts as commission
from rebuild.work.run_in.rows import checks
from rebuild.work.steps import acts as tasks


@pytest.fixture
def page(qtbot: QtBot, desk: Desk) -> RunInPage:
    made = RunInPage(desk)
    qtbot.addWidget(made)
    made.resize(1200, 700)
    with qtbot.waitExposed(made):
        made.show()
    return made


def test_the_gate_opens_when_everything_is_seen_to(page: RunInPage, desk: Desk) -> None:
    assert page.gate.heading.text() == "14 open: do not power it on"
    assert "HS-02 bearing cap: not made" in [item.text for item in page.gate.items]
    assert desk.machine_id is not None
    with desk.store.read() as connection:
        cap = before_power(connection, desk.machine_id)[0].target
    edit(desk.store, "part", [cap], {"decision": "reuse"})
    with desk.store.read() as connection:
        usual = [row.id for row in checks(connection, desk.machine_id) if row.due is LookWhen.BEFORE_POWER]
    remove(desk.store, "run_look", usual)
    assert page.gate.heading.text() == "Checklist not set up: this is no clearance"
    page.gate.set_up.click()
    assert page.gate.heading.text() == "13 open: do not power it on"
    with desk.store.read() as connection:
        usual = [row.id for row in checks(connection, desk.machine_id) if row.due is LookWhen.BEFORE_POWER]
    for key in usual:
        commission.check_done(desk.store, key, "the electrician")
    assert page.gate.heading.text() == "Nothing is open before power"
    point = lubricate.add_point(desk.store, desk.machine_id, "front bearing")
    check = commission.add_check(
        desk.store, desk.machine_id, "Earth tested", typed={"licensed": "yes", "topic": "mains"}
    )
    assert page.gate.heading.text() == "2 open: do not power it on"
    page.gate.choose_check(check)
    assert "Defers to:" in page.gate.caution.text()
    assert page.gate.by.text() == "", "who is licensed is named each time"
    page.gate.done.click()
    assert "licensed hands" in page.gate.trouble.text()
    page.gate.by.setText("the electrician")
    assert page.gate.trouble.text() == ""
    page.gate.done.click()
    assert "I have read it: is not ticked, and this carries a caution" in page.gate.trouble.text()
    assert page.gate.by.text() == "the electrician", "what was typed stays"
    assert page.gate.heading.text() == "2 open: do not power it on"
    page.gate.read.setChecked(True)
    assert page.gate.trouble.text() == "", "seen: it stayed although the box was ticked"
    page.gate.done.click()
    assert "caution read" in (desk.store.undo_label() or "")
    lubricate.prove_flow(desk.store, [point])
    assert page.gate.heading.text() == "Nothing is open before power"


def test_going_on_all_the_same_asks_who_and_the_last_name_stands_there(page: RunInPage, desk: Desk) -> None:
    assert desk.machine_id is not None
    with desk.store.read() as connection:
        rows = [row for row in checks(connection, desk.machine_id) if not row.licensed and not row.topic]
    power = commission.add_check(desk.store, desk.machine_id, "Motor bumped", LookWhen.FIRST_POWER)
    page.gate.choose_check(power)
    page.gate.by.clear()
    page.gate.done.click()
    page.gate.row.reason.setText("belt off")
    page.gate.row.reason.returnPressed.emit()
    assert "By: is empty" in page.gate.trouble.text()
    assert page.gate.row.reason.text() == "belt off", "nothing typed is lost"
    page.gate.by.setText("M. Hallam")
    page.gate.row.reason.returnPressed.emit()
    with desk.store.read() as connection:
        assert [one.said_by for one in gone_on(connection, desk.machine_id)] == ["M. Hallam"]
    page.gate.choose_check(rows[0].id)
    assert page.gate.by.text() == "M. Hallam"


def lines(page: RunInPage) -> list[tuple[str, ...]]:
    listed = page.gate.list
    items = [listed.topLevelItem(at) for at in range(listed.topLevelItemCount())]
    return [tuple(item.text(column) for column in range(4)) for item in items if item is not None]


def test_one_checklist_in_the_groups_it_is_walked_through_in(page: RunInPage, desk: Desk) -> None:
    assert desk.machine_id is not None
    lubricate.add_point(desk.store, desk.machine_id, "front bearing")
    named = [group.partition(" (")[0] for group, *_ in lines(page) if group]
    assert named == [group for group in GROUPS if group in named]
    assert {"Oil", "Electrical", "Guards", "Turned by hand"} <= set(named)
    assert page.gate.heading.text() == "15 open: do not power it on"
    earthed = next(item for item in page.gate.items if item.check is not None and item.check.licensed)
    assert earthed.check is not None
    page.gate.choose_check(earthed.check.id)
    page.gate.by.setText("the electrician")
    page.gate.read.setChecked(True)
    page.gate.done.click()
    _group, _text, day, by = next(cells for cells in lines(page) if cells[1] == earthed.text)
    assert by == "the electrician"
    assert day.endswith(str(now().year)), "when it was done, as it is said; the minute is on hover"
    electrical = [item.done for item in page.gate.items if item.group == "Electrical"]
    assert electrical == sorted(electrical), "in a group what is open comes first"
    page.gate.open_only.setChecked(True)
    assert earthed.text not in [cells[1] for cells in lines(page)]


def test_going_where_it_stands(page: RunInPage, desk: Desk, qtbot: QtBot) -> None:
    assert desk.machine_id is not None
    lubricate.add_point(desk.store, desk.machine_id, "front bearing")
    at = next(at for at, cells in enumerate(lines(page)) if "front bearing" in cells[1])
    page.gate.list.setCurrentItem(page.gate.list.topLevelItem(at))
    with qtbot.waitSignal(desk.page_asked) as asked:
        page.gate.go.click()
    assert asked.args == ["lubrication"]
    lever = add_control(desk.store, desk.machine_id, "clutch lever")
    at = next(at for at, cells in enumerate(lines(page)) if "clutch lever" in cells[1])
    page.gate.list.setCurrentItem(page.gate.list.topLevelItem(at))
    with qtbot.waitSignal(desk.row_asked) as row_asked:
        page.gate._go()
    assert row_asked.args == ["controls", "control", lever]


def test_a_plan_then_a_temperature(page: RunInPage, desk: Desk, qtbot: QtBot) -> None:
    page.show_view(1)
    steps = page.steps
    steps.slowest.setText("30")
    steps.top.setText("1200")
    steps.buttons["plan"].click()
    assert [steps.table.plain.text(row)[1] for row in range(5)] == [
        "30 rpm",
        "300 rpm",
        "600 rpm",
        "900 rpm",
        "1200 rpm",
    ]
    steps.celsius.setText("61 C")
    qtbot.keyClick(steps.celsius, Qt.Key.Key_Return)
    assert "Minute" in steps.trouble.text()
    assert steps.celsius.text() == "61 C"
    steps.minute.setText("20")
    bearing = steps.bearing.currentText()  # the one it is read at; Enter goes on to the next
    qtbot.keyClick(steps.celsius, Qt.Key.Key_Return)
    assert steps.trouble.text() == ""
    assert steps.bearing.currentText() != bearing
    assert "61 °C is over 60 °C" in steps.said.text()
    assert "over 60" in steps.picture.accessibleDescription()
    first = steps.table.chosen()
    steps.table.selectRow(2)
    steps.minute.setText("5")
    desk.undo()
    assert (steps.table.chosen(), steps.minute.text()) == (first, "20"), (
        "back where it was read, as on the bench"
    )
    assert steps.bearing.currentText() == bearing
    desk.redo()
    assert steps.table.chosen() == first
    steps.buttons["stopped"].click()
    assert steps.table.plain.text(0)[3] == "stopped"


def test_a_wrong_speed_is_said(page: RunInPage, desk: Desk) -> None:
    page.show_view(1)
    said: list[str] = []
    desk.said.connect(lambda words, _how: said.append(words))
    page.steps.top.setText("fast")
    page.steps.buttons["plan"].click()
    assert "Top speed" in said[-1]
    assert page.steps.table.plain.rowCount() == 0


def test_collars_are_entered_and_say_what_to_turn(page: RunInPage, qtbot: QtBot) -> None:
    page.show_view(2)
    cuts = page.cuts
    for name, text in (("height", "165"), ("apart", "320"), ("along", "1200")):
        cuts.bed[name].setText(text)
        cuts.bed[name].setModified(True)
    cuts.keep.click()
    cuts.fields["first"].setText("40.00")
    cuts.fields["apart"].setText("150")
    qtbot.keyClick(cuts.fields["first"], Qt.Key.Key_Return)
    assert "Collar at the free end" in cuts.trouble.text()
    cuts.fields["second"].setText("40.03")
    qtbot.keyClick(cuts.fields["second"], Qt.Key.Key_Return)
    assert cuts.table.plain.text(0)[3] == "larger at the free end by 0.030 mm on diameter over 150 mm"
    assert "raise the front foot" in cuts.said.text()
    cuts.kind.setCurrentText("facing")
    assert cuts.fields["second"].isHidden()


def test_a_speed_is_gone_on_with_for_a_reason_and_shown_until_it_is_closed(
    page: RunInPage, desk: Desk, qtbot: QtBot
) -> None:
    page.show_view(1)
    steps = page.steps
    steps.slowest.setText("30")
    steps.top.setText("1200")
    steps.buttons["plan"].click()
    steps.table.selectRow(4)
    steps.buttons["begin"].click()
    assert "things stand before power" in steps.row.sentence.text()
    assert "comes after lower speeds that are not run through" in steps.row.sentence.text()
    qtbot.keyClicks(steps.row.reason, "belt off, only the motor turned")
    qtbot.keyClick(steps.row.reason, Qt.Key.Key_Return)
    assert steps.row.isHidden()
    assert desk.store.undo_label() == "going on all the same top speed: begun"
    assert steps.table.plain.text(4)[3] == "running, all the same"
    assert steps.stands.text().startswith(
        "14 open: do not power it on: HS-02 bearing cap: not made; Supply off"
    )
    assert steps.stands.text().endswith("; and 8 more in Before power.")
    assert not steps.buttons["begin"].isEnabled(), "it runs already"
    steps.table.selectRow(3)
    steps.buttons["begin"].click()
    assert steps.table.plain.text(3)[3] == "to run", "no second speed begins while one runs"
    steps.table.selectRow(4)
    steps.buttons["stopped"].click()
    steps.table.selectRow(3)
    steps.buttons["begin"].click()
    assert "14 things stand before power" in steps.row.sentence.text(), "the next speed asks again"
    led: list[tuple[str, str, int]] = []
    desk.row_asked.connect(lambda *row: led.append(row))
    leads = [one for one in steps.row.findChildren(QPushButton) if one.text().startswith("→")]
    next(one for one in leads if one.text() == "→   HS-02 bearing cap: not made").click()
    assert led[-1][:2] == ("bench", "part"), "each row it names is one click away"
    steps.row.clear()
    page.show_view(0)
    assert page.gate.heading.text() == "14 open: do not power it on"
    assert page.gate.gone_on.table.plain.text(0)[2] == "belt off, only the motor turned"
    page.gate.gone_on.note.setText("stopped again, list gone through")
    page.gate.gone_on.close_button.click()
    assert page.gate.gone_on.isHidden()
    assert page.gate.heading.text() == "14 open: do not power it on"


def test_a_shaper_has_strokes_and_its_own_bearings(page: RunInPage, desk: Desk) -> None:
    assert desk.machine_id is not None
    edit(desk.store, "machine", [desk.machine_id], {"kind": "shaper"})
    page.show_view(1)
    page.steps.refresh()
    page.steps.bearing.setEditText("")
    page.steps.refresh()
    assert page.steps.top_label.text() == "Top speed, strokes/min"
    assert page.steps.bearing.itemText(0) == "bull gear bearing"


# Seen: of 15 rows that stood before power six had a link; the override was a small list at the foot.
def test_every_row_before_power_is_a_link_and_what_was_gone_on_with_is_told_in_full_at_the_top(
    page: RunInPage, desk: Desk, qtbot: QtBot
) -> None:
    assert desk.machine_id is not None
    power = tasks.add_task(desk.store, desk.machine_id, None, "First power", TaskKind.COMMISSION)
    with desk.store.read() as connection:
        standing = before_power(connection, desk.machine_id)
    assert len(standing) > WaysOutRow.MOST_ROWS
    row = page.gate.row
    asked: list[tuple[str, int]] = []
    desk.row_asked.connect(lambda _page, table, key: asked.append((table, key)))
    assert not row.attempt(lambda reason: tasks.tick(desk.store, power, reason=reason))
    assert row.sentence.text().count(" more") == 1, "the rest is counted once, and listed beneath"
    links = [one for one in row.findChildren(QPushButton) if one.accessibleName().startswith("Go to: ")]
    for link in links:
        link.click()
    assert asked == [(one.table, one.target) for one in standing]
    assert row.height() < page.height() / 2, "the list above keeps its room"
    row.reason.setText("motor turned by hand first")
    row.take_key("A")
    pane = page.gate.gone_on
    assert pane.isVisible()
    assert pane.y() < page.gate.list.y(), "read before the list"
    told = pane.told.text()
    assert all(one.text in told for one in standing), "nothing is left to a tool tip"
    assert "It let through “First power” done, that once, and nothing else: the next act asks again" in told
    assert f"Of {len(standing)} things {len(standing)} still stand" in told
    assert pane.told.wordWrap()
    page.gate.choose_check(next(one.target for one in standing if one.sort == "check"))
    page.gate.by.setText("the electrician")
    page.gate.read.setChecked(True)
    page.gate.done.click()
    assert f"Of {len(standing)} things {len(standing) - 1} still stand" in pane.told.text()
    pane.note.setText("all seen to since")
    pane.close_button.click()
    assert not pane.isVisible()
