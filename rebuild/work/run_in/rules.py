"""What must hold of a cut test and a check before power as a whole."""

from __future__ import annotations

from collections.abc import Mapping

from rebuild.errors import BadEntry
from rebuild.model.records.run_in import CutTest, RunLook
from rebuild.store.tx import Tx
from rebuild.trade.results.cautions import caution
from rebuild.trade.run_in.cut_tests import facing, two_collars
from rebuild.words.run_in import CutKind


def cut_test(_tx: Tx, row: CutTest, _before: Mapping[str, object], _typed: Mapping[str, str]) -> None:
    """Whole enough to be worked out. Raises BadEntry naming what is missing or wrong."""
    names = {
        CutKind.TWO_COLLAR: ("Collar near the spindle", "Collar at the free end", "Length between"),
        CutKind.FACING: ("Hollow", "", "Diameter faced"),
    }[row.kind]
    for name, value in zip(names, (row.first_mm, row.second_mm, row.apart_mm), strict=True):
        if name and value is None:
            raise BadEntry(
                "is not given.", where=name, way_out="Measure it; without it the test says nothing."
            )
    if row.kind is CutKind.FACING:
        facing(row.first_mm or 0.0, row.apart_mm or 0.0)
    else:
        two_collars(row.first_mm or 0.0, row.second_mm or 0.0, row.apart_mm or 0.0)


def run_look(_tx: Tx, row: RunLook, _before: Mapping[str, object], _typed: Mapping[str, str]) -> None:
    """Its caution is one there is. Raises BadEntry."""
    if row.topic:
        caution(row.topic)
