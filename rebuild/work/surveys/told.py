"""What is found of a survey, in sentences: the same on the screen and in the book."""

from __future__ import annotations

from collections.abc import Iterator

from rebuild.trade.sizes.show import show_length
from rebuild.work.surveys.data import LineResult, SurveyResult


def told(result: SurveyResult, unit: str) -> Iterator[str]:
    """What is found of a survey as a whole, in sentences."""
    for twist in result.twists:
        doubt = f" ± {twist.U_mm_per_m:.3f}" if twist.U_mm_per_m is not None else ""
        allowed = f", limit {result.data.allowed_mm:g}" if result.data.allowed_mm is not None else ""
        verdict = f": {twist.judgement.verdict}" if twist.judgement is not None else ""
        effect = ""
        if twist.effect_mm is not None:
            effect = (
                f" Turned work changes by {small_words(max(twist.effect_mm) - min(twist.effect_mm), unit)}."
            )
        yield (
            f"{twist.name}: twist {twist.span_mm_per_m:.3f}{doubt} mm/m over the length read{allowed}{verdict}.{effect}"
        )
    if result.both is not None:
        both = result.both
        larger = "larger" if both.worst.diameter_error_mm > 0 else "smaller"
        at = show_length(both.worst_at_mm, unit, 0 if unit == "mm" else 1)
        yield (
            f"Both ways: work turns {small_words(abs(both.worst.diameter_error_mm), unit)} {larger} at {at}, "
            f"{small_words(max(both.effect_mm) - min(both.effect_mm), unit)} from least to most; "
            f"guided by the {both.guide}. Each way is taken from its own reference line: "
            "an even twist of the whole bed is not in it."
        )
    if result.plate is not None:
        closure = max(abs(value) for value in result.plate.closure_mm.values())
        yield (
            f"Flat within {small_words(result.plate.flatness_mm, unit)}; closure {small_words(closure, unit)} "
            "at the middle of the centre lines."
        )
        yield (
            f"With the centre lines moved so that their middle is zero, as the paper prints them: flat within "
            f"{small_words(result.plate.flatness_centred_mm, unit)}."
        )
    for line in result.lines:
        yield from _errors(line, unit)


def _errors(line: LineResult, unit: str) -> Iterator[str]:
    """What is found of a leadscrew or a dial."""
    verdict = f": {line.verdict}" if line.judgement is not None else ""
    if line.lead is not None:
        over = show_length(line.lead.over_mm, unit, 0 if unit == "mm" else 1)
        yield (
            f"{line.line.name}: {small_words(line.lead.worst_mm, unit)} wrong over {over}, from "
            f"{show_length(line.lead.worst_from_mm, unit, 0 if unit == 'mm' else 1)} on{verdict}; "
            f"{small_words(line.lead.even_mm, unit)} of it grows evenly, "
            f"{small_words(line.lead.left_mm, unit)} does not."
        )
    if line.dial is not None:
        yield (
            f"{line.line.name}: within {small_words(line.dial.whole_mm, unit)} over a turn{verdict}; runs out ± "
            f"{small_words(line.dial.wave_mm, unit)}, highest at {line.dial.highest_deg:.0f}°; "
            f"{small_words(line.dial.even_mm, unit)} over the turn is screw against divisions."
        )


def doubt_words(line: LineResult, unit: str) -> str:
    """The expanded uncertainty with its factor, or why there is none."""
    if line.U_mm is None:
        return "one run only, no instrument"
    told = f"{small_words(line.U_mm, unit)} (k={line.k:.3g})"
    return told if line.judgement is None or line.judgement.complete else f"{told}, at least"


def effect_words(line: LineResult, unit: str) -> str:
    """What a way alone does to the diameter where it is worn most."""
    if line.drop is None:
        return ""
    larger = "larger" if line.drop.diameter_error_mm >= 0 else "smaller"
    return f"{small_words(abs(line.drop.diameter_error_mm), unit)} {larger}"


def small_words(mm: float, unit: str) -> str:
    """A deviation in µm, or in five places of an inch."""
    return show_length(mm, "µm") if unit == "mm" else show_length(mm, "in", 5)
