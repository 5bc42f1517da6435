"""One row of a list put into the file, inside an act: who it belongs to by number or by name, and its exact values."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable

from sqlalchemy import func, select

from rebuild.errors import BadEntry, NotThere
from rebuild.model.records.features import Feature, Station
from rebuild.model.records.machines import Machine, Subassembly
from rebuild.model.records.parts import MatchedSet as MatchedSetRecord, Part
from rebuild.model.records.places import Place
from rebuild.store.tx import Tx
from rebuild.trade.limits.spec_again import limits_mm, settled_text
from rebuild.trade.limits.spec_entry import parse_spec
from rebuild.trade.sizes.reread import near
from rebuild.words.places import PlaceKind
from rebuild.words.readings import SpecOrigin
from rebuild.work.lists.acts_measured import Measured
from rebuild.work.lists.acts_readings import put_reading
from rebuild.work.lists.fields import PART_OF_FEATURE, What
from rebuild.work.lists.line import NOTHING, InHand, Line
from rebuild.work.lists.quantities import quantity_said
from rebuild.work.lists.rules_part_meant import part_meant
from rebuild.work.lists.subassembly_meant import Called, the_one_meant
from rebuild.work.lists.values import exact_length, moment, number, word_of
from rebuild.work.machines import rules
from rebuild.work.places.acts_follow import lies_where_typed
from rebuild.work.readings.acts_features import put_spec
from rebuild.work.readings.rules import station_distance
from rebuild.work.records.columns import read_typed, set_columns, title
from rebuild.work.records.fields import FIELDS
from rebuild.work.records.rules import refuse_taken_code


class Importer:
    """Puts rows into the file and remembers which number of the list became which record."""

    def __init__(self, tx: Tx, machine_id: int | None, comma: bool | None, hand: InHand = NOTHING) -> None:
        self.tx, self.machine_id, self.comma, self.hand = tx, machine_id, comma, hand
        self.made: dict[What, dict[str, int]] = {what: {} for what in What}
        self._there_before = {
            row.name.lower(): row.id for row in tx.session.execute(select(Machine.id, Machine.name))
        }
        self._spares: list[tuple[int, str]] = []
        self.measured = Measured(self)

    def take(self, what: What, line: Line, *, confirmed: bool) -> str:
        """Store one row; returns what it became, in words. Raises BadEntry, Ambiguous, Implausible, NotThere."""
        if what is What.READINGS:
            return put_reading(self, line, confirmed=confirmed)
        self.measured.forget()
        put: dict[What, Callable[[Line], tuple[int, str]]] = {
            What.MACHINES: self._machine,
            What.PARTS: self._part,
            What.FEATURES: self._feature,
            What.STATIONS: self._station,
        }
        key, words = put[what](line)
        if line.text("number"):
            self.made[what][line.text("number")] = key
        return words

    def join_spares(self) -> None:
        """Tie spares to their parts, once every part of the list is there."""
        for part_id, number_of in self._spares:
            original = self.made[What.PARTS].get(number_of)
            part = self.tx.session.get(Part, part_id)
            if part is not None and original is not None:
                part.spare_of_id = original
        self._spares.clear()
        self.tx.session.flush()

    # Machines and parts

    def _machine(self, line: Line) -> tuple[int, str]:
        name = line.text("name")
        there = self._there_before.get(name.lower())
        if there is not None:
            return there, f"machine {name}, already there"
        columns = read_typed("machine", _fields("machine", line))
        count = self.tx.session.scalar(select(func.count()).select_from(Machine)) or 0
        row = Machine(position=count)
        set_columns(row, columns)
        self.tx.session.add(row)
        self.tx.session.flush()
        return row.id, f"machine {row.name}"

    def machine_of(self, line: Line) -> int:
        """The machine a row belongs to. Raises NotThere, BadEntry."""
        made = self.made[What.MACHINES].get(line.text("machine_number"))
        if made is not None:
            return made
        name = line.text("machine")
        if name:
            found = self.tx.session.scalar(select(Machine.id).where(func.lower(Machine.name) == name.lower()))
            if found is None:
                raise NotThere(
                    f"There is no machine “{name}” here.", way_out="Add it, or leave that column out."
                )
            return found
        if self.machine_id is None:
            raise BadEntry(
                "is not given.", where="Machine", way_out="Choose the machine these rows belong to."
            )
        return self.machine_id

    def _part(self, line: Line) -> tuple[int, str]:
        machine_id = self.machine_of(line)
        typed = _fields("part", line)
        many = quantity_said(line.text("quantity"), line.text("quantity_unit"), comma=self.comma)
        typed["quantity"] = str(many.count)
        typed["name"] = typed["name"] or _named_by(line)
        if many.said:
            typed["note"] = "; ".join(filter(None, (line.text("note"), f"quantity in the list: {many.said}")))
        columns = read_typed("part", typed, comma=self.comma)
        group_id = self._group(machine_id, line.text("group_code"), line.text("group_name"))
        if group_id is None and machine_id == self.machine_id:
            group_id = self.hand.subassembly_id
        refuse_taken_code(self.tx, machine_id, str(columns.get("code", "")))
        last = self.tx.session.scalar(
            select(func.max(Part.position)).where(
                Part.machine_id == machine_id, Part.subassembly_id.is_(group_id)
            )
        )
        part = Part(machine_id=machine_id, subassembly_id=group_id, position=0 if last is None else last + 1)
        set_columns(part, columns)
        rules.part(self.tx, part, {}, typed)
        if line.text("decided_at"):
            part.decided_at = moment(line.text("decided_at"), "Decided")
        place_at = self._place(part, line)
        if line.text("set_name"):
            part.matched_set_id = self._set(machine_id, line.text("set_name"))
        self.tx.session.add(part)
        self.tx.session.flush()
        lies_where_typed(self.tx, part, place_at)
        if line.text("spare_of"):
            self._spares.append((part.id, line.text("spare_of")))
        times = f"{part.quantity} × part" if part.quantity != 1 else "part"
        said = f"({many.said})" if many.said else ""
        said = " ".join(filter(None, (said, self._numbered_alike(part))))
        if line.text("group_name") or line.text("group_code"):
            said = " ".join(
                filter(None, (said, f"in {title(self.tx.get(Subassembly, group_id or 0, 'subassembly'))}"))
            )
        return part.id, " ".join(filter(None, (times, part.code, part.name, said)))

    def _numbered_alike(self, part: Part) -> str:
        """A word on a maker's number another part of the machine has too: often right, and worth a look."""
        if not part.maker_number:
            return ""
        other = self.tx.session.scalar(
            select(Part)
            .where(
                Part.machine_id == part.machine_id, Part.maker_number == part.maker_number, Part.id != part.id
            )
            .limit(1)
        )
        return f"(maker’s number {part.maker_number} is also that of {title(other)})" if other else ""

    def _group(self, machine_id: int, code: str, name: str) -> int | None:
        """The subassembly of that code or name, made when there is none; None for a loose part. Raises BadEntry."""
        if not (code or name):
            return None
        there = self.tx.session.execute(
            select(Subassembly.id, Subassembly.code, Subassembly.name, Subassembly.parent_id)
            .where(Subassembly.machine_id == machine_id)
            .order_by(Subassembly.id)
        ).all()
        found = the_one_meant([Called(row.id, row.code, row.name) for row in there], code, name)
        if found is not None:
            return found
        on_top = sum(row.parent_id is None for row in there)
        row = Subassembly(machine_id=machine_id, position=on_top)
        set_columns(row, read_typed("subassembly", {"name": name or code, "code": code}))
        self.tx.session.add(row)
        self.tx.session.flush()
        return row.id

    def _place(self, part: Part, line: Line) -> dt.datetime | None:
        """The place a list names, made when there is none; returns since when the part lies there."""
        name = line.text("place_name")
        if not name:
            return None
        kind = word_of(PlaceKind, line.text("place_kind"), "Place kind") or PlaceKind.OTHER
        found = self.tx.session.scalar(
            select(Place.id).where(Place.kind == kind, func.lower(Place.name) == name.lower()).limit(1)
        )
        if found is None:
            place = Place(kind=kind)
            set_columns(place, read_typed("place", {"name": name}))
            self.tx.session.add(place)
            self.tx.session.flush()
            found = place.id
        part.place_id = found
        return moment(line.text("placed_at"), "Placed") if line.text("placed_at") else None

    def _set(self, machine_id: int, name: str) -> int:
        kept = MatchedSetRecord
        found = self.tx.session.scalar(
            select(kept.id)
            .where(kept.machine_id == machine_id, func.lower(kept.name) == name.lower())
            .limit(1)
        )
        if found is not None:
            return found
        row = kept(machine_id=machine_id)
        set_columns(row, read_typed("matched_set", {"name": name}))
        self.tx.session.add(row)
        self.tx.session.flush()
        return row.id

    # Features and stations

    def part_of(self, line: Line) -> Part:
        """The part a row belongs to: by number in the same import, else by code, else by a name only one bears."""
        made = self.made[What.PARTS].get(line.text("part"))
        if made is not None:
            return self.tx.get(Part, made, "part")
        code, name = line.text("part_code"), line.text("part_name")
        if not (code or name) and self.hand.part_id is not None:
            return self.tx.get(Part, self.hand.part_id, "part")
        return part_meant(self.tx, self.machine_of(line), code, name)

    def _part_with_it(self, line: Line) -> tuple[Part, str]:
        """The part of a feature, and what is said when the row makes it: a list of parts with their features.

        A row makes the part it gives code and name of where the machine has neither. Raises NotThere, BadEntry.
        """
        try:
            return self.part_of(line), ""
        except NotThere:
            code, name = line.text("part_code"), line.text("part_name")
            if not (code and name) or self._is_there(line, name):
                raise
        typed = {own: line.text(other) for own, other in PART_OF_FEATURE.items()}
        key, words = self._part(Line(line.number, {**typed, "machine": line.text("machine")}))
        return self.tx.get(Part, key, "part"), f" with the {words}"

    def _is_there(self, line: Line, name: str) -> bool:
        """Whether a part bears the name that stands beside a code nobody knows: then the code is a slip."""
        try:
            part_meant(self.tx, self.machine_of(line), "", name)
        except NotThere as none:
            return "Several" in str(none)
        return True

    def _feature(self, line: Line) -> tuple[int, str]:
        part, with_it = self._part_with_it(line)
        if with_it and not (line.text("name") or line.text("number")):
            return part.id, with_it.removeprefix(" with the ")
        typed = _fields("feature", line)
        if not typed.get("unit"):
            typed["unit"] = self.tx.get(Machine, part.machine_id, "machine").unit
        origin = word_of(SpecOrigin, typed.pop("spec_origin", ""), "Spec from")
        columns = read_typed("feature", typed)
        last = self.tx.session.scalar(select(func.max(Feature.position)).where(Feature.part_id == part.id))
        row = Feature(part_id=part.id, position=0 if last is None else last + 1)
        set_columns(row, columns)
        text, comma = self._spec_of(line, row.unit)
        put_spec(row, text, origin, comma=comma)
        row.spec_origin = origin if line.text("spec") else None
        if columns.get("spec_note") is not None:
            row.spec_note = str(columns["spec_note"])
        _refuse_other_limits(line, row)
        self.tx.session.add(row)
        self.tx.session.flush()
        return row.id, f"feature {row.name} on {part.code} {part.name}{with_it}"

    def _spec_of(self, line: Line, unit: str) -> tuple[str, bool | None]:
        """The spec, and how a comma in it was meant: as the mm beside it say, else as the file says."""
        text = line.text("spec")
        nominal, low, high = (number(line.text(f"{stem}_mm"), stem) for stem in ("nominal", "low", "high"))
        stated = (nominal, low, high)
        if not any(value is not None for value in stated):
            return text, self.comma
        for comma in (None, True, False) if "," in text else ():
            try:
                entry = parse_spec(text, unit, decimal_comma=comma)
            except BadEntry:
                continue
            if limits_mm(entry) == stated:
                return text, comma
        return settled_text(text, unit, stated), self.comma

    def feature_of(self, line: Line) -> Feature:
        """The feature a row belongs to: by number in the same import, else by part and name. Raises NotThere."""
        made = self.made[What.FEATURES].get(line.text("feature"))
        if made is not None:
            return self.tx.get(Feature, made, "feature")
        name = line.text("feature_name")
        if not name and self.hand.feature_id is not None and not line.text("part_code"):
            return self.tx.get(Feature, self.hand.feature_id, "feature")
        part = self.part_of(line)
        found = self.tx.session.scalars(
            select(Feature)
            .where(Feature.part_id == part.id, func.lower(Feature.name) == name.lower())
            .limit(2)
        ).all()
        if len(found) == 1:
            return found[0]
        what = "has no feature" if not found else "has several features"
        raise NotThere(
            f"{part.code} {part.name} {what} “{name}”.".strip(),
            way_out="Add the feature first, then import again.",
        )

    def _station(self, line: Line) -> tuple[int, str]:
        feature = self.feature_of(line)
        columns = read_typed("station", {"name": line.text("name")})
        at = exact_length(line, "at", "Distance along", feature.unit)
        if at is not None:
            columns |= at
        elif "at" not in line.typed:
            columns |= station_distance(line.text("name"), feature.unit)
        last = self.tx.session.scalar(
            select(func.max(Station.position)).where(Station.feature_id == feature.id)
        )
        row = Station(feature_id=feature.id, position=0 if last is None else last + 1)
        set_columns(row, columns)
        self.tx.session.add(row)
        self.tx.session.flush()
        return row.id, f"station {row.name} of {feature.name}"


def _named_by(line: Line) -> str:
    """What a part without a name is called: its number, with the maker's or in the list."""
    given = (line.text(name) for name in ("code", "maker_number", "note", "material", "figure_item"))
    return next(filter(None, given), "")


def _fields(record: str, line: Line) -> dict[str, str]:
    """The typed texts of a record's own editable fields, those that are given; a name is always asked for."""
    return {
        field.name: line.text(field.name)
        for field in FIELDS[record]
        if line.text(field.name) or field.name == "name"
    }


def _refuse_other_limits(line: Line, row: Feature) -> None:
    """What the list says in mm must be what the spec gives."""
    for stem in ("nominal", "low", "high"):
        stated, found = number(line.text(f"{stem}_mm"), stem), getattr(row, f"{stem}_mm")
        if stated is not None and (found is None or not near(found, stated)):
            raise BadEntry(
                f"gives {'nothing' if found is None else f'{found:g} mm'} as {stem}, the list says {stated:g} mm.",
                where="Spec",
                value=row.spec_text,
                way_out="Mend the one that is wrong, or leave the mm columns out.",
            )
