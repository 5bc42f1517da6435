"""A size of a sheet goes over to the feature its part's fit is made on, when the fit is made after the sheet."""

from __future__ import annotations

from collections.abc import Sequence

from sqlalchemy import func, or_, select

from rebuild.model.records.features import Feature
from rebuild.model.records.fits import Fit
from rebuild.model.records.making import MakingDimension, MakingSheet
from rebuild.model.records.readings import Reading
from rebuild.store.store import Tx
from rebuild.trade.making.roles import answers, role
from rebuild.words.readings import FeatureKind, SpecOrigin
from rebuild.work.making.rows_limits import PROVED, MateLimits
from rebuild.work.making.rows_owner import is_pitch_diameter, same_thread
from rebuild.work.making.rules import dimensions_of

_SHEET_SPECS = (None, SpecOrigin.MATE, SpecOrigin.JUDGEMENT)


def take_over(tx: Tx, sheet: MakingSheet, asked: Sequence[MateLimits]) -> None:
    """Put each size that stands on a feature the sheet made itself on the one its mate is fitted to.

    Nothing read is moved: a feature that was measured, or fitted to anything but its own plug, stays what it is.
    """
    fitted = {one.feature_id for one in asked if not one.proof}
    rows = dimensions_of(tx, sheet.id)
    held = {row.feature_id for row in rows if row.role}
    for row in rows:
        if row.feature_id is None or row.feature_id in fitted:
            continue
        old = tx.get(Feature, row.feature_id, "feature")
        free = [tx.get(Feature, key, "feature") for key in sorted(fitted - held)]
        new = next((one for one in free if _is_the_size(sheet, row, one)), None)
        if new is None or not _made_by_sheet(tx, row, old):
            continue
        _move(tx, row, old, new)
        held.add(new.id)


def _is_the_size(sheet: MakingSheet, row: MakingDimension, feature: Feature) -> bool:
    found = role(sheet.shape.value, row.role) if row.role else None
    if found is not None:
        return answers(found, feature.kind, feature.name)
    threaded = feature.kind is FeatureKind.THREAD and is_pitch_diameter(row.name)
    return threaded and same_thread(feature.thread, sheet.thread)


def _made_by_sheet(tx: Tx, row: MakingDimension, feature: Feature) -> bool:
    """A feature with the size's own name and nothing on it that anybody but the sheet put there."""
    if feature.name != row.name or feature.spec_origin not in _SHEET_SPECS:
        return False
    if tx.session.scalar(select(func.count(Reading.id)).where(Reading.feature_id == feature.id)):
        return False
    fits = or_(Fit.outer_id == feature.id, Fit.inner_id == feature.id, Fit.gap_id == feature.id)
    return not tx.session.scalar(select(func.count(Fit.id)).where(fits, Fit.name != PROVED))


def _move(tx: Tx, row: MakingDimension, old: Feature, new: Feature) -> None:
    """The plug goes with the size it proves; the feature nothing stands on any more goes."""
    for plug in tx.session.scalars(select(Fit).where(Fit.outer_id == old.id, Fit.name == PROVED)):
        plug.outer_id = new.id
    row.feature_id = new.id
    tx.session.flush()
    others = tx.session.scalar(
        select(func.count(MakingDimension.id)).where(MakingDimension.feature_id == old.id)
    )
    if not others:
        tx.session.delete(old)
    tx.session.flush()
