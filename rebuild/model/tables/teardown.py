"""The removal log: attempts, what came off and how, the fasteners of each hole, and the shims."""

from __future__ import annotations

import datetime as dt

from rebuild.model.asked import Journaled
from rebuild.model.cells import (
    Cell,
    as_count,
    as_moment,
    as_number,
    as_text,
    as_yes,
    goes_with,
    maybe,
    one_of,
    points_at,
)
from rebuild.words.teardown import FastenerKind, FastenerPoint, FastenerState, RemovalWay


class Attempts(Journaled, name="attempt"):
    """One time a subassembly (None: the machine as a whole) is taken down and put back.

    Number 1 is the first teardown. ``stopped_by`` says what stopped the putting back, ``changed`` what was
    changed before the next one.
    """

    indexes = (("ix_attempt_machine_subassembly", "machine_id", "subassembly_id", "number"),)

    machine_id: Cell[int] = goes_with("machine")
    subassembly_id: Cell[int | None] = maybe(goes_with("subassembly", index=True))
    number: Cell[int] = as_count(1)
    began_at: Cell[dt.datetime] = as_moment()
    stopped_by: Cell[str] = as_text("")
    changed: Cell[str] = as_text("")
    photo: Cell[str] = as_text("")
    note: Cell[str] = as_text("")


class Removals(Journaled, name="removal"):
    """One thing that came off: how, from which end, how it sat, what was hard, what was found."""

    indexes = (("ix_removal_attempt_position", "attempt_id", "position"),)

    attempt_id: Cell[int] = goes_with("attempt")
    position: Cell[int] = as_count(0)
    at: Cell[dt.datetime] = as_moment()
    what: Cell[str] = as_text("")
    how: Cell[RemovalWay] = one_of(RemovalWay, RemovalWay.LIFTED)
    from_end: Cell[str] = as_text("")
    location: Cell[str] = as_text("")
    orientation: Cell[str] = as_text("")
    match_mark: Cell[str] = as_text("")
    hard: Cell[str] = as_text("")
    found: Cell[str] = as_text("")
    tools: Cell[str] = as_text("")
    photo: Cell[str] = as_text("")
    place_id: Cell[int | None] = points_at("place", index=True)
    note: Cell[str] = as_text("")
    broke: Cell[str | None] = maybe(as_text())


class RemovalParts(Journaled, name="removal_part"):
    """A part that came off in a removal."""

    indexes = (("ix_removal_part_removal", "removal_id", "part_id"),)

    removal_id: Cell[int] = goes_with("removal")
    part_id: Cell[int] = goes_with("part", index=True)


class Fasteners(Journaled, name="fastener"):
    """What sat in a hole, or in several alike: thread as typed, hand, length, point, its state as found."""

    indexes = (("ix_fastener_removal_position", "removal_id", "position"),)

    removal_id: Cell[int] = goes_with("removal")
    joint_id: Cell[int | None] = points_at("joint", index=True)
    kind: Cell[FastenerKind] = one_of(FastenerKind, FastenerKind.SCREW)
    hole: Cell[str] = as_text("")
    count: Cell[int] = as_count(1)
    thread: Cell[str] = as_text("")
    left_hand: Cell[bool] = as_yes(False)
    length_text: Cell[str | None] = maybe(as_text())
    length_unit: Cell[str | None] = maybe(as_text())
    length_mm: Cell[float | None] = maybe(as_number())
    head: Cell[str] = as_text("")
    point: Cell[FastenerPoint | None] = maybe(one_of(FastenerPoint))
    grade: Cell[str] = as_text("")
    big_end: Cell[str] = as_text("")
    hidden: Cell[str] = as_text("")
    state: Cell[FastenerState | None] = maybe(one_of(FastenerState))
    substitute: Cell[bool] = as_yes(False)
    note: Cell[str] = as_text("")
    position: Cell[int] = as_count(0)


class ShimPacks(Journaled, name="shim_pack"):
    """A pack of shims: where it sat, on which side, which way round. Its total is worked out, never stored."""

    removal_id: Cell[int] = goes_with("removal", index=True)
    location: Cell[str] = as_text("")
    side: Cell[str] = as_text("")
    way_round: Cell[str] = as_text("")
    material: Cell[str] = as_text("")
    note: Cell[str] = as_text("")


class ShimLeaves(Journaled, name="shim_leaf"):
    """One leaf of a pack, counted from the casting up."""

    indexes = (("ix_shim_leaf_pack_position", "pack_id", "position"),)

    pack_id: Cell[int] = goes_with("shim_pack")
    thickness_text: Cell[str] = as_text()
    thickness_unit: Cell[str] = as_text()
    thickness_mm: Cell[float] = as_number()
    note: Cell[str] = as_text("")
    position: Cell[int] = as_count(0)
