"""Parts drawn whole along their axis: stepped shaft, pin, taper pin, handle."""

from __future__ import annotations

from rebuild.errors import BadEntry
from rebuild.trade.drawing.ink import Draft, Drawing, Layer, Point, Side
from rebuild.trade.drawing.measure import Given, Measure, short_number
from rebuild.trade.drawing.profile import (
    axis,
    bow,
    cylinder,
    note_chamfers,
    refuse_longer,
    solid,
    thread_lines,
)
from rebuild.trade.drawing.thread_shown import ThreadShown
from rebuild.trade.sizes.show import show_both

MOST_STEPS = 6


def shaft(given: Given, unit: str, thread: ThreadShown | None = None) -> Drawing:
    """A shaft of up to six steps, left to right; a keyseat and a thread on its right end where given.

    Raises:
        BadEntry: a size is missing, or one does not fit into another.

    >>> from rebuild.trade.drawing.measure import Measure
    >>> typed = {"diameter 1": 20.0, "length 1": 50.0, "diameter 2": 16.0, "length 2": 30.0}
    >>> sizes = {role: Measure(role, size) for role, size in typed.items()}
    >>> shaft(Given("part", sizes), "mm").dimension("(overall)").measured_mm
    80.0
    """
    steps = _steps(given)
    chamfer = given.mm("end chamfer")
    draft = Draft("Shaft")
    contour: list[Point] = []
    at = 0.0
    places = []
    for number, (diameter, length) in enumerate(steps):
        left = chamfer if number == 0 else 0.0
        right = chamfer if number == len(steps) - 1 else 0.0
        refuse_longer(left + right, length.at_mm, "End chamfer", f"length {number + 1}", unit)
        contour += cylinder(at, at + length.at_mm, diameter.at_mm, left, right)
        places.append((at, at + length.at_mm))
        at += length.at_mm
    solid(draft, contour)
    axis(draft, 0, at)
    biggest = max(diameter.at_mm for diameter, _ in steps)
    for number, ((diameter, length), (x0, x1)) in enumerate(zip(steps, places, strict=True), 1):
        draft.across(f"diameter {number}", diameter, (x0 + x1) / 2, Side.TOP, inline=True)
        draft.along(f"length {number}", length, x0, x1, -biggest / 2)
    _overall(draft, steps, at, biggest)
    note_chamfers(draft, (at, steps[-1][0].at_mm / 2 - chamfer), chamfer, unit)
    _keyseat(draft, given, unit, at)
    if thread is not None:
        _end_thread(draft, given, unit, thread, steps[-1][0], at)
    return draft.close()


def _steps(given: Given) -> list[tuple[Measure, Measure]]:
    steps = [(given.need("diameter 1"), given.need("length 1"))]
    for number in range(2, MOST_STEPS + 1):
        diameter, length = given.maybe(f"diameter {number}"), given.maybe(f"length {number}")
        if diameter is None and length is None:
            continue
        steps.append((given.need(f"diameter {number}"), given.need(f"length {number}")))
    return steps


def _overall(draft: Draft, steps: list[tuple[Measure, Measure]], whole: float, biggest: float) -> None:
    """The whole length, for sawing off: in brackets, since the steps decide it."""
    if len(steps) > 1:
        measure = Measure("overall", nominal_mm=round(whole, 9))
        draft.along("(overall)", measure, 0, whole, -biggest / 2)


def _keyseat(draft: Draft, given: Given, unit: str, whole: float) -> None:
    width, length = given.maybe("keyseat width"), given.maybe("keyseat length")
    if width is None or length is None:
        return
    start = given.mm("keyseat from left end")
    refuse_longer(start + length.at_mm, whole, "Keyseat", "shaft", unit)
    half = width.at_mm / 2
    draft.box(Layer.OUTLINE, start, -half, start + length.at_mm, half)
    across = given.maybe("across to keyseat floor")
    wide = " to ".join(reversed(width.lines(unit)))
    deep = " to ".join(reversed(across.lines(unit))) if across is not None else ""
    draft.note(
        (start + length.at_mm, 0.0),
        f"keyseat {wide} wide,",
        f"{short_number(length.at_mm, unit)} long" + (f", {deep} across" if deep else ""),
        side=Side.BOTTOM,
    )


def _end_thread(
    draft: Draft, given: Given, unit: str, thread: ThreadShown, last: Measure, whole: float
) -> None:
    length = given.maybe("thread length")
    if length is None:
        return
    refuse_longer(length.at_mm, whole, "Thread length", "shaft", unit)
    thread.refuse_bigger_than(last.at_mm, last.name, unit)
    thread_lines(draft, whole - length.at_mm, whole, thread.minor_mm)
    half = last.at_mm / 2
    draft.line(Layer.OUTLINE, (whole - length.at_mm, -half), (whole - length.at_mm, half))
    draft.along("thread length", length, whole - length.at_mm, whole, half, Side.TOP)
    draft.note((whole - length.at_mm / 2, -half), thread.name, side=Side.BOTTOM)


