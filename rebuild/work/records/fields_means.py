"""The editable fields of means and controls."""

from __future__ import annotations

from rebuild.words.controls import ControlKind
from rebuild.words.means import MeansKind
from rebuild.words.run_in import LookWhen
from rebuild.work.records.common_fields import LONG, note
from rebuild.work.records.field import Field, FieldKind

MEANS_AND_CONTROLS: dict[str, tuple[Field, ...]] = {
    "means": (
        Field("name", "What", required=True, help="Say it as you would ask for it: left-hand tap 7/16-14."),
        Field("kind", "Kind", FieldKind.CHOICE, MeansKind),
        Field("owned", "The shop has it", FieldKind.YES_NO),
        Field("place_id", "Place", FieldKind.REFERENCE, refers_to="place"),
        note(),
    ),
    "step_means": (Field("note", "For", longest=400),),
    "control": (
        Field("name", "Control", required=True, help="Say what it is called at the machine."),
        Field("kind", "Kind", FieldKind.CHOICE, ControlKind),
        Field("location", "Where on the machine"),
        Field("does", "What it does", FieldKind.LONG_TEXT, longest=LONG),
        Field("unit", "Unit of its dial", required=True, help="Type mm or in."),
        Field("per_turn", "Travel or feed a turn", FieldKind.LENGTH),
        Field("dial", "Its dial", longest=400),
        Field("engages", "Engages", longest=400),
        Field("retracts", "Comes out", longest=400),
        Field("doubles_id", "Does the same as", FieldKind.REFERENCE, refers_to="control"),
        Field("trapped", "Trapped by", longest=400),
        Field("handed", "Handed", longest=400),
        Field("part_id", "Part", FieldKind.REFERENCE, refers_to="part"),
        Field("subassembly_id", "Subassembly", FieldKind.REFERENCE, refers_to="subassembly"),
        Field("photo_id", "Picture", FieldKind.REFERENCE, refers_to="photo"),
        note("found", "As found"),
        Field("found_turn", "A turn moved, as found", FieldKind.LENGTH),
        Field("found_at", "Found", FieldKind.MOMENT),
        Field("due", "To be proved", FieldKind.CHOICE, LookWhen),
        note("proved", "Proved how"),
        Field("proved_turn", "A turn moves now", FieldKind.LENGTH),
        Field("proved_at", "Proved", FieldKind.MOMENT),
        Field("proved_by", "Proved by"),
        note(),
    ),
}  # fmt: skip

MEANS_CALLED = {"step_means": "need of a step"}
