"""Every joint's state: apart, loose, finger, snug, torqued, locked, pinned; dry, oiled, greased, sealed."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from sqlalchemy import or_, select

from rebuild.errors import BadEntry
from rebuild.model.records.joints import Joint
from rebuild.model.records.machines import Machine
from rebuild.model.records.steps import Task
from rebuild.store.act import Act
from rebuild.store.store import Store, Tx
from rebuild.trade.joints.tour import TIGHT
from rebuild.trade.joints.usual_torque import joint_torque
from rebuild.trade.sizes.amounts import parse_torque
from rebuild.trade.sizes.comma import settled
from rebuild.words.gates import Gate
from rebuild.words.joints import Dressing, Tightness
from rebuild.work.gates import acts as gates
from rebuild.work.gates.rules import refuse_idle_reason
from rebuild.work.joints import rules, rules_apart, rules_off
from rebuild.work.joints.rows import row_of
from rebuild.work.joints.rows_parts_held import parts_held
from rebuild.work.joints.rows_put_on import parts_put_on
from rebuild.work.places.rows_off import off_parts
from rebuild.work.records.columns import read_typed, set_columns, title
from rebuild.work.records.rows_settings import decimal_comma
from rebuild.work.records.rules import refuse_other_machine
from rebuild.work.records.wall_clock import now

#: What is said of a pin that is home.
DRIVEN = "driven"


@dataclass(frozen=True, slots=True)
class JointState:
    """What is said of a joint: how tight, how dressed, the torque as typed. None: as it was.

    ``reason`` says why a torque outside what is wanted is left so, ``by`` who says it.
    """

    tight: Tightness | None = None
    dress: Dressing | None = None
    torque: str = ""
    note: str = ""
    reason: str = ""
    by: str = ""


def parse_joint(words: str, torque: str = "", *, comma: bool | None = None) -> JointState:
    """Read ``snug, oiled`` into a state; any of the words may be left out. ``comma`` is how the file reads one.

    Raises:
        BadEntry: a word is neither how tight nor how dressed, or the torque cannot be read.

    >>> state = parse_joint("snug, oiled")
    >>> state.tight.value, state.dress.value
    ('snug', 'oiled')
    """
    if torque.strip():
        parse_torque(torque, "Torqued to", decimal_comma=comma)
    tight: Tightness | None = None
    dress: Dressing | None = None
    for word in re.findall(r"[^\s,;]+", words.lower()):
        if word in tuple(Tightness):
            tight = Tightness(word)
        elif word == DRIVEN:
            tight = Tightness.PINNED
        elif word in tuple(Dressing):
            dress = Dressing(word)
        elif word not in ("tight", "and"):
            known = ", ".join((*Tightness, DRIVEN, *Dressing))
            raise BadEntry(
                "is not a word for a joint.", where="Joint", value=word, way_out=f"Words: {known}."
            )
    return JointState(tight, dress, settled(torque.strip(), comma))


def add_joint(
    store: Store,
    machine_id: int,
    subassembly_id: int | None,
    name: str,
    typed: Mapping[str, str] | None = None,
) -> int:
    """A new joint, apart unless said otherwise; returns its id. Raises BadEntry."""
    columns = read_typed("joint", {"name": name, **(typed or {})}, comma=decimal_comma(store))
    with store.act(Act.ADD_JOINT, str(columns["name"])) as tx:
        tx.get(Machine, machine_id, "machine")
        refuse_other_machine(tx, machine_id, subassembly=subassembly_id)
        row = Joint(machine_id=machine_id, subassembly_id=subassembly_id, tight=Tightness.APART)
        set_columns(row, columns)
        rules.joint(tx, row, {}, typed or {})
        tx.session.add(row)
        tx.session.flush()
        return row.id


def set_joints(
    store: Store, joint_ids: Sequence[int], state: JointState, *, at: dt.datetime | None = None
) -> None:
    """Say how joints are now, ``at`` now unless given.

    A torque outside what is wanted is left so only with a reason; then the act is called going on all the same.

    Raises:
        BadEntry: torqued without a torque, or a torque that cannot be read.
        Refused: the torque is not the one wanted, or nothing is known to hold it against; ``state.reason`` settles it.
            Its part is off the machine; ``state.reason`` says why it counts as on.
            Apart, and a done step brought it together: ``steps.acts_joint_apart`` takes it apart with why.
    """
    if not joint_ids:
        return
    if state.torque.strip():
        comma = decimal_comma(store)
        parse_torque(state.torque, "Torqued to", decimal_comma=comma)
        state = replace(state, torque=settled(state.torque.strip(), comma))
    with store.act(Act.GO_ON if state.reason.strip() else Act.SET_JOINT, "") as tx:
        rows = [tx.get(Joint, key, "joint") for key in dict.fromkeys(joint_ids)]
        if state.tight is Tightness.APART:
            together = [row for row in rows if row.tight is not Tightness.APART]
            rules_apart.refuse_while_running(tx, [row.machine_id for row in together])
            rules_apart.refuse_apart(tx, together)
        tight = state.tight or (Tightness.TORQUED if state.torque.strip() else None)
        off = _put_on_all_the_same(tx, rows, tight, state, at or now())
        outside = [off, *(set_in(tx, row, state, at or now()) for row in rows)]
        refuse_idle_reason(state.reason, any(outside))
        more = f" and {len(rows) - 1} more" if len(rows) > 1 else ""
        words = ", ".join(filter(None, (state.tight, state.dress)))
        tx.subject = f"{title(rows[0])}{more}: {words or state.torque}"


def _put_on_all_the_same(
    tx: Tx, rows: Sequence[Joint], tight: Tightness | None, state: JointState, at: dt.datetime
) -> bool:
    """Ask where a joint's part is off; with a reason it is noted, and True returned. Raises Refused."""
    if not state.reason.strip():
        rules_off.refuse_off(tx, rows, tight)
        return False
    gone_on = False
    for row in rows if tight in rules_off.TOGETHER else ():
        off = rules_off.off_words(tx, row)
        if off:
            what = f"{row.name} said to be {tight.said if tight is not None else ''}"
            gone = gates.GoneOn(row.machine_id, Gate.ORDER, what, f"{off}.", joint_id=row.id)
            gates.note(tx, gone, state.reason, state.by, at)
            gone_on = True
    return gone_on


