"""A figure's answers and limits as the Figures page shows them, in the unit of the one who asks first."""

from __future__ import annotations

from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_EVEN, Decimal
from math import ceil, log10

from rebuild.trade.results.figured import Answer, HolesLine, SpecLine
from rebuild.trade.sizes.length_units import INCH_UNITS
from rebuild.trade.sizes.show import in_unit, show_length
from rebuild.work.readings.rows_grid import GridRow


def shown(answer: Answer, unit: str = "mm") -> tuple[str, str]:
    """A result as text: lengths in both systems, ``unit`` first, everything else in its unit."""
    if answer.unit == "mm" and isinstance(answer.value, float | int):
        places = answer.decimals
        metric = show_length(answer.value, "mm", places)
        inch = show_length(answer.value, "in", (places or 3) + 2)
        return (inch, metric) if unit in INCH_UNITS else (metric, inch)
    if answer.unit == "µm" and isinstance(answer.value, float):
        texts = (_of_the_metric(answer), f"{in_unit(answer.value / 1000, 'thou'):.3g} thou")
        return texts[::-1] if unit in INCH_UNITS else texts
    if isinstance(answer.value, float):
        places = 3 if answer.decimals is None else answer.decimals
        return f"{answer.value:.{places}f} {answer.unit}".strip(), ""
    return f"{answer.value} {answer.unit}".strip(), ""


def _of_the_metric(answer: Answer) -> str:
    places = 3 if answer.decimals is None else answer.decimals
    return f"{answer.value:.{places}f} {answer.unit}"


def headings(unit: str) -> list[str]:
    return ["Answer", "Value", "mm" if unit in INCH_UNITS else "in", "Note"]


def named(row: GridRow) -> str:
    return f"{row.part_code} {row.part_name}".strip() + f", {row.feature}"


def in_order(unit: str) -> tuple[str, str]:
    """The two systems, the one of ``unit`` first."""
    return ("in", "mm") if unit in INCH_UNITS else ("mm", "in")


def as_spec(line: SpecLine, unit: str = "mm") -> str:
    """Limits as spec text in ``unit`` (mm or in), the way a person would type it.

    As many decimals as the tolerance is worth, a twentieth of it, rounded inward: what is taken never allows more than
    what was worked out.
    """
    low, high = line.low_mm, line.high_mm
    if low is None and high is None and line.nominal_mm is not None:
        return f"{_rounded(line.nominal_mm, unit, _places(low, high, unit), ROUND_HALF_EVEN)} {unit}"
    places = _places(low, high, unit)
    texts = (
        None if low is None else _rounded(low, unit, places, ROUND_CEILING),
        None if high is None else _rounded(high, unit, places, ROUND_FLOOR),
    )
    if texts[0] is not None and texts[1] is not None:
        return f"{texts[0]} to {texts[1]} {unit}"
    return f"max {texts[1]} {unit}" if texts[1] is not None else f"min {texts[0]} {unit}"


def as_detail(line: HolesLine, unit: str) -> tuple[str, dict[str, str]]:
    """A circle of holes as the typed fields of a making sheet's detail, sizes in ``unit``.

    A sheet counts its angle from the top, clockwise; the handbook from the x axis, the other way.
    """
    texts = [f"{in_unit(mm, unit):.7g} {unit}" for mm in (line.circle_mm, line.hole_mm or 0.0)]
    return "bolt circle", {
        "circle": texts[0],
        "size": texts[1],
        "count": str(line.holes),
        "around_deg": f"{(90 - line.first_deg) % 360:.6g}",
        "note": line.places,
    }


def _places(low_mm: float | None, high_mm: float | None, unit: str) -> int:
    """Decimals of a limit: what a shop reads, and more where the tolerance is finer."""
    least = 4 if unit in INCH_UNITS else 3
    if low_mm is None or high_mm is None or not high_mm > low_mm:
        return least + 1
    return min(6, max(least, ceil(-log10(in_unit(high_mm - low_mm, unit) / 20))))


def _rounded(mm: float, unit: str, places: int, way: str) -> str:
    """A limit with its noise of the ninth decimal taken off, rounded one way."""
    exact = Decimal(f"{in_unit(mm, unit):.9f}").quantize(Decimal(1).scaleb(-places), rounding=way)
    return f"{exact:f}".rstrip("0").rstrip(".") if "." in f"{exact:f}" else f"{exact:f}"
