"""What is wanted between the sides of a fit: the range typed, put on its row."""

from __future__ import annotations

from sqlalchemy import select

from rebuild.model.records.features import Feature
from rebuild.model.records.fits import Fit
from rebuild.model.records.readings import Reading
from rebuild.store.store import Tx
from rebuild.trade.fits.wanted import parse_wanted, refuse_mixed_units
from rebuild.trade.sizes.quantity import Size
from rebuild.words.fits import WantedOrigin


def put_wanted(
    tx: Tx,
    row: Fit,
    typed: tuple[str, bool | None],
    origin: WantedOrigin | None,
    note: str | None,
    confirmed: bool,
) -> None:
    """Put the range wanted on a fit; ``typed`` is the range and how the file reads a comma in it.

    Raises:
        BadEntry, Ambiguous, OutOfRange: as ``parse_wanted``.
        Implausible: a range too large for the size, until ``confirmed``.
    """
    text, comma = typed
    low = high = None
    cite = ""
    if text.strip():
        size = _size_of(tx, row)
        wanted = parse_wanted(text, row.unit, kind=row.kind, nominal_mm=size, decimal_comma=comma)
        if not confirmed:
            refuse_mixed_units(wanted, size, text.strip(), row.unit)
        low, high, cite = wanted.low, wanted.high, wanted.cite
        origin = origin or wanted.origin
    row.wanted_text = text.strip()
    row.wanted_origin = origin if text.strip() else None
    row.wanted_note = note or cite
    for stem, end in (("low", low), ("high", high)):
        setattr(row, f"{stem}_text", end.text if end else None)
        setattr(row, f"{stem}_unit", end.unit if end else None)
        setattr(row, f"{stem}_mm", end.mm if end else None)


def ends(row: Fit) -> tuple[Size | None, Size | None]:
    """Both ends of the range wanted, as they were typed."""
    low = None if row.low_mm is None else Size(row.low_text or "", row.low_unit or row.unit, row.low_mm)
    high = None if row.high_mm is None else Size(row.high_text or "", row.high_unit or row.unit, row.high_mm)
    return low, high


def _size_of(tx: Tx, row: Fit) -> float | None:
    """The size of the fit [mm]: a nominal, a limit, or the newest reading of either side."""
    for key in (row.outer_id, row.inner_id):
        feature = tx.session.get(Feature, key)
        size = feature and (feature.nominal_mm or feature.low_mm or feature.high_mm)
        if size:
            return float(size)
    newest = select(Reading.value_mm).where(
        Reading.feature_id.in_((row.outer_id, row.inner_id)), Reading.struck.is_(None)
    )
    return tx.session.scalar(newest.order_by(Reading.id.desc()).limit(1))
