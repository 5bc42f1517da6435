"""The editable fields of surveys."""

from __future__ import annotations

from rebuild.words.readings import Stage
from rebuild.words.surveys import SurveyMethod
from rebuild.work.records.field import Field, FieldKind

SURVEY: dict[str, tuple[Field, ...]] = {
    "survey": (
        Field("name", "Survey", required=True, help="Type a name."),
        Field("method", "Method", FieldKind.CHOICE, SurveyMethod),
        Field("stage", "Stage", FieldKind.CHOICE, Stage),
        Field("unit", "Unit of the readings", required=True, help="Choose one."),
        Field("division_um_per_m", "One division [µm/m]", FieldKind.SLOPE, lowest=0),
        Field("step", "Step (bridge length)", FieldKind.LENGTH),
        Field("allowed", "Limit of deviation", FieldKind.LENGTH),
        Field("closure", "Limit of closure", FieldKind.LENGTH),
        Field("sense", "Shape to be", help="any, convex only or concave only"),
        Field("height", "Centre height above the ways", FieldKind.LENGTH),
        Field("spacing", "Spacing of the ways", FieldKind.LENGTH),
        Field("work", "Diameter turned", FieldKind.LENGTH),
        Field("part_id", "Part", FieldKind.REFERENCE, refers_to="part"),
        Field("before_id", "Compared with", FieldKind.REFERENCE, refers_to="survey"),
        Field("instrument_id", "Instrument", FieldKind.REFERENCE, refers_to="instrument"),
        Field("temperature_c", "Temperature", FieldKind.CELSIUS),
        Field("taken_at", "Taken", FieldKind.MOMENT),
        Field("note", "Note", FieldKind.LONG_TEXT, longest=20_000),
    ),
    "survey_line": (Field("name", "Line", required=True, help="Type a name."),),
}
