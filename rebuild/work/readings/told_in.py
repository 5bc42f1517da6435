"""A feature's spec and its readings as paper tells them: in the owner's unit first, what was typed behind it."""

from __future__ import annotations

from rebuild.trade.sizes.length_units import INCH_UNITS
from rebuild.trade.sizes.show import show_length
from rebuild.work.readings.rows_grid import GridRow, ReadingRow


def told_spec(row: GridRow, own: str) -> str:
    """The spec as typed; with its unit where that is not the page's, or ``35 k6`` would be read as inches."""
    if not row.spec_text or _alike(row.unit, own) or row.unit in row.spec_text.split():
        return row.spec_text
    return f"{row.spec_text} {row.unit}"


def told_reading(read: ReadingRow | None, own: str) -> str:
    """The reading as typed; read in the other system, in ``own`` (mm or in) with what was typed in brackets."""
    if read is None:
        return ""
    typed = read.typed if read.unit in read.typed else f"{read.typed} {read.unit}"
    if _alike(read.unit, own):
        return typed
    behind = f"; {read.how}" if read.read_mm is not None else ""
    return f"{show_length(read.value_mm, own)} ({typed}{behind})"


def _alike(one: str, other: str) -> bool:
    """Whether two units are both inches or both metric."""
    return (one in INCH_UNITS) == (other in INCH_UNITS)
