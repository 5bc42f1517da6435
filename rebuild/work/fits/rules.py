"""What cannot be a fit: refused before it is put in, and before a side is replaced."""

from __future__ import annotations

from sqlalchemy import func, select

from rebuild.errors import BadEntry
from rebuild.model.records.features import Feature, Station
from rebuild.model.records.fits import Fit
from rebuild.model.records.parts import Part
from rebuild.store.store import Tx
from rebuild.words.readings import FeatureKind
from rebuild.work.fits.entry import FitEntry
from rebuild.work.fits.rules_called import called


def checked(tx: Tx, entry: FitEntry, outer: Feature, inner: Feature, but: int | None = None) -> int:
    """The machine both sides are on; ``but`` is the fit itself where it is there already.

    Raises:
        BadEntry: one feature twice, a shaft for the hole, two machines, a strange station, a fit that is there.
    """
    if outer.id == inner.id or entry.gap_id in (outer.id, inner.id):
        raise BadEntry(
            "is the same feature as the other side.",
            where="Fit",
            value=outer.name,
            way_out="A fit joins two features: choose the one it runs or sits in.",
        )
    if (outer.kind, inner.kind) == (FeatureKind.OUTSIDE_DIAMETER, FeatureKind.BORE):
        raise BadEntry(
            f"is an outside diameter and “{inner.name}” is a bore.",
            where="Outer side",
            value=outer.name,
            way_out="Swap the two: the bore is the outer side.",
        )
    machines = [tx.get(Part, feature.part_id, "part").machine_id for feature in (outer, inner)]
    if machines[0] != machines[1]:
        raise BadEntry(
            "is on another machine.",
            where="Inner side",
            value=inner.name,
            way_out="Choose a feature of the same machine.",
        )
    for feature, station_id in ((outer, entry.outer_station_id), (inner, entry.inner_station_id)):
        if station_id is not None and tx.get(Station, station_id, "station").feature_id != feature.id:
            raise BadEntry(
                "is not a station of this feature.",
                where=feature.name,
                way_out="Choose one of its own stations, or none.",
            )
    twin = tx.session.scalar(
        select(Fit)
        .where(
            Fit.outer_id == outer.id,
            Fit.inner_id == inner.id,
            Fit.id.is_not(but),
            # Not IS NULL: that takes the index on the station, where most fits lie under the one NULL.
            func.coalesce(Fit.outer_station_id, 0) == (entry.outer_station_id or 0),
            func.coalesce(Fit.inner_station_id, 0) == (entry.inner_station_id or 0),
        )
        .limit(1)
    )
    if twin is not None:
        raise BadEntry(
            "is a fit already.",
            where="Fit",
            value=called(tx, twin),
            way_out="Open that one, or name stations to tell them apart.",
        )
    return machines[0]
