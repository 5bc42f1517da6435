"""The editable fields of every record, in the order a form shows them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from rebuild.words.decisions import Decision
from rebuild.words.fits import Adjuster, FitJoint, FitKind, LimitsTo, Side, WantedOrigin
from rebuild.words.log import QuestionState
from rebuild.words.places import PlaceKind
from rebuild.words.readings import Stage
from rebuild.work.records.common_fields import LONG, named, note
from rebuild.work.records.field import Field, FieldKind
from rebuild.work.records.fields_charts import TRUE_AND_OILED, TRUE_CALLED
from rebuild.work.records.fields_machines import MACHINES
from rebuild.work.records.fields_making import MAKING, MAKING_CALLED
from rebuild.work.records.fields_means import MEANS_AND_CONTROLS, MEANS_CALLED
from rebuild.work.records.fields_photos import PHOTO, PHOTO_CALLED
from rebuild.work.records.fields_readings import READINGS
from rebuild.work.records.fields_steps import STEPS, STEPS_CALLED
from rebuild.work.records.fields_surveys import SURVEY
from rebuild.work.records.fields_teardown import DOWN_AND_UP

if TYPE_CHECKING:
    from rebuild.model.records.record import Record

FIELDS: dict[str, tuple[Field, ...]] = {
    **MACHINES,
    **READINGS,
    **STEPS,
    "place": (
        Field("kind", "Kind", FieldKind.CHOICE, PlaceKind),
        named("Place"),
        Field("since", "Since", FieldKind.MOMENT),
        note(),
    ),
    "matched_set": (named("Matched set"), note()),
    "concession": (
        Field("accepted", "Accepted value"),
        Field("reason", "Reason", FieldKind.LONG_TEXT, longest=LONG, required=True, help="Say why."),
        Field("accepted_by", "Accepted by"),
        Field("accepted_at", "Accepted", FieldKind.MOMENT),
    ),
    "override": (
        Field("reason", "Reason", FieldKind.LONG_TEXT, longest=LONG, required=True, help="Say why."),
        Field("said_by", "Said by"),
        Field("closed_at", "Closed", FieldKind.MOMENT),
        note("closed_note", "Closed with"),
    ),
    "question": (
        Field("text", "Question", FieldKind.LONG_TEXT, longest=LONG, required=True, help="Type the question."),
        Field("state", "State", FieldKind.CHOICE, QuestionState),
        Field("part_id", "Part", FieldKind.REFERENCE, refers_to="part"),
        Field("task_id", "Holds up", FieldKind.REFERENCE, refers_to="task"),
        Field("asked_where", "Asked where"),
        Field("asked_at", "Asked", FieldKind.MOMENT),
        note("answer", "Answer"),
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
        note("did", "Did"),
        note("found", "Found"),
        note("left_on_bench", "Left on the bench"),
        note("next_step", "Next step"),
        note("blocked_by", "Blocked by"),
        note("do_not_forget", "Do not forget"),
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
        note(),
    ),
    "decision_option": (
        Field("decision", "Decision", FieldKind.CHOICE, Decision),
        Field("method", "How"),
        Field("cost", "Cost", FieldKind.NUMBER, lowest=0),
        Field("work_min", "Work", FieldKind.MINUTES),
        Field("wait_days", "Days of waiting", FieldKind.NUMBER, lowest=0),
        Field("reversible", "Can be taken back", FieldKind.YES_NO),
        note(),
    ),
    "odd_size": (
        Field("what", "What is not standard", required=True, help="Say it as “pin No. 3 in place of No. 2”."),
        Field("size", "Size", FieldKind.LENGTH),
        Field("instead_of", "In place of"),
        note("reason", "Reason"),
        Field("since", "Since", FieldKind.MOMENT),
    ),
    **MAKING,
    "wear_rule": (
        Field("good", "Good up to", FieldKind.LENGTH),
        Field("rework", "Rework up to", FieldKind.LENGTH),
        Field("left_out", "Left out", FieldKind.YES_NO),
        note("note", "Why"),
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
    **MAKING_CALLED,
    **STEPS_CALLED,
    "shim_pack": "shim pack", "shim_leaf": "leaf", "waiting": "order or loan", "stock_item": "stock",
    "hours_spent": "hours", "survey_line": "line", "photo_mark": "mark", "survey_reading": "survey reading",
    "override": "going on all the same", "removal": "logged removal",
    "log_entry": "bench log entry",
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
