"""Which curves a survey is drawn as: off the line, metal to remove, or what it does to the work."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from PySide6.QtGui import QColor

from rebuild.trade.geometry.flatness import line_words
from rebuild.trade.sizes.show import in_unit, show_length
from rebuild.window.ink import theme
from rebuild.work.surveys.data import LineResult, SurveyResult


class Shown(StrEnum):
    """What is drawn of a survey."""

    DEVIATION = "off the line"
    REMOVE = "metal to remove"
    WORK = "effect on the work"


@dataclass(frozen=True, slots=True)
class Curve:
    """One line in the units shown; ``bars`` are half lengths (U), ``at`` tells its stroke and mark."""

    name: str
    at: int
    values: tuple[tuple[float, float], ...]
    bars: tuple[float, ...] = ()
    faint: bool = False

    @property
    def colour(self) -> QColor:
        """Ink; what it is compared with is faint."""
        return theme.ink().faint if self.faint else theme.ink().ink


@dataclass(frozen=True, slots=True)
class CurveSet:
    """The curves of one picture, the words of its axes, the band of its limits, and whether it is metal."""

    curves: tuple[Curve, ...] = ()
    along: str = ""
    up: str = ""
    band: tuple[float, float] | None = None
    band_words: str = ""
    metal: bool = False

    @property
    def stations(self) -> tuple[float, ...]:
        """Where the stations of all curves lie, in order."""
        return tuple(sorted({round(place, 6) for curve in self.curves for place, _up in curve.values}))


def curve_set(now: SurveyResult | None, before: SurveyResult | None, shown: Shown, unit: str) -> CurveSet:
    """The curves of a survey and of the one it is compared with."""
    small, along = ("µm", "mm") if unit == "mm" else ("thou", "in")
    if now is None:
        return CurveSet()
    tails = (f", {now.data.stage}", f", {before.data.stage}") if before is not None else ("", "")
    if tails[0] == tails[1]:
        tails = ("", ", before") if before is not None else tails
    curves = [*_curves(before, shown, small, along, tails[1], faint=True)] if before is not None else []
    curves += _curves(now, shown, small, along, tails[0], faint=False)
    band, words = _band(now, shown, small)
    slope = bool(now.twists) and shown is not Shown.WORK
    up = _UP[shown] if not now.twists else "level across, less the first"
    if shown is Shown.WORK:
        up = "on the turned diameter"
    elif any(line.lead is not None or line.dial is not None for line in now.lines):
        up = "error"
    return CurveSet(
        tuple(curves),
        f"along the line [{along}]",
        f"{up} [{'mm/m' if slope else small}]",
        band if curves else None,
        words,
        shown is Shown.REMOVE,
    )


_UP = {
    Shown.DEVIATION: "from the reference line",
    Shown.REMOVE: "to remove, above the lowest",
    Shown.WORK: "",
}


def _curves(
    result: SurveyResult, shown: Shown, small: str, along: str, tail: str, *, faint: bool
) -> Iterator[Curve]:
    """The lines of a result that could be worked out, each keeping its place among all."""
    for at, twist in enumerate(result.twists):
        values = twist.effect_mm if shown is Shown.WORK else twist.off_mm_per_m
        doubt = twist.U_mm_per_m if shown is not Shown.WORK else None
        if values is not None:
            scaled = [in_unit(value, small) if shown is Shown.WORK else value for value in values]
            places = [in_unit(place, along) for place in twist.at_mm]
            bars = (doubt,) * len(values) if doubt is not None else ()
            yield Curve(f"{twist.name}{tail}", at, tuple(zip(places, scaled, strict=True)), bars, faint)
    if shown is Shown.WORK:
        if result.both is not None:
            places = [in_unit(place, along) for place in result.both.at_mm]
            effect = [in_unit(value, small) for value in result.both.effect_mm]
            yield Curve(
                f"front and rear together{tail}", 0, tuple(zip(places, effect, strict=True)), (), faint
            )
        return
    for at, line in enumerate(result.lines):
        if line.heights is not None:
            yield _curve(line, at, shown, small, along, tail, faint=faint)


def _curve(
    line: LineResult, at: int, shown: Shown, small: str, along: str, tail: str, *, faint: bool
) -> Curve:
    heights = line.heights
    assert heights is not None
    shape = heights.height_mm
    if line.found is not None:
        shape = line.found.to_remove_mm if shown is Shown.REMOVE else line.found.residual_mm
    values = zip(heights.at_mm, shape, strict=True)
    bars = tuple(in_unit(line.k * u, small) for u in heights.u_mm) if shown is Shown.DEVIATION else ()
    return Curve(
        line_words(line.line.name) + tail,
        at,
        tuple((in_unit(place, along), in_unit(height, small)) for place, height in values),
        bars,
        faint,
    )


def _band(now: SurveyResult, shown: Shown, small: str) -> tuple[tuple[float, float] | None, str]:
    """What is allowed, laid about the middle of the line that goes farthest."""
    allowed = now.data.allowed_mm
    if allowed is None or shown is Shown.WORK or now.plate is not None:
        return None, ""
    if now.twists:
        worst = max(now.twists, key=lambda twist: twist.span_mm_per_m)
        middle = (max(worst.off_mm_per_m) + min(worst.off_mm_per_m)) / 2
        return (middle - allowed / 2, middle + allowed / 2), f"limit {allowed:g} mm/m"
    words = f"limit {show_length(allowed, small)}"
    if shown is Shown.REMOVE:
        return (0.0, in_unit(allowed, small)), words
    spans = [
        (max(values) - min(values), (max(values) + min(values)) / 2)
        for line in now.lines
        if (values := _values(line))
    ]
    if not spans:
        return None, ""
    middle = max(spans)[1]
    return (in_unit(middle - allowed / 2, small), in_unit(middle + allowed / 2, small)), words


def _values(line: LineResult) -> tuple[float, ...]:
    if line.found is not None:
        return line.found.residual_mm
    return line.heights.height_mm if line.heights is not None else ()
