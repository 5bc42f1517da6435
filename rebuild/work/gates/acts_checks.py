"""The list of checks by kind of machine: it lays itself out with a machine, and follows its kind."""

from __future__ import annotations

from sqlalchemy import func, select

from rebuild.model.records.machines import Machine
from rebuild.model.records.run_in import RunLook
from rebuild.store.act import Act
from rebuild.store.store import Store
from rebuild.store.tx import Tx
from rebuild.trade.run_in.checks import usual_looks


def lay_out_checks(store: Store, machine_id: int) -> int:
    """Put down what a machine of this kind is checked for and has not yet; returns how many were put down."""
    with store.act(Act.LAY_OUT_LOOKS, "") as tx:
        machine = tx.get(Machine, machine_id, "machine")
        count = put_checks(tx, machine)
        tx.subject = f"of {machine.name}"
        return count


def put_checks(tx: Tx, machine: Machine) -> int:
    """The usual checks of a machine's kind inside an act; what is there stays. Returns how many were put down."""
    there = set(tx.session.scalars(select(RunLook.text).where(RunLook.machine_id == machine.id)))
    last = tx.session.scalar(select(func.max(RunLook.position)).where(RunLook.machine_id == machine.id))
    new = [look for look in usual_looks(machine.kind.value) if look.text not in there]
    start = -1 if last is None else last
    tx.session.add_all(
        RunLook(
            machine_id=machine.id,
            due=look.due,
            text=look.text,
            topic=look.topic,
            licensed=look.licensed,
            position=start + place,
        )
        for place, look in enumerate(new, start=1)
    )
    tx.session.flush()
    return len(new)


def follow_kind(tx: Tx, machine: Machine, was: object) -> None:
    """A machine of another kind has that kind's checks; those of the old kind that nobody did yet go."""
    if was is None or was == machine.kind:
        return
    keep = {look.text for look in usual_looks(machine.kind.value)}
    gone = {look.text for look in usual_looks(str(was))} - keep
    for row in tx.session.scalars(
        select(RunLook).where(
            RunLook.machine_id == machine.id, RunLook.text.in_(gone), RunLook.done_at.is_(None)
        )
    ):
        tx.session.delete(row)
    put_checks(tx, machine)
