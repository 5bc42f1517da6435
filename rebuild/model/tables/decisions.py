"""What is decided of a part: the options weighed, concessions, odd sizes carried on, and edited wear rules."""

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
from rebuild.words.decisions import Decision


class DecisionOptions(Journaled, name="decision_option"):
    """One way a part could go, with what it would take. Cost is in the file's own money."""

    part_id: Cell[int] = goes_with("part", index=True)
    decision: Cell[Decision] = one_of(Decision, Decision.OPEN)
    method: Cell[str] = as_text("")
    cost: Cell[float | None] = maybe(as_number())
    work_min: Cell[float | None] = maybe(as_number())
    wait_days: Cell[float | None] = maybe(as_number())
    reversible: Cell[bool] = as_yes(True)
    note: Cell[str] = as_text("")
    position: Cell[int] = as_count(0)


class Concessions(Journaled, name="concession"):
    """A part accepted outside its spec: which feature, what value, by whom and why (ISO 9000:2015)."""

    part_id: Cell[int] = goes_with("part", index=True)
    feature_id: Cell[int | None] = points_at("feature", index=True)
    accepted: Cell[str] = as_text("")
    reason: Cell[str] = as_text()
    accepted_by: Cell[str] = as_text("")
    accepted_at: Cell[dt.datetime | None] = maybe(as_moment())


class OddSizes(Journaled, name="odd_size"):
    """A size that is not the standard one (a pin one size up, a bore opened): mates and spares must know."""

    part_id: Cell[int] = goes_with("part", index=True)
    feature_id: Cell[int | None] = points_at("feature", index=True)
    what: Cell[str] = as_text()
    size_text: Cell[str | None] = maybe(as_text())
    size_unit: Cell[str | None] = maybe(as_text())
    size_mm: Cell[float | None] = maybe(as_number())
    instead_of: Cell[str] = as_text("")
    reason: Cell[str] = as_text("")
    since: Cell[dt.datetime | None] = maybe(as_moment())


class WearRules(Journaled, name="wear_rule"):
    """The user's own limits in place of a wear rule's: shown as edited, the rule's own beside them."""

    indexes = (("ix_wear_rule_key", "key"),)

    key: Cell[str] = as_text()
    good_text: Cell[str | None] = maybe(as_text())
    good_unit: Cell[str | None] = maybe(as_text())
    good_mm: Cell[float | None] = maybe(as_number())
    rework_text: Cell[str | None] = maybe(as_text())
    rework_unit: Cell[str | None] = maybe(as_text())
    rework_mm: Cell[float | None] = maybe(as_number())
    left_out: Cell[bool] = as_yes(False)
    note: Cell[str] = as_text("")
