"""From an empty file to “make this next”, the acts counted in the journal."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt

from rebuild.window.plan.listed import Sort
from rebuild.window.plan.page import PlanPage
from rebuild.window.where_was_i.page import WherePage
from tests.journeys.conftest import Start
from tests.journeys.test_plan import decide, lines
from tests.support import acts_in

#: The promise: fewer acts than this from an empty file.
MOST_ACTS = 15


def test_from_an_empty_file_to_make_this_next(start: Start, tmp_path: Path) -> None:
    """Three parts typed and decided; nothing else is asked before the plan knows what to make.

    1. A new file, a lathe, three parts: a screw, a nut, a wick felt.
    2. The screw is decided *remake*, the nut *rework*, the felt *buy*, each with its reason.
    3. Ctrl+5: what to make next stands in order, each line with what can be begun of it and why.
    4. Enter on the first line draws up the screw's making sheet; the plan then goes on from it.
    5. Where was I says the same first thing.
    """
    user = start()
    path = tmp_path / "lathe.rebuild"
    user.name_a_file(path, user.enter)
    user.dialog("New machine")
    user.type("Bench lathe")
    user.enter()
    user.bot.waitUntil(lambda: user.frame.desk.machine_id is not None)
    before = acts_in(path)
    assert before <= 2, "the machine, and its list of checks within it"
    user.ctrl(Qt.Key.Key_N)
    user.dialog("New part")
    for name in ("cross feed screw", "cross feed nut"):
        user.tab_to("Name") if user.focus().accessibleName() != "Name" else None
        user.type(name)
        user.ctrl(Qt.Key.Key_Return)
    user.tab_to("Name") if user.focus().accessibleName() != "Name" else None
    user.type("wick felt")
    user.enter()
    for name, what, why in (
        ("screw", "remake", "thread worn 0.3"),
        ("nut", "rework", "half worn, re-bored for a bush"),
        ("felt", "buy", "eaten"),
    ):
        user.bench.tree.find_part()
        user.type(name)
        user.enter()
        decide(user, what, why)

    user.press(Qt.Key.Key_5, Qt.KeyboardModifier.ControlModifier)
    plan = user.frame.page("plan")
    assert isinstance(plan, PlanPage)
    acts = acts_in(path)
    print(f"\nfrom an empty file to “make this next”: {acts} acts")
    assert acts < MOST_ACTS
    now = [row[0] for row in lines(plan.what_next.list)]
    assert "Draw up the making sheet of cross feed screw" in now
    assert any(row.startswith("Rework cross feed nut") for row in now)
    which = plan.what_next.which
    which.setCurrentIndex(which.findData(Sort.PARTS))
    made = lines(plan.what_next.list)
    assert {row[1] for row in made} == {"cross feed screw", "cross feed nut", "wick felt"}
    assert all(row[5] == "" for row in made), "nothing holds any of them"
    assert plan.what_next.sentence.text().count("Begin with “") == 1
    first = made[0][1]

    where = user.page("where")
    assert isinstance(where, WherePage)
    said = where.sections["Next three actions"].body.accessibleName()
    assert first in said.split(";")[0], "the same first thing"
    which.setCurrentIndex(which.findData(None))
    user.page("plan")
    plan.candidates.setFocus()
    user.press(Qt.Key.Key_Home)
    while "making sheet" not in plan.what_next.title.text():
        user.press(Qt.Key.Key_Down)
    user.enter()
    assert user.frame.page_shown == "making"
    assert acts_in(path) == acts + 1 < MOST_ACTS
    user.page("plan")
    after = [row[0] for row in lines(plan.what_next.list)]
    assert any(
        "Complete the making sheet of cross feed screw" in row or "making sheet" in row for row in after
    )
    user.frame.close()
