"""A whole job through the window: an apron and headstock down in 40 removals, back up, and down again.

The log is said line by line, the draft is made and edited, a constraint is enforced both ways, the refit is ticked
with its joints, the second teardown finds the missed link, and half a year later one page says where it stands.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from rebuild.store.store import Store
from rebuild.window.desk.desk import Desk
from rebuild.window.forms.add_dialog import AddDialog
from rebuild.window.joints.page import JointsPage
from rebuild.window.teardown.page import TeardownPage
from rebuild.window.where_was_i.page import WherePage
from rebuild.words.decisions import Decision
from rebuild.words.joints import Tightness
from rebuild.words.places import PlaceKind
from rebuild.words.steps import LinkAnswer, LinkKind, TaskKind, TaskState
from rebuild.work.decisions.acts import decide
from rebuild.work.joints import rows as joint_rows
from rebuild.work.machines import acts as identify
from rebuild.work.records.ways_out import KEYS, WayKind
from rebuild.work.steps import acts as tasks
from rebuild.work.steps.rows import TaskRow, links, tasks as task_rows
from rebuild.work.teardown import rows_removals as removals
from tests.support import read_contents
from tests.window.conftest import close_all_windows

ENTER, SPACE = Qt.Key.Key_Return, Qt.Key.Key_Space
PARTS = 40
#: Every fifth part is held by screws, every seventh sits on shims, one is a driven pin.
PIN, SCREWED, SHIMMED = 13, 5, 7


@pytest.fixture
def desk(qapp: QApplication, project: Path) -> Iterator[Desk]:
    store = Store.open(project)
    machine = identify.add_machine(store, "Bench lathe", {"unit": "in", "kind": "lathe"})
    apron = identify.add_subassembly(store, machine, "Apron", "AP")
    for number in range(1, PARTS + 1):
        part = identify.add_part(store, machine, apron, f"part {number}", f"AP-{number:02}")
        decide(store, [part], Decision.REUSE, reason="sound")  # undecided, it would not go on again
    identify.add_place(store, "4 grey", PlaceKind.TOTE)
    store.close()
    made = Desk()
    made.open(project)
    made.choose(subassembly_id=apron)
    yield made
    close_all_windows()
    made.close()
    made.deleteLater()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


class Bench:
    """The Teardown page driven as by a user."""

    def __init__(self, qtbot: QtBot, desk: Desk) -> None:
        self.qtbot, self.desk = qtbot, desk
        self.page = TeardownPage(desk)
        self.page.resize(1280, 760)
        with qtbot.waitExposed(self.page):
            self.page.show()
        self.keys = 0

    def say(self, line: str) -> None:
        self.qtbot.keyClicks(self.page.off.line, line)
        self.qtbot.keyClick(self.page.off.line, ENTER)
        self.keys += len(line) + 1

    def log(self) -> list[removals.RemovalRow]:
        assert self.page.attempt is not None
        with self.desk.store.read() as connection:
            return removals.removals(connection, self.page.attempt.id)

    def steps(self) -> dict[str, TaskRow]:
        with self.desk.store.read() as connection:
            rows = task_rows(connection, self.desk.machine_id or 0)
        return {row.title: row for row in rows if row.state in (TaskState.OPEN, TaskState.UNDER_WAY)}

    def tick(self, title: str) -> bool:
        """Tick a step in the list by Space and Enter; False when the panel refused."""
        steps = self.page.back.steps
        steps.view.setCurrentIndex(steps.model.index(steps.model.row_of(self.steps()[title].id)))
        steps.ask_tick()
        self.qtbot.keyClick(steps.panel._fields["measured"], ENTER)
        return steps.panel.isHidden()


def ordinary(number: int) -> bool:
    return number % SCREWED != 0 and number % SHIMMED != 0 and number != PIN


def line_for(number: int) -> str:
    if number == PIN:
        return "d front, taper pin no. 2 x 1 big end rear, mark dot at the big end"
    if number % SCREWED == 0:
        return "u 4 x 1/4-20 x 5/8 socket, snug, > tote 4"
    if number % SHIMMED == 0:
        return "l, shims rear 0.009 + 2 x 0.003"
    return "l"


@pytest.mark.slow
def test_down_and_back_up_and_down_again(qtbot: QtBot, desk: Desk) -> None:
    bench = Bench(qtbot, desk)
    take_down(bench)
    draft_and_edit(bench)
    oil = enforce(bench)
    put_back(bench, oil)
    take_down_again(bench)
    come_back(qtbot, desk)


def take_down(bench: Bench) -> None:
    for number in range(1, PARTS + 1):
        before = bench.keys
        bench.say(line_for(number))
        assert bench.keys - before <= 3 or not ordinary(number), "three keystrokes for an ordinary step"
    rows = bench.log()
    assert [row.called for row in rows] == [f"AP-{number:02} part {number}" for number in range(1, PARTS + 1)]
    assert rows[PIN - 1].fasteners[0].words == "No. 2 × 1 in taper pin, big end rear"
    assert rows[PIN - 1].way == "driven out from the front"
    assert "0.0150 in (0.381 mm)" in rows[SHIMMED - 1].shims[0].words
    bench.say("ap7 l")
    assert [way.kind for way in bench.page.off.ways.ways] == [WayKind.ALIKE, WayKind.NEW_ATTEMPT]
    bench.qtbot.keyClick(bench.page.off.ways, Qt.Key.Key_Escape)
    bench.page.off.line.clear()
    assert len(bench.log()) == PARTS


def draft_and_edit(bench: Bench) -> None:
    page = bench.page
    page.views.show_view(1)
    page.back.draft_button.click()
    titles = [
        line.title
        for at in range(page.back.steps.model.rowCount())
        if (line := page.back.steps.model.line(at))
    ]
    assert len(titles) == PARTS
    assert titles[0] == "Refit AP-40 part 40"
    assert titles[-1] == "Refit AP-01 part 1"
    pin = bench.steps()["Drive in AP-13 part 13 from the other end"]
    assert pin.irreversible
    tasks_before = read_contents(bench.desk.store.path)["task"]
    bench.desk.undo()
    bench.desk.redo()
    assert read_contents(bench.desk.store.path)["task"] == tasks_before
    edited = bench.steps()["Refit AP-39 part 39"]
    bench.desk.choose(task_ids=(edited.id,))
    from rebuild.work.editing.acts import edit

    edit(bench.desk.store, "task", [edited.id], {"title": "Part 39 in, oil hole up"})
    page.back.draft_button.click()
    assert "Part 39 in, oil hole up" in bench.steps()
    assert len(bench.steps()) == PARTS


def enforce(bench: Bench) -> int:
    """A step that needs part 38 off; its refit is refused, moving it is refused, and both say the chain."""
    desk = bench.desk
    machine, group = desk.machine_id or 0, desk.selection.subassembly_id
    oil = tasks.add_task(desk.store, machine, group, "Connect the oil lines", TaskKind.LUBRICATE)
    refit_38 = bench.steps()["Refit AP-38 part 38"].id
    tasks.add_link(desk.store, oil, refit_38, LinkKind.WHILE_OFF)
    assert bench.tick("Refit AP-40 part 40")
    assert bench.tick("Part 39 in, oil hole up")
    assert not bench.tick("Refit AP-38 part 38")
    panel = bench.page.back.steps.panel
    assert "can only be done while this is still off" in panel._trouble.text()
    assert "Connect the oil lines → Refit AP-38 part 38" in panel._trouble.text()
    bench.qtbot.keyClick(panel, Qt.Key.Key_Escape)
    said: list[str] = []
    desk.said.connect(lambda sentence, _how: said.append(sentence))
    steps = bench.page.back.steps
    steps.view.clearSelection()
    steps.view.setCurrentIndex(steps.model.index(steps.model.row_of(bench.steps()["Refit AP-37 part 37"].id)))
    steps.view.setFocus()
    bench.qtbot.keyClick(steps.view, Qt.Key.Key_Up, Qt.KeyboardModifier.AltModifier)
    assert "Refit AP-38 part 38 → Refit AP-37 part 37" in said[-1]
    assert bench.tick("Connect the oil lines")
    assert bench.tick("Refit AP-38 part 38")
    return oil


def put_back(bench: Bench, oil: int) -> None:
    """Everything goes back; part 30 before part 31, against the log, for nobody knew better."""
    desk = bench.desk
    with desk.store.read() as connection:
        every = links(connection, desk.machine_id or 0)
    ids = {title.split()[1]: row.id for title, row in bench.steps().items() if title.startswith("Refit")}
    from rebuild.work.editing.acts import remove

    wrong = [
        key
        for key, before, after in every
        if (before, after)
        in (
            (ids["AP-31"], ids["AP-30"]),
            (ids["AP-32"], ids["AP-31"]),
            (ids["AP-30"], ids["AP-29"]),
        )
    ]
    remove(desk.store, "link", wrong)
    order = [*range(37, 31, -1), 30, 31, *range(29, 0, -1)]
    for number in order:
        title = next(title for title in bench.steps() if f"AP-{number:02} " in title)
        if not bench.tick(title):
            assert number == PIN
            panel = bench.page.back.steps.panel
            assert "cannot be undone on the machine" in panel._trouble.text()
            for way in (WayKind.READ, WayKind.CONFIRM):
                if way in [one.kind for one in panel.ways.ways]:
                    bench.qtbot.keyClick(panel, KEYS[way])
    assert bench.steps() == {}
    with desk.store.read() as connection:
        left = joint_rows.not_final(connection, desk.machine_id or 0)
    assert {row.tight for row in left} == {Tightness.FINGER}, "nobody said they were tight"
    walk_round(bench, len(left))


def walk_round(bench: Bench, count: int) -> None:
    page = JointsPage(bench.desk)
    page.resize(1280, 760)
    with bench.qtbot.waitExposed(page):
        page.show()
    assert page.table.plain.rowCount() == count
    page.table.selectAll()
    bench.qtbot.keyClick(page.table, Qt.Key.Key_P)
    assert "Every joint is tight" in page.sentence.text()
    page.close()


def take_down_again(bench: Bench) -> None:
    page = bench.page
    page.begin_next()
    dialog = page.findChildren(AddDialog)[-1]
    dialog.form.boxes["stopped_by"].editor.put("feed rod binds")
    dialog.add(again=False)
    for number in range(1, PARTS + 1):
        bench.say(line_for(number))
    assert page.attempt is not None
    assert page.attempt.number == 2
    page.views.show_view(2)
    assert "feed rod binds" in page.second.heading.text()
    assert [
        page.second.proposals.plain.text(row)[:2] for row in range(page.second.proposals.plain.rowCount())
    ] == [
        ("AP-31 part 31", "AP-30 part 30"),
    ]
    page.second.accept_button.click()
    assert page.second.proposals.plain.text(0)[3] == LinkAnswer.ACCEPTED.value
    with bench.desk.store.read() as connection:
        pairs = {(before, after) for _, before, after in links(connection, bench.desk.machine_id or 0)}
        first = removals.attempts(connection, bench.desk.machine_id or 0)[-1]
    steps = bench.steps()
    assert (steps["Refit AP-31 part 31"].id, steps["Refit AP-30 part 30"].id) in pairs
    assert (first.number, first.removals, first.refitted) == (1, PARTS, PARTS), "attempt 1 is kept"


def come_back(qtbot: QtBot, desk: Desk) -> None:
    later = dt.datetime.now().replace(microsecond=0) + dt.timedelta(days=180)
    page = WherePage(desk, now=lambda: later)
    page.resize(1280, 760)
    with qtbot.waitExposed(page):
        page.show()
    found = page.found
    assert found is not None
    assert [action.title for action in found.next_actions] == ["Refit AP-40 part 40"]
    assert "joints still apart" in page.sections["Not final"].body.text()
