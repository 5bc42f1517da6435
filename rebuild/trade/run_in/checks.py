"""What is looked at before power, at first power and after the run-in; electrical work is left to licensed hands.

Common practice of the trade, no source; the cautions each one carries have their own sources.
"""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.words.machines import MachineKind
from rebuild.words.run_in import LookWhen


@dataclass(frozen=True, slots=True)
class Look:
    """Something to look at: when, the words, the caution that sits on it, and whether licensed hands do it."""

    due: LookWhen
    text: str
    topic: str = ""
    licensed: bool = False
    kinds: tuple[str, ...] = ()


_BEFORE, _FIRST, _AFTER = LookWhen.BEFORE_POWER, LookWhen.FIRST_POWER, LookWhen.AFTER_RUN
_LOOKS = (
    Look(_BEFORE, "Supply off, locked and proved dead before any cover is opened", "lockout"),
    Look(_BEFORE, "Motor plate, voltage and wiring agree; earth continuous to every casting; fuse sized to the motor",
         "mains", True),
    Look(_BEFORE, "Insulation of motor and wiring tested; old cloth-covered leads replaced", "mains", True),
    Look(_BEFORE, "Capacitors discharged through a resistor and tested at rest", "capacitor", True),
    Look(_BEFORE, "Drive: no switch between drive and motor; controls wired to the drive's own inputs; its bus left to "
         "bleed down after switching off", "mains", True),
    Look(_BEFORE, "Emergency stop reached from where you stand; no restart by itself after a failure of supply",
         "mains", True),
    Look(_BEFORE, "Guards on, chuck key out, nothing loose on the ways, belt and covers closed", "guards"),
    Look(_BEFORE, "Spindle turns by hand several turns without a tight spot; each slide over its whole travel"),
    Look(_BEFORE, "Oil at every level glass, and seen at every point that can be seen"),
    Look(_BEFORE, "Threaded chuck locked, or never reversed or braked", "chuck", kinds=(MachineKind.LATHE,)),
    Look(_BEFORE, "Stroke set short, ram clamp tight, tool clear of work and vice through the whole stroke",
         "guards", kinds=(MachineKind.SHAPER, MachineKind.PLANER)),
    Look(_BEFORE, "Wheel ring-tested, guard on, stand aside for its first minute", "grinding-wheel",
         kinds=(MachineKind.SURFACE_GRINDER,)),
    Look(_FIRST, "Motor alone first, belt off: direction of turning proved", "mains"),
    Look(_FIRST, "Touched on and off; stop at any noise, smell or heat; one hand, and someone within call", "mains"),
    Look(_FIRST, "Current in each phase read and set against the plate", "mains", True),
    Look(_AFTER, "Joints re-torqued cold, gibs and bearing play read again"),
    Look(_AFTER, "Level read again after hours, days and a month"),
    Look(_AFTER, "Oil drained warm, looked at for metal, changed"),
)  # fmt: skip


def usual_looks(kind: str) -> tuple[Look, ...]:
    """The looks for a kind of machine, in order.

    >>> any(look.licensed for look in usual_looks("lathe")), len(usual_looks("lathe")) > len(usual_looks("other"))
    (True, True)
    """
    return tuple(look for look in _LOOKS if not look.kinds or kind in look.kinds)
