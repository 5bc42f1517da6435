"""Means: tools, gauges, consumables, helpers and hoists, and the steps that need them."""

from __future__ import annotations

from rebuild.model.asked import Journaled
from rebuild.model.cells import Cell, as_count, as_text, as_yes, goes_with, one_of, points_at
from rebuild.words.means import MeansKind


class Means(Journaled, name="means"):
    """Something steps need, of the shop as a whole.

    ``owned``: the shop has it for good. ``task_id`` is the step that makes it, ``waiting_id`` the order, loan or
    borrowing it hangs on; whether it is here now follows from these.
    """

    kind: Cell[MeansKind] = one_of(MeansKind, MeansKind.TOOL)
    name: Cell[str] = as_text()
    owned: Cell[bool] = as_yes(False)
    place_id: Cell[int | None] = points_at("place", index=True)
    task_id: Cell[int | None] = points_at("task", index=True)
    waiting_id: Cell[int | None] = points_at("waiting", index=True)
    note: Cell[str] = as_text("")
    position: Cell[int] = as_count(0)


class StepMeans(Journaled, name="step_means"):
    """A step names something it needs."""

    indexes = (("ix_step_means_task_means", "task_id", "means_id"),)

    task_id: Cell[int] = goes_with("task")
    means_id: Cell[int] = goes_with("means", index=True)
    note: Cell[str] = as_text("")
