"""What a sheet may say of its thread before it is released: a thread that is known, its diameters nested."""

from __future__ import annotations

from collections.abc import Sequence

from rebuild.errors import BadEntry, RebuildError
from rebuild.model.records.making import MakingDimension, MakingSheet
from rebuild.store.store import Tx
from rebuild.trade.making.thread_block import side_of
from rebuild.trade.threads.designation import parse_designation
from rebuild.trade.threads.nesting import nesting_trouble
from rebuild.trade.threads.sizes import Side
from rebuild.words.making import LimitsFrom, PartShape
from rebuild.work.making.rows_owner import is_pitch_diameter, rank, two_for_one
from rebuild.work.making.rules import called, dimensions_of

#: What to do when one size stands on a sheet twice.
WAY_OUT_OF_TWO = "Refresh the sheet; if both are still there, remove the one that is not to be made."
#: Shapes that are what they are by their thread.
THREADED = (PartShape.NUT, PartShape.SCREW)


def refuse_no_thread(tx: Tx, sheet: MakingSheet) -> None:
    """A nut or screw whose thread is not written, or cannot be read, has sizes nobody has checked.

    Raises:
        BadEntry: and every size of the thread is not typed by the user himself either.
    """
    if sheet.shape not in THREADED:
        return
    trouble = "is not written"
    if sheet.thread.strip():
        try:
            parse_designation(sheet.thread)
        except RebuildError as refused:
            trouble = f"cannot be read: {refused}"
        else:
            return
    pitch = [row for row in dimensions_of(tx, sheet.id) if is_pitch_diameter(row.name)]
    if pitch and all(row.limits_from is LimitsFrom.OWN and row.low_mm is not None for row in pitch):
        return
    raise BadEntry(
        trouble,
        where=f"{called(tx, sheet)}, thread",
        value=sheet.thread,
        way_out="Write it as 1-8 ACME or Tr 20x4; of another form add a size named pitch diameter and type its "
        "limits yourself.",
    )


def refuse_not_nesting(tx: Tx, sheet: MakingSheet) -> None:
    """A follower's minor, pitch and major diameters must nest, wherever their limits come from.

    Raises:
        BadEntry: they cannot be those of one thread; it says where the odd one comes from.
    """
    if not sheet.thread.strip():
        return
    rows = dimensions_of(tx, sheet.id)
    side = side_of(sheet.shape.value)
    crest_of = ("bore",) if side is Side.INTERNAL else ("thread diameter",)
    crest = next((row for row in rows if row.role in crest_of), None)
    for row in rows:
        if not is_pitch_diameter(row.name) or (row.low_mm is None and row.high_mm is None):
            continue
        ends = (None, None) if crest is None else (crest.low_mm, crest.high_mm)
        trouble = _trouble(sheet, side, (row.low_mm, row.high_mm), ends)
        if trouble:
            raise BadEntry(
                f"do not nest: {trouble}.",
                where=f"{called(tx, sheet)}, {row.name}",
                value=row.size_text,
                way_out=_way_out(row),
            )


def _trouble(
    sheet: MakingSheet,
    side: Side,
    pitch: tuple[float | None, float | None],
    crest: tuple[float | None, float | None],
) -> str:
    try:
        return nesting_trouble(sheet.thread, side, pitch, crest, sheet.unit)
    except RebuildError:
        return ""  # A thread in words: nothing is known of it, and ``refuse_no_thread`` has spoken.


def _way_out(row: MakingDimension) -> str:
    if row.limits_from is LimitsFrom.MATE:
        return (
            "Say how its mate was measured (1.0064 over 0.0645 wires): a reading over wires or over the crests is "
            "no pitch diameter."
        )
    return "Mend the size, or the thread."


def pitch_rows(rows: Sequence[MakingDimension]) -> list[MakingDimension]:
    """The sizes of a sheet that are the pitch diameter of its thread, their owner first: the mate's row."""
    return sorted((row for row in rows if is_pitch_diameter(row.name)), key=lambda row: rank(row.limits_from))


def refuse_two_for_one(tx: Tx, sheet: MakingSheet) -> None:
    """One size has one pair of limits.

    Raises:
        BadEntry: two lines of the sheet are one size and no size meets both.
    """
    tx.session.flush()
    trouble = two_for_one(tx.connection, sheet.id, sheet.thread, sheet.unit)
    if trouble:
        raise BadEntry(f"{trouble}.", where=called(tx, sheet), way_out=WAY_OUT_OF_TWO)
