"""What is measured on a part: features, their stations and their spec."""

from __future__ import annotations

from rebuild.model.asked import Journaled
from rebuild.model.cells import Cell, as_count, as_number, as_text, goes_with, maybe, one_of
from rebuild.words.readings import FeatureKind, SpecOrigin


class Features(Journaled, name="feature"):
    """A journal, bore, way or thread with its spec.

    A limit is stored as the text typed, its unit, and mm. ``low`` or ``high`` alone is a signed
    limit (high only, low only); ``sense`` says what plus means ("high at the tailstock", "concave").
    """

    indexes = (
        ("ix_feature_part_position", "part_id", "position"),
        ("ix_feature_nominal_mm", "nominal_mm"),
        ("ix_feature_low_mm", "low_mm"),
        ("ix_feature_high_mm", "high_mm"),
    )

    part_id: Cell[int] = goes_with("part")
    name: Cell[str] = as_text()
    kind: Cell[FeatureKind] = one_of(FeatureKind, FeatureKind.OTHER)
    unit: Cell[str] = as_text("mm")
    thread: Cell[str] = as_text("")
    nominal_text: Cell[str | None] = maybe(as_text())
    nominal_unit: Cell[str | None] = maybe(as_text())
    nominal_mm: Cell[float | None] = maybe(as_number())
    low_text: Cell[str | None] = maybe(as_text())
    low_unit: Cell[str | None] = maybe(as_text())
    low_mm: Cell[float | None] = maybe(as_number())
    high_text: Cell[str | None] = maybe(as_text())
    high_unit: Cell[str | None] = maybe(as_text())
    high_mm: Cell[float | None] = maybe(as_number())
    spec_text: Cell[str] = as_text("")
    sense: Cell[str] = as_text("")
    spec_origin: Cell[SpecOrigin | None] = maybe(one_of(SpecOrigin))
    spec_note: Cell[str] = as_text("")
    note: Cell[str] = as_text("")
    position: Cell[int] = as_count(0)


class Stations(Journaled, name="station"):
    """Where along a feature readings are taken: near, mid, far; 0, 3, 6 in; 12 o'clock."""

    indexes = (("ix_station_feature_position", "feature_id", "position"),)

    feature_id: Cell[int] = goes_with("feature")
    name: Cell[str] = as_text()
    at_text: Cell[str | None] = maybe(as_text())
    at_unit: Cell[str | None] = maybe(as_text())
    at_mm: Cell[float | None] = maybe(as_number())
    position: Cell[int] = as_count(0)
