"""A *figure* is one thing to work out: what to type, and what comes back with its working.

One description serves the command line (``rebuild figure TOPIC``), the window's Figures page and
the making sheet. A module of ``trade/figures`` lists its figures in ``FIGURES``; the folder gathers them.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace

from rebuild.trade.results.entries import Entries
from rebuild.trade.results.figured import Figured, told_in_inch
from rebuild.trade.results.input import Input
from rebuild.trade.sizes.own_unit import sizes_in


@dataclass(frozen=True, slots=True)
class Figure:
    """One thing to work out. ``topic`` is the command-line word; ``example`` fills the page at first."""

    topic: str
    title: str
    group: str
    inputs: tuple[Input, ...]
    work: Callable[[Entries], Figured]
    example: Mapping[str, str] = field(default_factory=dict)
    about: str = ""
    words: str = ""  # what the shop calls it besides, to find it by
    numbers: str = ""  # a pattern of the numbers that lead to it, as those of its table
    inch_example: Mapping[str, str] = field(
        default_factory=dict
    )  # on an inch machine, where one is more usual

    def run(self, typed: Mapping[str, str], *, comma: bool | None = None, unit: str = "") -> Figured:
        """Work it out from typed text; ``comma`` and ``unit`` as in ``Entries``.

        Raises:
            BadEntry: an entry is missing or wrong, or one of a pair is typed without the other.
            Ambiguous: an entry has two honest readings.
            OutOfRange: outside the table or rule, or what its kind can be.
        """
        entries = Entries(self.inputs, typed, comma, unit)
        own = unit if unit in ("mm", "in") else entries.unit_typed
        with sizes_in(own):
            figured = replace(self.work(entries), read=entries.read, bare=entries.bare, unit=own)
        return told_in_inch(figured) if own == "in" else figured

    def example_in(self, unit: str) -> Mapping[str, str]:
        """The example as one begins with it on a machine of this unit."""
        return self.inch_example if unit == "in" and self.inch_example else self.example
