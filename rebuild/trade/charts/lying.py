"""What a level lies on, on each kind of machine, and what its two ends are called; common practice, no source."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.words.machines import MachineKind


@dataclass(frozen=True, slots=True)
class Lying:
    """What is levelled, and its two ends in the order they are read."""

    on: str
    ends: tuple[str, str]

    @property
    def along(self) -> str:
        """The words for the way along it.

        >>> lying("lathe").along, lying("shaper").along
        ('along the bed', 'along the ram ways')
        """
        return f"along the {self.on}"


_SIDES = ("left end", "right end")
_LYING: dict[str, Lying] = {
    MachineKind.LATHE: Lying("bed", ("headstock end", "tailstock end")),
    MachineKind.PLANER: Lying("bed", ("near end", "far end")),
    MachineKind.SHAPER: Lying("ram ways", ("tool end", "rear end")),
    MachineKind.MILL: Lying("table", _SIDES),
    MachineKind.SURFACE_GRINDER: Lying("table", _SIDES),
    MachineKind.DRILL: Lying("base", _SIDES),
}


def lying(kind: str) -> Lying:
    """What the level lies on.

    >>> lying("other").ends
    ('left end', 'right end')
    """
    return _LYING.get(kind, Lying("ways", _SIDES))
