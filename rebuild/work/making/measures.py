"""A size of a making sheet as it is stored: nominal and limits, each with the text that reads back to it."""

from __future__ import annotations

from rebuild.model.records.making import MakingDimension
from rebuild.trade.drawing.measure import Measure
from rebuild.trade.sizes.quantity import Size
from rebuild.trade.sizes.show import exact_text


def measure_of(row: MakingDimension) -> Measure:
    """A stored size."""
    return Measure(row.name, row.nominal_mm, row.low_mm, row.high_mm)


def put_measure(row: MakingDimension, measure: Measure, unit: str, *, text: str | None = None) -> None:
    """Store a size that was worked out, with the text that reads back to it."""
    for stem, mm in (("nominal", measure.nominal_mm), ("low", measure.low_mm), ("high", measure.high_mm)):
        put_size(row, stem, None if mm is None else Size(exact_text(mm, unit), unit, mm))
    row.size_text = spec_words(measure, unit) if text is None else text


def spec_words(measure: Measure, unit: str) -> str:
    """A size as one would type it: ``0.8136-0.814``, ``40 ±0.3``.

    >>> spec_words(Measure("length", 40.0, 39.7, 40.3), "mm")
    '40 ±0.3'
    """
    nominal, low, high = (
        None if mm is None else exact_text(mm, unit)
        for mm in (measure.nominal_mm, measure.low_mm, measure.high_mm)
    )
    evenly = measure.plus_minus_mm
    if evenly is not None:
        return f"{nominal} ±{exact_text(round(evenly, 9), unit)}"
    if low is not None and high is not None:
        return f"{low}-{high}"
    if nominal is not None:
        return nominal
    if high is not None:
        return f"max {high}"
    return f"min {low}" if low is not None else ""


def put_size(row: MakingDimension, stem: str, size: Size | None) -> None:
    setattr(row, f"{stem}_text", size.text if size else None)
    setattr(row, f"{stem}_unit", size.unit if size else None)
    setattr(row, f"{stem}_mm", size.mm if size else None)
