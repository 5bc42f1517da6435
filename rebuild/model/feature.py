"""What is measured on a part: features, their stations and their spec."""

from __future__ import annotations

from sqlalchemy import ForeignKey, Index
from sqlalchemy.orm import Mapped, mapped_column

from rebuild.model.base import Record, table_args, word
from rebuild.words.readings import FeatureKind, SpecOrigin


class Feature(Record):
    """A journal, bore, way or thread with its spec.

    A limit is stored as the text typed, its unit, and mm. ``low`` or ``high`` alone is a signed
    limit (high only, low only); ``sense`` says what plus means ("high at the tailstock", "concave").
    """

    __tablename__ = "feature"
    __table_args__ = table_args(Index("ix_feature_part_position", "part_id", "position"))

    part_id: Mapped[int] = mapped_column(ForeignKey("part.id", ondelete="CASCADE"))
    name: Mapped[str]
    kind: Mapped[FeatureKind] = mapped_column(word(FeatureKind), default=FeatureKind.OTHER)
    unit: Mapped[str] = mapped_column(default="mm")
    thread: Mapped[str] = mapped_column(default="")
    nominal_text: Mapped[str | None]
    nominal_unit: Mapped[str | None]
    nominal_mm: Mapped[float | None]
    low_text: Mapped[str | None]
    low_unit: Mapped[str | None]
    low_mm: Mapped[float | None]
    high_text: Mapped[str | None]
    high_unit: Mapped[str | None]
    high_mm: Mapped[float | None]
    spec_text: Mapped[str] = mapped_column(default="")
    sense: Mapped[str] = mapped_column(default="")
    spec_origin: Mapped[SpecOrigin | None] = mapped_column(word(SpecOrigin))
    spec_note: Mapped[str] = mapped_column(default="")
    note: Mapped[str] = mapped_column(default="")
    position: Mapped[int] = mapped_column(default=0)


class Station(Record):
    """Where along a feature readings are taken: near, mid, far; 0, 3, 6 in; 12 o'clock."""

    __tablename__ = "station"
    __table_args__ = table_args(Index("ix_station_feature_position", "feature_id", "position"))

    feature_id: Mapped[int] = mapped_column(ForeignKey("feature.id", ondelete="CASCADE"))
    name: Mapped[str]
    at_text: Mapped[str | None]
    at_unit: Mapped[str | None]
    at_mm: Mapped[float | None]
    position: Mapped[int] = mapped_column(default=0)
