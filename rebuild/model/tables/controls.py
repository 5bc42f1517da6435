"""Controls: every knob, lever, clutch and dial of a machine, as found and proved after refit."""

from __future__ import annotations

import datetime as dt

from rebuild.model.asked import Journaled
from rebuild.model.cells import (
    Cell,
    as_count,
    as_moment,
    as_number,
    as_text,
    goes_with,
    maybe,
    one_of,
    points_at,
)
from rebuild.words.controls import ControlKind
from rebuild.words.run_in import LookWhen


class Controls(Journaled, name="control"):
    """One thing the hand takes hold of.

    ``per_turn`` is the travel or feed of one turn as it should be, ``found_turn`` and ``proved_turn`` as measured
    before and after. ``trapped`` says what must come off first, ``handed`` which way it turns and why.
    """

    indexes = (("ix_control_machine_position", "machine_id", "position"),)

    machine_id: Cell[int] = goes_with("machine")
    subassembly_id: Cell[int | None] = points_at("subassembly", index=True)
    part_id: Cell[int | None] = points_at("part", index=True)
    doubles_id: Cell[int | None] = points_at("control", index=True)
    photo_id: Cell[int | None] = points_at("photo", index=True)
    name: Cell[str] = as_text()
    kind: Cell[ControlKind] = one_of(ControlKind, ControlKind.KNOB)
    location: Cell[str] = as_text("")
    does: Cell[str] = as_text("")
    unit: Cell[str] = as_text("mm")
    per_turn_text: Cell[str | None] = maybe(as_text())
    per_turn_unit: Cell[str | None] = maybe(as_text())
    per_turn_mm: Cell[float | None] = maybe(as_number())
    dial: Cell[str] = as_text("")
    engages: Cell[str] = as_text("")
    retracts: Cell[str] = as_text("")
    trapped: Cell[str] = as_text("")
    handed: Cell[str] = as_text("")
    found: Cell[str] = as_text("")
    found_at: Cell[dt.datetime | None] = maybe(as_moment())
    found_turn_text: Cell[str | None] = maybe(as_text())
    found_turn_unit: Cell[str | None] = maybe(as_text())
    found_turn_mm: Cell[float | None] = maybe(as_number())
    due: Cell[LookWhen] = one_of(LookWhen, LookWhen.BEFORE_POWER)
    proved: Cell[str] = as_text("")
    proved_at: Cell[dt.datetime | None] = maybe(as_moment())
    proved_by: Cell[str] = as_text("")
    proved_turn_text: Cell[str | None] = maybe(as_text())
    proved_turn_unit: Cell[str | None] = maybe(as_text())
    proved_turn_mm: Cell[float | None] = maybe(as_number())
    note: Cell[str] = as_text("")
    position: Cell[int] = as_count(0)
