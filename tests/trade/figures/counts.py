"""What the handbook holds, counted: ``python -m tests.trade.figures.counts``.

By group: its topics, and the lines of their worked examples by the status of the source they cite. Then the rows of
every table shipped, by status. The checks against values from outside are counted by the end of every run of the tests.
"""

from __future__ import annotations

import sys
from collections import Counter
from pathlib import Path

from rebuild.trade.figures import all_figures
from rebuild.trade.results.tables import assets_folder, table
from rebuild.trade.results.working import Status

STATUSES = tuple(Status)[:4]


def by_group() -> dict[str, tuple[int, Counter[Status]]]:
    """Each group: how many topics, and how many lines of their examples cite a source of each status."""
    found: dict[str, tuple[int, Counter[Status]]] = {}
    for figure in all_figures().values():
        topics, lines = found.get(figure.group, (0, Counter()))
        steps = figure.run(figure.example).working.steps
        lines.update(step.source.status for step in steps if step.source is not None)
        found[figure.group] = (topics + 1, lines)
    return found


def by_table() -> dict[str, Counter[Status]]:
    """Each table shipped: its rows by status."""
    names = sorted(path.stem for path in Path(assets_folder() / "tables").glob("*.csv"))
    return {name: Counter(table(name).row_source(row).status for row in table(name).rows) for name in names}


def told() -> str:
    """Both counts as text, each with its sum."""
    heads = "".join(f"{status.value.partition(',')[0]:>24}" for status in STATUSES)
    lines = [f"{'group':<28}{'topics':>8}{heads}"]
    groups = by_group()
    for name, (topics, cited) in groups.items():
        lines.append(f"{name:<28}{topics:>8}{_row(cited)}")
    lines.append(
        f"{'all':<28}{sum(topics for topics, _ in groups.values()):>8}"
        + _row(sum((cited for _, cited in groups.values()), Counter()))
    )
    lines += ["", f"{'rows of the table':<36}{heads}"]
    tables = by_table()
    lines += [f"{name:<36}{_row(rows)}" for name, rows in tables.items()]
    return "\n".join([*lines, f"{'all':<36}{_row(sum(tables.values(), Counter()))}"])


def _row(counted: Counter[Status]) -> str:
    return "".join(f"{counted[status]:>24}" for status in STATUSES)


if __name__ == "__main__":
    sys.stdout.write(told() + "\n")
