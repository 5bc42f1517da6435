"""The piece in hand must hold the part."""

from __future__ import annotations

from rebuild.errors import BadEntry, RebuildError
from rebuild.model.records.making import MakingSheet
from rebuild.store.store import Tx
from rebuild.trade.making.stock import stock_trouble
from rebuild.work.making.rows_sheet_blank import stock_of
from rebuild.work.making.rules import called, sizes_of


def refuse_small_stock(tx: Tx, sheet: MakingSheet) -> None:
    """A sheet is not released on a piece its part does not fit in.

    Raises:
        BadEntry: the piece is smaller across, or shorter.
    """
    try:
        trouble = stock_trouble(sheet.shape.value, sizes_of(tx, sheet), stock_of(sheet), sheet.unit)
    except RebuildError:
        return  # The part's own sizes are not known yet; nothing can be said.
    if trouble:
        raise BadEntry(
            trouble,
            where=f"{called(tx, sheet)}, piece in hand",
            way_out="Take another piece, or mend its size on the sheet.",
        )
