"""What a sheet's part is made from: the blank to saw off, and the piece in hand with what can be got out of it."""

from __future__ import annotations

from rebuild.errors import RebuildError
from rebuild.model.tables.making import MakingSheets
from rebuild.trade.drawing.measure import Measure
from rebuild.trade.making.blank import blank_of, blank_words
from rebuild.trade.making.stock import Stock, got_out_of, stock_trouble
from rebuild.trade.results.working import Working
from rebuild.trade.shop.materials import find_material
from rebuild.trade.sizes.show import show_both
from rebuild.work.making.rows_sheet_lists import SheetBlank

#: No table: nothing here asks the file.
READS: frozenset[str] = frozenset()


def stock_of(row: MakingSheets) -> Stock:
    """The piece in hand as the sheet has it."""
    return Stock(row.stock_across_mm, row.stock_long_mm, row.stock_ends or "")


def blank_in(row: MakingSheets, sizes: dict[str, Measure]) -> SheetBlank:
    """Blank and piece in hand of a sheet, from its sizes by role."""
    words, trouble, working = _sawn_from(row, sizes)
    in_hand, small = _in_hand(row, sizes)
    if in_hand and not row.blank.strip():
        # What lies there is what it is made from; how long one would saw it is beside the matter.
        piece = _piece(row)
        words, trouble = f"piece in hand, {piece}", ""
    return SheetBlank(row.material, words, trouble, working, row.blank_at, in_hand, small)


def _in_hand(row: MakingSheets, sizes: dict[str, Measure]) -> tuple[str, str]:
    """The piece it is really made from, with what can be got out of it; and why the part is not in it."""
    stock = stock_of(row)
    if not stock.known:
        return "", ""
    words = _piece(row)
    try:
        trouble = stock_trouble(row.shape.value, sizes, stock, row.unit)
        more = "" if trouble else got_out_of(row.shape.value, sizes, stock, row.unit)
    except RebuildError:
        return words, ""  # A size of the part is not known yet; the sheet says which.
    return f"{words}: {more}" if more else words, trouble


def _piece(row: MakingSheets) -> str:
    """The piece in hand by its sizes and ends."""
    stock = stock_of(row)
    long = "" if stock.long_mm is None else f"{show_both(stock.long_mm, row.unit)} long"
    across = "" if stock.across_mm is None else f"{show_both(stock.across_mm, row.unit)} across"
    return ", ".join(filter(None, (across, long, stock.ends)))


def _sawn_from(row: MakingSheets, sizes: dict[str, Measure]) -> tuple[str, str, Working | None]:
    if row.blank.strip():
        return row.blank, "", None
    found = find_material(row.material) if row.material.strip() else None
    if found is None:
        return "", "Name the material, and the blank follows.", None
    try:
        worked = blank_of(
            row.shape.value, sizes, found.material, skin=row.bar_skin, unit=row.unit, pieces=row.quantity
        )
    except RebuildError as trouble:
        return "", str(trouble), None
    return blank_words(worked.value, row.shape.value, row.unit), "", worked.working
