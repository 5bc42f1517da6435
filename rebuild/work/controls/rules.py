"""What must hold of a control as a whole."""

from __future__ import annotations

from collections.abc import Mapping

from rebuild.errors import BadEntry
from rebuild.model.records.controls import Control
from rebuild.model.records.photos import Photo
from rebuild.store.tx import Tx
from rebuild.trade.run_in.controls import same_travel
from rebuild.trade.sizes.quantity import Size
from rebuild.trade.sizes.show import show_typed
from rebuild.work.records.rules import refuse_other_machine


def control(tx: Tx, row: Control, _before: Mapping[str, object], _typed: Mapping[str, str]) -> None:
    """It doubles another one of its own machine, its part and picture are of that machine; proved says how.

    Raises:
        BadEntry: one of these does not hold.
    """
    with tx.session.no_autoflush:
        refuse_other_machine(tx, row.machine_id, part=row.part_id, subassembly=row.subassembly_id)
        double = tx.session.get(Control, row.doubles_id) if row.doubles_id is not None else None
        photo = tx.session.get(Photo, row.photo_id) if row.photo_id is not None else None
        if double is not None and double.machine_id != row.machine_id:
            _refuse_other("Does the same as", double.name)
        if photo is not None and photo.machine_id != row.machine_id:
            _refuse_other("Picture", photo.file_name)
    if row.doubles_id is not None and row.doubles_id == row.id:
        raise BadEntry(
            "is itself.", where="Does the same as", value=row.name, way_out="Choose the other control."
        )
    if row.proved_at is not None and not (row.proved or "").strip():
        raise BadEntry("is empty.", where="Proved how", way_out="Say what was tried, or take the date away.")


def _refuse_other(where: str, value: str) -> None:
    raise BadEntry(
        "belongs to another machine.", where=where, value=value, way_out="Choose one of this machine."
    )


def refuse_other_travel(row: Control) -> None:
    """A turn that should move so much was measured, and moves that much. Raises BadEntry."""
    if row.per_turn_mm is None:
        return
    unit = row.per_turn_unit or "mm"
    should = show_typed(Size(row.per_turn_text or "", unit, row.per_turn_mm), unit)
    if row.proved_turn_mm is None:
        raise BadEntry(
            f"is empty, and a turn of {row.name} should move {should}.",
            where="A turn moves now",
            way_out="Measure ten turns and type a tenth of it.",
        )
    if not same_travel(row.per_turn_mm, row.proved_turn_mm):
        raise BadEntry(
            f"is not the {should} a turn of {row.name} should move.",
            where="A turn moves now",
            value=row.proved_turn_text or "",
            way_out="Look for the wrong screw, gear or dial; or say why it is right and prove it all the same.",
        )
