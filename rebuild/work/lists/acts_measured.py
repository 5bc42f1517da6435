"""What the readings of a list were taken of and with: looked up once a name, however many rows say it."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from sqlalchemy import func, select

from rebuild.errors import NotThere
from rebuild.model.records.features import Feature, Station
from rebuild.model.records.parts import Part
from rebuild.model.records.readings import Instrument
from rebuild.work.lists.fields import What
from rebuild.work.lists.line import Line
from rebuild.work.records.columns import read_typed, set_columns

if TYPE_CHECKING:
    from rebuild.work.lists.acts_rows import Importer

#: The columns that say which feature a row was read on.
_SAYS_WHICH = ("machine_number", "machine", "part", "part_code", "part_name", "feature", "feature_name")


#: So many rows are looked up one by one before all features of their machine are read at once.
FEW = 20


class Measured:
    """Features, stations and instruments by what the rows call them, until something else than a reading comes in."""

    def __init__(self, importer: Importer) -> None:
        self._importer = importer
        self._features: dict[tuple[str, ...], tuple[Feature, str]] = {}
        self._stations: dict[tuple[int, str], int] = {}
        self._instruments: dict[str, int] = {}
        self._machines: dict[str, int] = {}
        self._at_hand: dict[int, dict[tuple[str, str], list[Feature]]] = {}
        self._kept: list[Part] = []
        self._asked = 0

    def forget(self) -> None:
        """Other rows may add what a name means, or another of the same name."""
        self._features.clear()
        self._stations.clear()
        self._instruments.clear()
        self._machines.clear()
        self._at_hand.clear()
        self._kept.clear()

    def feature_of(self, line: Line) -> tuple[Feature, str]:
        """The feature a reading belongs to, and its name with that of its part. Raises NotThere, BadEntry."""
        key = tuple(map(line.text, _SAYS_WHICH))
        found = self._features.get(key)
        if found is None:
            feature = self._of_many(line) or self._importer.feature_of(line)
            part = self._importer.tx.get(Part, feature.part_id, "part")
            found = self._features[key] = feature, f"{part.code} {part.name}, {feature.name}".strip()
        return found

    def _of_many(self, line: Line) -> Feature | None:
        """After a few rows by code and name, all features of the machine are at hand; None where it is not plain."""
        code, name, made = line.text("part_code"), line.text("feature_name"), self._importer.made
        if not (code and name) or made[What.PARTS] or made[What.FEATURES]:
            return None
        self._asked += 1
        if self._asked <= FEW:
            return None
        machine_id = self._machine_of(line)
        if machine_id not in self._at_hand:
            self._at_hand[machine_id] = self._all_of(machine_id)
        found = self._at_hand[machine_id].get((code, name.lower()), [])
        return found[0] if len(found) == 1 else None

    def _machine_of(self, line: Line) -> int:
        name = line.text("machine")
        if name not in self._machines:
            self._machines[name] = self._importer.machine_of(line)
        return self._machines[name]

    def _all_of(self, machine_id: int) -> dict[tuple[str, str], list[Feature]]:
        """Every feature of a machine by the code of its part and its own name; what two parts bear is left out."""
        session = self._importer.tx.session
        parts = session.scalars(select(Part).where(Part.machine_id == machine_id)).all()
        codes = {part.id: part.code for part in parts}
        self._kept = list(parts)  # the session lets go of what nobody holds
        twice = {code for code, count in Counter(codes.values()).items() if count > 1}
        found: dict[tuple[str, str], list[Feature]] = {}
        rows = session.execute(
            select(Feature, func.lower(Feature.name))
            .join(Part, Part.id == Feature.part_id)
            .where(Part.machine_id == machine_id)
        )
        for feature, named in rows:
            code = codes[feature.part_id]
            if code not in twice:
                found.setdefault((code, named), []).append(feature)
        return found

    def station_of(self, line: Line, feature: Feature) -> int | None:
        """The station a reading was taken at, None for the feature as a whole. Raises NotThere."""
        made = self._importer.made[What.STATIONS].get(line.text("station"))
        if made is not None:
            return made
        name = line.text("station_name")
        if not name:
            return None
        key = (feature.id, name.lower())
        if key not in self._stations:
            self._stations[key] = self._station(feature, name)
        return self._stations[key]

    def _station(self, feature: Feature, name: str) -> int:
        found = self._importer.tx.session.scalars(
            select(Station.id)
            .where(Station.feature_id == feature.id, func.lower(Station.name) == name.lower())
            .limit(2)
        ).all()
        if len(found) != 1:
            what = "has no station" if not found else "has several stations"
            raise NotThere(
                f"“{feature.name}” {what} “{name}”.", way_out="Add it first, or leave the station out."
            )
        return found[0]

    def instrument_of(self, line: Line) -> int | None:
        """The instrument of that name; one nobody knows yet is added without a limit of error."""
        name = line.text("instrument")
        if not name:
            return None
        if name not in self._instruments:
            self._instruments[name] = self._instrument(name)
        return self._instruments[name]

    def _instrument(self, name: str) -> int:
        session = self._importer.tx.session
        same = func.lower(Instrument.name) == name.lower()
        found = session.scalar(select(Instrument.id).where(same).limit(1))
        if found is not None:
            return found
        row = Instrument(position=session.scalar(select(func.count()).select_from(Instrument)) or 0)
        set_columns(
            row,
            read_typed("instrument", {"name": name, "note": "came with an import; no limit of error yet"}),
        )
        session.add(row)
        session.flush()
        return row.id
