"""The data blocks of a sheet, its thread cut to the sheet's own limits from the bore or blank as it was made."""

from __future__ import annotations

from collections.abc import Sequence

from rebuild.errors import RebuildError
from rebuild.model.tables.making import MakingSheets
from rebuild.trade.making.block import DataBlock
from rebuild.trade.making.data import blocks
from rebuild.trade.making.derive import Designations
from rebuild.trade.making.thread_block import ThreadAsCut, read_nose, root_as_cut, side_of
from rebuild.trade.threads.sizes import Side
from rebuild.words.making import LimitsFrom
from rebuild.work.making.rows_limits import MateLimits
from rebuild.work.making.rows_owner import is_pitch_diameter, rank
from rebuild.work.making.rows_sheet_lists import SizeRow

#: No table: nothing here asks the file.
READS: frozenset[str] = frozenset()


def data_in(
    row: MakingSheets, named: Designations, sizes: Sequence[SizeRow], asked: Sequence[MateLimits]
) -> tuple[DataBlock, ...]:
    """The data blocks of a sheet; one that cannot be worked out says why."""
    length = next((size.measure for size in sizes if size.role == "length" and size.measure.given), None)
    long_mm = length.at_mm if length is not None else None
    try:
        cut = _cut(row, sizes, asked, long_mm)
    except RebuildError as trouble:
        others = blocks(
            row.shape.value, Designations("", named.taper, named.gear, named.key), row.unit, long_mm
        )
        return (DataBlock("Thread", (), None, str(trouble)), *others)
    return blocks(row.shape.value, named, row.unit, long_mm, cut)


def root_in(
    row: MakingSheets, sizes: Sequence[SizeRow], asked: Sequence[MateLimits]
) -> tuple[float, float] | None:
    """The root or core of a sheet's thread as it is cut [mm]; None where the standard's stands or it is not known."""
    try:
        return root_as_cut(row.thread, row.shape.value, _cut(row, sizes, asked, None))
    except RebuildError:
        return None  # The data block says why.


def _cut(
    row: MakingSheets, sizes: Sequence[SizeRow], asked: Sequence[MateLimits], length_mm: float | None
) -> ThreadAsCut:
    given = [size for size in sizes if is_pitch_diameter(size.name) and size.measure.given]
    pitch = min(given, key=lambda size: rank(size.limits_from), default=None)
    ends, suits, wanted = None, "", ""
    if pitch is not None and pitch.limits_from is not LimitsFrom.TABLE:
        low, high = pitch.measure.low_mm, pitch.measure.high_mm
        ends = (low, high) if low is not None and high is not None else None
        mates = [one for one in asked if one.feature_id == pitch.feature_id and not one.proof]
        suits, wanted = pitch.source, ""
        if pitch.limits_from is LimitsFrom.MATE:
            suits = f"to suit {' and '.join(one.mate.title for one in mates)}"
            wanted = " and ".join(one.wanted_words for one in mates if one.wanted_words)
    surface = "bore" if side_of(row.shape.value) is Side.INTERNAL else "thread diameter"
    made = next((size.made for size in sizes if size.role == surface), ())
    start = made[-1].value_mm if made else None
    nose = read_nose(row.tool_nose or "", row.unit)
    return ThreadAsCut(ends, suits, wanted, start, nose, length_mm, row.ball_mm)
