"""From a designation to its limits: the one door for fasteners, features and making sheets."""

from __future__ import annotations

from dataclasses import replace

from rebuild.errors import BadEntry
from rebuild.trade.results.working import Step, StepKind, Worked, Working
from rebuild.trade.sizes.given import record_of, word_of
from rebuild.trade.threads import acme, ba, metric, stub_acme, trapezoidal, unified, whitworth
from rebuild.trade.threads.designation import ThreadDesignation, parse_designation
from rebuild.trade.threads.series import System
from rebuild.trade.threads.sizes import Side, ThreadLimits

#: The class taken when none is written: (screw, nut).
USUAL = {
    System.UNIFIED: ("2A", "2B"),
    System.METRIC: ("6g", "6H"),
    System.ACME: ("2G", "2G"),
    System.STUB_ACME: ("2G", "2G"),
    System.TRAPEZOIDAL: ("7e", "7H"),
    System.WHITWORTH: ("medium", "normal"),
    System.BA: ("normal", "normal"),
}
_NUT_FOR = {
    "1A": "1B", "2A": "2B", "3A": "3B", "4h": "5H", "8g": "7H", "7e": "7H", "8e": "8H", "8c": "8H",
    "9c": "9H", "9e": "9H", "7c": "7H", "close": "medium", "free": "normal", "medium": "normal",
}  # fmt: skip
_SCREW_FOR = {
    "1B": "1A", "2B": "2A", "3B": "3A", "4H": "4h", "5H": "4h", "7H": "8g", "7G": "8g", "normal": "medium",
}  # fmt: skip
_TR_SCREW_FOR = {"7H": "7e", "8H": "8e", "9H": "9c"}


def for_designation(text: str, side: Side | str | None = None) -> Worked[ThreadLimits]:
    """The limits of the thread a designation names.

    Args:
        text: e.g. ``3/8-16 UNC-2B``, ``M8``, ``7/16-10 LH ACME``.
        side: ``external`` or ``internal``. Left out, the class decides (2B is a nut), else the screw. When the
            written class belongs to the other side, its usual mate is taken and said.

    Raises:
        BadEntry: not a designation, or a class of another system.
        Ambiguous: two honest readings.
        OutOfRange: outside the standard's sizes.

    >>> for_designation("3/8-16 UNC-2B").value.minor
    Band(low=0.307, high=0.321, unit='in')
    >>> for_designation("7/16-10 LH ACME", "internal").value.minor
    Band(low=0.3375, high=0.3425, unit='in')
    """
    return limits_of(parse_designation(text), side)


def limits_of(thread: ThreadDesignation, side: Side | str | None = None) -> Worked[ThreadLimits]:
    """The limits of a parsed designation; see ``for_designation``.

    >>> limits_of(parse_designation("1/2-13 UNC-2A")).value.major
    Band(low=0.4876, high=0.4985, unit='in')
    """
    written = _side_of_class(record_of("Thread", thread, ThreadDesignation))
    wanted = word_of("Side", side, Side) if side is not None else written or Side.EXTERNAL
    cls, note = _class_for(thread, written, wanted)
    worked = _limits(thread, cls, wanted)
    steps = [Step(StepKind.NOTE, "", note)] if note else []
    if thread.left_hand:
        steps.append(Step(StepKind.NOTE, "", "Left-hand: the limits are those of the right-hand thread."))
    named = worked.value.named(replace(thread, thread_class=cls if note or thread.thread_class else "").name)
    working = Working(worked.working.title, (*worked.working.steps, *steps))
    return Worked(named, working)


def _limits(thread: ThreadDesignation, cls: str, side: Side) -> Worked[ThreadLimits]:
    d_in, tpi = thread.nominal_in, thread.tpi
    if tpi is None:
        if thread.system is System.METRIC:
            return metric.limits(thread.nominal_mm, thread.pitch_mm, cls)
        if thread.system is System.TRAPEZOIDAL:
            return trapezoidal.limits(thread.nominal_mm, thread.pitch_mm, cls, thread.starts)
        return ba.limits(int(thread.size), cls, side=side)
    if thread.system is System.UNIFIED:
        return unified.limits(d_in, tpi, cls)
    if thread.system is System.ACME:
        return acme.limits(d_in, tpi, cls, side=side, starts=thread.starts)
    if thread.system is System.STUB_ACME:
        return stub_acme.limits(d_in, tpi, cls, side=side, starts=thread.starts)
    if thread.system is System.WHITWORTH:
        return whitworth.limits(d_in, tpi, cls, side=side)
    raise BadEntry(
        "is a pipe thread; its limits are not carried here.",
        where="Thread",
        value=thread.text,
        way_out="Use its own standard (ISO 228-1, ASME B1.20.1).",
    )


def _side_of_class(thread: ThreadDesignation) -> Side | None:
    cls = thread.thread_class
    if not cls:
        return None
    if thread.system is System.UNIFIED:
        return Side.EXTERNAL if cls.endswith("A") else Side.INTERNAL
    if thread.system in (System.METRIC, System.TRAPEZOIDAL):
        return Side.INTERNAL if cls[-1].isupper() else Side.EXTERNAL
    if thread.system is System.WHITWORTH:
        return {"free": Side.EXTERNAL, "normal": Side.INTERNAL}.get(cls)
    return None


def _class_for(thread: ThreadDesignation, written: Side | None, wanted: Side) -> tuple[str, str]:
    """The class to use and, when it is not the one written, a line that says so."""
    cls = thread.thread_class
    if thread.system not in USUAL:
        return "", ""
    usual = USUAL[thread.system][0 if wanted is Side.EXTERNAL else 1]
    if not cls:
        return usual, f"No class is written: {usual} is taken."
    if written in (None, wanted):
        return cls, ""
    if wanted is Side.INTERNAL:
        mate = _NUT_FOR.get(cls, usual)
    elif thread.system is System.TRAPEZOIDAL:
        mate = _TR_SCREW_FOR.get(cls, usual)
    else:
        mate = _SCREW_FOR.get(cls, usual)
    return mate, f"Class {cls} belongs to the other side; its usual mate {mate} is taken."
