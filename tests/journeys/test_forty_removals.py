"""An apron comes apart, goes together again from its own log, and comes apart once more."""

from __future__ import annotations

from itertools import pairwise

import pytest
from PySide6.QtCore import Qt

from rebuild.window.teardown.page import TeardownPage
from rebuild.words.decisions import Decision
from rebuild.words.steps import TaskState
from rebuild.work.decisions.acts import decide
from rebuild.work.machines import acts as identify
from rebuild.work.steps.rows import links, tasks
from rebuild.work.teardown import rows_removals as removals
from rebuild.work.teardown.rows_removals import RemovalRow
from tests.conftest import Shop
from tests.journeys.hands import ALT, Hands

PARTS = 40
#: What is said of some removals; the others are one letter.
SAID = {
    1: "u, 4 x 3/8-16 x 1-3/4 socket, finger",
    4: "d from small end, mark two dots",
    9: "l, shims left 0.009 + 0.003",
    17: "u, found second screw under the first",
    23: "p, hard 3 t",
}


@pytest.fixture
def apron(hands: Hands, shop: Shop) -> int:
    """A subassembly of forty parts that are on the machine."""
    store = hands.frame.desk.store
    group = identify.add_subassembly(store, shop.machine, "Apron", "AP")
    for number in range(1, PARTS + 1):
        part = identify.add_part(store, shop.machine, group, f"piece {number}", f"AP-{number:02d}")
        decide(store, [part], Decision.REUSE, reason="sound")  # undecided, it would not go on again
    hands.frame.desk.choose(subassembly_id=group, part_ids=(), key=None)
    return group


def rows(user: Hands, shop: Shop, group: int) -> list[RemovalRow]:
    with user.frame.desk.store.read() as connection:
        attempt = removals.current_attempt(connection, shop.machine, group)
        return removals.removals(connection, attempt.id) if attempt else []


def log_forty(user: Hands, page: TeardownPage, order: list[int] | None = None) -> None:
    """Say one removal after another into the line: by letters and Enter; named where the order differs."""
    page.off.line.setFocus()
    for place in range(1, PARTS + 1):
        number = order[place - 1] if order else place
        how = SAID.get(number, "l")
        user.type(f"ap{number} {how}" if order else how)
        user.enter()
        assert page.off.line.text() == "", page.off.ways.sentence.text()


def test_forty_removals_a_refit_and_a_second_teardown(hands: Hands, shop: Shop, apron: int) -> None:
    """The apron: forty parts.

    1. Teardown page, the keyboard in the line: *l* and Enter logs the next part as lifted, forty times; a few with
       fasteners, shims, marks, what was hard. The log shows all forty, first off first.
    2. Putting back > Draft from the log: forty steps, the log read backwards, each linked to the one before.
    3. The draft is edited: Alt+Up on the second step is refused with the chain, for it waits for the first; a step
       of the user's own is typed in.
    4. A step in the middle is ticked too early and refused with the chain; then all forty are ticked from the first
       on, Space and Enter each. The log says every part is on again.
    5. Taken down again: what stopped it is asked. Forty removals again, the last two the other way round.
    6. Second teardown: the comparison says what stopped attempt 1 and proposes the link that was never written
       down; Enter accepts it. Undo takes that back.
    """
    user = hands
    page = user.page("teardown")
    assert isinstance(page, TeardownPage)
    assert page.off.next_off.text() == "Next off: AP-01 piece 1"
    log_forty(user, page)
    logged = rows(user, shop, apron)
    assert [row.called for row in logged] == [f"AP-{n:02d} piece {n}" for n in range(1, PARTS + 1)]
    assert page.log.plain.rowCount() == PARTS
    assert page.counts.text() == "40 off, 0 on again"
    assert logged[0].fasteners
    assert logged[8].shims

    page.views.show_view(1)
    user.click(page.back.draft_button)
    assert "40 steps of 40 things off" in page.back.said.text()
    with user.frame.desk.store.read() as connection:
        drafted = [row for row in tasks(connection, shop.machine) if row.subassembly_id == apron]
        before = {(one, other) for _, one, other in links(connection, shop.machine)}
    assert [row.part_code for row in drafted] == [f"AP-{n:02d}" for n in range(PARTS, 0, -1)]
    assert all((one.id, other.id) in before for one, other in pairwise(drafted))

    steps = page.back.steps
    steps.view.setFocus()
    user.press(Qt.Key.Key_Home)
    user.press(Qt.Key.Key_Down)
    user.press(Qt.Key.Key_Up, ALT)
    assert f"{drafted[0].title} → {drafted[1].title}" in user.said
    user.press(Qt.Key.Key_Escape)
    user.press(Qt.Key.Key_Insert)
    user.type("Oil the worm before the cover goes on")
    user.enter()
    assert steps.model.rowCount() == PARTS + 1

    steps.view.setFocus()
    steps.view.setCurrentIndex(steps.model.index(20))
    user.press(Qt.Key.Key_Space)
    user.enter()
    assert f"{drafted[19].title} → {drafted[20].title}" in user.words("Why it is not ticked")
    user.press(Qt.Key.Key_Escape)
    steps.view.setCurrentIndex(steps.model.index(0))
    for row in drafted:
        here = steps.model.line(steps.view.currentIndex().row())
        assert here is not None
        assert here.id == row.id
        user.press(Qt.Key.Key_Space)
        user.enter()
        for key in (Qt.Key.Key_R, Qt.Key.Key_Y):  # one that cannot be undone: cautions read, looked once more
            if steps.panel.isVisible():
                user.alt(key)
    with user.frame.desk.store.read() as connection:
        states = {row.id: row.state for row in tasks(connection, shop.machine)}
    assert {states[row.id] for row in drafted} == {TaskState.DONE}
    assert page.counts.text() == "40 off, 40 on again"

    user.click(page.next_attempt)
    user.dialog("Taken down again")
    user.tab_to("What stopped it")
    user.type("half nuts do not close")
    user.tab_to("Add")
    user.press(Qt.Key.Key_Space)
    assert page.attempt is not None
    assert page.attempt.number == 2
    order = [*range(1, PARTS - 1), PARTS, PARTS - 1]
    log_forty(user, page, order)
    page.views.show_view(2)
    assert "half nuts do not close" in page.second.heading.text()
    proposed = page.second.proposals.plain
    assert proposed.text(0)[:2] == (f"AP-{PARTS - 1} piece {PARTS - 1}", f"AP-{PARTS} piece {PARTS}")
    page.second.proposals.setFocus()
    user.enter()
    assert proposed.text(0)[3] == "accepted"
    user.menu("Edit", "Undo")
    assert proposed.text(0)[3] == "asked"
