"""One imported reading: as typed, in its unit, agreeing with the mm beside it, held when it is far off."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sqlalchemy import Integer, bindparam, select

from rebuild.errors import BadEntry
from rebuild.model.records.features import Feature
from rebuild.model.records.readings import Reading
from rebuild.model.tables.readings import Readings
from rebuild.trade.sizes.amounts import parse_celsius
from rebuild.trade.sizes.quantity import Size, parse_repeats
from rebuild.trade.sizes.reread import mean_and_spread, near, repeats_again
from rebuild.trade.threads.taken import pitch_diameter_of, read_how, split_taken
from rebuild.words.readings import FeatureKind, Stage
from rebuild.work.lists.line import Line
from rebuild.work.lists.values import moment, number, unit_of, word_of
from rebuild.work.readings.read import Read, columns_of
from rebuild.work.readings.rules_plausible import Expected, refuse_implausible
from rebuild.work.readings.rules_standing import standing_of
from rebuild.work.records.wall_clock import now

if TYPE_CHECKING:
    from rebuild.work.lists.acts_rows import Importer

# Made once: of ten thousand readings, making the statement would cost more than what it does.
_INSERT = Readings.table.insert()
_LAST = (
    select(Reading.value_mm)
    .where(standing_of(bindparam("of_feature", type_=Integer), bindparam("at_station", type_=Integer)))
    .order_by(Reading.id.desc())
    .limit(1)
)


def put_reading(importer: Importer, line: Line, *, confirmed: bool) -> str:
    """Store one reading; returns it in words. Raises BadEntry, Ambiguous, Implausible, NotThere.

    Everything that can be refused comes before anything is written: a reading needs no savepoint of its own.
    """
    feature, label = importer.measured.feature_of(line)
    station_id = importer.measured.station_of(line, feature)
    read = _read(importer, line, feature, label)
    struck = line.text("struck") or None
    if not confirmed and struck is None:
        expected = Expected(
            label,
            feature.nominal_mm,
            feature.low_mm,
            feature.high_mm,
            _last(importer, feature.id, station_id),
        )
        refuse_implausible(read.value_mm, expected, read.typed, feature.unit)
    warm_text, warm = _temperature(line, importer.comma)
    taken = line.text("taken_at")
    columns = {
        "feature_id": feature.id,
        "station_id": station_id,
        "stage": word_of(Stage, line.text("stage"), "Stage") or Stage.AS_FOUND,
        **columns_of(read),
        "temperature_text": warm_text,
        "temperature_c": warm,
        "taken_at": moment(taken, "Taken") if taken else now(),
        "taken_by": line.text("taken_by"),
        "note": line.text("note"),
        "struck": struck,
        "instrument_id": importer.measured.instrument_of(line),
    }
    importer.tx.connection.execute(_INSERT, columns)
    return f"{read.typed} {read.unit}{read.behind} on {label}"


def _read(importer: Importer, line: Line, feature: Feature, label: str) -> Read:
    """The reading as read; how a thread was taken stands behind the number or in a column of its own."""
    text, behind = split_taken(line.text("typed"))
    stated = number(line.text("value_mm"), "Value [mm]")
    how = read_how(behind or line.text("how"), unit_of(line.text("unit"), feature.unit), importer.comma)
    if how is not None and feature.kind is not FeatureKind.THREAD:
        raise BadEntry(
            "is said of a feature that is no thread.",
            where=label,
            value=how.words,
            way_out="Clear that cell.",
        )
    if how is None or how.wire is None:
        typed, sizes = _sizes(importer, line, feature, label, text, stated)
        mean, spread = mean_and_spread(sizes)
        return Read(typed, sizes, mean, spread, how, "", None)
    typed, sizes = _sizes(importer, line, feature, label, text, None)
    mean, spread = mean_and_spread(sizes)
    thread = line.text("thread") or feature.thread
    value = pitch_diameter_of(mean, how, thread, label).value
    if stated is not None and not near(value, stated):
        raise BadEntry(
            f"means a pitch diameter of {value:g} mm, not the {stated:g} mm beside it.",
            where=label,
            value=f"{typed} {how.words}",
            way_out="Mend the one that is wrong.",
        )
    return Read(typed, sizes, value, spread, how, thread, mean)


def _sizes(
    importer: Importer, line: Line, feature: Feature, label: str, typed: str, stated: float | None
) -> tuple[str, tuple[Size, ...]]:
    unit = unit_of(line.text("unit"), feature.unit)
    if not typed and stated is not None:
        typed, unit = repr(stated), "mm"
    if stated is None:
        sizes = parse_repeats(typed, unit, label, decimal_comma=importer.comma)
    else:
        again = repeats_again(typed, unit, stated)
        if again is None:
            raise BadEntry(
                f"does not read as the {stated:g} mm beside it.",
                where=label,
                value=f"{typed} {unit}",
                way_out="Mend the one that is wrong.",
            )
        sizes = again
    if len({size.unit for size in sizes}) > 1:
        raise BadEntry(
            "mixes units among its repeats.",
            where=label,
            value=typed,
            way_out="Give every repeat in one unit.",
        )
    return typed, sizes


def _temperature(line: Line, comma: bool | None) -> tuple[str | None, float | None]:
    text, stated = line.text("temperature"), number(line.text("temperature_c"), "Temperature [°C]")
    if not text:
        return (None, None) if stated is None else (f"{stated!r} C", stated)
    celsius = parse_celsius(text, decimal_comma=comma)
    if stated is not None and abs(celsius - stated) > 1e-6:
        raise BadEntry(
            f"is not the {stated:g} °C beside it.",
            where="Temperature",
            value=text,
            way_out="Mend the one that is wrong.",
        )
    return text, celsius if stated is None else stated


def _last(importer: Importer, feature_id: int, station_id: int | None) -> float | None:
    asked = {"of_feature": feature_id, "at_station": station_id or 0}
    return importer.tx.connection.execute(_LAST, asked).scalar()
