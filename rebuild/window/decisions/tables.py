"""The strings of the Decide page's tables."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtWidgets import QAbstractItemView, QWidget

from rebuild.trade.sizes.amounts import show_minutes
from rebuild.trade.wear.facts import Proposal
from rebuild.trade.wear.rules import Criterion
from rebuild.window.lists.plain_table import PlainTable
from rebuild.work.decisions.rows_options import CompareRow, OptionRow
from rebuild.work.decisions.rows_proposals import ToDecide

Row = tuple[int, tuple[str, ...]]
PARTS = ("Part and why it is here", "Decision", "Out")
PROPOSALS = ("Proposed", "How", "Because", "Found", "Rule and where it comes from")
OPTIONS = ("Option", "Cost", "Work", "Waiting", "Back", "Note")
COMPARED = ("", "First", "Second")
RULES = ("Rule", "Good up to", "Rework up to", "State", "Where it comes from")


class WideTable(PlainTable):
    """A table of which several rows may be chosen."""

    def __init__(
        self, name: str, headings: Sequence[str], parent: QWidget | None = None, *, sortable: bool = False
    ) -> None:
        super().__init__(name, headings, parent, sortable=sortable)

    def allow_two(self) -> None:
        """Let several rows be chosen together."""
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)


def part_row(row: ToDecide) -> Row:
    """A part to be decided, in two lines: what it is, and why it stands here."""
    why = row.why[0] + (f" and {len(row.why) - 1} more" if len(row.why) > 1 else "")
    if row.condition and not row.out:
        why = f"found: {row.condition}"
    return row.part_id, (f"{row.title}\n{why}", row.decision.value, str(row.out or ""))


def proposal_row(place: int, proposal: Proposal) -> Row:
    """A proposal with its rule."""
    edited = ", edited" if proposal.edited else ""
    where = f"{proposal.rule}{edited}: {proposal.source.where} ({proposal.source.status.value})"
    return place, (proposal.decision, proposal.method, proposal.why, proposal.value, where)


def option_row(row: OptionRow) -> Row:
    """An option with what it takes."""
    return row.id, (
        row.title,
        "" if row.cost is None else f"{row.cost:.2f}",
        "" if row.work_min is None else show_minutes(row.work_min),
        "" if row.wait_days is None else f"{row.wait_days:g} days",
        "yes" if row.reversible else "no",
        row.note,
    )


def compare_row(place: int, row: CompareRow) -> Row:
    """A line of the comparison; what is better carries a pointer."""
    a, b = (f"▸ {text}" if row.better == side else text for side, text in (("a", row.a), ("b", row.b)))
    return place, (row.label, a, b)


def rule_row(place: int, rule: Criterion) -> Row:
    """A wear rule in force."""
    state = "left out" if rule.left_out else "edited" if rule.edited else "as it came"
    return place, (
        rule.title,
        rule.good.shown(),
        rule.rework.shown(),
        state,
        f"{rule.source.where} ({rule.source.status.value})",
    )
