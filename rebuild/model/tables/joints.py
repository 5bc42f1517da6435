"""Every joint's state: how tight, how dressed, and what is wanted."""

from __future__ import annotations

import datetime as dt

from rebuild.model.asked import Journaled
from rebuild.model.cells import (
    Cell,
    as_count,
    as_moment,
    as_text,
    as_yes,
    goes_with,
    maybe,
    one_of,
    points_at,
)
from rebuild.words.joints import Dressing, JointDuty, Tightness


class Joints(Journaled, name="joint"):
    """One joint, or a group of fasteners tightened as one: how tight, how dressed, and what is wanted.

    ``tour`` is the user's own place of it on the walk round the machine. ``look_again`` asks for a look after
    the run-in. ``duty`` is what it is there for, ``how_set`` how an adjusting screw was set, ``torque_reason`` why a
    torque outside its band was left.
    """

    indexes = (("ix_joint_machine_subassembly", "machine_id", "subassembly_id"),)

    machine_id: Cell[int] = goes_with("machine")
    subassembly_id: Cell[int | None] = maybe(goes_with("subassembly", index=True))
    part_id: Cell[int | None] = points_at("part", index=True)
    task_id: Cell[int | None] = points_at("task", index=True)
    name: Cell[str] = as_text()
    location: Cell[str] = as_text("")
    tour: Cell[int | None] = maybe(as_count())
    thread: Cell[str] = as_text("")
    count: Cell[int] = as_count(1)
    grade: Cell[str] = as_text("")
    tight: Cell[Tightness] = one_of(Tightness, Tightness.LOOSE)
    wanted: Cell[Tightness] = one_of(Tightness, Tightness.SNUG)
    dress: Cell[Dressing | None] = maybe(one_of(Dressing))
    wanted_dress: Cell[Dressing | None] = maybe(one_of(Dressing))
    torque_wanted: Cell[str] = as_text("")
    torque_source: Cell[str] = as_text("")
    torque_done: Cell[str] = as_text("")
    set_at: Cell[dt.datetime | None] = maybe(as_moment())
    look_again: Cell[bool] = as_yes(False)
    looked_again_at: Cell[dt.datetime | None] = maybe(as_moment())
    duty: Cell[JointDuty | None] = maybe(one_of(JointDuty))
    how_set: Cell[str | None] = maybe(as_text())
    torque_reason: Cell[str | None] = maybe(as_text())
    note: Cell[str] = as_text("")
