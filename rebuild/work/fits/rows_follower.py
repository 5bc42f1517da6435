"""What a follower must measure to suit its master as it was last read: for making sheets, options and specs."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.errors import BadEntry
from rebuild.trade.fits.follower_limits import follower_limits
from rebuild.trade.fits.joint import joined
from rebuild.trade.results.working import Sheet, Worked
from rebuild.words.fits import Side
from rebuild.work.fits.rows import FitRow
from rebuild.work.fits.rows_later import mate_sides
from rebuild.work.fits.rows_sides import SideRow, Wait

#: No table: nothing here asks the file.
READS: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Follower:
    """Limits of the following feature in one fit [mm]; an end is None where nothing is wanted of it.

    ``waits`` says why the limits may still move; ``stale`` what changed since the fit was last looked at.
    """

    fit_id: int
    fit: str
    part_id: int
    feature_id: int
    feature: str
    side: Side
    unit: str
    low_mm: float | None
    high_mm: float | None
    aim_mm: float | None
    allowed_for_mm: float
    master: str
    master_feature_id: int
    master_words: tuple[str, ...]
    wanted_text: str
    waits: tuple[Wait, ...]
    stale: tuple[str, ...]

    @property
    def final(self) -> bool:
        """Whether the master is final, so that the limits will stand."""
        return not self.waits


def limits_in(row: FitRow, *, allow_for_uncertainty: bool = False) -> Worked[Follower]:
    """The limits of a fit's follower from its master's newest readings, at every station at once.

    ``allow_for_uncertainty`` narrows them by the expanded uncertainty of the master's readings.

    Raises:
        BadEntry: no master is chosen, the master is not measured, or no range is wanted.
        OutOfRange: the master varies, or is known, too poorly for the range.
    """
    master, follower = _sides(row)
    how = joined(row.joint, (row.outer.thread, row.inner.thread))
    if how.combining is None:
        raise BadEntry(f"cannot be worked out: {how.missing}.", where=row.title)
    mates = mate_sides(master.side, row.sides, row.later, row.limits_to)
    for mate in mates:
        if mate is row.later and not mate.readings:
            raise BadEntry(
                "has neither a reading nor a spec yet.",
                where=mate.title,
                way_out="Measure it, type its spec, or let the limits suit the other mate alone.",
            )
    found = follower_limits(
        tuple(reading for mate in mates for reading in mate.readings),
        master.side is Side.OUTER,
        row.low_mm,
        row.high_mm,
        combining=how.combining,
        allow_for_uncertainty=allow_for_uncertainty,
        unit=row.unit,
        names=(" and ".join(mate.title for mate in mates), follower.title),
    )
    limits = found.value
    sheet = Sheet(found.working.title)
    sheet.take(found.working)
    if row.later is not None:
        sheet.note(f"Limits suit {row.limits_to.value}.")
    if master.wait is not None:
        sheet.note(f"Not final: {master.wait.sentence}.")
    value = Follower(
        row.id,
        row.title,
        follower.part_id,
        follower.feature_id,
        follower.feature,
        follower.side,
        row.unit,
        limits.low_mm,
        limits.high_mm,
        limits.aim_mm,
        limits.allowed_for_mm,
        master.title,
        master.feature_id,
        tuple(f"{r.station}: {r.words}" if r.station else r.words for r in master.readings),
        row.wanted_text,
        (master.wait,) if master.wait is not None else (),
        row.stale,
    )
    return Worked(value, sheet.close())


def _sides(row: FitRow) -> tuple[SideRow, SideRow]:
    master, follower = row.master_side, row.follower_side
    if master is None or follower is None:
        raise BadEntry(
            "is not chosen.",
            where=f"Master of {row.title}",
            way_out=f"Choose which side is not touched: {row.outer.title}, or {row.inner.title}.",
        )
    return master, follower
