"""Lubrication points: where, what they feed, through what, and whether oil was seen to arrive."""

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
from rebuild.words.lubrication import FlowProof, OilPointKind


class OilPoints(Journaled, name="oil_point"):
    """One point of the oil card. ``fed_by_id`` makes the tree of a central oiler; ``x``, ``y`` lie on the map (0 to 1).

    ``task_id`` is the step that hides it: that step may not be closed before oil was seen to flow.
    """

    indexes = (("ix_oil_point_machine_position", "machine_id", "position"),)

    machine_id: Cell[int] = goes_with("machine")
    fed_by_id: Cell[int | None] = points_at("oil_point", index=True)
    part_id: Cell[int | None] = points_at("part", index=True)
    task_id: Cell[int | None] = points_at("task", index=True)
    number: Cell[str] = as_text()
    kind: Cell[OilPointKind] = one_of(OilPointKind, OilPointKind.OIL_HOLE)
    feeds: Cell[str] = as_text()
    path: Cell[str] = as_text("")
    old_oil: Cell[str] = as_text("")
    duty: Cell[str] = as_text("")
    oil: Cell[str] = as_text("")
    quantity: Cell[str] = as_text("")
    interval: Cell[str] = as_text("")
    dose_ml: Cell[float | None] = maybe(as_number())
    delivery_ml: Cell[float | None] = maybe(as_number())
    first_fill_at: Cell[dt.datetime | None] = maybe(as_moment())
    proof: Cell[FlowProof] = one_of(FlowProof, FlowProof.NOT_PROVED)
    proved_at: Cell[dt.datetime | None] = maybe(as_moment())
    proved_note: Cell[str] = as_text("")
    x: Cell[float | None] = maybe(as_number())
    y: Cell[float | None] = maybe(as_number())
    note: Cell[str] = as_text("")
    position: Cell[int] = as_count(0)
