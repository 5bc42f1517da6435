"""A thread on a drawing: its name and the two diameters its thin and thick lines stand at."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.errors import BadEntry
from rebuild.trade.sizes.show import show_both


@dataclass(frozen=True, slots=True)
class ThreadShown:
    """Name as on the sheet; outer and core diameter of the thread drawn [mm]."""

    name: str
    major_mm: float
    minor_mm: float
    #: Its pitch diameter with limits, in words; empty: not told.
    pitch: str = ""

    @property
    def lines(self) -> tuple[str, ...]:
        """What the note on the thread says, a line each."""
        return (self.name, f"pitch dia. {self.pitch}") if self.pitch else (self.name,)

    def refuse_bigger_than(self, blank_mm: float, blank: str, unit: str, room_mm: float = 0.05) -> None:
        """Raise BadEntry when the thread is bigger than the metal it is cut on."""
        if self.major_mm > blank_mm + room_mm:
            raise BadEntry(
                f"is {show_both(self.major_mm, unit)} over its crests, bigger than the {blank} of "
                f"{show_both(blank_mm, unit)} it is to be cut on.",
                where="Thread",
                value=self.name,
                way_out="Take a smaller thread or a larger blank.",
            )

    def refuse_no_wall(self, outside_mm: float, what: str, unit: str) -> None:
        """Raise BadEntry when a nut's body is no bigger than its thread."""
        if self.major_mm >= outside_mm - 1.0:
            raise BadEntry(
                f"is {show_both(self.major_mm, unit)} at its root, and the {what} is only "
                f"{show_both(outside_mm, unit)}: the thread is bigger than the blank.",
                where="Thread",
                value=self.name,
                way_out="Give the nut a bigger body, or check the thread.",
            )
