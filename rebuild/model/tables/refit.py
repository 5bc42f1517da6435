"""Putting back: steps and links drafted from the removal log, and what was answered to proposed links."""

from __future__ import annotations

import datetime as dt

from rebuild.model.asked import Journaled
from rebuild.model.cells import Cell, as_moment, as_text, goes_with, one_of, points_at
from rebuild.words.steps import LinkAnswer


class RefitSteps(Journaled, name="refit_step"):
    """A step drafted from a removal. No step: the user took it out of the draft, and it stays out.

    The drafted words are kept to tell a step the user has written over from one still as drafted.
    """

    attempt_id: Cell[int] = goes_with("attempt", index=True)
    removal_id: Cell[int | None] = points_at("removal", index=True)
    task_id: Cell[int | None] = points_at("task", index=True)
    drafted_title: Cell[str] = as_text("")
    drafted_note: Cell[str] = as_text("")


class DraftedLinks(Journaled, name="drafted_link"):
    """A link drafted between two removals' steps. No link: the user took it away, and it stays away."""

    indexes = (("ix_drafted_link_pair", "before_id", "after_id"),)

    before_id: Cell[int] = goes_with("refit_step")
    after_id: Cell[int] = goes_with("refit_step", index=True)
    link_id: Cell[int | None] = points_at("link", index=True)


class LinkProposals(Journaled, name="link_proposal"):
    """What the user answered to a link proposed by a second teardown: before which removal comes which."""

    indexes = (("ix_link_proposal_pair", "before_id", "after_id"),)

    before_id: Cell[int] = goes_with("removal")
    after_id: Cell[int] = goes_with("removal", index=True)
    answer: Cell[LinkAnswer] = one_of(LinkAnswer)
    answered_at: Cell[dt.datetime] = as_moment()
