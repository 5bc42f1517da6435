"""What is seen on the things in the machines' loose boxes, and where the ones that are not ours went."""

from __future__ import annotations

from rebuild.demo.built import Built, at
from rebuild.work.boxes.acts import add_clue, not_ours

#: Machine, code, what is seen.
SEEN = (
    (0, "X-02", ("bore 1.255 in", "across 2.2 in", "bronze")),
    (0, "X-05", ("thread 3/8-16 UNC", "brass tip")),
    (1, "X-03", ("module 1.5, 47 teeth", "bore 30 mm")),
    (1, "X-05", ("stamped 34-36",)),
)


def extend(built: Built) -> None:
    """Note the clues; the steady rest goes to a neighbour."""
    for machine, code, seen in SEEN:
        for typed in seen:
            add_clue(built.store, built.machines[machine].parts[code], typed)
    not_ours(built.store, built.machines[1].parts["X-01"], "neighbour’s smaller lathe", at("2026-10-30", 19))
