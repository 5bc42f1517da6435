"""Tap drills: the hole for a wanted percentage of full thread, and the drills that come near it.

Two conventions are in use for "100 %": twice 0.6495 P = 1.299 P (older charts, from the full V-form height of
the screw) and 1.0825 P (the thread height of today's profile). The same 1/4-20 hole of 0.201 in is 75 % by the
first and 90 % by the second, so both are always shown. Charts' usual column is 75 % by 1.299 P.
"""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.errors import BadEntry
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.shop.drills import Drill, drills
from rebuild.trade.sizes.given import number_of, text_of, whole_of, word_of
from rebuild.trade.sizes.own_unit import both, said
from rebuild.trade.sizes.show import show_both
from rebuild.trade.threads.designation import ThreadDesignation, parse_designation
from rebuild.trade.threads.form import form
from rebuild.trade.threads.lookup import limits_of
from rebuild.trade.threads.series import System
from rebuild.trade.threads.sizes import Side

OLDER, TODAY = "1.299P", "1.0825P"
CONVENTIONS = (OLDER, TODAY)
_RULE = Source("percentage of thread", "hole = D - percent x double height", Status.COMMON_PRACTICE)
_SIXTY = (System.UNIFIED, System.METRIC)
_CUT_DIRECTLY = (System.ACME, System.STUB_ACME, System.TRAPEZOIDAL)


@dataclass(frozen=True, slots=True)
class DrillChoice:
    """One drill for the hole: percent of thread by both conventions; within the nut's minor limits or not.

    A 60° thread has two conventions; ``one_height`` is the only one of any other form, a multiple of the pitch.
    """

    drill: Drill
    percent_older: float
    percent_today: float
    within_limits: bool
    one_height: float | None = None

    @property
    def shares(self) -> str:
        """The percentages with what each is of."""
        if self.one_height is not None:
            return f"{self.percent_older:.0f} % of {self.one_height:.4g} P, the whole thread"
        return f"{self.percent_older:.0f} % of 1.299 P, {self.percent_today:.0f} % of 1.0825 P"


@dataclass(frozen=True, slots=True)
class TapDrill:
    """The hole worked out [mm], the nut's minor diameter limits, and drills near it, nearest first."""

    designation: str
    hole_mm: float
    percent: float
    convention: str
    minor_low_mm: float
    minor_high_mm: float
    choices: tuple[DrillChoice, ...]
    hundred: str = OLDER


def percent_of_thread(
    major_mm: float, pitch_mm: float, hole_mm: float, convention: str = OLDER, system: System = System.UNIFIED
) -> float:
    """Percent of full thread a hole leaves.

    Raises:
        BadEntry: no such convention, or the hole is not inside the thread.

    >>> round(percent_of_thread(6.35, 1.27, 0.201 * 25.4), 1)
    75.4
    >>> round(percent_of_thread(6.35, 1.27, 0.201 * 25.4, "1.0825P"), 1)
    90.5
    """
    major_mm, pitch_mm = number_of("Diameter", major_mm), number_of("Pitch", pitch_mm, above=0)
    hole_mm = number_of("Hole", hole_mm)
    if not 0 < hole_mm < major_mm:
        raise BadEntry(
            f"is not between zero and the major diameter of {said(major_mm)}.",
            where="Hole",
            value=said(hole_mm),
            way_out="Check the unit.",
        )
    return 100 * (major_mm - hole_mm) / (_double_height(system, convention) * pitch_mm)


def hole_for_percent(
    major_mm: float, pitch_mm: float, percent: float, convention: str = OLDER, system: System = System.UNIFIED
) -> float:
    """Hole diameter for a percent of full thread [mm].

    Raises:
        BadEntry: no such convention, or the percentage is not between 1 and 120.

    >>> round(hole_for_percent(25.4, 3.175, 75) / 25.4, 4)
    0.8782
    """
    major_mm, pitch_mm = number_of("Diameter", major_mm, above=0), number_of("Pitch", pitch_mm, above=0)
    percent = number_of("Percent of thread", percent)
    if not 1 <= percent <= 120:
        raise BadEntry("is not between 1 and 120 %.", where="Percent of thread", value=f"{percent:g}")
    return major_mm - percent / 100 * _double_height(system, convention) * pitch_mm


def _double_height(system: System, convention: str) -> float:
    """Twice the height called 100 %, as a multiple of the pitch; 55° and BA forms have only one."""
    system = word_of("Thread system", system, System)
    if text_of("Convention", convention) not in CONVENTIONS:
        raise BadEntry(
            "is not a convention for percent of thread.",
            where="Convention",
            value=convention,
            way_out=f"Conventions: {', '.join(CONVENTIONS)}.",
        )
    if system in _SIXTY and convention == TODAY:
        return 1.08253175
    return 2 * form(system).full_height


