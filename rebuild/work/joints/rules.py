"""What must hold of a joint as a whole: torques carry their unit and lie within what is wanted, or have a reason."""

from __future__ import annotations

from collections.abc import Mapping

from rebuild.errors import BadEntry, RebuildError
from rebuild.model.records.joints import Joint
from rebuild.model.records.parts import Part
from rebuild.store.tx import Tx
from rebuild.trade.joints.duty import how_set
from rebuild.trade.joints.usual_torque import agrees, beyond_any_class, class_band
from rebuild.trade.sizes.amounts import parse_torque, parse_torque_band
from rebuild.words.joints import JointDuty, Tightness
from rebuild.work.joints.rows import JointRow, row_of, wanted_torque
from rebuild.work.joints.rules_apart import refuse_apart, refuse_while_running
from rebuild.work.joints.rules_off import refuse_off
from rebuild.work.records.rules import refuse_other_machine
from rebuild.work.records.wall_clock import now
from rebuild.work.records.ways_out import Refused, Way, WayKind

#: What to do about a torque, and where its class is wanted.
_WAY_OUT = {
    False: "Read the wrench again and type what it says, or leave it so with a reason.",
    True: "Read the wrench again, say its class as it stands on the head, or leave it so with a reason.",
}


def joint(tx: Tx, row: Joint, before: Mapping[str, object], typed: Mapping[str, str]) -> None:
    with tx.session.no_autoflush:
        refuse_other_machine(tx, row.machine_id, part=row.part_id, step=row.task_id)
    _follow_part(tx, row, before, typed)
    if (row.torque_wanted or "").strip():
        parse_torque_band(row.torque_wanted, "Torque per bolt")
    if (row.torque_done or "").strip():
        parse_torque(row.torque_done, "Torqued to")
    _refuse_typed_torque(row, before, typed)
    if "tight" in typed and row.tight != before.get("tight"):
        row.set_at = now()
        if row.tight is Tightness.APART:
            if before.get("tight") is not None:
                refuse_while_running(tx, [row.machine_id])
                refuse_apart(tx, [row])
            row.looked_again_at = None
        elif before:
            refuse_off(tx, [row], row.tight)


def _follow_part(tx: Tx, row: Joint, before: Mapping[str, object], typed: Mapping[str, str]) -> None:
    """A joint whose part is said stands where its part does, unless the subassembly is typed with it."""
    if row.part_id is None or "part_id" not in typed or "subassembly_id" in typed:
        return
    if row.part_id != before.get("part_id"):
        with tx.session.no_autoflush:
            row.subassembly_id = tx.get(Part, row.part_id, "part").subassembly_id


def _refuse_typed_torque(row: Joint, before: Mapping[str, object], typed: Mapping[str, str]) -> None:
    """A field cannot make a joint torqued without its value, nor leave a value outside what is wanted."""
    done = (row.torque_done or "").strip()
    if "tight" in typed and row.tight is Tightness.TORQUED and not done:
        raise no_torque()
    if "torque_done" in typed and done and done != before.get("torque_done"):
        against = torque_trouble(row_of(row), done)
        if against:
            raise BadEntry(
                against,
                where="Torqued to",
                value=done,
                way_out="Torque it again, or type it in the torque line of the Joints page, which asks why.",
            )
        row.torque_reason = None


def no_torque() -> BadEntry:
    """What is said of a joint called torqued without a value."""
    return BadEntry(
        "is empty.",
        where="Torqued to",
        way_out="Type what it was torqued to, as 25 N·m; without a torque it is snug.",
    )


def torque_trouble(row: JointRow, torque: str) -> str:
    """What is wrong with a torque on a joint, in words; empty when it lies within what is wanted.

    Without a figure to hold it against it cannot be judged, and that is said too.

    Raises:
        BadEntry, Ambiguous: not a torque.
    """
    done = parse_torque(torque, "Torqued to").newton_metres
    try:
        wanted = wanted_torque(row).value
    except RebuildError as unknown:
        if lacks_class(row):
            beyond = beyond_any_class(done, row.thread)
            judged = f"{beyond}." if beyond else f"cannot be judged: {class_band(row.thread)}."
            return f"{judged} The class of {row.name} is not said."
        if row.duty is None:
            return (
                f"cannot be judged: the duty of {row.name} is not said, and a thread alone gives no torque."
            )
        if not row.thread.strip() and not how_set(row.duty):
            return f"cannot be judged: {row.name} has no thread, no class and no torque to be."
        return f"has nothing to be held against on {row.name}. {unknown}"
    if agrees(done, wanted):
        return ""
    times = done / wanted.high_Nm if wanted.high_Nm else 0.0
    size = f"is {times:.0f} times the {wanted.words}" if times >= 1.95 else f"is not the {wanted.words}"
    return f"{size} wanted of {row.name}."


def lacks_class(row: JointRow) -> bool:
    """Whether the class of its screws is all that is missing to say what a joint wants."""
    if row.torque_wanted.strip() or row.grade.strip() or row.duty is None or how_set(row.duty):
        return False
    return row.duty is not JointDuty.SET_SCREW and bool(class_band(row.thread))


def refuse_torque(row: JointRow, torque: str) -> None:
    """Raise Refused unless a torque lies within what is wanted of the joint; a reason settles it."""
    against = torque_trouble(row, torque)
    if against:
        raise Refused(
            f"Torqued to: “{torque.strip()}” {against}",
            way_out=_WAY_OUT[lacks_class(row)],
            ways=(
                *(
                    (Way(WayKind.SAY_CLASS, "Its class is as typed above", row.id),)
                    if lacks_class(row)
                    else ()
                ),
                Way(WayKind.ALL_THE_SAME, "Leave it so all the same", row.id),
            ),
        )
