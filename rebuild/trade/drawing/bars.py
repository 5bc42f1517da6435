"""Parts that are filed or milled, not turned: key (plain or stepped) and gib strip."""

from __future__ import annotations

import math

from rebuild.errors import BadEntry
from rebuild.trade.drawing.ink import Arc, Draft, Drawing, Layer, Point, Side
from rebuild.trade.drawing.measure import Given
from rebuild.trade.sizes.show import show_both


def key(given: Given, unit: str) -> Drawing:
    """A parallel key seen from above and from its end; with ``hub width`` a step key.

    Raises:
        BadEntry: a size is missing or impossible.

    >>> from rebuild.trade.drawing.measure import Measure
    >>> typed = {"width": 8.0, "height": 7.0, "length": 40.0}
    >>> sizes = {role: Measure(role, size) for role, size in typed.items()}
    >>> key(Given("part", sizes), "mm").dimension("length").measured_mm
    40.0
    """
    width, height, length = (given.need(role) for role in ("width", "height", "length"))
    round_ends = given.maybe("end radius") is not None
    draft = Draft("Key")
    _plan(draft, width.at_mm, length.at_mm, round_ends)
    draft.along("length", length, 0, length.at_mm, -width.at_mm / 2)
    hub = given.maybe("hub width")
    gap = max(2.5 * width.at_mm, 0.25 * length.at_mm)
    left = length.at_mm + gap
    half = height.at_mm / 2
    if hub is None:
        draft.box(Layer.OUTLINE, left, -half, left + width.at_mm, half)
        draft.along("width", width, left, left + width.at_mm, -half)
        right = left + width.at_mm
    else:
        right = _stepped(draft, given, unit, left, width.at_mm, height.at_mm)
        draft.along("width", width, *_centred(left, right, width.at_mm), -half)
        draft.along("hub width", hub, *_centred(left, right, hub.at_mm), half, Side.TOP)
    draft.height("height", height, right, -half, half, Side.RIGHT)
    if round_ends:
        draft.note((0.0, 0.0), "ends round", side=Side.TOP)
    return draft.close()


def _centred(left: float, right: float, wide: float) -> tuple[float, float]:
    middle = (left + right) / 2
    return middle - wide / 2, middle + wide / 2


def _plan(draft: Draft, width: float, length: float, round_ends: bool) -> None:
    half = width / 2
    if not round_ends:
        draft.box(Layer.OUTLINE, 0, -half, length, half)
        return
    if length <= width:
        raise BadEntry("is not longer than it is wide, so its ends cannot be round.", where="Length")
    draft.line(Layer.OUTLINE, (half, half), (length - half, half))
    draft.line(Layer.OUTLINE, (half, -half), (length - half, -half))
    draft.strokes.append(Arc(Layer.OUTLINE, (half, 0.0), half, 90, 270))
    draft.strokes.append(Arc(Layer.OUTLINE, (length - half, 0.0), half, -90, 90))
    draft.line(Layer.CENTRE, (-0.1 * width, 0), (length + 0.1 * width, 0))


def _stepped(draft: Draft, given: Given, unit: str, left: float, width: float, height: float) -> float:
    """The end of a step key: the shaft's width below, the hub's above."""
    hub, lower = given.need("hub width").at_mm, given.need("lower height")
    if lower.at_mm >= height:
        raise BadEntry(
            f"is not below the whole height of {show_both(height, unit)}.",
            where=lower.name,
            value=show_both(lower.at_mm, unit),
            way_out="Give the height up to the step.",
        )
    middle, half, step = left + max(width, hub) / 2, height / 2, lower.at_mm - height / 2
    a, b = width / 2, hub / 2
    corners: list[Point] = [
        (-a, -half),
        (a, -half),
        (a, step),
        (b, step),
        (b, half),
        (-b, half),
        (-b, step),
        (-a, step),
        (-a, -half),
    ]
    draft.run(Layer.OUTLINE, [(middle + x, y) for x, y in corners])
    draft.height("lower height", lower, left, -half, step, Side.LEFT)
    return left + max(width, hub)


def gib(given: Given, unit: str) -> Drawing:
    """A gib strip, straight or tapered: from above, from the side, and its end with the dovetail's angle.

    Raises:
        BadEntry: a size is missing, or the thin end is the thicker one.

    >>> from rebuild.trade.drawing.measure import Measure
    >>> typed = {"length": 300.0, "width": 40.0, "thick end": 8.0, "thin end": 6.0}
    >>> sizes = {role: Measure(role, size) for role, size in typed.items()}
    >>> gib(Given("part", sizes), "mm").dimension("thin end").measured_mm
    6.0
    """
    length, width, thick = (given.need(role) for role in ("length", "width", "thick end"))
    thin = given.maybe("thin end")
    if thin is not None and thin.at_mm > thick.at_mm + 1e-9:
        raise BadEntry(
            f"is thicker than the thick end, {show_both(thick.at_mm, unit)}.",
            where=thin.name,
            value=show_both(thin.at_mm, unit),
            way_out="Change the two round.",
        )
    angle = given.mm("dovetail angle", 90.0)
    if not 30 <= angle <= 90:
        raise BadEntry("is not between 30 and 90°.", where="Dovetail angle", value=f"{angle:g}")
    draft = Draft("Gib strip")
    far = thin.at_mm if thin is not None else thick.at_mm
    gap = 1.2 * width.at_mm + thick.at_mm
    draft.run(
        Layer.OUTLINE,
        [(0, gap), (length.at_mm, gap), (length.at_mm, gap + far), (0, gap + thick.at_mm), (0, gap)],
    )
    draft.box(Layer.OUTLINE, 0, 0, length.at_mm, width.at_mm)
    draft.along("length", length, 0, length.at_mm, 0)
    draft.height("thick end", thick, 0, gap, gap + thick.at_mm, Side.LEFT)
    if thin is not None:
        draft.height("thin end", thin, length.at_mm, gap, gap + far, Side.RIGHT)
        rate = (thick.at_mm - thin.at_mm) / length.at_mm
        if rate > 0:
            draft.note((length.at_mm / 2, gap + (thick.at_mm + far) / 2), f"taper 1:{1 / rate:.4g}")
    draft.height("width", width, 0, 0, width.at_mm, Side.LEFT)
    _gib_end(draft, width.at_mm, thick.at_mm, angle, length.at_mm)
    return draft.close()


def _gib_end(draft: Draft, width: float, thick: float, angle: float, length: float) -> None:
    """The end of the strip, drawn where its shape can be seen."""
    left = length + 0.8 * width + thick
    lean = width / math.tan(math.radians(angle)) if angle < 90 else 0.0
    along = thick / math.sin(math.radians(angle))
    corners = [
        (left, 0.0),
        (left + along, 0.0),
        (left + along + lean, width),
        (left + lean, width),
        (left, 0.0),
    ]
    draft.run(Layer.OUTLINE, corners)
    if angle < 90:
        draft.note((left + along + lean / 2, width / 2), f"{angle:g}°", side=Side.BOTTOM)
