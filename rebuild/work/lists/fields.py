"""The columns of the lists that can be imported: their headings, other words people write for them, what they hold."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from rebuild.work.records.field import Field, FieldKind
from rebuild.work.records.fields import FIELDS


class What(StrEnum):
    """The lists there are; the value is the file's name in an export folder."""

    MACHINES = "machines"
    PARTS = "part list"
    FEATURES = "features"
    STATIONS = "stations"
    READINGS = "readings"

    def counted(self, count: int) -> str:
        """So many of its rows, in words.

        >>> What.PARTS.counted(1), What.READINGS.counted(40)
        ('1 part', '40 readings')
        """
        plural = "parts" if self is What.PARTS else self.value
        return f"{count} {plural if count != 1 else plural.removesuffix('s')}"


@dataclass(frozen=True, slots=True)
class Column:
    """One column: the name acts know it by, its heading, what it holds, and where an export takes it from."""

    name: str
    head: str
    holds: str = "text"
    source: str = ""
    also: tuple[str, ...] = ()


def _of_field(field: Field, *also: str) -> tuple[Column, ...]:
    """The columns of an editable field; a length has its text with the unit and mm beside it."""
    if field.kind is FieldKind.LENGTH:
        text, unit, mm = field.columns()
        return (
            Column(field.name, f"{field.label}, as typed", source=text, also=(field.label, *also)),
            Column(unit, f"{field.label}, unit", source=unit),
            Column(mm, f"{field.label} [mm]", "number", source=mm),
        )
    listed = f"one of: {', '.join(word.value for word in field.choices)}" if field.choices else "text"
    return (Column(field.name, field.label, listed, field.name, also),)


_ALSO = {
    "code": ("part code", "tag", "part no", "part number"), "name": ("part", "description", "part name"),
    "quantity": ("qty", "count", "off", "number off"), "material": ("mat",), "note": ("remark", "remarks", "notes"),
    "condition": ("state", "as found"),
    "maker_number": ("maker number", "makers number", "catalogue number", "oem number"),
    "figure_item": ("figure", "fig", "sheet and item"),
}  # fmt: skip

_NO = Column("number", "No.", "whole number; other lists refer to it", "id")
_MACHINE_NO = Column(
    "machine_number", "Machine no.", "number of a machine in the list of machines", "machine_id"
)
_MACHINE = Column("machine", "Machine", source="machine")

MACHINES: tuple[Column, ...] = (
    _NO, *(column for field in FIELDS["machine"] for column in _of_field(field)),
)  # fmt: skip

PARTS: tuple[Column, ...] = (
    _NO,
    _MACHINE_NO,
    _MACHINE,
    Column("quantity_unit", "Unit of the quantity"),
    Column("group_code", "Subassembly code", source="group_code", also=("group code", "assembly code")),
    Column("group_name", "Subassembly", source="group_name", also=("group", "assembly", "sub assembly")),
    *(
        column
        for field in FIELDS["part"]
        if field.kind is not FieldKind.REFERENCE
        for column in _of_field(field, *_ALSO.get(field.name, ()))
    ),
    Column("decided_at", "Decided", "date and time", "decided_at"),
    Column("place_kind", "Place kind", source="place_kind"),
    Column("place_name", "Place", source="place_name", also=("location", "bin", "where")),
    Column("placed_at", "Placed", "date and time", "placed_at"),
    Column("set_name", "Matched set", source="set_name", also=("set",)),
    Column("spare_of", "Spare of no.", "number of a part in this list", "spare_of_id"),
)

FEATURES: tuple[Column, ...] = (
    _NO,
    Column("part", "Part no.", "number of a part in the part list", "part_id"),
    _MACHINE_NO,
    _MACHINE,
    Column("part_code", "Part code", source="part_code", also=("code", "tag", "part")),
    Column("part_name", "Part", source="part_name"),
    *(column for field in FIELDS["feature"] for column in _of_field(field)),
    Column("spec", "Spec, as typed", source="spec_text", also=("spec", "limits", "tolerance", "nominal")),
    Column("nominal_mm", "Nominal [mm]", "number", "nominal_mm"),
    Column("low_mm", "Low [mm]", "number", "low_mm"),
    Column("high_mm", "High [mm]", "number", "high_mm"),
    Column("part_quantity", "Quantity of the part"),
    Column("part_material", "Material of the part"),
    Column("part_maker_number", "Maker's number of the part"),
    Column("part_group_code", "Subassembly code of the part"),
    Column("part_group_name", "Subassembly of the part"),
)

#: In a list of parts with their features: what a column says of the part, by the name it has in a list of parts.
PART_OF_FEATURE = {
    "code": "part_code", "name": "part_name", "quantity": "part_quantity", "material": "part_material",
    "maker_number": "part_maker_number", "group_code": "part_group_code", "group_name": "part_group_name",
}  # fmt: skip

STATIONS: tuple[Column, ...] = (
    _NO,
    Column("feature", "Feature no.", "number of a feature in the list of features", "feature_id"),
    Column("part_code", "Part code", source="part_code"),
    Column("feature_name", "Feature", source="feature_name"),
    *(column for field in FIELDS["station"] for column in _of_field(field)),
)

READINGS: tuple[Column, ...] = (
    _NO,
    Column("feature", "Feature no.", "number of a feature in the list of features", "feature_id"),
    Column("station", "Station no.", "number of a station in the list of stations", "station_id"),
    Column("part_code", "Part code", source="part_code", also=("code", "tag", "part no", "item")),
    Column("part_name", "Part", source="part_name", also=("part name",)),
    Column("feature_name", "Feature", source="feature_name", also=("what", "dimension", "measured")),
    Column("station_name", "Station", source="station_name", also=("at", "position", "place")),
    Column(
        "stage",
        "Stage",
        "one of: as found, cleaned, reworked, as made, fitted",
        "stage",
        ("when in its life",),
    ),
    Column("typed", "Reading, as typed", source="typed", also=("reading", "value", "measured value", "size")),
    Column("unit", "Unit", source="unit"),
    Column("value_mm", "Value [mm]", "number; must agree with the text", "value_mm", ("mm",)),
    Column("how", "How taken", "of a thread: over 0.0645 in wires; by thread micrometer", "how"),
    Column("thread", "Converted on the thread", source="thread"),
    Column("instrument", "Instrument", source="instrument_name", also=("with", "tool", "gauge")),
    Column("temperature", "Temperature, as typed", source="temperature_text", also=("temperature", "temp")),
    Column("temperature_c", "Temperature [°C]", "number", "temperature_c", ("°c", "celsius")),
    Column("taken_at", "Taken", "date and time", "taken_at", ("date", "on", "when", "taken at")),
    Column("taken_by", "By", source="taken_by", also=("taken by", "who")),
    Column("note", "Note", source="note", also=("remark", "remarks", "notes")),
    Column("struck", "Entry deleted because", source="struck", also=("struck",)),
)

COLUMNS: dict[What, tuple[Column, ...]] = {
    What.MACHINES: MACHINES, What.PARTS: PARTS, What.FEATURES: FEATURES, What.STATIONS: STATIONS,
    What.READINGS: READINGS,
}  # fmt: skip
