"""The controls a machine of each kind usually has, and whether a turn moves what it should."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.trade.results.door import door
from rebuild.words.controls import ControlKind
from rebuild.words.machines import MachineKind
from rebuild.words.run_in import LookWhen

#: A lead is a whole thread or a gear ratio: a wrong one differs by far more, a measured one by far less.
#: Common practice, no source.
SAME_WITHIN = 0.02


@dataclass(frozen=True, slots=True)
class UsualControl:
    """A control to look for: what it does, and when it can first be proved."""

    name: str
    kind: ControlKind
    does: str
    due: LookWhen = LookWhen.BEFORE_POWER


_K, _FIRST = ControlKind, LookWhen.FIRST_POWER
_ALL = (
    UsualControl("main switch", _K.SWITCH, "starts and stops the motor", _FIRST),
    UsualControl("emergency stop", _K.STOP, "stops everything, stays in until it is released", _FIRST),
)
_LATHE = (
    UsualControl("carriage handwheel", _K.HANDWHEEL, "moves the carriage along the bed"),
    UsualControl("cross slide crank", _K.CRANK, "moves the cross slide"),
    UsualControl("top slide crank", _K.CRANK, "moves the top slide"),
    UsualControl("half-nut lever", _K.LEVER, "closes the half nuts on the leadscrew"),
    UsualControl("feed clutch", _K.CLUTCH, "engages the power feed; slips or throws out at a stop"),
    UsualControl("feed direction lever", _K.LEVER, "turns the leadscrew and feed rod round, or to neutral"),
    UsualControl("back gear lever", _K.LEVER, "engages the back gears, spindle standing"),
    UsualControl("bull gear pin", _K.LOCK, "ties pulley and bull gear; out for the back gear"),
    UsualControl("tailstock handwheel", _K.HANDWHEEL, "moves the quill; throws the centre out at its end"),
    UsualControl("quill lock", _K.LOCK, "holds the quill"),
    UsualControl("carriage lock", _K.LOCK, "holds the carriage for facing"),
)
_SHAPER = (
    UsualControl("stroke adjusting shaft", _K.CRANK, "sets the length of the stroke, ram standing"),
    UsualControl("ram position lock", _K.LOCK, "holds the ram on its block where the stroke is placed"),
    UsualControl("head feed crank", _K.CRANK, "moves the tool slide down"),
    UsualControl("cross feed crank", _K.CRANK, "moves the table along the rail"),
    UsualControl("rail elevating crank", _K.CRANK, "raises and lowers the rail, clamps loose"),
    UsualControl("feed reversing knob", _K.KNOB, "turns the pawl round, or lifts it out"),
    UsualControl("clutch lever", _K.CLUTCH, "starts and stops the ram; out, the brake holds it"),
)
_MILL = (
    UsualControl("table crank", _K.CRANK, "moves the table lengthwise"),
    UsualControl("saddle crank", _K.CRANK, "moves the saddle in and out"),
    UsualControl("knee crank", _K.CRANK, "raises and lowers the knee"),
    UsualControl("back gear lever", _K.LEVER, "engages the back gear, spindle standing"),
    UsualControl("table locks", _K.LOCK, "hold the table"),
)
_GRINDER = (
    UsualControl("table handwheel", _K.HANDWHEEL, "moves the table lengthwise"),
    UsualControl("cross feed handwheel", _K.HANDWHEEL, "moves the saddle in and out"),
    UsualControl("down feed handwheel", _K.HANDWHEEL, "moves the wheel head down"),
    UsualControl("fine feed knob", _K.KNOB, "moves the wheel head by its finest division"),
    UsualControl("table reverse dogs", _K.STOP, "turn the table round at the ends of its stroke"),
)
_DRILL = (
    UsualControl("feed lever", _K.LEVER, "moves the quill down; its spring brings it back up"),
    UsualControl("depth stop", _K.STOP, "ends the travel of the quill"),
    UsualControl("quill lock", _K.LOCK, "holds the quill"),
    UsualControl("table crank", _K.CRANK, "raises and lowers the table, clamp loose"),
    UsualControl("table clamp", _K.LOCK, "holds the table on the column"),
    UsualControl("back gear lever", _K.LEVER, "engages the back gear, spindle standing"),
)
_BY_KIND: dict[MachineKind, tuple[UsualControl, ...]] = {
    MachineKind.LATHE: _LATHE,
    MachineKind.SHAPER: _SHAPER,
    MachineKind.PLANER: (
        UsualControl("table reverse dogs", _K.STOP, "turn the table round at the ends of its stroke"),
        UsualControl("rail elevating crank", _K.CRANK, "raises and lowers the rail, clamps loose"),
        UsualControl("head feed crank", _K.CRANK, "moves the tool slide down"),
        UsualControl("clutch lever", _K.CLUTCH, "starts and stops the table"),
    ),
    MachineKind.MILL: _MILL,
    MachineKind.SURFACE_GRINDER: _GRINDER,
    MachineKind.DRILL: _DRILL,
}


def usual_controls(kind: MachineKind) -> tuple[UsualControl, ...]:
    """What the hand takes hold of on a machine of that kind; common practice, no source.

    >>> [one.name for one in usual_controls(MachineKind.OTHER)]
    ['main switch', 'emergency stop']
    """
    return (*_BY_KIND.get(kind, ()), *_ALL)


@door()
def same_travel(should_mm: float, moved_mm: float) -> bool:
    """Whether a turn moved what it should [mm], within ``SAME_WITHIN`` of it, direction left out.

    Raises:
        OutOfRange, BadEntry: not finite numbers.

    >>> same_travel(2.54, 2.53), same_travel(2.54, 2.5)
    (True, True)
    >>> same_travel(5.0, 6.0)
    False
    """
    return abs(abs(moved_mm) - abs(should_mm)) <= SAME_WITHIN * abs(should_mm)
