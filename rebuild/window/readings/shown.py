"""A grid row prepared once for showing: its strings, its shape and its zone picture."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from rebuild.trade.limits.judgement import ON_THE_LINE_MM, Verdict
from rebuild.trade.limits.share import share_beyond
from rebuild.trade.sizes.quantity import FACTORS
from rebuild.trade.sizes.show import DECIMALS, exact_text, show_number
from rebuild.window.ink.shapes import Shape, shape_for
from rebuild.window.ink.zone_scale import FROM_ZERO, Drawn, Placed, place
from rebuild.window.readings.columns import STAGE_COLUMNS, Column, stage_of
from rebuild.words.readings import STAGES
from rebuild.work.readings.rows_grid import GridRow, ReadingRow

_UNIT_TAIL = re.compile(r"\s*(?:[A-Za-zµμ]+\.?|\"|''|″|”)\s*$")
#: Blanks as wide as a digit and as a point.
DIGIT_BLANK, POINT_BLANK = "\N{FIGURE SPACE}", "\N{PUNCTUATION SPACE}"
_PLAIN_NUMBER = re.compile(r"[-+−]?[\d.,]*\d[.,]?")


@dataclass(frozen=True, slots=True)
class Shown:
    """What the model hands out for one row. ``faint`` marks columns in secondary ink, by bit."""

    row: GridRow
    unit: str
    texts: tuple[str, ...]
    faint: int
    shape: Shape | None
    placed: Placed | None


def prepare(row: GridRow, unit_for: Callable[[str], str]) -> Shown:
    """Prepare a row; ``unit_for`` maps the feature's own unit to the one shown."""
    unit = unit_for(row.unit)
    speaking = row.speaking
    texts = [""] * len(Column)
    texts[Column.PART] = f"{row.part_code}  {row.part_name}".strip()
    texts[Column.FEATURE] = row.feature
    texts[Column.KIND] = row.kind.value
    texts[Column.STATION] = row.station
    texts[Column.UNIT] = unit
    texts[Column.SPEC] = spec_text(row, unit)
    faint = 1 << Column.UNIT | 1 << Column.KIND
    for column, reading in zip(STAGE_COLUMNS, row.readings, strict=True):
        if reading is not None:
            texts[column] = reading_text(reading, unit)
            if reading is not speaking:
                faint |= 1 << column
    texts[Column.OFF] = off_text(row, unit)
    if texts[Column.OFF][:1] not in ("+", "-"):
        faint |= 1 << Column.OFF
    verdict = row.judgement.verdict if row.judgement is not None else None
    texts[Column.VERDICT] = verdict.value if verdict is not None else ""
    shape = shape_for(verdict) if verdict is not None and verdict is not Verdict.NO_SPEC else None
    return Shown(row, unit, tuple(texts), faint, shape, place(drawn(row)))


def drawn(row: GridRow) -> Drawn:
    """What the zone picture of a row shows."""
    speaking = row.speaking
    return Drawn(
        row.low_mm,
        row.high_mm,
        row.nominal_mm,
        speaking.value_mm if speaking is not None else None,
        row.judgement.U_mm if row.judgement is not None else None,
        row.kind in FROM_ZERO,
    )


def reading_text(reading: ReadingRow, unit: str) -> str:
    """The number as typed when it was typed in ``unit``; the mean of repeats and other units worked out.

    Of a thread read over wires it is the pitch diameter, which is what the spec beside it speaks of.

    The row's unit stands in its own column, so cells hold numbers a column of which can be compared.
    """
    if reading.repeats == 1 and reading.read_mm is None and reading.unit == unit and unit in FACTORS:
        bare = _UNIT_TAIL.sub("", reading.typed).strip()
        if bare and "'" not in bare:
            return bare
    return show_number(reading.value_mm, unit)


def after_point(text: str, unit: str) -> str:
    """What a number lacks behind its point of what is usual in its unit, as blanks as wide as digits.

    Put behind it in a column that ends at the right, it brings point under point; a fraction is left alone.

    >>> [len(after_point(text, "mm")) for text in ("59.985", "60.0", "60", "1/2", "12.70051")]
    [0, 2, 4, 0, 0]
    """
    if not _PLAIN_NUMBER.fullmatch(text) or unit not in DECIMALS:
        return ""
    _whole, point, digits = text.partition(".")
    return ("" if point else POINT_BLANK) + DIGIT_BLANK * max(0, DECIMALS[unit] - len(digits))


def spec_text(row: GridRow, unit: str) -> str:
    """The spec as typed, or its limits worked out in another unit."""
    if unit == row.unit:
        return row.spec_text
    low, high = row.low_mm, row.high_mm
    if low is not None and high is not None:
        return f"{show_number(low, unit)} to {show_number(high, unit)}"
    if high is not None:
        return f"max {show_number(high, unit)}"
    if low is not None:
        return f"min {show_number(low, unit)}"
    return show_number(row.nominal_mm, unit) if row.nominal_mm is not None else ""


def off_text(row: GridRow, unit: str) -> str:
    """How far the speaking reading is beyond its limits, signed (``+0.012``), or plain: what is left inside."""
    speaking = row.speaking
    if speaking is None or (row.low_mm is None and row.high_mm is None):
        return ""
    value, low, high = speaking.value_mm, row.low_mm, row.high_mm
    if high is not None and value > high + ON_THE_LINE_MM:
        return _small(value - high, unit, sign=True)
    if low is not None and value < low - ON_THE_LINE_MM:
        return _small(value - low, unit, sign=True)
    return _small(min(abs(value - limit) for limit in (low, high) if limit is not None), unit)


def margin_text(shown: Shown) -> str:
    """What stands under *margin*: what is left, plain; what is off with sign, word and share of the tolerance."""
    text = shown.texts[Column.OFF]
    if text[:1] not in ("+", "-"):
        return text
    row, speaking = shown.row, shown.row.speaking
    share = share_beyond(speaking.value_mm, row.low_mm, row.high_mm) if speaking is not None else None
    return f"{text} off" if share is None else f"{text} off, {_times(share)}"


def _times(share: float) -> str:
    """How many times its tolerance a size is off: two figures tell one row from the next.

    >>> _times(0.042), _times(5.23), _times(31.4)
    ('0.04×', '5.2×', '31×')
    """
    return f"{share:.2f}×" if share < 1 else f"{share:.1f}×" if share < 10 else f"{share:.0f}×"


def verdict_text(shown: Shown) -> str:
    """The verdict in words, and that the instrument was too coarse for more."""
    text = shown.texts[Column.VERDICT]
    judged = shown.row.judgement
    return f"{text}, coarse" if judged and judged.too_coarse and judged.verdict is Verdict.UNDECIDED else text


def _small(mm: float, unit: str, *, sign: bool = False) -> str:
    """A difference with the usual digits, or one more where those would show nothing of it."""
    usual = show_number(mm, unit, sign=sign)
    return usual if usual.strip("+-0.") else show_number(mm, unit, DECIMALS[unit] + 1, sign=sign)


def copy_text(shown: Shown, column: int) -> str:
    """A cell as a spreadsheet takes it: plain decimals, never a fraction it would turn into a date."""
    text = shown.texts[column]
    stage = stage_of(column)
    if stage is None or not text or _PLAIN_NUMBER.fullmatch(text):
        return text
    reading = shown.row.readings[STAGES.index(stage)]
    return exact_text(reading.value_mm, shown.unit) if reading is not None else text
