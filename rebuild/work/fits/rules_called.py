"""What a fit is called in the words of an act."""

from __future__ import annotations

from rebuild.model.records.features import Feature
from rebuild.model.records.fits import Fit
from rebuild.model.records.parts import Part
from rebuild.store.store import Tx
from rebuild.work.records.columns import title


def called(tx: Tx, row: Fit) -> str:
    """Its own name, else its sides: the inner in the outer."""
    if row.name:
        return row.name
    names = []
    for key in (row.inner_id, row.outer_id):
        feature = tx.session.get(Feature, key)
        part = tx.session.get(Part, feature.part_id) if feature is not None else None
        names.append(f"{title(part)}, {feature.name}" if part is not None and feature is not None else "?")
    return " in ".join(names)
