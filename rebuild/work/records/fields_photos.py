"""The editable fields of photos."""

from __future__ import annotations

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
}
