"""Flatness of a bench plate by eight lines of steps (both diagonals, four edges, two centre lines).

Moody, J. C., "How to calibrate surface plates in the plant", The Tool Engineer, October 1955. Each diagonal is laid so
that its middle is zero and its ends are level; each edge is laid between the corners the diagonals gave; each centre
line between the middles of the edges. A centre line should then pass through zero in the middle: what is left is the
closure, the check on the whole work. Heights are given above the lowest point.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from rebuild.errors import BadEntry
from rebuild.trade.geometry.steps import heights_of
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Worked, Working

MOODY = Source("Moody 1955, The Tool Engineer", "calibration of surface plates by eight lines")
DIAGONALS = ("NW_SE", "NE_SW")
EDGES = ("NE_NW", "SE_SW", "NE_SE", "NW_SW")
CENTRES = ("E_W", "N_S")
LINES = DIAGONALS + EDGES + CENTRES
#: Which edges a centre line runs between, first end and second.
_BETWEEN = {"E_W": ("NE_SE", "NW_SW"), "N_S": ("NE_NW", "SE_SW")}


@dataclass(frozen=True, slots=True)
class PlateFlatness:
    """Heights [mm] along each line above the lowest point of all, the flatness, and both closures.

    ``heights_mm`` lay each centre line between the edges it ends on, and show what is left in the middle.
    ``centred_mm`` moves it so that its middle is the middle of the diagonals, as the paper prints it: its ends then
    miss the edges by the closure instead. ``flatness_centred_mm`` is the flatness of those.
    """

    heights_mm: Mapping[str, tuple[float, ...]]
    flatness_mm: float
    closure_mm: Mapping[str, float]
    centred_mm: Mapping[str, tuple[float, ...]]
    flatness_centred_mm: float


def line_words(name: str) -> str:
    """What a line is called: one of the eight from where to where, any other by its own name.

    >>> line_words("NW_SE"), line_words("way_2")
    ('NW to SE', 'way_2')
    """
    return name.replace("_", " to ") if name in LINES else name


@door()
def plate_flatness(
    slopes_um_per_m: Mapping[str, Sequence[float]], step_mm: float, allowed_closure_mm: float | None = None
) -> Worked[PlateFlatness]:
    """Heights of a plate from step readings along its eight lines.

    Args:
        slopes_um_per_m: by line name (``LINES``: from the first corner or side to the second), an even number of steps.
        step_mm: bridge length [mm].

    Raises:
        BadEntry: a line missing, an odd number of steps, or a closure beyond ``allowed_closure_mm``.

    >>> dome = dict.fromkeys(DIAGONALS + CENTRES, (10.0, -10.0)) | dict.fromkeys(EDGES, (0.0, 0.0))
    >>> found = plate_flatness(dome, 100.0).value  # 10 µm/m up and down over 100 mm: 1 µm high in the middle
    >>> round(found.flatness_mm, 6), round(found.closure_mm["E_W"], 9)
    (0.001, 0.0)
    """
    raw = {name: heights_of(_even(slopes_um_per_m, name), step_mm).value.height_mm for name in LINES}
    laid: dict[str, list[float]] = {}
    corners: dict[str, float] = {}
    for name in DIAGONALS:
        laid[name] = _level_about_middle(raw[name])
        first, second = name.split("_")
        corners[first], corners[second] = laid[name][0], laid[name][-1]
    for name in EDGES:
        first, second = name.split("_")
        laid[name] = _between(raw[name], corners[first], corners[second])
    closure = {}
    for name in CENTRES:
        start, end = (laid[edge][len(laid[edge]) // 2] for edge in _BETWEEN[name])
        laid[name] = _between(raw[name], start, end)
        closure[name] = laid[name][len(laid[name]) // 2]
    _refuse_open(closure, allowed_closure_mm)
    heights, flatness = _above_lowest(laid)
    moved = {name: [value - closure.get(name, 0.0) for value in line] for name, line in laid.items()}
    centred, flatness_centred = _above_lowest(moved)
    found = PlateFlatness(heights, flatness, closure, centred, flatness_centred)
    return Worked(found, _working(slopes_um_per_m, step_mm, found))


def _above_lowest(laid: Mapping[str, Sequence[float]]) -> tuple[dict[str, tuple[float, ...]], float]:
    """Heights above the lowest of all, and the highest of them."""
    lowest = min(min(line) for line in laid.values())
    heights = {name: tuple(value - lowest for value in line) for name, line in laid.items()}
    return heights, max(max(line) for line in heights.values())


def _even(slopes: Mapping[str, Sequence[float]], name: str) -> Sequence[float]:
    line = slopes.get(name, ())
    if not line or len(line) % 2:
        what = "has no readings." if not line else f"has {len(line)} steps; its middle must be a station."
        raise BadEntry(what, where=f"Line {line_words(name)}", way_out="Take an even number of steps.")
    return line


def _level_about_middle(heights: Sequence[float]) -> list[float]:
    """Tilted so that both ends are alike, and shifted so that the middle is zero."""
    steps = len(heights) - 1
    tilt = (heights[-1] - heights[0]) / steps
    level = [height - tilt * at for at, height in enumerate(heights)]
    return [height - level[steps // 2] for height in level]


def _between(heights: Sequence[float], start: float, end: float) -> list[float]:
    steps = len(heights) - 1
    tilt = ((end - start) - (heights[-1] - heights[0])) / steps
    return [height - heights[0] + start + tilt * at for at, height in enumerate(heights)]


def _refuse_open(closure: Mapping[str, float], allowed: float | None) -> None:
    for name, value in closure.items():
        if allowed is not None and abs(value) > allowed:
            raise BadEntry(
                f"misses the middle by {value * 1000:+.2f} µm, more than {allowed * 1000:g} µm.",
                where=f"Line {line_words(name)}",
                way_out="Run the centre lines again, then the edges they end on; nothing is trimmed for you.",
            )


def _working(slopes: Mapping[str, Sequence[float]], step_mm: float, found: PlateFlatness) -> Working:
    sheet = Sheet("Flatness of a plate by eight lines")
    for name in LINES:
        sheet.read(line_words(name), f"{len(slopes[name])} steps of {step_mm:g} mm")
    sheet.equation("diagonals", "ends alike, middle zero; edges laid between the corners", MOODY)
    for name, value in found.closure_mm.items():
        sheet.equation(f"closure {name.replace('_', ' to ')}", f"{value * 1000:+.3f} µm at the middle", MOODY)
    sheet.note(
        "The paper moves a centre line so that its middle is zero; here it is laid between the edges it ends on, and "
        f"what is left in the middle is shown. Moved as the paper does it, the flatness is "
        f"{found.flatness_centred_mm * 1000:.3f} µm.",
        MOODY,
    )
    sheet.result("flatness", f"{found.flatness_mm * 1000:.3f} µm from the lowest to the highest station")
    return sheet.close()
