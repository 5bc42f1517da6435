"""What must hold of a feature, a station and a reading as a whole, and what follows from a change of one."""

from __future__ import annotations

from collections.abc import Mapping

from rebuild.errors import BadEntry
from rebuild.model.records.features import Feature, Station
from rebuild.model.records.readings import Instrument, Reading
from rebuild.store.tx import Tx
from rebuild.trade.limits.reach import read_measures
from rebuild.trade.limits.spec_again import limits_mm, specs_again
from rebuild.trade.limits.spec_entry import parse_spec
from rebuild.trade.limits.spec_parts import SpecEntry
from rebuild.trade.sizes.quantity import parse_length
from rebuild.trade.threads.taken import pitch_diameter_of, read_how
from rebuild.words.readings import FeatureKind


def feature(_tx: Tx, row: Feature, before: Mapping[str, object], _typed: Mapping[str, str]) -> None:
    """A spec typed in the old unit keeps its meaning: the unit is written into it."""
    old = before.get("unit")
    if not row.spec_text or row.unit == old or not isinstance(old, str):
        return
    meant = limits_mm(parse_spec_stored(row.spec_text, old, row))
    for text in (row.spec_text, f"{row.spec_text} {old}"):
        try:
            if limits_mm(parse_spec(text, row.unit)) == meant:
                row.spec_text = text
                return
        except BadEntry:
            continue
    raise BadEntry(
        f"would change the meaning of the spec “{row.spec_text}”.",
        where="Unit",
        value=row.unit,
        way_out=f"Write the spec with its unit ({old}) first, then change the unit.",
    )


def parse_spec_stored(text: str, unit: str, row: Feature) -> SpecEntry:
    """A stored spec text read again; a comma that was settled when typed is settled the same way."""
    stored = (row.nominal_mm, row.low_mm, row.high_mm)
    for entry in specs_again(text, unit):
        if limits_mm(entry) == stored:
            return entry
    return parse_spec(text, unit)


def station(tx: Tx, row: Station, before: Mapping[str, object], typed: Mapping[str, str]) -> None:
    """A station named by a distance keeps name and distance together."""
    if "name" not in typed or "at" in typed:
        return
    of = tx.get(Feature, row.feature_id, "feature")
    at = station_distance(row.name, of.unit)
    if at or before.get("at_text") == before.get("name"):
        for column in ("at_text", "at_unit", "at_mm"):
            setattr(row, column, at.get(column))


def instrument(_tx: Tx, row: Instrument, _before: Mapping[str, object], _typed: Mapping[str, str]) -> None:
    """What it measures is in known words, and its range does not run backwards."""
    read_measures(row.measures or "")
    if row.least_mm is not None and row.most_mm is not None and row.least_mm >= row.most_mm:
        raise BadEntry(
            f"is not below {row.most_text}, the end of the range.",
            where="Range from",
            value=row.least_text or "",
            way_out="Type the smaller end first.",
        )


def reading(tx: Tx, row: Reading, _before: Mapping[str, object], typed: Mapping[str, str]) -> None:
    if "temperature_c" in typed:
        row.temperature_text = typed["temperature_c"].strip() or None
    if "how" in typed:
        _take_otherwise(tx, row)


def _take_otherwise(tx: Tx, row: Reading) -> None:
    """How a thread was taken is said afterwards: what was read stays, and means another pitch diameter."""
    of = tx.get(Feature, row.feature_id, "feature")
    place = f"{of.name}, {row.typed}"
    how = read_how(row.how or "", of.unit)
    if how is not None and of.kind is not FeatureKind.THREAD:
        raise BadEntry(
            "is said of a feature that is no thread.",
            where=place,
            value=how.words,
            way_out="Clear it, or make the feature's kind a thread.",
        )
    raw = row.value_mm if row.read_mm is None else row.read_mm
    row.how = how.words if how is not None else None
    row.value_mm, row.read_mm, row.thread = raw, None, None
    if how is not None and how.wire is not None:
        row.value_mm = pitch_diameter_of(raw, how, of.thread, place).value
        row.read_mm, row.thread = raw, of.thread


def station_distance(name: str, unit: str) -> dict[str, object]:
    """The distance columns of a station whose name reads as a size; empty for ``near`` or ``12 o'clock``."""
    try:
        at = parse_length(name, unit)
    except BadEntry:
        return {}
    return {"at_text": at.text, "at_unit": at.unit, "at_mm": at.mm}
