"""What a new making sheet is proposed from: the features of a part, what the old part reads, its designations."""

from __future__ import annotations

import re
from collections.abc import Sequence

from sqlalchemy import Connection, select

from rebuild.model.tables.features import Features
from rebuild.model.tables.readings import Readings
from rebuild.trade.making.derive import Designations
from rebuild.trade.sizes.quantity import Size
from rebuild.trade.threads.taken import shown
from rebuild.words.readings import FeatureKind, Stage
from rebuild.work.making.proposed import OwnFeature

#: The tables the lookups here ask.
READS = frozenset({"feature", "reading"})

_NAMED_OTHERWISE = (FeatureKind.TAPER, FeatureKind.GEAR)


def features_of(connection: Connection, part_id: int) -> list[OwnFeature]:
    """The features of a part with what the old part reads, newest reading at each station."""
    rows = connection.execute(
        select(*Features.columns())
        .where(Features.part_id == part_id)
        .order_by(Features.position, Features.id)
    ).all()
    read: dict[int, dict[int | None, tuple[float, str]]] = {}
    for row in connection.execute(
        select(
            Readings.feature_id,
            Readings.station_id,
            Readings.value_mm,
            Readings.typed,
            Readings.unit,
            Readings.how,
            Readings.read_mm,
        )
        .where(
            Readings.feature_id.in_([row.id for row in rows]),
            Readings.struck.is_(None),
            Readings.stage.not_in((Stage.AS_MADE, Stage.FITTED)),
        )
        .order_by(Readings.id)
    ):
        read.setdefault(row.feature_id, {})[row.station_id] = (
            row.value_mm,
            shown(Size(row.typed, row.unit, row.value_mm), 1, row.how or "", row.read_mm),
        )
    return [
        OwnFeature(
            row.id,
            row.name,
            row.kind,
            row.unit,
            row.thread,
            row.nominal_mm,
            row.low_mm,
            row.high_mm,
            tuple(value for value, _ in read.get(row.id, {}).values()),
            ", ".join(words for _, words in read.get(row.id, {}).values()),
            row.spec_origin,
        )
        for row in rows
    ]


def designations(features: Sequence[OwnFeature], part_name: str) -> Designations:
    """Thread and taper as they are written on the features."""
    thread = next((one.thread for one in features if one.kind is FeatureKind.THREAD and one.thread), "")
    if not thread:
        thread = next((one.thread for one in features if one.thread and one.kind not in _NAMED_OTHERWISE), "")
    taper = next((one.thread for one in features if one.kind is FeatureKind.TAPER and one.thread), "")
    if not taper and re.search(r"taper pin\D*\d", part_name.lower()):
        taper = part_name
    return Designations(thread, taper)
