"""Making sheets: what is to be made, its dimensions with limits, its steps, and the tools it needs."""

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
from rebuild.words.making import LimitsFrom, MakingProgress, PartShape
from rebuild.words.making_details import DetailKind


class MakingSheets(Journaled, name="making_sheet"):
    """One attempt at making a part. Whether it waits or is ready is worked out, never stored.

    ``looked`` keeps the facts (readings of the mates, wanted ranges) its limits were worked out from; the
    sheet is stale when they are no longer so. ``thread``, ``taper``, ``gear`` and ``key`` are designations as
    people write them; their numbers are worked out when the sheet is shown. ``tool_nose`` is the threading tool
    as ground (``flat 0.0319 in``); ``stock_*`` the piece it is really made from, as it lies there.
    ``issue`` counts the papers that went out with other limits, ``issued`` keeps those of the last one.
    """

    part_id: Cell[int] = goes_with("part", index=True)
    attempt: Cell[int] = as_count(1)
    shape: Cell[PartShape] = one_of(PartShape, PartShape.OTHER)
    progress: Cell[MakingProgress] = one_of(MakingProgress, MakingProgress.DRAFT)
    unit: Cell[str] = as_text("mm")
    quantity: Cell[int] = as_count(1)
    why: Cell[str] = as_text("")
    do_not_copy: Cell[str] = as_text("")
    material: Cell[str] = as_text("")
    bar_skin: Cell[str] = as_text("bright")
    blank: Cell[str] = as_text("")
    blank_at: Cell[str] = as_text("")
    thread: Cell[str] = as_text("")
    taper: Cell[str] = as_text("")
    gear: Cell[str] = as_text("")
    key: Cell[str] = as_text("")
    finish: Cell[str] = as_text("")
    allow_uncertainty: Cell[bool] = as_yes(False)
    started_at: Cell[dt.datetime | None] = maybe(as_moment())
    begun_at: Cell[dt.datetime | None] = maybe(as_moment())
    made_at: Cell[dt.datetime | None] = maybe(as_moment())
    settled_at: Cell[dt.datetime | None] = maybe(as_moment())
    settled_by: Cell[str] = as_text("")
    settled_note: Cell[str] = as_text("")
    trial_fit: Cell[str] = as_text("")
    marked: Cell[str] = as_text("")
    looked: Cell[str] = as_text("")
    looked_at: Cell[dt.datetime | None] = maybe(as_moment())
    note: Cell[str] = as_text("")
    tool_nose: Cell[str | None] = maybe(as_text())
    stock_across_text: Cell[str | None] = maybe(as_text())
    stock_across_unit: Cell[str | None] = maybe(as_text())
    stock_across_mm: Cell[float | None] = maybe(as_number())
    stock_long_text: Cell[str | None] = maybe(as_text())
    stock_long_unit: Cell[str | None] = maybe(as_text())
    stock_long_mm: Cell[float | None] = maybe(as_number())
    stock_ends: Cell[str | None] = maybe(as_text())
    issue: Cell[int | None] = maybe(as_count())
    issued_at: Cell[dt.datetime | None] = maybe(as_moment())
    issued: Cell[str | None] = maybe(as_text())
    replaces: Cell[str | None] = maybe(as_text())
    ball_text: Cell[str | None] = maybe(as_text())
    ball_unit: Cell[str | None] = maybe(as_text())
    ball_mm: Cell[float | None] = maybe(as_number())


class MakingDimensions(Journaled, name="making_dimension"):
    """One line of a sheet: a size with its limits, where they come from, and what it is checked with.

    ``role`` is the shape's own word for it and ties it to the drawing; as-made values are readings of the
    feature.
    """

    indexes = (("ix_making_dimension_sheet_position", "sheet_id", "position"),)

    sheet_id: Cell[int] = goes_with("making_sheet")
    role: Cell[str] = as_text("")
    name: Cell[str] = as_text()
    feature_id: Cell[int | None] = points_at("feature", index=True)
    fit_id: Cell[int | None] = points_at("fit", index=True)
    limits_from: Cell[LimitsFrom] = one_of(LimitsFrom, LimitsFrom.OWN)
    size_text: Cell[str] = as_text("")
    nominal_text: Cell[str | None] = maybe(as_text())
    nominal_unit: Cell[str | None] = maybe(as_text())
    nominal_mm: Cell[float | None] = maybe(as_number())
    low_text: Cell[str | None] = maybe(as_text())
    low_unit: Cell[str | None] = maybe(as_text())
    low_mm: Cell[float | None] = maybe(as_number())
    high_text: Cell[str | None] = maybe(as_text())
    high_unit: Cell[str | None] = maybe(as_text())
    high_mm: Cell[float | None] = maybe(as_number())
    measured_with: Cell[str] = as_text("")
    note: Cell[str] = as_text("")
    position: Cell[int] = as_count(0)


class MakingSteps(Journaled, name="making_step"):
    """One step at the machine; ``measure`` says stop here and measure."""

    indexes = (("ix_making_step_sheet_position", "sheet_id", "position"),)

    sheet_id: Cell[int] = goes_with("making_sheet")
    what: Cell[str] = as_text()
    machine: Cell[str] = as_text("")
    hold: Cell[str] = as_text("")
    tool: Cell[str] = as_text("")
    speed: Cell[str] = as_text("")
    feed: Cell[str] = as_text("")
    leave: Cell[str] = as_text("")
    measure: Cell[bool] = as_yes(False)
    done_at: Cell[dt.datetime | None] = maybe(as_moment())
    note: Cell[str] = as_text("")
    position: Cell[int] = as_count(0)


class MakingTools(Journaled, name="making_tool"):
    """A tool the sheet needs before work starts, and whether it is in hand."""

    indexes = (("ix_making_tool_sheet_position", "sheet_id", "position"),)

    sheet_id: Cell[int] = goes_with("making_sheet")
    what: Cell[str] = as_text()
    why: Cell[str] = as_text("")
    in_hand: Cell[bool] = as_yes(False)
    position: Cell[int] = as_count(0)


class MakingDetails(Journaled, name="making_detail"):
    """A hole, flat, keyway, groove, angle or teeth on the part; sizes are texts as typed, in the sheet's unit.

    ``place`` is from the left end along the axis, ``around_deg`` the angle round it; ``came_out`` what it was made to.
    """

    indexes = (("ix_making_detail_sheet_position", "sheet_id", "position"),)

    sheet_id: Cell[int] = goes_with("making_sheet")
    kind: Cell[DetailKind] = one_of(DetailKind)
    name: Cell[str] = as_text()
    place: Cell[str] = as_text("")
    size: Cell[str] = as_text("")
    depth: Cell[str] = as_text("")
    long: Cell[str] = as_text("")
    circle: Cell[str] = as_text("")
    came_out: Cell[str] = as_text("")
    note: Cell[str] = as_text("")
    around_deg: Cell[float] = as_number(0.0)
    count: Cell[int] = as_count(1)
    done_at: Cell[dt.datetime | None] = maybe(as_moment())
    position: Cell[int] = as_count(0)
