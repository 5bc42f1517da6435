"""Which details and fits at assembly may stand once they were edited."""

from __future__ import annotations

from collections.abc import Mapping

from rebuild.errors import BadEntry
from rebuild.model.records.fitting import Fitting
from rebuild.model.records.making import MakingDetail
from rebuild.store.store import Tx
from rebuild.work.making.rows_details import read_detail
from rebuild.work.making.rules import open_sheet


def making_detail(
    tx: Tx, row: MakingDetail, _before: Mapping[str, object], _typed: Mapping[str, str]
) -> None:
    """Its sizes can be read in the sheet's unit, and the sheet is not settled. Raises BadEntry, Ambiguous."""
    read_detail(row, open_sheet(tx, row.sheet_id).unit)


def fitting(_tx: Tx, row: Fitting, _before: Mapping[str, object], _typed: Mapping[str, str]) -> None:
    """Whoever fits it knows when to stop. Raises BadEntry."""
    if not row.condition:
        raise BadEntry(
            "is empty.", where="Until", way_out="Say what must hold then, as turns by hand without shake."
        )
