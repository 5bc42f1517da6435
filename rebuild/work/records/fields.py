"""The editable fields of every record, in the order a form shows them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from rebuild.words.decisions import Decision
from rebuild.words.fits import Adjuster, FitJoint, FitKind, LimitsTo, Side, WantedOrigin
from rebuild.words.fitting import FittingKind
from rebuild.words.log import QuestionState
from rebuild.words.machines import MachineKind, Scope
from rebuild.words.making import PartShape
from rebuild.words.making_details import THROUGH, DetailKind
from rebuild.words.parts import Identity, Origin
from rebuild.words.places import PlaceKind
from rebuild.words.readings import FeatureKind, InstrumentKind, Measures, SpecOrigin, Stage
from rebuild.words.steps import ConstraintKind, LinkKind, TaskKind, TaskState
from rebuild.words.treatments import Treatment
from rebuild.work.records.field import Field, FieldKind
from rebuild.work.records.fields_charts import TRUE_AND_OILED, TRUE_CALLED
from rebuild.work.records.fields_means import MEANS_AND_CONTROLS, MEANS_CALLED
from rebuild.work.records.fields_photos import PHOTO, PHOTO_CALLED
from rebuild.work.records.fields_surveys import SURVEY
from rebuild.work.records.fields_teardown import DOWN_AND_UP

if TYPE_CHECKING:
    from rebuild.model.records.record import Record

_LONG = 20_000


def _note(name: str, label: str) -> Field:
    return Field(name, label, FieldKind.LONG_TEXT, longest=_LONG)


def _name(label: str = "Name") -> Field:
    return Field("name", label, required=True, help="Type a name.")


_HOW_DEEP = "Empty: through, an oil hole in a bush through one wall. Or: one wall; right through."
FIELDS: dict[str, tuple[Field, ...]] = {
    "machine": (
        _name(),
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
        _note("story", "Story"),
    ),
    "subassembly": (
        Field("code", "Code", longest=20),
        _name(),
        Field("scope", "Scope", FieldKind.CHOICE, Scope, optional_choice=True),
        Field("manual_page", "Manual page"),
        _note("note", "Note"),
    ),
    "part": (
        Field("code", "Code", longest=40),
        _name(),
        Field("quantity", "Quantity", FieldKind.WHOLE, lowest=1),
        Field("identity", "Identity", FieldKind.CHOICE, Identity),
        Field("suspects", "Suspected to be"),
        Field("origin", "Origin", FieldKind.CHOICE, Origin),
        Field("material", "Material"),
        Field("condition", "Condition", FieldKind.LONG_TEXT, longest=_LONG),
        Field("finish", "Finish to be", help="Say it as grey enamel, bare or blued."),
        Field("decision", "Decision", FieldKind.CHOICE, Decision),
        Field("decision_reason", "Reason", FieldKind.LONG_TEXT, longest=_LONG),
        Field("decision_criterion", "Criterion", FieldKind.LONG_TEXT, longest=_LONG),
        Field("decision_would_change", "What would change it", FieldKind.LONG_TEXT, longest=_LONG),
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
        _note("note", "Note"),
    ),
    "feature": (
        _name("Feature"),
        Field("kind", "Kind", FieldKind.CHOICE, FeatureKind),
        Field("unit", "Unit", required=True, help="Type mm or in."),
        Field("thread", "Thread"),
        Field("sense", "Plus means"),
        Field("spec_origin", "Spec from", FieldKind.CHOICE, SpecOrigin, optional_choice=True),
        Field("spec_note", "Spec note"),
        _note("note", "Note"),
    ),
    "station": (_name("Station"), Field("at", "Distance along", FieldKind.LENGTH)),
    "instrument": (
        _name(),
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
        _note("note", "Note"),
    ),
    "reading": (
        Field("stage", "Stage", FieldKind.CHOICE, Stage),
        Field("instrument_id", "Instrument", FieldKind.REFERENCE, refers_to="instrument"),
        Field("temperature_c", "Temperature", FieldKind.CELSIUS),
        Field("taken_at", "Taken", FieldKind.MOMENT, required=True),
        Field("taken_by", "By"),
        Field("how", "How taken (thread)", help="Type it as over 0.0645 in wires."),
        _note("note", "Note"),
    ),
    "task": (
        Field("title", "Step", required=True, longest=400, help="Say what is to be done."),
        Field("kind", "Kind", FieldKind.CHOICE, TaskKind),
        Field("treatment", "Treatment", FieldKind.CHOICE, Treatment, optional_choice=True),
        Field("state", "State", FieldKind.CHOICE, TaskState),
        Field("part_id", "Part", FieldKind.REFERENCE, refers_to="part"),
        Field("low_min", "Shortest", FieldKind.MINUTES),
        Field("likely_min", "Likely", FieldKind.MINUTES),
        Field("high_min", "Longest", FieldKind.MINUTES),
        Field("irreversible", "Cannot be undone", FieldKind.YES_NO),
        Field("place", "Where"),
        Field("tools", "Tools"),
        Field("torque_wanted", "Torque per bolt"),
        Field("done_at", "Done", FieldKind.MOMENT),
        Field("done_measured", "Measured"),
        Field("done_torque", "Torqued to"),
        _note("done_note", "Done note"),
        _note("note", "Note"),
    ),
    "task_constraint": (
        Field("kind", "Constraint", FieldKind.CHOICE, ConstraintKind),
        Field("detail", "Detail"),
        Field("rest_min", "Must rest for", FieldKind.MINUTES),
        Field("proved_at", "Proved", FieldKind.MOMENT),
        Field("proved_note", "Proved by"),
    ),
    "link": (Field("kind", "Kind", FieldKind.CHOICE, LinkKind), Field("reason", "Reason")),
    "task_caution": (Field("topic", "Caution", required=True),),
    "place": (
        Field("kind", "Kind", FieldKind.CHOICE, PlaceKind),
        _name("Place"),
        Field("since", "Since", FieldKind.MOMENT),
        _note("note", "Note"),
    ),
    "matched_set": (_name("Matched set"), _note("note", "Note")),
    "concession": (
        Field("accepted", "Accepted value"),
        Field("reason", "Reason", FieldKind.LONG_TEXT, longest=_LONG, required=True, help="Say why."),
        Field("accepted_by", "Accepted by"),
        Field("accepted_at", "Accepted", FieldKind.MOMENT),
    ),
    "override": (
        Field("reason", "Reason", FieldKind.LONG_TEXT, longest=_LONG, required=True, help="Say why."),
        Field("said_by", "Said by"),
        Field("closed_at", "Closed", FieldKind.MOMENT),
        _note("closed_note", "Closed with"),
    ),
    "question": (
        Field("text", "Question", FieldKind.LONG_TEXT, longest=_LONG, required=True, help="Type the question."),
        Field("state", "State", FieldKind.CHOICE, QuestionState),
        Field("part_id", "Part", FieldKind.REFERENCE, refers_to="part"),
        Field("task_id", "Holds up", FieldKind.REFERENCE, refers_to="task"),
        Field("asked_where", "Asked where"),
        Field("asked_at", "Asked", FieldKind.MOMENT),
        _note("answer", "Answer"),
        Field("answered_by", "Answered by"),
        Field("answered_at", "Answered", FieldKind.MOMENT),
    ),
    "day_off": (
        Field("first", "First day", FieldKind.MOMENT, required=True, help="Type it as 2026-12-24."),
        Field("last", "Last day", FieldKind.MOMENT, required=True, help="Type it as 2026-12-27."),
        Field("why", "Why"),
    ),
    "log_entry": (
        Field("at", "When", FieldKind.MOMENT, required=True),
        Field("hours", "Hours", FieldKind.HOURS),
        Field("temperature_c", "Temperature", FieldKind.CELSIUS),
        _note("did", "Did"),
        _note("found", "Found"),
        _note("left_on_bench", "Left on the bench"),
        _note("next_step", "Next step"),
        _note("blocked_by", "Blocked by"),
        _note("do_not_forget", "Do not forget"),
    ),
    "fit": (
        Field("name", "Fit"),
        Field("joint", "Joint", FieldKind.CHOICE, FitJoint),
        Field("kind", "Kind of fit", FieldKind.CHOICE, FitKind),
        Field("unit", "Unit", required=True, help="Type mm or in."),
        Field("wanted_origin", "Range from", FieldKind.CHOICE, WantedOrigin, optional_choice=True),
        Field("wanted_note", "Range note"),
        Field("master", "Master", FieldKind.CHOICE, Side, optional_choice=True),
        Field("adjuster", "Taken up by", FieldKind.CHOICE, Adjuster),
        Field("limits_to", "Limits to suit", FieldKind.CHOICE, LimitsTo, optional_choice=True),
        Field("outer_stage", "Stage of the outer", FieldKind.CHOICE, Stage, optional_choice=True),
        Field("inner_stage", "Stage of the inner", FieldKind.CHOICE, Stage, optional_choice=True),
        _note("note", "Note"),
    ),
    "decision_option": (
        Field("decision", "Decision", FieldKind.CHOICE, Decision),
        Field("method", "How"),
        Field("cost", "Cost", FieldKind.NUMBER, lowest=0),
        Field("work_min", "Work", FieldKind.MINUTES),
        Field("wait_days", "Days of waiting", FieldKind.NUMBER, lowest=0),
        Field("reversible", "Can be taken back", FieldKind.YES_NO),
        _note("note", "Note"),
    ),
    "odd_size": (
        Field("what", "What is not standard", required=True, help="Say it as “pin No. 3 in place of No. 2”."),
        Field("size", "Size", FieldKind.LENGTH),
        Field("instead_of", "In place of"),
        _note("reason", "Reason"),
        Field("since", "Since", FieldKind.MOMENT),
    ),
    "making_sheet": (
        Field("shape", "Shape", FieldKind.CHOICE, PartShape),
        Field("unit", "Unit", required=True, help="Type mm or in."),
        Field("quantity", "Quantity", FieldKind.WHOLE, lowest=1),
        _note("why", "Why"),
        _note("do_not_copy", "Do not copy from the old one"),
        Field("material", "Material"),
        Field("bar_skin", "Skin of the bar"),
        Field("blank", "Blank"),
        Field("blank_at", "Blank lies at"),
        Field("stock_across", "Piece in hand, across", FieldKind.LENGTH),
        Field("stock_long", "Piece in hand, long", FieldKind.LENGTH),
        Field("stock_ends", "Its ends"),
        Field("tool_nose", "Threading tool as ground", help="Type flat 0.0319 in, or radius 0.2 mm."),
        Field("thread", "Thread"),
        Field("taper", "Taper"),
        Field("gear", "Gear"),
        Field("key", "Key"),
        _note("finish", "Surface"),
        Field("allow_uncertainty", "Limits reduced by the mate's uncertainty", FieldKind.YES_NO),
        Field("settled_by", "Accepted by"),
        _note("settled_note", "Remark on it"),
        _note("trial_fit", "Trial fit"),
        Field("marked", "Marked"),
        _note("note", "Note"),
    ),
    "making_dimension": (
        Field("name", "Size", required=True, help="Say what is measured."),
        Field("measured_with", "Checked with"),
        Field("note", "Note", longest=400),
    ),
    "making_step": (
        Field("what", "Step", required=True, longest=400, help="Say what is to be done."),
        Field("machine", "Machine"),
        Field("hold", "Held"),
        Field("tool", "Tool"),
        Field("speed", "Speed"),
        Field("feed", "Feed"),
        Field("leave", "Leave"),
        Field("measure", "Stop and measure", FieldKind.YES_NO),
        Field("done_at", "Done", FieldKind.MOMENT),
        Field("note", "Note", longest=400),
    ),
    "making_tool": (
        Field("what", "Tool", required=True, help="Say which tool."),
        Field("why", "For"),
        Field("in_hand", "In hand", FieldKind.YES_NO),
    ),
    "making_detail": (
        Field("kind", "Kind", FieldKind.CHOICE, DetailKind),
        Field("name", "Name", required=True, help="Say which one, as oil hole."),
        Field("place", "From the left end", FieldKind.SPEC),
        Field("size", "Diameter or width", FieldKind.SPEC),
        Field("depth", "Depth", FieldKind.SPEC, or_words=THROUGH, help=_HOW_DEEP),
        Field("long", "Length", FieldKind.SPEC),
        Field("around_deg", "Angle, ° round the axis", FieldKind.NUMBER, lowest=0),
        Field("circle", "On a circle of", FieldKind.SPEC),
        Field("count", "How many", FieldKind.WHOLE, lowest=1),
        Field("came_out", "Came out", FieldKind.SPEC),
        Field("done_at", "Made", FieldKind.MOMENT),
        Field("note", "Note", longest=400),
    ),
    "fitting": (
        Field("kind", "How", FieldKind.CHOICE, FittingKind),
        Field("what", "What is fitted", required=True, help="Say what, as thrust washer."),
        Field("start", "Made first to", FieldKind.SPEC),
        Field("allowance", "Left on it", FieldKind.SPEC),
        Field("condition", "Until", help="Say what must hold, as turns by hand without shake."),
        Field("came_out", "Came out", help="The size or what was found."),
        Field("task_id", "At the step", FieldKind.REFERENCE, refers_to="task"),
        Field("done_at", "Done", FieldKind.MOMENT),
        Field("note", "Note", longest=400),
    ),
    "wear_rule": (
        Field("good", "Good up to", FieldKind.LENGTH),
        Field("rework", "Rework up to", FieldKind.LENGTH),
        Field("left_out", "Left out", FieldKind.YES_NO),
        _note("note", "Why"),
    ),
    **DOWN_AND_UP,
    **SURVEY,
    **TRUE_AND_OILED,
    **PHOTO,
    **MEANS_AND_CONTROLS,
}  # fmt: skip


class _Records(Mapping[str, "type[Record]"]):
    """The mapped record of each table with fields, loaded when it is asked for."""

    def __getitem__(self, table: str) -> type[Record]:
        if table not in FIELDS:
            raise KeyError(table)
        from rebuild.model.records.every import record

        return record(table)

    def __iter__(self) -> Iterator[str]:
        return iter(FIELDS)

    def __len__(self) -> int:
        return len(FIELDS)


RECORDS: Mapping[str, type[Record]] = _Records()

#: What a record is called in a sentence.
CALLED = {
    **TRUE_CALLED,
    **MEANS_CALLED,
    **PHOTO_CALLED,
    "making_sheet": "making sheet", "making_dimension": "size", "making_step": "making step", "making_tool": "tool",
    "making_detail": "detail", "fitting": "fit at assembly",
    "shim_pack": "shim pack", "shim_leaf": "leaf", "waiting": "order or loan", "stock_item": "stock",
    "hours_spent": "hours", "survey_line": "line", "photo_mark": "mark", "survey_reading": "survey reading",
    "override": "going on all the same", "removal": "logged removal",
    "task": "step", "task_constraint": "constraint", "task_caution": "caution", "log_entry": "bench log entry",
    "matched_set": "matched set", "decision_option": "option", "odd_size": "odd size", "wear_rule": "wear rule",
}  # fmt: skip


def called(record: str) -> str:
    """The trade's word for a record."""
    return CALLED.get(record, record)


def field_of(record: str, name: str) -> Field:
    """One field of a record. Raises KeyError for a name that is not a field (a programming error)."""
    for field in FIELDS[record]:
        if field.name == name:
            return field
    raise KeyError(f"{record}.{name}")
