"""Checking off reassembly steps."""

from __future__ import annotations

import datetime as dt

from PySide6.QtCore import QModelIndex, Qt
from PySide6.QtWidgets import QPushButton

from rebuild.window.log.history import HistoryPage
from rebuild.words.steps import TaskState
from rebuild.work.editing.acts import edit
from rebuild.work.steps import acts as acts
from rebuild.work.steps.rows import TaskRow, tasks
from tests.conftest import Shop
from tests.journeys.hands import ALT, Hands


def stored(user: Hands, task_id: int) -> TaskRow:
    desk = user.frame.desk
    with desk.store.read() as connection:
        return next(row for row in tasks(connection, desk.machine_id or 0) if row.id == task_id)


def trouble(user: Hands) -> str:
    """What the strip under the steps says against a tick."""
    return user.words("Why it is not ticked")


def history(user: Hands) -> list[str]:
    page = user.page("history")
    assert isinstance(page, HistoryPage)
    return [page.table.plain.text(row)[1] for row in range(page.table.plain.rowCount())]


def test_steps_are_checked_off(hands: Hands, shop: Shop) -> None:
    """The headstock goes together again, by keyboard.

    1. Space on a step opens the strip; what was measured and what it was torqued to are typed, Enter ticks it.
       The list says when, what was measured, what it was torqued to; the count goes up.
    2. A torque without a unit is refused with the sentence, and the text stays.
    3. The refit is ticked too early: refused, with the chain of what must come first. Esc leaves it open; asked again
       and answered with A and why it is ticked all the same.
    4. A step that cannot be undone (a taper pin) asks once more, though nothing is in its way; Y ticks it.
    5. Shift+Space, and why, opens the refit again.
    6. The History page names every one of these acts, newest first; Undo there takes the last one back.
    """
    user = hands
    pin = acts.add_task(
        user.frame.desk.store,
        shop.machine,
        shop.headstock,
        "Drive the no. 4 taper pin",
        typed={"kind": "refit", "irreversible": "yes"},
    )
    user.stand_on_step("Take the spindle out")
    user.press(Qt.Key.Key_Space)
    assert user.focus().accessibleName() == "Measured"
    user.type("0.02")
    user.tab_to("Torqued to")
    user.type("25")
    user.enter()
    assert "has no unit" in trouble(user)
    assert stored(user, shop.strip).state is TaskState.OPEN
    user.tab_to("Torqued to")
    user.replace("25 N·m")
    user.enter()
    row = stored(user, shop.strip)
    assert (row.state, row.done_measured, row.done_torque) == (TaskState.DONE, "0.02", "25 N·m")
    assert row.done_at is not None
    assert dt.datetime.now() - row.done_at < dt.timedelta(minutes=1)
    assert user.words("How far it is") == "1 of 5 steps done"
    line = user.steps.model.line(0)
    assert line is not None
    assert "measured 0.02" in line.about
    assert "torqued 25 N·m" in line.about

    user.stand_on_step("Refit the spindle")
    user.press(Qt.Key.Key_Space)
    user.enter()
    assert "Make a new cap → Refit the spindle" in trouble(user)
    assert stored(user, shop.refit).state is TaskState.OPEN
    user.press(Qt.Key.Key_Escape)
    assert not user.steps.panel.isVisible()
    user.press(Qt.Key.Key_Space)
    user.enter()
    user.alt(Qt.Key.Key_A)
    user.type("the old cap does for a trial")
    user.enter()
    assert stored(user, shop.refit).state is TaskState.DONE

    user.stand_on_step("Drive the no. 4 taper pin")
    user.press(Qt.Key.Key_Space)
    user.enter()
    assert "cannot be undone" in trouble(user)
    assert "photo" in trouble(user)
    assert stored(user, pin).state is TaskState.OPEN
    user.alt(Qt.Key.Key_Y)
    assert stored(user, pin).state is TaskState.DONE

    user.stand_on_step("Refit the spindle")
    user.press(Qt.Key.Key_Space, Qt.KeyboardModifier.ShiftModifier)
    user.type("a washer was left over")
    user.enter()
    assert stored(user, shop.refit).state is TaskState.OPEN

    told = history(user)
    assert [words for words in told if "Refit the spindle" in words][:2]
    assert any("taper pin" in words for words in told)
    user.click(
        next(
            one
            for one in user.frame.page("history").findChildren(QPushButton)
            if one.text().startswith("Undo")
        )
    )
    assert stored(user, shop.refit).state is TaskState.DONE
    assert history(user)[0].startswith("undo")


def test_steps_are_put_in_order(hands: Hands, shop: Shop) -> None:
    """Alt+Up puts a step earlier and the keyboard stays on it; one that another waits for may not go below it;
    dropping a dragged one does the same; Ctrl+Z goes back through all of it."""
    user = hands
    store = user.frame.desk.store
    for words in ("Blow the oil ways out", "Cut new felts"):
        acts.add_task(store, shop.machine, shop.headstock, words)
    before = user.step_titles()
    user.stand_on_step("Cut new felts")
    user.press(Qt.Key.Key_Up, ALT)
    moved = user.step_titles()
    assert moved == [*before[:-2], before[-1], before[-2]]
    assert "Cut new felts" in str(user.steps.view.currentIndex().data())

    user.stand_on_step("Take the spindle out")
    user.press(Qt.Key.Key_Down, ALT)
    assert user.step_titles() == moved
    assert "Take the spindle out → Measure the journals" in user.said

    drop(user, "Blow the oil ways out", above=0)
    assert user.step_titles()[0] == "Blow the oil ways out"
    user.steps.view.setFocus()
    user.ctrl(Qt.Key.Key_Z)
    user.ctrl(Qt.Key.Key_Z)
    assert user.step_titles() == before


def drop(user: Hands, words: str, above: int) -> None:
    """Let a dragged step go above another. Offscreen there is no drag to follow: the drop goes to the list's model."""
    model = user.steps.model
    row = next(at for at, title in enumerate(user.step_titles()) if words in title)
    dragged = model.mimeData([model.index(row)])
    model.dropMimeData(dragged, Qt.DropAction.MoveAction, above, 0, QModelIndex())


def test_the_mouse_ticks_a_step(hands: Hands, shop: Shop) -> None:
    """A double click opens the strip, the button ticks it; a caution stands above the fields before it is ticked."""
    user = hands
    edit(user.frame.desk.store, "task", [shop.strip], {"note": "two hands"})
    acts.add_caution(user.frame.desk.store, shop.strip, "slings")
    view = user.steps.view
    user.click_item(view, view.model().index(0, 0))
    user.double_click(view, view.model().index(0, 0))
    assert user.steps.panel.isVisible()
    assert "Defers to" in user.words("What the step asks for")
    user.click(user.button("Tick off"))
    assert stored(user, shop.strip).state is TaskState.DONE
