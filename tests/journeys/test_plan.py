"""Which part to remake next, and why."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QTreeWidget

from rebuild.window.plan.listed import Sort
from rebuild.window.plan.page import PlanPage
from rebuild.words.decisions import Decision
from rebuild.work.machines import rows_tree as tree
from tests.conftest import Shop
from tests.journeys.hands import Hands


def lines(widget: QTreeWidget) -> list[list[str]]:
    items = [widget.topLevelItem(at) for at in range(widget.topLevelItemCount())]
    return [
        [item.text(column) for column in range(widget.columnCount())] for item in items if item is not None
    ]


def decide(user: Hands, words: str, reason: str) -> None:
    user.ctrl(Qt.Key.Key_D)
    user.dialog("Decide")
    user.tab_to("Decision")
    user.type(words)
    user.tab_to("Reason")
    user.type(reason)
    user.tab_to("Decide")
    user.press(Qt.Key.Key_Space)


def test_what_to_remake_next(hands: Hands, shop: Shop) -> None:
    """Two parts want work; the plan says which first, and says why.

    1. The spindle is chosen in the tree; Ctrl+D decides *rework* with the reason; without a reason it is refused
       and the choice stays. The tree shows the word and its shape.
    2. Ctrl+T adds the step of reworking it, one that the refit must wait for (Ctrl+L on the refit).
    3. Ctrl+5 turns to the plan, the list filtered to parts: the cap, decided *remake*, and the spindle stand in order;
       each line says what it unblocks at once, how much work it is, and what holds it.
    4. The reason of the one chosen stands beside the list; arrow down shows those of the next.
    5. Back on the bench two steps are ticked off. The plan now says the cap can start. The open question that holds
       the refit is answered on the Questions page: the cap frees the refit at once.
    6. Enter on the line goes to the part on the bench, its subassembly with it.
    """
    user = hands
    user.bench.tree.find_part()
    user.type("spindle")
    user.enter()
    user.ctrl(Qt.Key.Key_D)
    user.dialog("Decide")
    user.tab_to("Decision")
    user.type("rework")
    user.tab_to("Decide")
    user.press(Qt.Key.Key_Space)
    user.dialog("Decide")  # it stays: the reason is wanted
    user.press(Qt.Key.Key_Escape)
    decide(user, "rework", "front journal scored")
    with user.frame.desk.store.read() as connection:
        decided = {part.code: part.decision for part in tree.parts(connection, shop.machine)}
    assert decided == {"HS-01": Decision.REWORK, "HS-02": Decision.REMAKE}
    assert any("HS-01" in line and "rework" in line for line in user.tree_lines())

    user.menu("Part", "New step for it")
    user.dialog("New step")
    user.type("Polish the front journal")
    user.tab_to("Kind")
    user.type("rework")
    user.tab_to("Likely")
    user.type("2 h")
    user.enter()
    user.stand_on_step("Refit the spindle")
    user.ctrl(Qt.Key.Key_L)
    links = user.dialog("Waits for")
    user.type("Polish")
    user.enter()  # onto the first step found
    user.press(Qt.Key.Key_Space)
    user.press(Qt.Key.Key_Escape)
    assert not links.isVisible()

    user.press(Qt.Key.Key_5, Qt.KeyboardModifier.ControlModifier)
    plan = user.frame.page("plan")
    assert isinstance(plan, PlanPage)
    which = plan.what_next.which
    which.setCurrentIndex(which.findData(Sort.PARTS))
    found = lines(plan.what_next.list)
    assert [row[1] for row in found] == ["HS-01 spindle", "HS-02 bearing cap"]
    assert (found[0][2], found[0][5]) == ("2 h", "")
    assert (found[1][2], found[1][5]) == ("1.5 h", "Measure the journals")
    why = plan.what_next.why
    assert why.isVisible()
    assert why.title.text() == "Why HS-01 spindle next"
    assert "held up in all" in why.page.toPlainText()
    plan.candidates.setFocus()
    user.press(Qt.Key.Key_Down)
    assert why.title.text() == "Why HS-02 bearing cap next"

    user.page("bench")
    for words in ("Take the spindle out", "Measure the journals"):
        user.stand_on_step(words)
        user.press(Qt.Key.Key_Space)
        user.enter()
    user.page("plan")
    cap = next(row for row in lines(plan.what_next.list) if row[1].startswith("HS-02"))
    assert cap[5] == ""
    assert cap[3] == "0", "the refit waits for the spindle and for an answer too"

    user.page("questions")
    answer = user.frame.page("questions")
    user.tab_to("Answer")
    user.type("ISO VG 22, by the plate")
    user.tab_to("It is known")
    user.press(Qt.Key.Key_Space)
    assert answer.isVisible()
    user.page("bench")
    user.stand_on_step("Polish the front journal")
    user.press(Qt.Key.Key_Space)
    user.enter()
    user.page("plan")
    assert [(row[1], row[3]) for row in lines(plan.what_next.list)] == [("HS-02 bearing cap", "1")]
    assert "unblocks 1 step at once" in plan.what_next.sentence.text()

    user.frame.desk.choose(subassembly_id=shop.carriage, part_ids=(), key=None)
    plan.candidates.setFocus()
    user.enter()
    assert user.frame.page_shown == "bench"
    chosen = user.frame.desk.selection
    assert (chosen.part_ids, chosen.subassembly_id) == ((shop.cap,), shop.headstock)
    assert "Make a new cap [HS-02]" in " ".join(user.step_titles()) or "Make a new cap" in user.step_titles()
