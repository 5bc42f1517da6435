"""Plug and nut follow each other when either sheet is refreshed: the plug its nut's band, their fit what is wanted."""

from __future__ import annotations

from sqlalchemy import select

from rebuild.model.records.features import Feature
from rebuild.model.records.fits import Fit
from rebuild.model.records.making import MakingSheet
from rebuild.store.store import Tx
from rebuild.trade.sizes.show import exact_text
from rebuild.work.making.rows_limits import PROVED
from rebuild.work.making.rows_plug import plugs
from rebuild.work.making.rules import dimensions_of
from rebuild.work.making.rules_threads import pitch_rows


def put_band(feature: Feature, low_mm: float, high_mm: float, unit: str) -> None:
    """Say a plug's band [mm] on its feature."""
    low, high = exact_text(low_mm, unit), exact_text(high_mm, unit)
    feature.spec_text = f"{low}-{high}"
    feature.low_text, feature.low_unit, feature.low_mm = low, unit, low_mm
    feature.high_text, feature.high_unit, feature.high_mm = high, unit, high_mm


def follow_nut(tx: Tx, sheet: MakingSheet) -> None:
    """The sheet of a plug takes its nut's band as it is now."""
    tx.session.flush()
    band = plugs(tx.connection, [sheet.part_id]).get(sheet.part_id)
    if band is not None and band.stale:
        put_band(tx.get(Feature, band.feature_id, "feature"), band.low_mm, band.high_mm, band.unit)
        tx.session.flush()


def follow_plug(tx: Tx, sheet: MakingSheet) -> None:
    """What is wanted between a nut and its plug is the nut's band: it enters, with no more shake than that."""
    for row in pitch_rows(dimensions_of(tx, sheet.id))[:1]:
        if row.feature_id is None or row.low_mm is None or row.high_mm is None:
            continue
        found = select(Fit).where(Fit.outer_id == row.feature_id, Fit.name == PROVED)
        for fit in tx.session.scalars(found):
            put_wide(fit, round(row.high_mm - row.low_mm, 9), sheet.unit)
    tx.session.flush()


def put_wide(fit: Fit, wide_mm: float, unit: str) -> None:
    """Say the nut's band [mm] as what is wanted."""
    wide = exact_text(wide_mm, unit)
    fit.wanted_text = f"0-{wide}"
    fit.high_text, fit.high_unit, fit.high_mm = wide, unit, wide_mm
