"""What moves on each kind of machine: what its speeds are called, and which bearings are felt in the run-in.

Common practice of the trade, no source.
"""

from __future__ import annotations

from rebuild.words.machines import MachineKind

_RECIPROCATES = (MachineKind.SHAPER, MachineKind.PLANER)
_SPINDLE = ("front spindle bearing", "rear spindle bearing")
_BEARINGS: dict[str, tuple[str, ...]] = {
    MachineKind.SHAPER: ("bull gear bearing", "drive shaft bearing", "ram ways"),
    MachineKind.PLANER: ("drive shaft bearing", "bull gear bearing", "table ways"),
    MachineKind.MILL: ("spindle bearing, nose end", "spindle bearing, far end"),
    MachineKind.DRILL: ("spindle bearing, lower", "spindle bearing, upper"),
    MachineKind.SURFACE_GRINDER: ("wheel spindle bearing, wheel end", "wheel spindle bearing, drive end"),
}


def goes_to_and_fro(kind: str) -> bool:
    """Whether a kind of machine has strokes and no spindle.

    >>> goes_to_and_fro("shaper"), goes_to_and_fro("lathe")
    (True, False)
    """
    return kind in _RECIPROCATES


def rate_unit(kind: str) -> str:
    """What a speed of the run-in is counted in."""
    return "strokes/min" if goes_to_and_fro(kind) else "rpm"


def turns_work(kind: str) -> bool:
    """Whether the pieces cut to try a machine are turned; of a kind not said they may be.

    >>> turns_work("lathe"), turns_work("shaper"), turns_work("other")
    (True, False, True)
    """
    return kind in (MachineKind.LATHE, MachineKind.OTHER)


def usual_bearings(kind: str) -> tuple[str, ...]:
    """The bearings felt in the run-in, until the owner names his own."""
    return _BEARINGS.get(kind, _SPINDLE)
