"""Running in: the steps up to top speed, and bearing temperatures against a limit of stated origin."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise

from rebuild.errors import BadEntry
from rebuild.trade.charts.settling import fit_creep
from rebuild.trade.results.cautions import attach
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.run_in.kinds import goes_to_and_fro

#: What a hand can just be held on; where nothing else is known.
HAND_C = 60.0
HAND_ORIGIN = "about what a hand can just be held on"
#: Steady: less than this in the last quarter of an hour.
STEADY_K, STEADY_MIN = 1.0, 15.0
#: A rise faster than this in the last ten minutes asks for a stop and a look.
FAST_K_PER_MIN = 1.5
STEPS = (("slowest speed, oil seen", 0.0, 20.0), ("a quarter of the top speed", 0.25, 20.0),
         ("half of the top speed", 0.5, 30.0), ("three quarters", 0.75, 30.0), ("top speed", 1.0, 60.0))  # fmt: skip


class Heat(StrEnum):
    """What a bearing's temperature says."""

    NOT_READ = "not read"
    RISING = "still rising"
    STEADY = "steady"
    FAST = "rising fast"
    OVER = "over the limit"


@dataclass(frozen=True, slots=True)
class Heated:
    """A bearing in one step: its last and highest temperature [°C], and where it is heading."""

    heat: Heat
    last_C: float | None
    highest_C: float | None
    end_C: float | None
    text: str


@door()
def heated(
    minutes: Sequence[float], celsius: Sequence[float], limit_C: float | None, origin: str = ""
) -> Worked[Heated]:
    """Judge the temperature of one bearing through one step.

    Args:
        minutes: since the start of the step, rising.
        celsius: readings [°C].
        limit_C: the highest allowed [°C]; None: not known.
        origin: where that limit comes from.

    Raises:
        BadEntry: readings out of order.

    >>> heated([0, 10, 20], [20, 31, 62], 60).value.heat.value
    'over the limit'
    >>> heated([0, 20, 40, 60], [20, 35, 39, 39.5], 60).value.heat.value
    'steady'
    """
    _refuse(minutes, celsius)
    sheet = Sheet("Bearing temperature")
    if limit_C is not None:
        sheet.read("limit", f"{limit_C:g} °C", Source(origin or "as entered", status=Status.JUDGEMENT))
    else:
        sheet.note("No limit is given: only the course is judged.")
    attach(sheet, "preload")
    if not celsius:
        return Worked(Heated(Heat.NOT_READ, None, None, None, "not read yet"), sheet.close())
    curve = fit_creep(minutes, celsius)
    end = (
        curve.end
        if curve is not None and curve.start < 0 and curve.tau_days < 3 * (minutes[-1] - minutes[0])
        else None
    )
    if end is not None and curve is not None:
        sheet.equation("heading for", f"{end:.1f} °C, time constant {curve.tau_days:.0f} min")
    found = _judge_heat(minutes, celsius, limit_C, end)
    sheet.result("", found.text)
    return Worked(found, sheet.close())


def _refuse(minutes: Sequence[float], celsius: Sequence[float]) -> None:
    if len(minutes) != len(celsius):
        raise BadEntry("has a temperature without its minute.", where="Bearing", way_out="Give both.")
    for at, (one, two) in enumerate(pairwise(minutes)):
        if two < one:
            raise BadEntry(
                f"is at {two:g} min, before the one above it at {one:g} min.",
                where=f"Temperature reading {at + 2}",
                way_out="Count the minutes from the start of the step.",
            )


def _judge_heat(
    minutes: Sequence[float], celsius: Sequence[float], limit: float | None, end: float | None
) -> Heated:
    last, highest = celsius[-1], max(celsius)
    rise = _rise(minutes, celsius, STEADY_MIN)
    fast = _rise(minutes, celsius, 10.0)
    if limit is not None and highest > limit:
        heat, text = (
            Heat.OVER,
            f"{highest:g} °C is over {limit:g} °C: stop, let it cool, ease the bearing or look at its oil",
        )
    elif fast is not None and fast[0] / fast[1] > FAST_K_PER_MIN:
        heat, text = Heat.FAST, f"rose {fast[0]:.0f} K in {fast[1]:.0f} min: stop and look at preload and oil"
    elif rise is not None and rise[1] >= STEADY_MIN and abs(rise[0]) <= STEADY_K:
        heat, text = Heat.STEADY, f"steady at {last:g} °C"
    else:
        heat, text = Heat.RISING, f"{last:g} °C, still rising"
    if heat is Heat.RISING and end is not None:
        text += f"; heading for about {end:.0f} °C"
        if limit is not None and end > limit:
            text += f", over the limit of {limit:g} °C"
    return Heated(heat, last, highest, end, text)


def _rise(minutes: Sequence[float], celsius: Sequence[float], window: float) -> tuple[float, float] | None:
    """Rise [K] and minutes from the newest reading at least ``window`` old, or from the first."""
    if len(minutes) < 2:
        return None
    start = max((at for at in range(len(minutes) - 1) if minutes[-1] - minutes[at] >= window), default=0)
    span = minutes[-1] - minutes[start]
    return (celsius[-1] - celsius[start], span) if span > 0 else None


@dataclass(frozen=True, slots=True)
class PlannedStep:
    """One step of a run-in as laid out: its words, speed, minutes and limit."""

    name: str
    speed_rpm: float | None
    minutes: float
    limit_C: float
    origin: str


@door()
def plan_run(slowest_rpm: float | None, top_rpm: float | None, kind: str = "") -> tuple[PlannedStep, ...]:
    """The usual steps up to a top speed; without speeds the words alone.

    A machine that goes to and fro (``kind``) has strokes a minute in place of turns.

    Raises:
        BadEntry: speeds that do not rise.

    >>> [step.speed_rpm for step in plan_run(25, 1000)]
    [25, 250.0, 500.0, 750.0, 1000.0]
    """
    for value in (slowest_rpm, top_rpm):
        if value is not None and not value > 0:
            raise BadEntry(
                "is not a speed.", where="Speed", value=f"{value:g}", way_out="Type turns a minute above 0."
            )
    if slowest_rpm is not None and top_rpm is not None and slowest_rpm > top_rpm:
        raise BadEntry(
            f"is above the top speed of {top_rpm:g}.",
            where="Slowest speed",
            value=f"{slowest_rpm:g}",
            way_out="Swap them.",
        )
    return tuple(
        PlannedStep(
            name.replace("speed", "stroke rate") if goes_to_and_fro(kind) else name,
            slowest_rpm
            if share == 0
            else None
            if top_rpm is None
            else max(top_rpm * share, slowest_rpm or 0.0),
            minutes,
            HAND_C,
            HAND_ORIGIN,
        )
        for name, share, minutes in STEPS
    )
