"""Instruments and the readings taken with them."""

from __future__ import annotations

import datetime as dt

from rebuild.model.asked import Journaled
from rebuild.model.cells import (
    Cell,
    as_count,
    as_moment,
    as_number,
    as_text,
    goes_with,
    maybe,
    one_of,
    points_at,
)
from rebuild.words.readings import InstrumentKind, Stage


class Instruments(Journaled, name="instrument"):
    """A measuring instrument of the shop and how far it can be trusted.

    Either a maximum permissible error (``mpe``) or a stated expanded uncertainty with its k. ``least`` and
    ``most`` are the ends of its range; ``measures`` names what it can measure (``outside, depth``), empty: what
    its kind says.
    """

    name: Cell[str] = as_text()
    kind: Cell[InstrumentKind] = one_of(InstrumentKind, InstrumentKind.OTHER)
    unit: Cell[str] = as_text("mm")
    resolution_text: Cell[str | None] = maybe(as_text())
    resolution_unit: Cell[str | None] = maybe(as_text())
    resolution_mm: Cell[float | None] = maybe(as_number())
    mpe_text: Cell[str | None] = maybe(as_text())
    mpe_unit: Cell[str | None] = maybe(as_text())
    mpe_mm: Cell[float | None] = maybe(as_number())
    uncertainty_text: Cell[str | None] = maybe(as_text())
    uncertainty_unit: Cell[str | None] = maybe(as_text())
    uncertainty_mm: Cell[float | None] = maybe(as_number())
    coverage_k: Cell[float] = as_number(2.0)
    limit_source: Cell[str] = as_text("")
    least_text: Cell[str | None] = maybe(as_text())
    least_unit: Cell[str | None] = maybe(as_text())
    least_mm: Cell[float | None] = maybe(as_number())
    most_text: Cell[str | None] = maybe(as_text())
    most_unit: Cell[str | None] = maybe(as_text())
    most_mm: Cell[float | None] = maybe(as_number())
    measures: Cell[str | None] = maybe(as_text())
    calibrated_on: Cell[dt.datetime | None] = maybe(as_moment())
    note: Cell[str] = as_text("")
    position: Cell[int] = as_count(0)


class Readings(Journaled, name="reading"):
    """One measured value as typed, with its unit and mm; several repeats make one reading.

    ``typed`` keeps every repeat (``24.98; 24.99``); ``value_mm`` is their mean, ``repeats`` how many,
    ``spread_mm`` their sample standard deviation. ``rebuild check`` works them out again from the text.

    Of a thread ``how`` says how it was taken (``over 0.0645 in wires``). Over wires or between pins ``read_mm``
    is the mean of what was read and ``value_mm`` the pitch diameter it means on the thread named ``thread``.
    """

    indexes = (
        ("ix_reading_feature_station_stage", "feature_id", "station_id", "stage", "id"),
        ("ix_reading_taken_at", "taken_at"),
        ("ix_reading_value_mm", "value_mm"),
    )

    feature_id: Cell[int] = goes_with("feature")
    station_id: Cell[int | None] = maybe(goes_with("station", index=True))
    stage: Cell[Stage] = one_of(Stage)
    typed: Cell[str] = as_text()
    unit: Cell[str] = as_text()
    value_mm: Cell[float] = as_number()
    repeats: Cell[int] = as_count(1)
    spread_mm: Cell[float | None] = maybe(as_number())
    instrument_id: Cell[int | None] = points_at("instrument", index=True)
    temperature_text: Cell[str | None] = maybe(as_text())
    temperature_c: Cell[float | None] = maybe(as_number())
    taken_at: Cell[dt.datetime] = as_moment()
    taken_by: Cell[str] = as_text("")
    note: Cell[str] = as_text("")
    struck: Cell[str | None] = maybe(as_text())
    how: Cell[str | None] = maybe(as_text())
    thread: Cell[str | None] = maybe(as_text())
    read_mm: Cell[float | None] = maybe(as_number())


class Unplaced(Journaled, name="unplaced"):
    """A value a gauge sent while no row was in hand; it waits here to be put on one."""

    typed: Cell[str] = as_text()
    sent_at: Cell[dt.datetime] = as_moment()
    seen_on: Cell[str] = as_text("")
    instrument_id: Cell[int | None] = points_at("instrument", index=True)
    temperature_text: Cell[str | None] = maybe(as_text())
    taken_by: Cell[str] = as_text("")
