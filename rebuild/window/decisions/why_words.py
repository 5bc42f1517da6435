"""Why a part is to be decided, in words: as it was found, what is out, why it was decided, what is not standard."""

from __future__ import annotations

from collections.abc import Sequence

from rebuild.work.decisions.rows_odd_sizes import OddRow
from rebuild.work.decisions.rows_proposals import ToDecide

#: How many things out are named before the rest is counted.
SHOWN = 4


def why_words(row: ToDecide, odd: Sequence[OddRow]) -> str:
    """Line by line what speaks; ``odd`` are the sizes of the part that are not standard."""
    more = f"; and {len(row.why) - SHOWN} more" if len(row.why) > SHOWN else ""
    lines = [f"Found: {row.condition}."] if row.condition else []
    lines += ["; ".join(row.why[:SHOWN]) + more] + ([f"Decided because {row.reason}."] if row.reason else [])
    lines += [
        f"Not standard, {size.through}: {size.part}, {size.what}" + (f" ({size.size})" if size.size else "")
        for size in odd
    ]
    return "\n".join(lines)
