"""What was measured on an unknown thing and on the part it turned out to be is one feature: folded into that."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import select, update

from rebuild.model.records.features import Feature, Station
from rebuild.model.tables.every import whole
from rebuild.model.tables.fits import Fits
from rebuild.store.store import Tx
from rebuild.words.counted import counted

_SIZE = ("thread", "nominal_mm", "low_mm", "high_mm")
_SPEC = (
    "thread", "nominal_text", "nominal_unit", "nominal_mm", "low_text", "low_unit", "low_mm", "high_text",
    "high_unit", "high_mm", "spec_text", "sense", "spec_origin", "spec_note",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Folded:
    """Names of features folded into the part's own, and of those that stay two, for their sizes differ."""

    into: tuple[str, ...] = ()
    apart: tuple[str, ...] = ()

    @property
    def words(self) -> str:
        """What became of them, as sentences; empty when there were none."""
        said = []
        if self.into:
            said.append(
                f"{counted(len(self.into), 'feature')} became the part’s own: {', '.join(self.into)}."
            )
        if self.apart:
            said.append(f"Two of a name stay, for their sizes or kinds differ: {', '.join(self.apart)}.")
        return " ".join(said)


def fold_features(tx: Tx, thing_id: int, part_id: int) -> Folded:
    """Features of the thing of the same name, kind and size as one of the part go into that with all that names them.

    A spec only the thing's has goes along; one that differs keeps the two apart, and nothing of either is lost.
    """
    theirs = {_name(one.name): one for one in _features(tx, part_id)}
    into, apart = [], []
    for mine in _features(tx, thing_id):
        other = theirs.get(_name(mine.name))
        if other is None:
            continue
        if not _alike(mine, other):
            apart.append(mine.name)
            continue
        _fold(tx, mine, other)
        into.append(other.name)
    return Folded(tuple(into), tuple(apart))


def _features(tx: Tx, part_id: int) -> list[Feature]:
    asked = select(Feature).where(Feature.part_id == part_id).order_by(Feature.position, Feature.id)
    return list(tx.session.scalars(asked))


def _name(text: str) -> str:
    return " ".join(text.casefold().split())


def _size(one: Feature) -> tuple[object, ...]:
    return tuple(getattr(one, name) or None for name in _SIZE)


def _alike(mine: Feature, other: Feature) -> bool:
    """One and the same: kind, unit, and a size that agrees or that one of the two does not have."""
    if (mine.kind, mine.unit) != (other.kind, other.unit):
        return False
    return _size(mine) == _size(other) or not any(_size(mine)) or not any(_size(other))


def _fold(tx: Tx, mine: Feature, other: Feature) -> None:
    if not any(_size(other)) and any(_size(mine)):
        for name in _SPEC:
            setattr(other, name, getattr(mine, name))
    other.note = "\n".join(filter(None, (other.note, mine.note)))
    stations = {_name(one.name): one for one in _stations(tx, other)}
    for station in _stations(tx, mine):
        same = stations.get(_name(station.name))
        if same is None or same.at_mm != station.at_mm:
            station.feature_id, station.position = other.id, len(stations)
            stations.setdefault(_name(station.name), station)
            continue
        tx.session.flush()
        _repoint(tx, "station", station.id, same.id)
        tx.connection.execute(Station.table.delete().where(Station.table.c.id == station.id))
        tx.session.expunge(station)
    tx.session.flush()
    _repoint(tx, "feature", mine.id, other.id)
    tx.session.execute(update(Fits.table).where(Fits.table.c.later_id == mine.id).values(later_id=other.id))
    tx.connection.execute(Feature.table.delete().where(Feature.table.c.id == mine.id))
    tx.session.expunge(mine)


def _stations(tx: Tx, feature: Feature) -> list[Station]:
    return list(tx.session.scalars(select(Station).where(Station.feature_id == feature.id)))


def _repoint(tx: Tx, kind: str, was: int, now: int) -> None:
    """Every row that names one of a table names the other."""
    for table in whole().sorted_tables:
        for column in table.c:
            if any(key.column.table.name == kind for key in column.foreign_keys):
                tx.connection.execute(table.update().where(column == was).values({column.name: now}))