def say_class(store: Store, joint_id: int, grade: str) -> None:
    """Say of which class the screws of a joint are, as read off their heads.

    Raises:
        BadEntry: nothing was said.
        OutOfRange: no such class, or not at this size.
    """
    if not grade.strip():
        raise BadEntry("is empty.", where="Class", way_out="Read it off the head: 8.8, 10.9 or grade 5.")
    with store.act(Act.EDIT, "") as tx:
        row = tx.get(Joint, joint_id, "joint")
        joint_torque(row.thread, grade.strip())
        row.grade = grade.strip()
        tx.subject = f"{title(row)}: class {row.grade}"


def set_in(tx: Tx, row: Joint, state: JointState, at: dt.datetime) -> bool:
    """Put a state on a joint; True when its torque was left outside what is wanted, with the reason."""
    torque = state.torque.strip()
    tight = state.tight or (
        Tightness.TORQUED if torque and TIGHT.index(row.tight) < TIGHT.index("torqued") else None
    )
    if state.tight is Tightness.TORQUED and not torque:
        raise rules.no_torque()
    if tight is not None:
        row.tight = tight
    if tight is Tightness.APART:
        row.looked_again_at = None
    outside = False
    if torque:
        outside = _set_torque(tx, row, state, at)
    elif tight in (Tightness.APART, Tightness.LOOSE, Tightness.FINGER):
        row.torque_done, row.torque_reason = "", None
        # That its part counts as on still holds of a joint only let go.
        let_go = None if tight is Tightness.APART else Gate.TORQUE
        gates.close_of(tx, f"the joint is {tight.value} again", at, joint_id=row.id, gate=let_go)
    if state.dress is not None:
        row.dress = state.dress
    if state.note.strip():
        row.note = state.note.strip()
    row.set_at = at
    return outside


def _set_torque(tx: Tx, row: Joint, state: JointState, at: dt.datetime) -> bool:
    torque, judged = state.torque.strip(), row_of(row)
    against = rules.torque_trouble(judged, torque)
    if against and not state.reason.strip():
        rules.refuse_torque(judged, torque)
    gates.close_of(tx, f"torqued again, to {torque}", at, joint_id=row.id, gate=Gate.TORQUE)
    row.torque_done, row.torque_reason = torque, state.reason.strip() or None if against else None
    if against:
        what = f"{row.name} torqued to {torque}"
        gone = gates.GoneOn(row.machine_id, Gate.TORQUE, what, f"“{torque}” {against}", joint_id=row.id)
        gates.note(tx, gone, state.reason, state.by, at)
    return bool(against)


def set_tour(store: Store, joint_ids: Sequence[int]) -> None:
    """Keep the user's own order of the walk round the machine."""
    with store.act(Act.REORDER, "of the walk round the machine") as tx:
        for place, key in enumerate(dict.fromkeys(joint_ids)):
            row = tx.get(Joint, key, "joint")
            if row.tour != place:
                row.tour = place


def looked_again(store: Store, joint_ids: Sequence[int], *, at: dt.datetime | None = None) -> None:
    """Joints were checked again after the run-in, and held."""
    if not joint_ids:
        return
    with store.act(Act.SET_JOINT, "") as tx:
        rows = [tx.get(Joint, key, "joint") for key in dict.fromkeys(joint_ids)]
        for row in rows:
            row.looked_again_at = at or now()
        more = f" and {len(rows) - 1} more" if len(rows) > 1 else ""
        tx.subject = f"{title(rows[0])}{more}: rechecked after run-in"


@dataclass(frozen=True, slots=True)
class Together:
    """How many joints a step brought together, and whether a torque was left outside what is wanted."""

    joints: int
    outside: bool


def put_together(tx: Tx, task: Task, state: JointState, at: dt.datetime) -> Together:
    """Bring the joints of a step that was ticked off up to what was said.

    A refit step whose joint nothing was said of leaves it finger tight: not final until someone says so. One that
    holds another part too, which is off still, stays apart.
    """
    parts = parts_put_on(tx, task)
    held = parts_held(tx.connection, task.machine_id)
    mine = [key for key, of in held.items() if of & parts]
    of_step = or_(Joint.task_id == task.id, Joint.part_id.in_(parts), Joint.id.in_(mine))
    joints = tx.session.scalars(select(Joint).where(Joint.machine_id == task.machine_id, of_step)).all()
    off = off_parts(tx.connection, task.machine_id) - parts if len(held) else set()
    joints = [joint for joint in joints if not (held.get(joint.id, set()) & off)]
    said = state.tight is not None or state.dress is not None or bool(state.torque)
    outside = False
    for joint in joints:
        if said:
            outside = set_in(tx, joint, state, at) or outside
        elif joint.tight is Tightness.APART and held.get(joint.id, set()) & parts:
            set_in(tx, joint, JointState(Tightness.FINGER), at)
    return Together(len(joints), outside)
