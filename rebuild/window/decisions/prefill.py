"""What the dialog that settles a part begins with: the words of a proposal, or of an option."""

from __future__ import annotations

from collections.abc import Mapping

from rebuild.trade.wear.facts import Proposal
from rebuild.work.decisions.rows_options import OptionRow


def of_proposal(found: Proposal | None) -> dict[str, str]:
    """Fields of the dialog by name, from a proposal; none without one."""
    if found is None:
        return {}
    return {
        "decision": found.decision.value,
        "decision_method": found.method,
        "decision_reason": found.why,
        "decision_criterion": found.rule,
        "decision_value": found.value,
    }


def of_option(chosen: OptionRow, fields: Mapping[str, str]) -> dict[str, str]:
    """Fields of the dialog by name, from an option and its own ``fields``."""
    return {
        "decision": chosen.decision.value,
        "decision_method": chosen.method,
        "decision_cost": fields["cost"],
        "decision_work_min": fields["work_min"],
        "decision_wait_days": fields["wait_days"],
    }
