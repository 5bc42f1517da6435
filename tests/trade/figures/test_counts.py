"""The handbook's counts: every topic in them, no row without a status, 300 of the new topics found in print."""

from __future__ import annotations

from rebuild.trade.figures import all_figures
from rebuild.trade.results.working import Status
from tests.trade.figures.counts import STATUSES, by_group, by_table, told

#: The tables that came with "more of the handbook".
NEW = (
    "clearance_holes_iso273", "iso2768_angles", "iso2768_broken_edges", "iso2768_lengths", "pipe_threads",
    "retaining_rings", "splines_iso14", "splines_sae_j499", "t_slots", "taper_ratios", "woodruff_keys",
    "woodruff_seat_widths", "spring_wire",
)  # fmt: skip


def test_the_counts_leave_nothing_out() -> None:
    groups, tables = by_group(), by_table()
    assert sum(topics for topics, _ in groups.values()) == len(all_figures())
    rows = sum(tables.values(), start=next(iter(tables.values())).__class__())
    assert set(rows) <= set(STATUSES)
    assert sum(tables[name][Status.PUBLISHED] for name in NEW) >= 300, (
        "rows found in print, of the new topics"
    )
    lines = told().splitlines()
    assert lines[len(groups) + 1].split()[:2] == ["all", str(len(all_figures()))]
    assert lines[-1].split() == ["all", *(str(rows[status]) for status in STATUSES)]
