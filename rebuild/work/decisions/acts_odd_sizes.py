"""Record a size that is not the standard one, so that mates, spares and the next owner know."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from rebuild.errors import BadEntry
from rebuild.model.records.decisions import OddSize
from rebuild.model.records.features import Feature
from rebuild.model.records.machines import Machine
from rebuild.model.records.parts import Part
from rebuild.store.act import Act
from rebuild.store.store import Store, Tx
from rebuild.work.records.columns import read_typed, set_columns, title
from rebuild.work.records.rows_settings import decimal_comma
from rebuild.work.records.wall_clock import now


@dataclass(frozen=True, slots=True)
class OddEntry:
    """What is not standard (``pin No. 3``), in place of what, its size as typed, and why."""

    what: str
    instead_of: str = ""
    size: str = ""
    reason: str = ""
    feature_id: int | None = None


def add_odd_size(store: Store, part_id: int, entry: OddEntry, *, at: dt.datetime | None = None) -> int:
    """Record an odd size of a part, ``at`` now unless given; returns its id.

    Raises:
        BadEntry: nothing said, a size that cannot be read, or a feature of another part.
    """
    comma = decimal_comma(store)
    with store.act(Act.ADD_ODD_SIZE, "") as tx:
        row = put_odd_size(tx, tx.get(Part, part_id, "part"), entry, at, comma)
        tx.subject = f"{row.what} on {title(tx.get(Part, part_id, 'part'))}"
        return row.id


def put_odd_size(tx: Tx, part: Part, entry: OddEntry, at: dt.datetime | None, comma: bool | None) -> OddSize:
    """Put an odd size on a part, inside an act."""
    unit = tx.get(Machine, part.machine_id, "machine").unit
    if entry.feature_id is not None:
        feature = tx.get(Feature, entry.feature_id, "feature")
        unit = feature.unit
        if feature.part_id != part.id:
            raise BadEntry("is of another part.", where="Feature", way_out="Choose a feature of this part.")
    typed = {"what": entry.what, "size": entry.size, "instead_of": entry.instead_of, "reason": entry.reason}
    row = OddSize(part_id=part.id, feature_id=entry.feature_id, since=at or now())
    set_columns(row, read_typed("odd_size", typed, unit, comma=comma))
    tx.session.add(row)
    tx.session.flush()
    return row
