"""What the demo shows beyond the two machines' parts and steps: one module for each field, ``extend`` in each."""

from __future__ import annotations

from collections.abc import Callable
from importlib import import_module

from rebuild.demo.built import Built
from rebuild.work.log.acts import log_session

#: Modules of this package in the order they go on from each other.
MODULES = (
    "fits",
    "making",
    "teardown",
    "true_and_oiled",
    "surveys",
    "in_hand",
    "sketches",
    "manuals",
    "boxes",
)


def extend_all(built: Built, told: Callable[[str], None]) -> None:
    """Let every module add its own, through the acts; the last act is a line in the bench log."""
    for name in MODULES:
        told(name.replace("_", " "))
        import_module(f"rebuild.demo.more.{name}").extend(built)
    log_session(
        built.store,
        built.machines[-1].machine,
        {
            "at": "2026-11-08 21:00",
            "hours": "1.5",
            "did": "Paper evening: fits gone through, decisions and lists brought up to date.",
            "next_step": "polish the handwheel shaft before its bush",
        },
    )
