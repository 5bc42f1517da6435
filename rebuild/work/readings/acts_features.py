"""Features, their stations and their spec; and the instruments of the shop."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from sqlalchemy import func, select

from rebuild.errors import Clash, Implausible
from rebuild.model.records.features import Feature, Station
from rebuild.model.records.machines import Machine
from rebuild.model.records.parts import Part
from rebuild.model.records.readings import Instrument
from rebuild.store.act import Act
from rebuild.store.store import Store, Tx
from rebuild.trade.limits.feature_words import kind_in, letter_disagrees
from rebuild.trade.limits.spec_entry import parse_spec
from rebuild.trade.sizes.quantity import Size
from rebuild.words.readings import FeatureKind, SpecOrigin
from rebuild.work.readings.rules import instrument as instrument_rule, station_distance
from rebuild.work.readings.stations import in_one_unit
from rebuild.work.records.columns import read_typed, set_columns, title
from rebuild.work.records.rows_settings import decimal_comma


def add_feature(
    store: Store,
    part_id: int,
    name: str,
    kind: FeatureKind | None = None,
    *,
    unit: str | None = None,
    spec: str = "",
    origin: SpecOrigin | None = None,
    stations: Sequence[str] = (),
    typed: Mapping[str, str] | None = None,
    confirmed: bool = False,
) -> int:
    """A new feature of a part, with its spec and stations as typed; returns its id.

    ``unit`` (mm or in) is the machine's when not given, ``kind`` what the name tells.

    Raises:
        BadEntry, Ambiguous, OutOfRange, NotThere: nothing is stored.
        Implausible: the fit letter of the spec is not one of this kind, until ``confirmed``.
    """
    kind = kind or kind_in(name) or FeatureKind.OTHER
    if not confirmed:
        _refuse_letter(name, kind, spec)
    comma = decimal_comma(store)
    with store.act(Act.ADD_FEATURE, "") as tx:
        part = tx.get(Part, part_id, "part")
        used = unit or _machine_unit(tx, part)
        columns = read_typed("feature", {"name": name, "unit": used, **(typed or {})})
        last = tx.session.scalar(select(func.max(Feature.position)).where(Feature.part_id == part_id))
        feature = Feature(part_id=part_id, kind=kind, position=0 if last is None else last + 1)
        set_columns(feature, columns)
        put_spec(feature, spec, origin, comma=comma)
        tx.session.add(feature)
        tx.session.flush()
        for position, station in enumerate(in_one_unit(stations)):
            row = Station(feature_id=feature.id, position=position)
            set_columns(row, read_station(station, feature.unit))
            tx.session.add(row)
        tx.subject = f"{feature.name} on {title(part)}"
        return feature.id


def _refuse_letter(name: str, kind: FeatureKind, spec: str) -> None:
    """Capital letters are classes of holes: a bore is never kept as an outside diameter without a word."""
    why = letter_disagrees(kind, spec)
    if why:
        raise Implausible(
            why,
            where="Spec",
            value=spec.strip(),
            way_out=f"Choose the kind of “{name.strip()}”, mend the class, or add it again as it is.",
        )


def _machine_unit(tx: Tx, part: Part) -> str:
    return tx.get(Machine, part.machine_id, "machine").unit


def set_spec(
    store: Store,
    feature_ids: Sequence[int],
    spec: str,
    origin: SpecOrigin | None = None,
    note: str | None = None,
    sense: str | None = None,
    *,
    seen: str | None = None,
) -> None:
    """Set the spec of one or several features from typed text, in one act.

    ``seen`` is the spec text the user saw when he began to type, for one feature.

    Raises:
        BadEntry, Ambiguous, OutOfRange: the text is not a spec; nothing is stored.
        Clash: another window has set another spec since; the typed text is in the kept entries.
    """
    if not feature_ids:
        return
    comma = decimal_comma(store)
    clash: Clash | None = None
    with store.act(Act.SET_SPEC, "") as tx:
        rows = [tx.get(Feature, key, "feature") for key in dict.fromkeys(feature_ids)]
        if seen is not None and len(rows) == 1 and rows[0].spec_text not in (seen, spec.strip()):
            clash = _clash(tx, rows[0], spec)
        for feature in rows if clash is None else ():
            put_spec(feature, spec, origin or feature.spec_origin, comma=comma)
            if note is not None:
                feature.spec_note = note
            if sense is not None:
                feature.sense = sense
        more = f" and {len(rows) - 1} more" if len(rows) > 1 else ""
        tx.subject = f"{spec.strip() or 'none'} on {feature_title(tx, rows[0])}{more}"
    if clash is not None:
        store.keep_entry(clash.where, clash.value, clash.what)
        raise clash


def _clash(tx: Tx, feature: Feature, typed: str) -> Clash:
    return Clash(
        f"was typed here, but another window set it to “{feature.spec_text}” first; the first one stands.",
        on=feature_title(tx, feature),
        field="Spec",
        value=typed.strip(),
        way_out="What you typed is in the kept entries; type it again to put it in place.",
    )


def put_spec(feature: Feature, text: str, origin: SpecOrigin | None, *, comma: bool | None = None) -> None:
    """Read ``text`` in the feature's unit and put nominal, low and high on it."""
    entry = parse_spec(text, feature.unit, decimal_comma=comma)
    _put(feature, "nominal", entry.nominal)
    _put(feature, "low", entry.low)
    _put(feature, "high", entry.high)
    feature.spec_text = text.strip()
    feature.spec_origin = origin if text.strip() else None
    if entry.origin and not feature.spec_note:
        feature.spec_note = entry.origin
    if entry.origin and origin is None:
        feature.spec_origin = SpecOrigin.HANDBOOK


