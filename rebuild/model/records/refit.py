"""The records of ``tables/refit``: what an act writes."""

from __future__ import annotations

from rebuild.model.records.record import Record
from rebuild.model.tables.refit import DraftedLinks, LinkProposals, RefitSteps


class RefitStep(Record, RefitSteps):
    """One row of ``RefitSteps``."""


class DraftedLink(Record, DraftedLinks):
    """One row of ``DraftedLinks``."""


class LinkProposal(Record, LinkProposals):
    """One row of ``LinkProposals``."""
