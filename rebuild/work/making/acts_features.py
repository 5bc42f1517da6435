"""The sizes of a making sheet as features of its part: where as-made values land, and what they are held against."""

from __future__ import annotations

from collections.abc import Sequence

from sqlalchemy import func, select

from rebuild.model.records.features import Feature
from rebuild.model.records.fits import Fit
from rebuild.model.records.making import MakingDimension, MakingSheet
from rebuild.model.records.parts import Part
from rebuild.store.store import Tx
from rebuild.trade.making.roles import role
from rebuild.words.making import LimitsFrom
from rebuild.words.readings import FeatureKind, SpecOrigin
from rebuild.work.fits import rows as fits
from rebuild.work.fits.rows import FitRow
from rebuild.work.fits.rows_stale import written
from rebuild.work.making.measures import measure_of
from rebuild.work.making.rows_owner import is_pitch_diameter

_FEATURE_KINDS = {
    "diameter": FeatureKind.OUTSIDE_DIAMETER,
    "width": FeatureKind.WIDTH,
    "length": FeatureKind.LENGTH,
}
_BORES = ("bore", "hole")


def give_feature(tx: Tx, part: Part, sheet: MakingSheet, row: MakingDimension) -> None:
    """A size that is checked becomes a feature of the part, so that as-made values have a place."""
    found = role(sheet.shape.value, row.role)
    if row.feature_id is not None or not row.measured_with or (found is not None and not found.is_length):
        return
    kind = _FEATURE_KINDS.get(found.kind if found else "", FeatureKind.OTHER)
    thread = sheet.thread if is_pitch_diameter(row.name) and found is None else ""
    if thread:
        kind = FeatureKind.THREAD
    if kind is FeatureKind.OUTSIDE_DIAMETER and any(word in row.name for word in _BORES):
        kind = FeatureKind.BORE
    last = tx.session.scalar(select(func.max(Feature.position)).where(Feature.part_id == part.id))
    feature = Feature(
        part_id=part.id,
        name=row.name,
        kind=kind,
        unit=sheet.unit,
        position=0 if last is None else last + 1,
        spec_origin=SpecOrigin.JUDGEMENT,
        thread=thread,
    )
    tx.session.add(feature)
    tx.session.flush()
    row.feature_id = feature.id


_SHEET_SPECS = (None, SpecOrigin.MATE, SpecOrigin.JUDGEMENT)


def tell_features(tx: Tx, part_id: int, rows: Sequence[MakingDimension]) -> None:
    """Put the sheet's limits on its features as their spec, unless a drawing or handbook says otherwise.

    A fit of the part that was looked at stays so: these limits are its own, worked out.
    """
    tx.session.flush()
    fresh = [row.id for row in _fits(tx, part_id) if not row.stale]
    for row in rows:
        _tell(tx, row)
    tx.session.flush()
    for now in _fits(tx, part_id):
        if now.id in fresh and now.stale:
            tx.get(Fit, now.id, "fit").looked = written(fits.facts_of(now))


def _fits(tx: Tx, part_id: int) -> list[FitRow]:
    return fits.rows(tx.connection, fits.of_parts(tx.connection, [part_id]))


def _tell(tx: Tx, row: MakingDimension) -> None:
    if row.feature_id is None or row.limits_from is LimitsFrom.SPEC or not measure_of(row).given:
        return
    feature = tx.get(Feature, row.feature_id, "feature")
    if feature.spec_origin not in _SHEET_SPECS:
        return
    for stem in ("nominal", "low", "high"):
        for part in ("text", "unit", "mm"):
            setattr(feature, f"{stem}_{part}", getattr(row, f"{stem}_{part}"))
    feature.spec_text = row.size_text
    feature.spec_origin = SpecOrigin.MATE if row.limits_from is LimitsFrom.MATE else SpecOrigin.JUDGEMENT
