"""Migration 0010 on a filled file: joints, steps and cautions stay; from then on a step is opened again with why."""

from __future__ import annotations

import sqlite3
from pathlib import Path
from typing import TYPE_CHECKING

from rebuild.store import schema
from rebuild.store.store import Store
from rebuild.words.joints import Tightness
from rebuild.work.joints.acts import JointState, add_joint, set_joints
from rebuild.work.steps.acts import Done, add_caution, tick
from rebuild.work.steps.acts_again import open_again
from tests.store.as_before import as_before

if TYPE_CHECKING:
    from tests.conftest import Shop


def kept(path: Path) -> tuple[list[tuple[object, ...]], ...]:
    raw = sqlite3.connect(path)
    asked = (
        "SELECT id, name, thread, tight, torque_done FROM joint",
        "SELECT id, title, state, done_note FROM task",
        "SELECT id, task_id, topic FROM task_caution",
    )
    found = tuple(raw.execute(question).fetchall() for question in asked)
    raw.close()
    return found


def test_a_filled_file_is_brought_to_0010(shop: Shop) -> None:
    joint = add_joint(shop.store, shop.machine, shop.headstock, "cap screws", {"thread": "M8"})
    set_joints(shop.store, [joint], JointState(Tightness.FINGER))
    add_caution(shop.store, shop.strip, "lifting")
    tick(shop.store, shop.strip, Done(note="came easily"), confirmed=True)
    shop.store.close()
    came_after = as_before(shop.path, "0010")
    before = kept(shop.path)
    assert schema.revision_of(shop.path) == came_after == "0009"
    assert all(before)
    store = Store.open(shop.path)
    assert store.upgraded_from is not None
    assert kept(shop.path) == before
    open_again(store, shop.strip, "the other nut was meant")
    with store.read() as connection:
        attempt = connection.exec_driver_sql("SELECT note, reason FROM step_attempt").one()
    assert tuple(attempt) == ("came easily", "the other nut was meant")
    store.undo()
    with store.read() as connection:
        assert connection.exec_driver_sql("SELECT COUNT(*) FROM step_attempt").scalar() == 0
    store.close()
