"""Fits of two features, and what is wanted of them."""

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
from rebuild.words.fits import Adjuster, FitJoint, FitKind, LimitsTo, Side, WantedOrigin
from rebuild.words.readings import Stage


class Fits(Journaled, name="fit"):
    """Two features that run or sit together, and what is wanted between them.

    A clearance counts up, an interference down. ``gap_id`` names a feature on which the clearance itself is
    read (bearing lift, backlash, a feeler gap). ``looked`` keeps what was known of both sides when the user
    last looked; the fit is stale when it is no longer so. ``later_id`` is the mate the follower is made for in the
    end (the new screw), while the master is the one it must pass today; ``limits_to`` says whom its limits suit.
    It names a feature by its number alone; one that was removed is not there any more.
    """

    indexes = (
        ("ix_fit_machine_position", "machine_id", "position"),
        ("ix_fit_outer_id", "outer_id"),
        ("ix_fit_inner_id", "inner_id"),
        ("ix_fit_gap_id", "gap_id"),
    )

    machine_id: Cell[int] = goes_with("machine")
    name: Cell[str] = as_text("")
    joint: Cell[FitJoint] = one_of(FitJoint, FitJoint.HOLE_AND_SHAFT)
    kind: Cell[FitKind] = one_of(FitKind, FitKind.RUNNING)
    outer_id: Cell[int] = goes_with("feature")
    inner_id: Cell[int] = goes_with("feature")
    gap_id: Cell[int | None] = points_at("feature")
    outer_station_id: Cell[int | None] = points_at("station", index=True)
    inner_station_id: Cell[int | None] = points_at("station", index=True)
    outer_stage: Cell[Stage | None] = maybe(one_of(Stage))
    inner_stage: Cell[Stage | None] = maybe(one_of(Stage))
    unit: Cell[str] = as_text("mm")
    wanted_text: Cell[str] = as_text("")
    low_text: Cell[str | None] = maybe(as_text())
    low_unit: Cell[str | None] = maybe(as_text())
    low_mm: Cell[float | None] = maybe(as_number())
    high_text: Cell[str | None] = maybe(as_text())
    high_unit: Cell[str | None] = maybe(as_text())
    high_mm: Cell[float | None] = maybe(as_number())
    wanted_origin: Cell[WantedOrigin | None] = maybe(one_of(WantedOrigin))
    wanted_note: Cell[str] = as_text("")
    master: Cell[Side | None] = maybe(one_of(Side))
    adjuster: Cell[Adjuster] = one_of(Adjuster, Adjuster.NONE)
    note: Cell[str] = as_text("")
    looked_at: Cell[dt.datetime | None] = maybe(as_moment())
    looked: Cell[str] = as_text("")
    position: Cell[int] = as_count(0)
    later_id: Cell[int | None] = maybe(as_count())
    limits_to: Cell[LimitsTo | None] = maybe(one_of(LimitsTo))
