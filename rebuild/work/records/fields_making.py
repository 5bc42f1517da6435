"""The editable fields of making sheets and what belongs to one."""

from __future__ import annotations

from rebuild.words.fitting import FittingKind
from rebuild.words.making import PartShape
from rebuild.words.making_details import THROUGH, DetailKind
from rebuild.work.records.common_fields import note
from rebuild.work.records.field import Field, FieldKind

_HOW_DEEP = "Empty: through, an oil hole in a bush through one wall. Or: one wall; right through."
MAKING: dict[str, tuple[Field, ...]] = {
    "making_sheet": (
        Field("shape", "Shape", FieldKind.CHOICE, PartShape),
        Field("unit", "Unit", required=True, help="Type mm or in."),
        Field("quantity", "Quantity", FieldKind.WHOLE, lowest=1),
        note("why", "Why"),
        note("do_not_copy", "Do not copy from the old one"),
        Field("material", "Material"),
        Field("bar_skin", "Skin of the bar"),
        Field("blank", "Blank"),
        Field("blank_at", "Blank lies at"),
        Field("stock_across", "Piece in hand, across", FieldKind.LENGTH),
        Field("stock_long", "Piece in hand, long", FieldKind.LENGTH),
        Field("stock_ends", "Its ends"),
        Field("tool_nose", "Threading tool as ground", help="Type flat 0.0319 in, or radius 0.2 mm."),
        Field("ball", "Balls or pins I have", FieldKind.LENGTH),
        Field("thread", "Thread"),
        Field("taper", "Taper"),
        Field("gear", "Gear"),
        Field("key", "Key"),
        note("finish", "Surface"),
        Field("allow_uncertainty", "Limits reduced by the mate's uncertainty", FieldKind.YES_NO),
        Field("settled_by", "Accepted by"),
        note("settled_note", "Remark on it"),
        note("trial_fit", "Trial fit"),
        Field("marked", "Marked"),
        note(),
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
}  # fmt: skip

#: What they are called in a sentence.
MAKING_CALLED = {
    "making_sheet": "making sheet",
    "making_dimension": "size",
    "making_step": "making step",
    "making_tool": "tool",
    "making_detail": "detail",
    "fitting": "fit at assembly",
}
