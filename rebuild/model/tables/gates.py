"""What was gone on with all the same: which gate, what stood against it, why, and until when it is shown."""

from __future__ import annotations

import datetime as dt

from rebuild.model.asked import Journaled
from rebuild.model.cells import Cell, as_moment, as_text, goes_with, maybe, one_of, points_at
from rebuild.words.gates import Gate


class Overrides(Journaled, name="override"):
    """Something done though a gate held it, with the reason; open until someone closes it.

    ``against`` is what stood against it in words; ``covers`` names those items one by one (``joint 12, check 3``)
    so that what comes up later is asked about afresh.
    """

    indexes = (("ix_override_machine_closed", "machine_id", "closed_at"),)

    machine_id: Cell[int] = goes_with("machine")
    gate: Cell[Gate] = one_of(Gate, Gate.ORDER)
    task_id: Cell[int | None] = points_at("task", index=True)
    run_step_id: Cell[int | None] = points_at("run_step", index=True)
    joint_id: Cell[int | None] = points_at("joint", index=True)
    what: Cell[str] = as_text("")
    against: Cell[str] = as_text("")
    covers: Cell[str] = as_text("")
    reason: Cell[str] = as_text()
    said_by: Cell[str] = as_text("")
    at: Cell[dt.datetime] = as_moment()
    closed_at: Cell[dt.datetime | None] = maybe(as_moment())
    closed_note: Cell[str] = as_text("")