def tap_drill(
    designation: str, percent: float | None = None, convention: str = OLDER, *, near: int = 5
) -> Worked[TapDrill]:
    """The hole to drill before tapping, and the drills nearest to it.

    Args:
        designation: as ``parse_designation`` takes, e.g. ``1/4-20 UNC`` or ``M8x1.25``.
        percent: of full thread, by ``convention``; left out, 75 (80 for the shallower-tolerance British forms).
        convention: ``1.299P`` or ``1.0825P`` (60° threads; the British forms have one height).
        near: how many drills to list.

    Raises:
        BadEntry: not a designation; a thread that is bored and cut, not tapped (Acme, trapezoidal).
        OutOfRange: outside the standard's sizes.

    >>> found = tap_drill("1/4-20 UNC").value
    >>> found.choices[0].drill.name, round(found.hole_mm / 25.4, 4)
    ('No. 7', 0.2013)
    """
    thread, near = parse_designation(designation), whole_of("Drills near", near, least=1)
    if thread.system in _CUT_DIRECTLY:
        raise BadEntry(
            f"is an {thread.system.value} thread: bore it to its minor diameter, there is no tap drill.",
            where="Thread",
            value=designation,
            way_out="Use the bore before threading.",
        )
    sheet = Sheet(f"Tap drill for {thread.name}")
    if percent is None:
        percent = 75.0 if thread.system in _SIXTY else 80.0
    hole = hole_for_percent(thread.nominal_mm, thread.pitch_mm, percent, convention, thread.system)
    factor = _double_height(thread.system, convention)
    sheet.read("thread", f"D {thread.nominal_mm:.4f} mm, P {thread.pitch_mm:.4f} mm")
    text = f"D - {percent / 100:g} x {factor:.4f} P = {show_both(hole, thread.unit)}"
    sheet.equation("hole", text, _RULE)
    low, high = _minor_limits(sheet, thread)
    choices = _choices(thread, hole, (low, high), near)
    for choice in choices:
        sheet.result(choice.drill.name, _line(choice), choice.drill.source)
    _notes(sheet, thread)
    hundred = convention if thread.system in _SIXTY else f"{factor:.4g} P, the whole thread"
    value = TapDrill(thread.name, hole, percent, convention, low, high, choices, hundred)
    return Worked(value, sheet.close())


def _minor_limits(sheet: Sheet, thread: ThreadDesignation) -> tuple[float, float]:
    nut = limits_of(thread, Side.INTERNAL).value
    low, high = nut.minor.low_mm, nut.minor.high_mm
    assert low is not None
    assert high is not None
    sheet.result("minor diameter of the nut", f"{nut.minor.text(nut.decimals)} ({nut.thread_class})")
    return low, high


def _choices(
    thread: ThreadDesignation, hole: float, limits: tuple[float, float], near: int
) -> tuple[DrillChoice, ...]:
    every = [*drills("inch"), *drills("metric")]
    nearest = sorted(every, key=lambda drill: (abs(drill.mm - hole), drill.series))[:near]
    low, high = limits
    return tuple(
        DrillChoice(
            drill,
            percent_of_thread(thread.nominal_mm, thread.pitch_mm, drill.mm, OLDER, thread.system),
            percent_of_thread(thread.nominal_mm, thread.pitch_mm, drill.mm, TODAY, thread.system),
            low - 1e-6 <= drill.mm <= high + 1e-6,
            None if thread.system in _SIXTY else _double_height(thread.system, OLDER),
        )
        for drill in nearest
        if drill.mm < thread.nominal_mm
    )


def _line(choice: DrillChoice) -> str:
    place = "inside" if choice.within_limits else "outside"
    return f"{show_both(choice.drill.mm, 'in')}: {choice.shares}; {place} the limits"


def _notes(sheet: Sheet, thread: ThreadDesignation) -> None:
    if thread.system in _SIXTY:
        sheet.note(
            "Percent of thread has two conventions, 1.299 P and 1.0825 P; a chart's 75 % means the first. "
            "Printed columns for other percentages are often wrong: compute them.",
            _RULE,
        )
    if thread.system is System.METRIC:
        rule = both(thread.nominal_mm - thread.pitch_mm)
        sheet.note(f"Shop rule for metric threads: D - P = {rule}, 77 % of 1.299 P.", _RULE)
    sheet.note("A drill cuts over its size: try it in scrap when the limits are close.", _RULE)
