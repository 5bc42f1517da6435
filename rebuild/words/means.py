"""Words of means: what a step needs besides hands and time."""

from __future__ import annotations

from enum import StrEnum


class MeansKind(StrEnum):
    """The sort of thing a step needs."""

    TOOL = "tool"
    GAUGE = "gauge"
    CONSUMABLE = "consumable"
    HELPER = "helper"
    HOIST = "hoist"


class MeansStand(StrEnum):
    """Whether the shop has it; worked out from what is known of it, never typed."""

    HERE = "in the shop"
    LENT = "lent out"
    ON_THE_WAY = "on the way"
    TO_ORDER = "to be ordered"
    BEING_MADE = "to be made"
    LACKING = "lacking"
