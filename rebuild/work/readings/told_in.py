"""A feature's spec and its readings as paper tells them: in the owner's unit first, what was typed behind it."""

from __future__ import annotations

import re

from rebuild.trade.sizes.length_units import INCH_UNITS
from rebuild.trade.sizes.show import show_length, show_number
from rebuild.work.readings.rows_grid import GridRow, ReadingRow

#: A class in a spec (``h5``, ``JS7``): it stands for figures.
_CLASS = re.compile(r"\b[A-Za-z]{1,2}\d{1,2}\b")


def told_spec(row: GridRow, own: str) -> str:
    """The spec as typed, with its limits in figures where a class stands for them: ``65 h5, 64.987 to 65.000``.

    With its unit where that is not the page's, or ``35 k6`` would be read as inches; figures are in the page's own.
    """
    spec, low, high = row.spec_text, row.low_mm, row.high_mm
    if spec and not _alike(row.unit, own) and row.unit not in spec.split():
        spec = f"{spec} {row.unit}"
    if low is not None and high is not None and _CLASS.search(spec):
        unit = row.unit if _alike(row.unit, own) else own
        spec = f"{spec}, {show_number(low, unit)} to {show_number(high, unit)}"
    return spec


def told_reading(read: ReadingRow | None, own: str) -> str:
    """The reading as typed; read in the other system, in ``own`` (mm or in) with what was typed in brackets."""
    if read is None:
        return ""
    if _alike(read.unit, own):
        return as_typed(read.typed, read.unit, read.value_mm)
    typed = read.typed if read.unit in read.typed else f"{read.typed} {read.unit}"
    behind = f"; {read.how}" if read.read_mm is not None else ""
    return f"{show_length(read.value_mm, own)} ({typed}{behind})"


def as_typed(typed: str, unit: str, value_mm: float) -> str:
    """A reading as typed, its unit behind it; one typed with other words is told by its number.

    >>> as_typed("64.98", "mm", 64.98), as_typed("64.98 mm", "mm", 64.98), as_typed("0.02 at the nose", "mm", 0.02)
    ('64.98 mm', '64.98 mm', '0.020 mm')
    """
    if not any(letter.isalpha() for letter in typed):
        return f"{typed} {unit}"
    bare = typed.casefold().replace(unit.casefold(), "")
    return show_length(value_mm, unit) if any(letter.isalpha() for letter in bare) else typed


def _alike(one: str, other: str) -> bool:
    """Whether two units are both inches or both metric."""
    return (one in INCH_UNITS) == (other in INCH_UNITS)
