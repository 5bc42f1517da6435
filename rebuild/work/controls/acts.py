"""Controls: add one, put the usual ones of a machine down, note it as found, prove it after refit."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping

from sqlalchemy import func, select

from rebuild.errors import BadEntry
from rebuild.model.records.controls import Control
from rebuild.model.records.machines import Machine
from rebuild.store.act import Act
from rebuild.store.store import Store
from rebuild.store.tx import Tx
from rebuild.trade.run_in.controls import usual_controls
from rebuild.words.controls import ControlKind
from rebuild.work.controls import rules
from rebuild.work.records.columns import read_typed, set_columns
from rebuild.work.records.rows_settings import decimal_comma
from rebuild.work.records.wall_clock import now


def add_control(
    store: Store,
    machine_id: int,
    name: str,
    kind: ControlKind = ControlKind.KNOB,
    typed: Mapping[str, str] | None = None,
) -> int:
    """One more control, last; its lengths are in the machine's unit unless typed. Returns its id.

    Raises:
        BadEntry: a field cannot be read, or what it names is of another machine.
    """
    with store.read() as connection:
        unit = connection.scalar(select(Machine.unit).where(Machine.id == machine_id)) or "mm"
    fields = {"unit": unit, **(typed or {}), "name": name, "kind": kind.value}
    columns = read_typed("control", fields, fields["unit"] or unit, comma=decimal_comma(store))
    with store.act(Act.ADD_CONTROL, str(columns["name"])) as tx:
        tx.get(Machine, machine_id, "machine")
        row = Control(machine_id=machine_id, position=_next(tx, machine_id))
        set_columns(row, columns)
        rules.control(tx, row, {}, fields)
        tx.session.add(row)
        tx.session.flush()
        return row.id


def _next(tx: Tx, machine_id: int) -> int:
    last = tx.session.scalar(select(func.max(Control.position)).where(Control.machine_id == machine_id))
    return 0 if last is None else last + 1


def lay_out_controls(store: Store, machine_id: int) -> list[int]:
    """Put the controls such a machine usually has down; a name that is there stays. Returns the new ones' ids."""
    with store.act(Act.ADD_CONTROL, "") as tx:
        machine = tx.get(Machine, machine_id, "machine")
        there = {
            name.casefold()
            for name in tx.session.scalars(select(Control.name).where(Control.machine_id == machine_id))
        }
        made = []
        for usual in usual_controls(machine.kind):
            if usual.name.casefold() in there:
                continue
            row = Control(
                machine_id=machine_id,
                name=usual.name,
                kind=usual.kind,
                does=usual.does,
                unit=machine.unit,
                due=usual.due,
                position=_next(tx, machine_id),
            )
            tx.session.add(row)
            tx.session.flush()
            made.append(row.id)
        tx.subject = f"the usual ones of {machine.name}"
        return made


def found(
    store: Store, control_id: int, words: str, turn: str = "", *, at: dt.datetime | None = None
) -> None:
    """How a control was found, and what a turn of it moved.

    Raises:
        BadEntry: nothing is said, or the travel cannot be read.
    """
    if not words.strip() and not turn.strip():
        raise BadEntry("is empty.", where="As found", way_out="Say how it moved, or what a turn of it moved.")
    _note(store, Act.FIND_CONTROL, control_id, {"found": words, "found_turn": turn}, at, "found")


def prove(
    store: Store,
    control_id: int,
    words: str,
    turn: str = "",
    by: str = "",
    *,
    at: dt.datetime | None = None,
    sure: bool = False,
) -> None:
    """A control was tried after refit: it does what it should, its turn moves what it should.

    Raises:
        BadEntry: nothing is said of how; a turn was not measured though one is stated; or it moves something else
            (``sure`` takes it all the same, with the reason in ``words``).
    """
    if not words.strip():
        raise BadEntry(
            "is empty.",
            where="Proved how",
            way_out="Say what was tried: full travel in both directions, engages, comes out.",
        )
    typed = {"proved": words, "proved_by": by, **({"proved_turn": turn} if turn.strip() else {})}
    _note(store, Act.PROVE_CONTROL, control_id, typed, at, "proved", sure=sure)


def unprove(store: Store, control_id: int) -> None:
    """A control is to be proved anew; what was said stays in the history."""
    with store.act(Act.PROVE_CONTROL, "") as tx:
        row = tx.get(Control, control_id, "control")
        row.proved_at, row.proved, row.proved_by = None, "", ""
        row.proved_turn_text = row.proved_turn_unit = row.proved_turn_mm = None
        tx.subject = f"again: {row.name}"


def _note(
    store: Store,
    act: Act,
    control_id: int,
    typed: Mapping[str, str],
    at: dt.datetime | None,
    stem: str,
    *,
    sure: bool = True,
) -> None:
    comma = decimal_comma(store)
    with store.act(act, "") as tx:
        row = tx.get(Control, control_id, "control")
        set_columns(row, read_typed("control", typed, row.unit, comma=comma))
        setattr(row, f"{stem}_at", at or now())
        rules.control(tx, row, {}, typed)
        if not sure:
            rules.refuse_other_travel(row)
        tx.subject = row.name
