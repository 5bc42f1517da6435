"""The editable fields of what is measured, with what, and the readings."""

from __future__ import annotations

from rebuild.words.readings import FeatureKind, InstrumentKind, Measures, SpecOrigin, Stage
from rebuild.work.records.common_fields import named, note
from rebuild.work.records.field import Field, FieldKind

READINGS: dict[str, tuple[Field, ...]] = {
    "feature": (
        named("Feature"),
        Field("kind", "Kind", FieldKind.CHOICE, FeatureKind),
        Field("unit", "Unit", required=True, help="Type mm or in."),
        Field("thread", "Thread"),
        Field("sense", "Plus means"),
        Field("spec_origin", "Spec from", FieldKind.CHOICE, SpecOrigin, optional_choice=True),
        Field("spec_note", "Spec note"),
        note(),
    ),
    "station": (named("Station"), Field("at", "Distance along", FieldKind.LENGTH)),
    "instrument": (
        named(),
        Field("kind", "Kind", FieldKind.CHOICE, InstrumentKind),
        Field("unit", "Unit it reads", required=True, help="Type mm or in."),
        Field("resolution", "Resolution", FieldKind.LENGTH),
        Field("least", "Range from", FieldKind.LENGTH),
        Field("most", "Range to", FieldKind.LENGTH),
        Field("measures", "It measures", help=", ".join(Measures)),
        Field("mpe", "Maximum permissible error", FieldKind.LENGTH),
        Field("uncertainty", "Stated uncertainty", FieldKind.LENGTH),
        Field("coverage_k", "Its coverage factor k", FieldKind.NUMBER, lowest=1),
        Field("limit_source", "Where that comes from"),
        Field("calibrated_on", "Calibrated on", FieldKind.MOMENT),
        note(),
    ),
    "reading": (
        Field("stage", "Stage", FieldKind.CHOICE, Stage),
        Field("instrument_id", "Instrument", FieldKind.REFERENCE, refers_to="instrument"),
        Field("temperature_c", "Temperature", FieldKind.CELSIUS),
        Field("taken_at", "Taken", FieldKind.MOMENT, required=True),
        Field("taken_by", "By"),
        Field("how", "How taken (thread)", help="Type it as over 0.0645 in wires."),
        note(),
    ),
}  # fmt: skip
