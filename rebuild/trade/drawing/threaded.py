"""Nut and screw: turned parts whose thread matters most."""

from __future__ import annotations

import math

from rebuild.errors import BadEntry
from rebuild.trade.drawing.ink import Draft, Drawing, Layer, Point, Side
from rebuild.trade.drawing.measure import Given
from rebuild.trade.drawing.profile import (
    axis,
    cylinder,
    flange_sizes,
    note_chamfers,
    refuse_longer,
    section,
    solid,
    thread_lines,
)
from rebuild.trade.drawing.thread_shown import ThreadShown
from rebuild.trade.sizes.show import show_both


def nut(given: Given, unit: str, thread: ThreadShown | None = None) -> Drawing:
    """A round nut, plain or with a flange on its left; holes of the flange in a view from the left.

    Raises:
        BadEntry: a size is missing, or the thread is bigger than the body.

    >>> from rebuild.trade.drawing.measure import Measure
    >>> typed = {"body diameter": 36.0, "bore": 16.5, "length": 40.0}
    >>> sizes = {role: Measure(role, size) for role, size in typed.items()}
    >>> nut(Given("nut", sizes), "mm", ThreadShown("Tr 20x4", 20.5, 16.5)).dimension("body diameter").measured_mm
    36.0
    """
    body, bore, length = (given.need(role) for role in ("body diameter", "bore", "length"))
    flange, thick = given.maybe("flange diameter"), given.mm("flange thickness")
    if thread is None:
        raise BadEntry(
            "is not given yet.", where="Thread", way_out="Type it on the sheet, e.g. 1-8 ACME or Tr 20x4."
        )
    thread.refuse_no_wall(body.at_mm, body.name, unit)
    refuse_longer(thick, length.at_mm, "Flange thickness", "length", unit)
    draft = Draft("Nut")
    long = length.at_mm
    start = thick if flange is not None else 0.0
    chamfer = min((thread.major_mm - bore.at_mm) / 2, long / 4)
    outer = cylinder(start, long, body.at_mm)
    if flange is not None:
        outer = [*cylinder(0, start, flange.at_mm), *outer]
    mouth = bore.at_mm / 2 + chamfer
    inner = [(0.0, mouth), (chamfer, bore.at_mm / 2), (long - chamfer, bore.at_mm / 2), (long, mouth)]
    section(draft, outer, inner)
    thread_lines(draft, 0, long, thread.major_mm)
    axis(draft, 0, long)
    through = flange is not None and given.maybe("hole circle") is not None
    draft.across(
        "body diameter",
        body,
        0.85 * long if through else long,
        Side.TOP if through else Side.RIGHT,
        inline=through,
    )
    draft.across("bore", bore, chamfer, Side.LEFT)
    draft.along("length", length, 0, long, -(flange or body).at_mm / 2)
    draft.note((0.6 * long, thread.major_mm / 2), *thread.lines)
    if flange is not None:
        flange_sizes(draft, flange, given.need("flange thickness"))
        _flange_view(draft, given, unit, flange.at_mm, thread, long)
    return draft.close()


def _flange_view(
    draft: Draft, given: Given, unit: str, flange: float, thread: ThreadShown, long: float
) -> None:
    """The flange seen along the axis, with its holes on their circle."""

    hole, circle = given.maybe("flange hole"), given.maybe("hole circle")
    count = round(given.mm("number of holes", 4.0))
    if hole is None or circle is None:
        return
    if circle.at_mm + hole.at_mm >= flange or count < 1:
        raise BadEntry(
            f"does not fit on the flange of {show_both(flange, unit)}.",
            where=circle.name,
            value=show_both(circle.at_mm, unit),
            way_out="Mend the hole circle, the holes or the flange.",
        )
    middle = (long + 0.75 * flange + 0.25 * long, 0.0)
    draft.circle(Layer.OUTLINE, middle, flange)
    draft.circle(Layer.OUTLINE, middle, thread.minor_mm)
    draft.circle(Layer.THREAD, middle, thread.major_mm)
    draft.circle(Layer.CENTRE, middle, circle.at_mm)
    draft.cross(middle, flange)
    for number in range(count):
        angle = math.radians(360 * number / count + (45 if count == 4 else 90))
        x, y = middle[0] + circle.at_mm / 2 * math.cos(angle), circle.at_mm / 2 * math.sin(angle)
        draft.circle(Layer.OUTLINE, (x, y), hole.at_mm)
        if number == 0:
            draft.note(
                (x, y + hole.at_mm / 2),
                f"{count} holes {hole.lines(unit, diameter=True)[0]}",
                f"on {circle.lines(unit, diameter=True)[0]}",
            )


def screw(given: Given, unit: str, thread: ThreadShown | None = None) -> Drawing:
    """A feed screw or threaded end, left to right: journal, collar, thread, end journal. Only the thread is needed.

    Raises:
        BadEntry: a size is missing, or the thread is bigger than the blank.

    >>> from rebuild.trade.drawing.measure import Measure
    >>> typed = {"thread diameter": 20.0, "thread length": 300.0}
    >>> sizes = {role: Measure(role, size) for role, size in typed.items()}
    >>> screw(Given("screw", sizes), "mm", ThreadShown("Tr 20x4", 20.0, 15.5)).dimension("thread length").measured_mm
    300.0
    """
    if thread is None:
        raise BadEntry("is not given yet.", where="Thread", way_out="Type it on the sheet, e.g. 3/4-5 ACME.")
    major, length = given.need("thread diameter"), given.need("thread length")
    thread.refuse_bigger_than(major.at_mm, major.name, unit, room_mm=0.5)
    chamfer = given.mm("end chamfer")
    draft = Draft("Screw")
    runs = [
        (f"{word} diameter", f"{word} length")
        for word in ("journal", "collar")
        if given.maybe(f"{word} diameter") is not None
    ]
    runs.append(("thread diameter", "thread length"))
    if given.maybe("end journal diameter") is not None:
        runs.append(("end journal diameter", "end journal length"))
    contour: list[Point] = []
    at = 0.0
    biggest = max(given.need(role).at_mm for role, _ in runs)
    for number, (role, long) in enumerate(runs):
        diameter, reach = given.need(role), given.need(long)
        last = number == len(runs) - 1
        contour += cylinder(
            at, at + reach.at_mm, diameter.at_mm, chamfer if number == 0 else 0.0, chamfer if last else 0.0
        )
        if role == "thread diameter":
            thread_lines(draft, at, at + reach.at_mm, thread.minor_mm)
            draft.note((at + 0.5 * reach.at_mm, -diameter.at_mm / 2), *thread.lines, side=Side.BOTTOM)
        inline = at + reach.at_mm * (0.35 if role == "thread diameter" else 0.5)
        draft.across(role, diameter, inline, Side.TOP, inline=True)
        draft.along(long, reach, at, at + reach.at_mm, -biggest / 2)
        at += reach.at_mm
    solid(draft, contour)
    axis(draft, 0, at)
    note_chamfers(draft, (at, contour[-1][1]), chamfer, unit)
    refuse_longer(length.at_mm, at, "Thread length", "screw", unit)
    return draft.close()
