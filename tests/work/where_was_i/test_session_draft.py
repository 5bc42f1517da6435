"""A session's text is drafted from the day's acts of this machine: what is taken back or another's is not told."""

from __future__ import annotations

import datetime as dt

from rebuild.words.decisions import Decision
from rebuild.words.joints import Tightness
from rebuild.words.steps import TaskKind
from rebuild.words.treatments import Treatment
from rebuild.words.waiting import WaitingKind
from rebuild.work.decisions.acts import decide
from rebuild.work.editing.acts import edit
from rebuild.work.joints import acts as joints
from rebuild.work.machines.acts import add_machine, add_part
from rebuild.work.readings import acts as measure
from rebuild.work.records.wall_clock import now
from rebuild.work.steps import acts as steps
from rebuild.work.teardown.acts_line import say_removal
from rebuild.work.treatments import acts as treat
from rebuild.work.waiting import acts as waiting
from rebuild.work.where_was_i.acts import end_session
from rebuild.work.where_was_i.rows_session import SessionDraft, session_draft
from tests.conftest import Shop


def draft(shop: Shop, at: dt.datetime) -> SessionDraft:
    with shop.store.read() as connection:
        return session_draft(connection, shop.machine, at)


def test_the_evening_is_told_from_its_acts(shop: Shop) -> None:
    end_session(shop.store, shop.machine, did="set up", at=now())
    late = now() + dt.timedelta(seconds=5)
    assert draft(shop, late).did == ""
    steps.tick(shop.store, shop.strip)
    decide(shop.store, [shop.cap], Decision.REMAKE, reason="cracked")
    measure.record_reading(shop.store, "59.98", measure.Entry(shop.journal, shop.near))
    measure.record_reading(shop.store, "59.97", measure.Entry(shop.journal, shop.far))
    decide(shop.store, [shop.spindle], Decision.BUY, reason="bent")
    shop.store.undo()
    other = add_machine(shop.store, "Shaper", {"kind": "shaper"})
    away = steps.add_task(shop.store, other, None, "Sweep the shaper", TaskKind.CLEAN)
    steps.tick(shop.store, away)
    bracket = add_part(shop.store, shop.machine, shop.headstock, "bracket")
    edit(shop.store, "part", [bracket], {"condition": "greasy", "material": "steel"})
    treat.begin(shop.store, shop.machine, Treatment.DEGREASE, [bracket])
    found = draft(shop, now() + dt.timedelta(seconds=5))
    with shop.store.read() as connection:
        title = connection.exec_driver_sql("SELECT title FROM task WHERE id = ?", (shop.strip,)).scalar()
    assert f"done: “{title}”" in found.did
    assert "decided: " in found.did
    assert "BUY" not in found.did
    assert "bought" not in found.did
    assert "2 readings" in found.did
    assert "put in or coated together: degrease: 1 part" in found.did
    assert "shaper" not in found.did.lower()
    assert "also: " in found.did
    assert "new part (1)" in found.did
    assert "other act" not in found.did
    assert found.left.startswith("under way: Degrease bracket; in the bath: bracket")
    assert found.next_step
    end_session(shop.store, shop.machine, did=found.did, at=now())
    assert draft(shop, now() + dt.timedelta(seconds=5)).did == ""
    assert draft(shop, now() + dt.timedelta(days=2)).did == "", "of another day nothing is told"


def test_how_it_is_left_names_what_lies_where_and_what_would_let_go(shop: Shop) -> None:
    """Seen: Left stayed empty although a guard lay in a tray and a bolt was finger tight; a part sent out "ordered"."""
    guard = add_part(shop.store, shop.machine, shop.headstock, "belt guard")
    say_removal(shop.store, shop.machine, shop.headstock, "belt guard u > tray 1", make=True)
    joints.add_joint(
        shop.store, shop.machine, shop.headstock, "guard bolt left", {"part_id": str(guard), "tight": "apart"}
    )
    loose = joints.add_joint(shop.store, shop.machine, shop.headstock, "cap screw", {})
    joints.set_joints(shop.store, [loose], joints.JointState(Tightness.FINGER))
    sent = waiting.add_waiting(
        shop.store, shop.machine, "spindle", WaitingKind.SENT_OUT, part_id=shop.spindle
    )
    waiting.mark(shop.store, sent, waiting.Mark.ORDERED)
    found = draft(shop, now() + dt.timedelta(seconds=5))
    assert "in tray 1: belt guard" in found.left.replace("HS-03 ", "")
    assert "apart: guard bolt left" in found.left
    assert "finger tight: cap screw" in found.left
    assert "sent out: spindle" in found.did
    assert "ordered" not in found.did
