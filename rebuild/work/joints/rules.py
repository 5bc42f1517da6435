"""What must hold of a joint as a whole: torques carry their unit."""

from __future__ import annotations

from collections.abc import Mapping

from rebuild.model.records.joints import Joint
from rebuild.store.tx import Tx
from rebuild.trade.sizes.amounts import parse_torque
from rebuild.words.joints import Tightness
from rebuild.work.records.rules import refuse_other_machine
from rebuild.work.records.wall_clock import now


def joint(tx: Tx, row: Joint, before: Mapping[str, object], typed: Mapping[str, str]) -> None:
    with tx.session.no_autoflush:
        refuse_other_machine(tx, row.machine_id, part=row.part_id, step=row.task_id)
    for text, where in ((row.torque_wanted, "Torque wanted"), (row.torque_done, "Torqued to")):
        if (text or "").strip():
            parse_torque(text, where)
    if "tight" in typed and row.tight != before.get("tight"):
        row.set_at = now()
        if row.tight is Tightness.APART:
            row.looked_again_at = None
