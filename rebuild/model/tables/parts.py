"""Parts, and the matched sets that must stay together."""

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
from rebuild.words.decisions import Decision
from rebuild.words.parts import Identity, Origin


class MatchedSets(Journaled, name="matched_set"):
    """Parts that must stay together: bearing shells and shims, spindle and nut, gib and slide."""

    machine_id: Cell[int] = goes_with("machine", index=True)
    name: Cell[str] = as_text()
    note: Cell[str] = as_text("")


class Parts(Journaled, name="part"):
    """One part (or several alike) of a machine, known or not yet. ``finish`` is how its surface is to be in the end."""

    indexes = (
        ("ix_part_machine_subassembly", "machine_id", "subassembly_id", "position"),
        ("ix_part_code", "code"),
    )

    machine_id: Cell[int] = goes_with("machine")
    subassembly_id: Cell[int | None] = maybe(goes_with("subassembly", index=True))
    code: Cell[str] = as_text("")
    name: Cell[str] = as_text()
    other_names: Cell[str] = as_text("")
    quantity: Cell[int] = as_count(1)
    identity: Cell[Identity] = one_of(Identity, Identity.CONFIRMED)
    suspects: Cell[str] = as_text("")
    origin: Cell[Origin] = one_of(Origin, Origin.ORIGINAL)
    material: Cell[str] = as_text("")
    condition: Cell[str] = as_text("")
    decision: Cell[Decision] = one_of(Decision, Decision.OPEN)
    decision_reason: Cell[str] = as_text("")
    decision_criterion: Cell[str] = as_text("")
    decision_would_change: Cell[str] = as_text("")
    decided_at: Cell[dt.datetime | None] = maybe(as_moment())
    place_id: Cell[int | None] = points_at("place", index=True)
    placed_at: Cell[dt.datetime | None] = maybe(as_moment())
    match_mark: Cell[str] = as_text("")
    orientation: Cell[str] = as_text("")
    matched_set_id: Cell[int | None] = points_at("matched_set", index=True)
    figure_item: Cell[str] = as_text("")
    maker_number: Cell[str] = as_text("")
    stamped: Cell[str] = as_text("")
    handedness: Cell[str] = as_text("")
    spare_of_id: Cell[int | None] = points_at("part", index=True)
    note: Cell[str] = as_text("")
    position: Cell[int] = as_count(0)
    decision_method: Cell[str | None] = maybe(as_text())
    decision_value: Cell[str | None] = maybe(as_text())
    decision_cost: Cell[float | None] = maybe(as_number())
    decision_work_min: Cell[float | None] = maybe(as_number())
    decision_wait_days: Cell[float | None] = maybe(as_number())
    finish: Cell[str | None] = maybe(as_text())
