"""What must hold of a cut test and a check before power as a whole."""

from __future__ import annotations

from collections.abc import Mapping

from rebuild.errors import BadEntry
from rebuild.model.records.run_in import CutTest, RunLook, RunStep
from rebuild.store.tx import Tx
from rebuild.trade.results.cautions import caution
from rebuild.trade.run_in.cut_tests import facing, two_collars
from rebuild.words.run_in import CutKind, RunState
from rebuild.work.steps import rules_gate as gate


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


def run_look(tx: Tx, row: RunLook, before: Mapping[str, object], _typed: Mapping[str, str]) -> None:
    """Its caution is one there is; ticked as a field it passes the gate as by its button. Raises BadEntry, Refused."""
    if row.topic:
        caution(row.topic)
    if row.done_at is None or before.get("done_at") is not None:
        return
    if row.licensed and not (row.done_by or "").strip():
        raise BadEntry(
            "is empty, and this is left to licensed hands.",
            where="By",
            way_out="Name who did it; local codes say who may.",
        )
    if row.id is not None:
        gate.refuse(gate.against_look(tx, row), row.id)


def run_step(tx: Tx, row: RunStep, before: Mapping[str, object], _typed: Mapping[str, str]) -> None:
    """Called run through, or begun, as a field: it passes the gate as by its button. Raises Refused."""
    if row.id is None:
        return
    if row.state is RunState.RUN and before.get("state") is not RunState.RUN:
        gate.refuse(gate.against_speed(tx, row, through=True), row.id)
    elif row.started_at is not None and before.get("started_at") is None:
        gate.refuse(gate.against_speed(tx, row, through=False), row.id)
