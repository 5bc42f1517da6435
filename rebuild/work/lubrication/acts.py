"""The lubrication card: points, what feeds them, where they lie on the map, and oil seen to arrive."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping, Sequence

from sqlalchemy import func, select

from rebuild.errors import BadEntry
from rebuild.model.records.lubrication import OilPoint
from rebuild.model.records.machines import Machine
from rebuild.store.act import Act
from rebuild.store.store import Store
from rebuild.store.tx import Tx
from rebuild.words.lubrication import FlowProof, OilPointKind
from rebuild.work.lubrication import rules
from rebuild.work.records.columns import read_typed, set_columns
from rebuild.work.records.rows_settings import decimal_comma
from rebuild.work.records.rules import refuse_other_machine
from rebuild.work.records.wall_clock import now

#: Pieces of a line hold no point of their own to prove.
LINE_PIECES = (OilPointKind.LINE, OilPointKind.JUNCTION, OilPointKind.PUMP)


def called(row: OilPoint) -> str:
    """Number and what it feeds."""
    return f"{row.number} {row.feeds}".strip()


def add_point(
    store: Store,
    machine_id: int,
    feeds: str,
    kind: OilPointKind = OilPointKind.OIL_HOLE,
    typed: Mapping[str, str] | None = None,
    *,
    at: tuple[float, float] | None = None,
) -> int:
    """A new point of the card; ``at`` is its place on the map (0 to 1); returns its id.

    Raises:
        BadEntry: a field cannot be read, the number is taken, the duty is not one, the lines would run in a ring.
    """
    comma = decimal_comma(store)
    with store.act(Act.ADD_OIL_POINT, "") as tx:
        tx.get(Machine, machine_id, "machine")
        last = tx.session.scalar(select(func.max(OilPoint.position)).where(OilPoint.machine_id == machine_id))
        place = 0 if last is None else last + 1
        given = {"feeds": feeds, "number": _free_number(tx, machine_id, place + 1), **(typed or {})}
        row = OilPoint(machine_id=machine_id, kind=kind, position=place, proof=FlowProof.NOT_PROVED)
        set_columns(row, read_typed("oil_point", given, comma=comma))
        refuse_other_machine(tx, machine_id, part=row.part_id, step=row.task_id)
        if "proof" not in given and kind is OilPointKind.BY_HAND:
            row.proof = FlowProof.NOT_NEEDED
        rules.oil_point(tx, row, {}, given)
        if at is not None:
            row.x, row.y = _on_map(at)
        tx.session.add(row)
        tx.session.flush()
        tx.subject = called(row)
        return row.id


def _free_number(tx: Tx, machine_id: int, first: int) -> str:
    taken = set(tx.session.scalars(select(OilPoint.number).where(OilPoint.machine_id == machine_id)))
    number = first
    while str(number) in taken:
        number += 1
    return str(number)


def put_on_map(store: Store, point_id: int, at: tuple[float, float] | None) -> None:
    """Put a point at a place of the map, or take it off the map. Raises BadEntry for a place off the sheet."""
    with store.act(Act.PUT_OIL_POINT, "") as tx:
        row = tx.get(OilPoint, point_id, "oil point")
        row.x, row.y = (None, None) if at is None else _on_map(at)
        tx.subject = called(row)


def _on_map(at: tuple[float, float]) -> tuple[float, float]:
    x, y = at
    if not (0.0 <= x <= 1.0 and 0.0 <= y <= 1.0):
        raise BadEntry(
            "lies beside the map.",
            where="Place on the map",
            value=f"{x:.2f}, {y:.2f}",
            way_out="Drop it on it.",
        )
    return round(x, 4), round(y, 4)


def prove_flow(
    store: Store,
    point_ids: Sequence[int],
    proof: FlowProof = FlowProof.PROVED,
    note: str = "",
    *,
    at: dt.datetime | None = None,
) -> None:
    """Oil was seen to arrive at points, or was seen not to; ``note`` says how.

    Oil seen at a point went through every line before it: those not proved yet are proved with it.

    Raises:
        BadEntry: a point is said to be proved while a line before it is blocked.
    """
    with store.act(Act.PROVE_FLOW, "") as tx:
        rows = [tx.get(OilPoint, key, "oil point") for key in dict.fromkeys(point_ids)]
        for row in rows:
            if proof is FlowProof.PROVED:
                _refuse_blocked_before(tx, row)
            row.proof = proof
            row.proved_at = (at or now()) if proof in (FlowProof.PROVED, FlowProof.BLOCKED) else None
            row.proved_note = note.strip()
            if proof is FlowProof.PROVED:
                _prove_lines_before(tx, row)
        more = f" and {len(rows) - 1} more" if len(rows) > 1 else ""
        tx.subject = f"{called(rows[0])}{more}: {proof.value}" if rows else ""


def _pieces_before(tx: Tx, row: OilPoint) -> Iterator[OilPoint]:
    """What feeds a point, up to the pump."""
    seen, above = {row.id}, row.fed_by_id
    while above is not None and above not in seen:
        seen.add(above)
        piece = tx.get(OilPoint, above, "oil point")
        yield piece
        above = piece.fed_by_id


def _prove_lines_before(tx: Tx, row: OilPoint) -> None:
    for piece in _pieces_before(tx, row):
        if piece.kind in LINE_PIECES and piece.proof is FlowProof.NOT_PROVED:
            piece.proof, piece.proved_at = FlowProof.PROVED, row.proved_at
            piece.proved_note = f"oil seen at {called(row)}"


def _refuse_blocked_before(tx: Tx, row: OilPoint) -> None:
    for piece in _pieces_before(tx, row):
        if piece.proof is FlowProof.BLOCKED:
            raise BadEntry(
                f"cannot get oil: {called(piece)} before it is blocked.",
                where="Flow",
                value=called(row),
                way_out="Clear that first, and say so; then prove this one.",
            )


def fill_first(store: Store, point_ids: Sequence[int], *, at: dt.datetime | None = None) -> None:
    """Points got their first fill."""
    with store.act(Act.PROVE_FLOW, "") as tx:
        rows = [tx.get(OilPoint, key, "oil point") for key in dict.fromkeys(point_ids)]
        for row in rows:
            row.first_fill_at = at or now()
        more = f" and {len(rows) - 1} more" if len(rows) > 1 else ""
        tx.subject = f"first fill of {called(rows[0])}{more}" if rows else ""
