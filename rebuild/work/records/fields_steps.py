"""The editable fields of steps, their constraints, links and cautions."""

from __future__ import annotations

from rebuild.words.steps import ConstraintKind, LinkKind, TaskKind, TaskState
from rebuild.words.treatments import Treatment
from rebuild.work.records.common_fields import note
from rebuild.work.records.field import Field, FieldKind

STEPS: dict[str, tuple[Field, ...]] = {
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
        note("done_note", "Done note"),
        note(),
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
}  # fmt: skip

#: What they are called in a sentence.
STEPS_CALLED = {"task": "step", "task_constraint": "constraint", "task_caution": "caution"}
