"""The Plan page: what next, what fits tonight, dates and chances, the network, the owner's week."""

from rebuild.window.plan.page import PlanPage

__all__ = ["PlanPage"]
