"""What a sheet says of its teeth before it is released: a gear is what it is by them, not by its outside."""

from __future__ import annotations

from rebuild.errors import BadEntry, RebuildError
from rebuild.model.records.making import MakingSheet
from rebuild.store.store import Tx
from rebuild.trade.making.derive import read_gear
from rebuild.words.making import LimitsFrom, PartShape
from rebuild.work.making.rules import called, dimensions_of


def refuse_no_teeth(tx: Tx, sheet: MakingSheet) -> None:
    """A gear whose teeth and pitch are not written, or cannot be read, is only a ring.

    Raises:
        BadEntry: and no size named for its teeth is typed by the user himself either.
    """
    if sheet.shape is not PartShape.GEAR:
        return
    trouble = "are not known yet: nobody could cut it from this sheet"
    if sheet.gear.strip():
        try:
            read_gear(sheet.gear)
        except RebuildError as refused:
            trouble = f"cannot be read: {refused}"
        else:
            return
    own = [
        row
        for row in dimensions_of(tx, sheet.id)
        if "tooth" in row.name.casefold() or "teeth" in row.name.casefold()
    ]
    if any(row.limits_from is LimitsFrom.OWN and row.low_mm is not None for row in own):
        return
    raise BadEntry(
        trouble,
        where=f"{called(tx, sheet)}, teeth and pitch",
        value=sheet.gear,
        way_out="Write them under Gear as 24 T DP 12 14.5 or 30 T module 2 20; for teeth of another form add a size "
        "named tooth depth and type its limits yourself.",
    )