def pin(given: Given, unit: str) -> Drawing:
    """A parallel pin.

    Raises:
        BadEntry: a size is missing or impossible.

    >>> from rebuild.trade.drawing.measure import Measure
    >>> typed = {"diameter": 6.0, "length": 30.0}
    >>> sizes = {role: Measure(role, size) for role, size in typed.items()}
    >>> pin(Given("part", sizes), "mm").dimension("diameter").measured_mm
    6.0
    """
    diameter, length = given.need("diameter"), given.need("length")
    chamfer = given.mm("chamfer")
    refuse_longer(2 * chamfer, min(length.at_mm, diameter.at_mm), "Both chamfers", "pin", unit)
    draft = Draft("Pin")
    solid(draft, cylinder(0, length.at_mm, diameter.at_mm, chamfer, chamfer))
    axis(draft, 0, length.at_mm)
    draft.across("diameter", diameter, 0, Side.LEFT)
    draft.along("length", length, 0, length.at_mm, -diameter.at_mm / 2)
    note_chamfers(draft, (length.at_mm, diameter.at_mm / 2 - chamfer), chamfer, unit)
    return draft.close()


def taper_pin(given: Given, unit: str) -> Drawing:
    """A taper pin, its big end on the left.

    Raises:
        BadEntry: a size is missing, or the pin does not taper.

    >>> from rebuild.trade.drawing.measure import Measure
    >>> typed = {"big end": 6.0, "small end": 5.2, "length": 40.0}
    >>> sizes = {role: Measure(role, size) for role, size in typed.items()}
    >>> taper_pin(Given("part", sizes), "mm").dimension("small end").measured_mm
    5.2
    """
    big, small, length = (given.need(role) for role in ("big end", "small end", "length"))
    if small.at_mm >= big.at_mm:
        raise BadEntry(
            f"is not smaller than the big end, {show_both(big.at_mm, unit)}.",
            where=small.name,
            value=show_both(small.at_mm, unit),
            way_out="Give the pin its number, and its ends follow.",
        )
    draft = Draft("Taper pin")
    solid(draft, [(0, big.at_mm / 2), (length.at_mm, small.at_mm / 2)])
    axis(draft, 0, length.at_mm)
    draft.across("big end", big, 0, Side.LEFT)
    draft.across("small end", small, length.at_mm, Side.RIGHT)
    draft.along("length", length, 0, length.at_mm, -big.at_mm / 2)
    rate = (big.at_mm - small.at_mm) / length.at_mm
    draft.note((length.at_mm / 2, (big.at_mm + small.at_mm) / 4), f"taper 1:{1 / rate:.3g} on diameter")
    return draft.close()


def handle(given: Given, unit: str, thread: ThreadShown | None = None) -> Drawing:
    """A machine handle: shank on the left, neck, belly, rounded end.

    Raises:
        BadEntry: a size is missing, or the belly is thinner than neck or end.

    >>> lengths = {"shank length": 20.0, "grip length": 70.0}
    >>> across = {"shank diameter": 10.0, "neck diameter": 12.0, "belly diameter": 24.0, "end diameter": 16.0}
    >>> typed = {**lengths, **across}
    >>> sizes = {role: Measure(role, size) for role, size in typed.items()}
    >>> handle(Given("handle", sizes), "mm").dimension("belly diameter").measured_mm
    24.0
    """
    shank, shank_long = given.need("shank diameter"), given.need("shank length")
    neck, belly, end = (given.need(role) for role in ("neck diameter", "belly diameter", "end diameter"))
    grip = given.need("grip length")
    for ring in (neck, end):
        if ring.at_mm > belly.at_mm:
            raise BadEntry(
                f"is thicker than the belly, {show_both(belly.at_mm, unit)}.",
                where=ring.name,
                value=show_both(ring.at_mm, unit),
                way_out="The belly is the thickest place of a handle.",
            )
    draft = Draft("Handle")
    at, whole = shank_long.at_mm, shank_long.at_mm + grip.at_mm
    middle = at + 0.6 * grip.at_mm
    solid(draft, cylinder(0, at, shank.at_mm))
    draft.line(Layer.OUTLINE, (at, -neck.at_mm / 2), (at, neck.at_mm / 2))
    bow(draft, (at, neck.at_mm / 2), (middle, belly.at_mm / 2), (whole, end.at_mm / 2))
    draft.line(Layer.OUTLINE, (whole, -end.at_mm / 2), (whole, end.at_mm / 2))
    axis(draft, 0, whole)
    draft.across("shank diameter", shank, 0, Side.LEFT)
    draft.across("neck diameter", neck, at, Side.TOP, inline=True)
    draft.across("belly diameter", belly, middle, Side.TOP, inline=True)
    draft.across("end diameter", end, whole, Side.RIGHT)
    draft.along("shank length", shank_long, 0, at, -belly.at_mm / 2)
    draft.along("grip length", grip, at, whole, -belly.at_mm / 2)
    if thread is not None:
        thread.refuse_bigger_than(shank.at_mm, shank.name, unit)
        thread_lines(draft, 0, at, thread.minor_mm)
        draft.note((at / 2, shank.at_mm / 2), thread.name)
    return draft.close()