def _put(feature: Feature, stem: str, size: Size | None) -> None:
    setattr(feature, f"{stem}_text", size.text if size else None)
    setattr(feature, f"{stem}_unit", size.unit if size else None)
    setattr(feature, f"{stem}_mm", size.mm if size else None)


def add_station(store: Store, feature_id: int, name: str) -> int:
    """A new station, last along the feature; returns its id. ``12 in`` also stores the distance."""
    return add_stations(store, feature_id, [name])[0]


def add_stations(store: Store, feature_id: int, names: Sequence[str]) -> list[int]:
    """New stations, last along the feature, in one act; returns their ids. Raises BadEntry: none is stored."""
    with store.act(Act.ADD_STATION, "") as tx:
        feature = tx.get(Feature, feature_id, "feature")
        last = tx.session.scalar(select(func.max(Station.position)).where(Station.feature_id == feature_id))
        rows = []
        for position, name in enumerate(in_one_unit(names), 0 if last is None else last + 1):
            row = Station(feature_id=feature_id, position=position)
            set_columns(row, read_station(name, feature.unit))
            tx.session.add(row)
            rows.append(row)
        tx.session.flush()
        tx.subject = f"{', '.join(row.name for row in rows)} on {feature_title(tx, feature)}"
        return [row.id for row in rows]


def read_station(name: str, unit: str) -> dict[str, object]:
    """Columns of a station; a name that reads as a size is also its distance along the feature."""
    return read_typed("station", {"name": name}) | station_distance(name.strip(), unit)


def feature_title(tx: Tx, feature: Feature) -> str:
    """``HS-01 spindle, front journal``."""
    part = tx.session.get(Part, feature.part_id)
    return f"{title(part)}, {feature.name}" if part is not None else feature.name


def add_instrument(store: Store, name: str, typed: Mapping[str, str] | None = None) -> int:
    """A new instrument; returns its id. Raises BadEntry."""
    given = {"name": name, **(typed or {})}
    columns = read_typed("instrument", given, given.get("unit", "mm"), comma=decimal_comma(store))
    with store.act(Act.ADD_INSTRUMENT, str(columns["name"])) as tx:
        last = tx.session.scalar(select(func.max(Instrument.position)))
        row = Instrument(position=0 if last is None else last + 1)
        set_columns(row, columns)
        instrument_rule(tx, row, {}, given)
        tx.session.add(row)
        tx.session.flush()
        return row.id
