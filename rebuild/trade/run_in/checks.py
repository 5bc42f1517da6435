"""What is looked at before power, at first power and after the run-in; electrical work is left to licensed hands.

The order: off and locked; the electrics by licensed hands, in the order a machine's electrics are verified; what
moves, by hand; oil; then the release from lock-out: all cleared away and whole, everyone clear, the lock last.
Each look says where it comes from; what has no source says so. Local codes stand above all of it.
"""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.trade.results.working import Source, Status
from rebuild.words.machines import MachineKind
from rebuild.words.run_in import LookWhen

PRACTICE = Source("the trade", "", Status.COMMON_PRACTICE)
_CFR = "29 CFR 1910.147, control of hazardous energy"
OFF = Source(_CFR, "(d)(3) to (d)(6)")
CLEARED = Source(_CFR, "(e)(1)")
CLEAR_OF = Source(_CFR, "(e)(2)")
LOCK_OFF = Source(_CFR, "(e)(3)")
VERIFIED = Source("IEC 60204-1, verification", "clause 18", Status.FROM_MEMORY)


@dataclass(frozen=True, slots=True)
class Look:
    """Something to look at: when, the words, the caution that sits on it, and whether licensed hands do it."""

    due: LookWhen
    text: str
    topic: str = ""
    licensed: bool = False
    kinds: tuple[str, ...] = ()
    source: Source = PRACTICE


_BEFORE, _FIRST, _AFTER = LookWhen.BEFORE_POWER, LookWhen.FIRST_POWER, LookWhen.AFTER_RUN
_LATHE, _MILL, _SHAPER = (MachineKind.LATHE,), (MachineKind.MILL,), (MachineKind.SHAPER,)
_PLANER, _GRINDER = (MachineKind.PLANER,), (MachineKind.SURFACE_GRINDER,)
_STROKES = (*_SHAPER, *_PLANER)
_DRILL = (MachineKind.DRILL,)
_TURNS = (*_LATHE, *_MILL, *_GRINDER, *_DRILL)
_NO_CHUCK = tuple(kind for kind in MachineKind if kind is not MachineKind.LATHE)
_LOOKS = (
    Look(_BEFORE, "Supply off, locked and proved dead before any cover is opened", "lockout", source=OFF),
    Look(_BEFORE, "Motor plate, voltage and wiring agree; earth continuous to every casting; fuse sized to the motor",
         "mains", True, source=VERIFIED),
    Look(_BEFORE, "Insulation of motor and wiring tested; old cloth-covered leads replaced", "mains", True,
         source=VERIFIED),
    Look(_BEFORE, "Capacitors discharged through a resistor and tested at rest", "capacitor", True, source=VERIFIED),
    Look(_BEFORE, "Drive: no switch between drive and motor; controls wired to the drive's own inputs; its bus left to "
         "bleed down after switching off", "mains", True),
    Look(_BEFORE, "Emergency stop reached from where you stand; no restart by itself after a failure of supply",
         "mains", True, source=VERIFIED),
    Look(_BEFORE, "Spindle turns by hand several turns without a tight spot; each slide over its whole travel",
         kinds=_TURNS),
    Look(_BEFORE, "Ram taken by hand through several whole strokes without a tight spot; rail and table over their "
         "whole travel", kinds=_SHAPER),
    Look(_BEFORE, "Table barred over its whole stroke without a tight spot; rail and heads over their whole travel",
         kinds=_PLANER),
    Look(_BEFORE, "Everything that turns or slides taken by hand over its whole travel without a tight spot",
         kinds=(MachineKind.OTHER,)),
    Look(_BEFORE, "Oil at every level glass, and seen at every point that can be seen"),
    Look(_BEFORE, "Threaded chuck locked, or never reversed or braked", "chuck", kinds=_LATHE),
    Look(_BEFORE, "Feeds, half nuts and back gear out of engagement; carriage clear of chuck and tailstock",
         kinds=_LATHE),
    Look(_BEFORE, "Drawbar, and arbor nut where there is one, tight and spanner off; every slide that is not "
         "to move locked; power feeds out of engagement", "guards", kinds=_MILL),
    Look(_BEFORE, "Stroke set short, ram clamp tight, tool clear of work and vice through the whole stroke",
         "guards", kinds=_SHAPER),
    Look(_BEFORE, "Stroke-setting shaft locked and its crank handle off; clapper free; feed pawl out of engagement",
         "guards", kinds=_SHAPER),
    Look(_BEFORE, "Dogs set for a short stroke and tight, end stops in place, tool clear of work through the whole "
         "stroke", "guards", kinds=_PLANER),
    Look(_BEFORE, "Chuck key out, quill spring brings the spindle up by itself, table clamp tight, work held against "
         "turning", "guards", kinds=_DRILL),
    Look(_BEFORE, "Wheel ring-tested, guard on, stand aside for its first minute", "grinding-wheel", kinds=_GRINDER),
    Look(_BEFORE, "Speed on the wheel's own label not below the spindle's; flanges clean; work holding proved",
         "grinding-wheel", kinds=_GRINDER),
    Look(_BEFORE, "Guards on, chuck key out, nothing loose on the ways, belt and covers closed", "guards",
         kinds=_LATHE, source=CLEARED),
    Look(_BEFORE, "Guards on, keys and spanners out, nothing loose on the ways, belt and covers closed", "guards",
         kinds=_NO_CHUCK, source=CLEARED),
    Look(_BEFORE, "Everyone else clear of it, and told that it is about to run", "lockout", source=CLEAR_OF),
    Look(_BEFORE, "Lock and tag taken off last, by the one who put them on", "lockout", source=LOCK_OFF),
    Look(_FIRST, "Motor alone first, belt off: direction of turning proved", "mains"),
    Look(_FIRST, "Touched on and off; stop at any noise, smell or heat; one hand, and someone within call", "mains"),
    Look(_FIRST, "Current in each phase read and set against the plate", "mains", True),
    Look(_AFTER, "Joints re-torqued cold, gibs and bearing play read again"),
    Look(_AFTER, "Level read again after hours, days and a month"),
    Look(_AFTER, "Oil drained warm, looked at for metal, changed"),
)  # fmt: skip
_SOURCES = {look.text: look.source for look in _LOOKS}


def usual_looks(kind: str) -> tuple[Look, ...]:
    """The looks for a kind of machine, in order.

    >>> words = " ".join(look.text for look in usual_looks("shaper"))
    >>> "stroke" in words, "chuck" in words
    (True, False)
    """
    return tuple(look for look in _LOOKS if not look.kinds or kind in look.kinds)


def where_from(text: str) -> str:
    """Where a look comes from, with its status; empty for one of the owner's own.

    >>> where_from("Lock and tag taken off last, by the one who put them on")
    '29 CFR 1910.147, control of hazardous energy, (e)(3) (published)'
    """
    source = _SOURCES.get(text)
    return source.cite() if source is not None else ""
