"""One thing that stands against an act, before it is said together with the others."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.words.gates import Gate
from rebuild.work.records.ways_out import RowLead, Way


@dataclass(frozen=True, slots=True)
class Obstacle:
    """What is wrong, its chain, and what can be done about it.

    ``gate`` is where it was met; ``covers`` names what a going on all the same is said of. ``noted`` is the trouble
    with every item named, for the book, where ``what`` names the first few; ``rows`` are where they are seen to.
    """

    what: str
    chain: tuple[str, ...] = ()
    way_out: str = ""
    ways: tuple[Way, ...] = ()
    gate: Gate = Gate.ORDER
    covers: tuple[str, ...] = ()
    noted: str = ""
    rows: tuple[RowLead, ...] = ()

    def sentence(self) -> str:
        """The trouble in full, less its ways out."""
        spelled = " → ".join(self.chain)
        return f"{self.what} {spelled}." if spelled else self.what

    def in_full(self) -> str:
        """The trouble with nothing left out, as a going on all the same is kept and printed."""
        return self.noted or self.sentence()
