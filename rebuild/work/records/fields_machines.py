"""The editable fields of machines, their subassemblies and parts."""

from __future__ import annotations

from rebuild.words.decisions import Decision
from rebuild.words.machines import MachineKind, Scope
from rebuild.words.parts import Identity, Origin
from rebuild.work.records.common_fields import LONG, named, note
from rebuild.work.records.field import Field, FieldKind

MACHINES: dict[str, tuple[Field, ...]] = {
    "machine": (
        named(),
        Field("kind", "Kind", FieldKind.CHOICE, MachineKind),
        Field("maker", "Maker"),
        Field("model", "Model"),
        Field("serial", "Serial number"),
        Field("serial_where", "Serial stamped at"),
        Field("stampings", "Other stampings"),
        Field("year", "Year built", FieldKind.YEAR),
        Field("year_basis", "Year known from"),
        Field("unit", "Unit of its drawings", help="Type mm or in."),
        Field("capacity", "Capacity"),
        Field("weight", "Weight"),
        Field("power_found", "Power as found"),
        Field("power_planned", "Power planned"),
        Field("scope", "Scope", FieldKind.CHOICE, Scope),
        Field("location", "Stands at"),
        Field("bought", "Bought"),
        note("story", "Story"),
    ),
    "subassembly": (
        Field("code", "Code", longest=20),
        named(),
        Field("scope", "Scope", FieldKind.CHOICE, Scope, optional_choice=True),
        Field("manual_page", "Manual page"),
        note(),
    ),
    "part": (
        Field("code", "Code", longest=40),
        named(),
        Field("quantity", "Quantity", FieldKind.WHOLE, lowest=1),
        Field("identity", "Identity", FieldKind.CHOICE, Identity),
        Field("suspects", "Suspected to be"),
        Field("origin", "Origin", FieldKind.CHOICE, Origin),
        Field("material", "Material"),
        Field("condition", "Condition", FieldKind.LONG_TEXT, longest=LONG),
        Field("finish", "Finish to be", help="Say it as grey enamel, bare or blued."),
        Field("decision", "Decision", FieldKind.CHOICE, Decision),
        Field("decision_reason", "Reason", FieldKind.LONG_TEXT, longest=LONG),
        Field("decision_criterion", "Criterion", FieldKind.LONG_TEXT, longest=LONG),
        Field("decision_would_change", "What would change it", FieldKind.LONG_TEXT, longest=LONG),
        Field("decision_method", "How"),
        Field("decision_value", "Value it rests on"),
        Field("decision_cost", "Cost", FieldKind.NUMBER, lowest=0),
        Field("decision_work_min", "Work", FieldKind.MINUTES),
        Field("decision_wait_days", "Days of waiting", FieldKind.NUMBER, lowest=0),
        Field("place_id", "Place", FieldKind.REFERENCE, refers_to="place"),
        Field("match_mark", "Match mark"),
        Field("orientation", "Orientation"),
        Field("matched_set_id", "Matched set", FieldKind.REFERENCE, refers_to="matched set"),
        Field("handedness", "Handed or paired"),
        Field("figure_item", "Manual figure and item"),
        Field("maker_number", "Maker's number"),
        Field("stamped", "Stamped"),
        Field("other_names", "Other names"),
        Field("spare_of_id", "Spare of", FieldKind.REFERENCE, refers_to="part"),
        note(),
    ),
}  # fmt: skip
