"""The editable fields of the removal log, joints, clocks, orders and stock; ``fields`` takes them in."""

from __future__ import annotations

from rebuild.words.joints import Dressing, JointDuty, Tightness
from rebuild.words.teardown import FastenerKind, FastenerPoint, FastenerState, RemovalWay
from rebuild.words.waiting import ClockKind, WaitingKind
from rebuild.work.records.field import Field, FieldKind

_LONG = 20_000


def _note(name: str, label: str) -> Field:
    return Field(name, label, FieldKind.LONG_TEXT, longest=_LONG)


def _name(label: str) -> Field:
    return Field("name", label, required=True, help="Type a name.")


DOWN_AND_UP: dict[str, tuple[Field, ...]] = {
    "attempt": (
        Field("began_at", "Began", FieldKind.MOMENT, required=True),
        _note("stopped_by", "What stopped it"),
        _note("changed", "What was changed"),
        Field("photo", "Photo"),
        _note("note", "Note"),
    ),
    "removal": (
        Field("what", "What came off"),
        Field("how", "How", FieldKind.CHOICE, RemovalWay),
        Field("from_end", "From which end"),
        Field("location", "Where on the machine"),
        Field("orientation", "Which way it sat"),
        Field("match_mark", "Match mark"),
        _note("hard", "What was hard"),
        _note("found", "What was found"),
        Field("broke", "What broke or was lost"),
        Field("tools", "Tools"),
        Field("photo", "Photo"),
        Field("place_id", "Stored in", FieldKind.REFERENCE, refers_to="place"),
        Field("at", "When", FieldKind.MOMENT, required=True),
        _note("note", "Note"),
    ),
    "fastener": (
        Field("kind", "Fastener", FieldKind.CHOICE, FastenerKind),
        Field("hole", "Hole"),
        Field("count", "How many", FieldKind.WHOLE, lowest=1),
        Field("thread", "Thread or size"),
        Field("left_hand", "Left hand", FieldKind.YES_NO),
        Field("length", "Length", FieldKind.LENGTH),
        Field("head", "Head"),
        Field("point", "Point", FieldKind.CHOICE, FastenerPoint, optional_choice=True),
        Field("grade", "Class or grade"),
        Field("big_end", "Big end at"),
        Field("hidden", "Hidden partner"),
        Field("state", "As found", FieldKind.CHOICE, FastenerState, optional_choice=True),
        Field("substitute", "Substitute", FieldKind.YES_NO),
        _note("note", "Note"),
    ),
    "shim_pack": (
        Field("location", "Where"),
        Field("side", "Side"),
        Field("way_round", "Which way round"),
        Field("material", "Material"),
        _note("note", "Note"),
    ),
    "shim_leaf": (
        Field("thickness", "Thickness", FieldKind.LENGTH, required=True, help="Type it as 0.003 in."),
        _note("note", "Note"),
    ),
    "joint": (
        _name("Joint"),
        Field("location", "Where on the machine"),
        Field("part_id", "Part", FieldKind.REFERENCE, refers_to="part"),
        Field("task_id", "Made final by", FieldKind.REFERENCE, refers_to="task"),
        Field("thread", "Thread"),
        Field("count", "How many", FieldKind.WHOLE, lowest=1),
        Field("grade", "Class or grade"),
        Field("duty", "What it is there for", FieldKind.CHOICE, JointDuty, optional_choice=True),
        Field("tight", "Now", FieldKind.CHOICE, Tightness),
        Field("wanted", "To be", FieldKind.CHOICE, Tightness),
        Field("dress", "Dressed", FieldKind.CHOICE, Dressing, optional_choice=True),
        Field("wanted_dress", "Dressing to be", FieldKind.CHOICE, Dressing, optional_choice=True),
        Field("torque_wanted", "Torque per bolt", FieldKind.TORQUE_BAND,
              help="As the manual prints it: 25 N·m, 20 lb-ft or 40-45 lb-ft."),
        Field("torque_source", "Torque from"),
        Field("torque_done", "Torqued to", FieldKind.TORQUE),
        Field("how_set", "How it was set"),
        Field("look_again", "Recheck after run-in", FieldKind.YES_NO),
        Field("looked_again_at", "Rechecked after run-in", FieldKind.MOMENT),
        _note("note", "Note"),
    ),
    "clock": (
        Field("kind", "Clock", FieldKind.CHOICE, ClockKind),
        Field("what", "What"),
        Field("started_at", "Since", FieldKind.MOMENT, required=True),
        Field("low_min", "Soonest after", FieldKind.MINUTES),
        Field("high_min", "Latest after", FieldKind.MINUTES),
        Field("source", "That time comes from"),
        Field("closed_at", "Closed", FieldKind.MOMENT),
        _note("closed_note", "Closed with"),
    ),
    "waiting": (
        Field("what", "What", required=True, help="Say what is ordered, sent or lent."),
        Field("kind", "Kind", FieldKind.CHOICE, WaitingKind),
        Field("who", "Who"),
        Field("reference", "Their reference"),
        Field("part_id", "For part", FieldKind.REFERENCE, refers_to="part"),
        Field("task_id", "For step", FieldKind.REFERENCE, refers_to="task"),
        Field("quantity", "How many", FieldKind.WHOLE, lowest=1),
        Field("sent_with", "Sent with it"),
        Field("price", "Price", FieldKind.NUMBER, lowest=0),
        Field("carriage", "Carriage", FieldKind.NUMBER, lowest=0),
        Field("tax", "Tax", FieldKind.NUMBER, lowest=0),
        Field("lead_low_days", "Shortest days", FieldKind.NUMBER, lowest=0),
        Field("lead_likely_days", "Likely days", FieldKind.NUMBER, lowest=0),
        Field("lead_high_days", "Longest days", FieldKind.NUMBER, lowest=0),
        Field("asked_at", "Asked", FieldKind.MOMENT),
        Field("good_until", "Good until", FieldKind.MOMENT),
        Field("ordered_at", "Ordered or gone", FieldKind.MOMENT),
        Field("promised_at", "Promised", FieldKind.MOMENT),
        Field("chased_at", "Last chased", FieldKind.MOMENT),
        Field("arrived_at", "Arrived", FieldKind.MOMENT),
        Field("inspected_at", "Checked on arrival", FieldKind.MOMENT),
        _note("inspected_note", "Found on arrival"),
        Field("returned_at", "Returned", FieldKind.MOMENT),
        Field("place_id", "Stored in", FieldKind.REFERENCE, refers_to="place"),
        _note("note", "Note"),
    ),
    "stock_item": (
        _name("What"),
        Field("material", "Material"),
        Field("sizes", "Sizes"),
        Field("thread", "Thread"),
        Field("quantity", "How much", FieldKind.NUMBER, lowest=0),
        Field("counted_in", "Counted in"),
        Field("place_id", "Place", FieldKind.REFERENCE, refers_to="place"),
        _note("note", "Note"),
    ),
    "hours_spent": (Field("hours", "Hours", FieldKind.HOURS),),
}  # fmt: skip
