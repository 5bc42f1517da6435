"""What a thread plug is turned to: the band of its nut, which may change after the plug's sheet was made."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.model.asked import alias
from rebuild.model.tables.features import Features
from rebuild.model.tables.fits import Fits
from rebuild.model.tables.making import MakingDimensions, MakingSheets
from rebuild.model.tables.parts import Parts
from rebuild.trade.limits.inward import inward, limit_numbers
from rebuild.words.making import MakingProgress
from rebuild.work.making.rows_limits import PROVED, of_part, together

#: The tables the lookups here ask.
READS = frozenset({
    "feature", "fit", "instrument", "making_dimension", "making_sheet", "part", "reading", "station",
})  # fmt: skip

#: The share of the nut's band the plug may take, from its low end up. Common practice, no source: what a plug takes of
#: the band lies inside it, so that whatever it enters is at least at the low limit.
SHARE = 0.2
#: A plug is a gauge: it takes no more than this [mm], however wide the nut's band. Common practice, no source.
WIDEST_MM = 0.0006 * 25.4


@dataclass(frozen=True, slots=True)
class PlugBand:
    """What a plug is to be [mm] by its nut now, and what its own feature says."""

    plug_id: int
    feature_id: int
    nut: str
    unit: str
    low_mm: float
    high_mm: float
    said_mm: tuple[float | None, float | None]

    @property
    def stale(self) -> str:
        """What has changed, in a sentence; empty when nothing has."""
        same = all(
            said is not None and abs(said - now) < 1e-6
            for said, now in zip(self.said_mm, (self.low_mm, self.high_mm), strict=True)
        )
        if same:
            return ""
        low, high = limit_numbers(self.low_mm, self.high_mm, self.unit)
        return f"the pitch diameter of {self.nut} has changed: its plug is now {low} to {high} {self.unit}"


def plug_band(low_mm: float, high_mm: float, unit: str) -> tuple[float, float]:
    """Low and high of the plug of a nut with this band [mm]: from its low end up, a gauge's width.

    >>> low, high = plug_band(0.4421 * 25.4, 0.4450 * 25.4, "in")  # 0.0029 / 5 = 0.00058
    >>> round(low / 25.4, 5), round(high / 25.4, 5)
    (0.4421, 0.44268)
    >>> round(plug_band(0.4500 * 25.4, 0.4637 * 25.4, "in")[1] / 25.4, 5)
    0.4506
    """
    low, high = inward(low_mm, low_mm + min(SHARE * (high_mm - low_mm), WIDEST_MM), unit)
    assert low is not None
    assert high is not None
    return low, high


def plugs(connection: Connection, part_ids: Collection[int]) -> dict[int, PlugBand]:
    """Those of the parts that are plugs, each with what it is to be by its nut; a nut without limits is left out."""
    plug, nut = alias(Features, "plug"), alias(Features, "nut")
    query = (
        select(
            plug.part_id, plug.id, plug.low_mm, plug.high_mm, nut.part_id.label("nut"), nut.id.label("outer")
        )
        .join(Fits, Fits.inner_id == plug.id)
        .join(nut, nut.id == Fits.outer_id)
        .where(Fits.name == PROVED, plug.part_id.in_(list(part_ids)))
    )
    found = {}
    for part_id, feature_id, low, high, nut_id, nut_feature in connection.execute(query):
        band = _band(connection, nut_id, nut_feature)
        if band is not None:
            title, unit, nut_low, nut_high = band
            ends = plug_band(nut_low, nut_high, unit)
            found[part_id] = PlugBand(part_id, feature_id, title, unit, *ends, (low, high))
    return found


def _band(connection: Connection, nut_id: int, feature_id: int) -> tuple[str, str, float, float] | None:
    """The nut's title, unit and pitch diameter, what its own plug came out to left out."""
    stored = connection.execute(
        select(MakingSheets.unit, MakingDimensions.low_mm, MakingDimensions.high_mm, Parts.code, Parts.name)
        .join(MakingSheets, MakingSheets.id == MakingDimensions.sheet_id)
        .join(Parts, Parts.id == MakingSheets.part_id)
        .where(MakingDimensions.feature_id == feature_id, MakingSheets.progress != MakingProgress.SCRAPPED)
        .order_by(MakingSheets.attempt.desc())
    ).first()
    if stored is None:
        return None
    asked = [one for one in of_part(connection, nut_id) if one.feature_id == feature_id]
    mates = [one for one in asked if not one.proof]
    low, high = stored.low_mm, stored.high_mm
    if mates:
        low, high = inward(*together(mates)[:2], stored.unit)
    elif any(one.known for one in asked):
        return None  # The row holds what the plug itself came out to: it says nothing of the plug.
    if low is None or high is None:
        return None
    return f"{stored.code} {stored.name}".strip(), stored.unit, low, high


def plug_stale(connection: Connection, part_id: int) -> tuple[str, ...]:
    """What has changed of the nut this part is the plug of, a sentence; empty for all else."""
    return tuple(band.stale for band in plugs(connection, [part_id]).values() if band.stale)
