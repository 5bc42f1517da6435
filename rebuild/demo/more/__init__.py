"""What the demo shows beyond the two machines' parts and steps: one module for each field, ``extend`` in each."""

from __future__ import annotations

from collections.abc import Callable
from importlib import import_module

from rebuild.demo.built import Built

#: Modules of this package in the order they go on from each other.
MODULES = ("fits",)


def extend_all(built: Built, told: Callable[[str], None]) -> None:
    """Let every module add its own, through the acts."""
    for name in MODULES:
        told(name.replace("_", " "))
        import_module(f"rebuild.demo.more.{name}").extend(built)
