"""The editable fields of photos, manuals and unknown things."""

from __future__ import annotations

from rebuild.words.boxes import ClueKind
from rebuild.words.photos import MarkKind, PhotoPhase
from rebuild.work.records.field import Field, FieldKind

PHOTO: dict[str, tuple[Field, ...]] = {
    "photo": (
        Field("phase", "Phase", FieldKind.CHOICE, PhotoPhase),
        Field("view", "Seen from"),
        Field("proves", "What it shows"),
        Field("taken_at", "Taken", FieldKind.MOMENT),
        Field("subassembly_id", "Subassembly", FieldKind.REFERENCE, refers_to="subassembly"),
        Field("part_id", "Part", FieldKind.REFERENCE, refers_to="part"),
        Field("task_id", "Step", FieldKind.REFERENCE, refers_to="task"),
        Field("file_name", "File it came from"),
        Field("note", "Note", FieldKind.LONG_TEXT, longest=20_000),
    ),
    "photo_mark": (Field("kind", "Mark", FieldKind.CHOICE, MarkKind), Field("text", "Words")),
    "document": (
        Field("name", "Manual", required=True, help="Type a name."),
        Field("file_name", "File it came from"),
        Field("note", "Note", FieldKind.LONG_TEXT, longest=20_000),
    ),
    "document_page": (Field("label", "Number printed on it", longest=40),),
    "call_out": (
        Field("text", "Words"),
        Field("differs", "Differs from the manual here", FieldKind.LONG_TEXT, longest=20_000),
        Field("part_id", "Part", FieldKind.REFERENCE, refers_to="part"),
    ),
    "box_thing": (
        Field("came_in", "Came in"),
        Field("went_to", "Went to"),
        Field("went_at", "Went", FieldKind.MOMENT),
    ),
    "clue": (
        Field("kind", "Clue", FieldKind.CHOICE, ClueKind),
        Field("text", "What is seen", required=True, help="Say what is seen."),
        Field("size", "Size", FieldKind.LENGTH),
    ),
}

PHOTO_CALLED = {
    "document": "manual", "document_page": "page", "call_out": "call-out", "box_thing": "unknown thing",
    "mark_part": "part on a mark", "merged_part": "merged part",
}  # fmt: skip
