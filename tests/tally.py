"""The table of published values checked, by source, at the end of every run (with several processes too)."""

from __future__ import annotations

from collections import Counter, defaultdict
from typing import Any

EXACT, LAST_DIGIT, NOT_COVERED = "exact", "off by the last digit", "not covered"


def pytest_terminal_summary(terminalreporter: Any) -> None:
    counts: dict[str, Counter[str]] = defaultdict(Counter)
    whys: dict[tuple[str, str], Counter[str]] = defaultdict(Counter)
    for report in terminalreporter.getreports("passed"):
        for name, value in getattr(report, "user_properties", []):
            if name == "published" and report.when == "call":
                source, outcome, _row, why = value
                counts[source][outcome] += 1
                if why:
                    whys[source, outcome][why] += 1
    _landing_walks(terminalreporter)
    if not counts:
        return
    terminalreporter.section("published values checked, by source")
    terminalreporter.write_line(f"{'source':<62}{'exact':>8}{'last digit':>12}{'not covered':>13}")
    for source, count in sorted(counts.items()):
        terminalreporter.write_line(
            f"{source[:61]:<62}{count[EXACT]:>8}{count[LAST_DIGIT]:>12}{count[NOT_COVERED]:>13}"
        )
        for outcome in (LAST_DIGIT, NOT_COVERED):
            for why, number in whys[source, outcome].items():
                terminalreporter.write_line(f"    {outcome}: {number} x {why}")


def _landing_walks(terminalreporter: Any) -> None:
    """What the random walks of the landing test did, together: bursts, where they went, on which surfaces."""
    walks = [
        value
        for report in terminalreporter.getreports("passed")
        for name, value in getattr(report, "user_properties", [])
        if name == "landing walk" and report.when == "call"
    ]
    if not walks:
        return
    whole: Counter[str] = Counter()
    for walk in walks:
        whole.update(walk)
    slowest = max(walk["cpu s"] for walk in walks)
    terminalreporter.section("landing: random walks by real keys")
    told = ", ".join(f"{name} {number}" for name, number in whole.items() if name != "cpu s")
    terminalreporter.write_line(
        f"{len(walks)} walks: {told}; the slowest took {slowest:.1f} s of processor time"
    )
