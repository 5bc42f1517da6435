"""Fasteners per hole and shims per location, as they were found."""

from __future__ import annotations

import re
from collections.abc import Sequence

from sqlalchemy import func, select

from rebuild.model.records.machines import Machine
from rebuild.model.records.parts import Part
from rebuild.model.records.teardown import Attempt, Fastener, Removal, RemovalPart, ShimLeaf, ShimPack
from rebuild.store.act import Act
from rebuild.store.store import Store, Tx
from rebuild.trade.sizes.quantity import Size, parse_length
from rebuild.trade.teardown.fastener_words import SaidFastener, fastener_words, parse_fastener
from rebuild.trade.teardown.removal_words import SaidShims
from rebuild.trade.teardown.shims import parse_leaves
from rebuild.words.teardown import FastenerKind, FastenerPoint, FastenerState
from rebuild.work.joints.acts_off import joint_apart
from rebuild.work.records.columns import title
from rebuild.work.records.rows_settings import decimal_comma

_SIDE = re.compile(r"\b(left|right|front|rear|back|top|bottom|upper|lower|operator side)\b", re.IGNORECASE)


def add_fastener(store: Store, removal_id: int, words: str, *, hole: str = "") -> int:
    """Add what sat in a hole (or in several alike) to a removal, as said; returns its id.

    Raises:
        BadEntry: nothing was said, or a length cannot be read.
    """
    with store.act(Act.ADD_FASTENER, "") as tx:
        removal = tx.get(Removal, removal_id, "removal")
        attempt = tx.get(Attempt, removal.attempt_id, "attempt")
        said = parse_fastener(words, tx.get(Machine, attempt.machine_id, "machine").unit)
        parts = [
            tx.get(Part, key, "part")
            for key in tx.session.scalars(
                select(RemovalPart.part_id)
                .where(RemovalPart.removal_id == removal_id)
                .order_by(RemovalPart.id)
            )
        ]
        called = ", ".join(title(part) for part in parts) or removal.what
        made = add_all(tx, attempt, removal, (said,), (called, parts[0].id if parts else None), hole)
        tx.subject = f"{fastener_words(said)} on {called}"
        return made[0]


def add_all(
    tx: Tx,
    attempt: Attempt,
    removal: Removal,
    said: Sequence[SaidFastener],
    of: tuple[str, int | None],
    hole: str = "",
) -> list[int]:
    """Store fasteners of a removal, each with its joint, now apart. ``of`` names the part they held."""
    where = (attempt.machine_id, attempt.subassembly_id, removal.location)
    last = tx.session.scalar(select(func.max(Fastener.position)).where(Fastener.removal_id == removal.id))
    made: list[int] = []
    for place, one in enumerate(said, start=0 if last is None else last + 1):
        row = _fastener(removal.id, one, hole)
        row.position = place
        if row.thread or row.kind is not FastenerKind.OTHER:  # a washer alone ties nothing together
            row.joint_id = joint_apart(tx, row, of, where, removal.at).id
        tx.session.add(row)
        tx.session.flush()
        made.append(row.id)
    return made


def _fastener(removal_id: int, said: SaidFastener, hole: str) -> Fastener:
    length = parse_length(said.length, said.length_unit, "Length") if said.length else None
    return Fastener(
        removal_id=removal_id,
        kind=FastenerKind(said.kind),
        hole=hole.strip(),
        count=said.count,
        thread=said.thread,
        left_hand=said.left_hand,
        head=said.head,
        grade=said.grade,
        big_end=said.big_end,
        point=FastenerPoint(said.point) if said.point else None,
        hidden=said.hidden,
        state=FastenerState(said.state) if said.state else None,
        note=said.note,
        length_text=length.text if length else None,
        length_unit=length.unit if length else None,
        length_mm=length.mm if length else None,
    )


def add_shims(
    store: Store, removal_id: int, leaves: str, *, location: str = "", side: str = "", way_round: str = ""
) -> int:
    """Add a shim pack to a removal: leaves as ``0.003 + 2 x 0.002``; returns its id. Raises BadEntry."""
    comma = decimal_comma(store)
    with store.act(Act.ADD_SHIMS, "") as tx:
        removal = tx.get(Removal, removal_id, "removal")
        attempt = tx.get(Attempt, removal.attempt_id, "attempt")
        sizes = parse_leaves(leaves, tx.get(Machine, attempt.machine_id, "machine").unit, decimal_comma=comma)
        tx.subject = " ".join(filter(None, (location, side, leaves)))
        return _pack(tx, removal.id, sizes, location, side, way_round)


def add_shims_said(
    tx: Tx, removal: Removal, said: Sequence[SaidShims], unit: str, comma: bool | None
) -> None:
    """Store the shim packs of a spoken line; a side is told from the location by its word."""
    for one in said:
        side = _SIDE.search(one.where)
        location = " ".join(_SIDE.sub(" ", one.where).split())
        _pack(
            tx,
            removal.id,
            parse_leaves(one.leaves, unit, decimal_comma=comma),
            location,
            side[1].lower() if side else "",
            "",
        )


def _pack(tx: Tx, removal_id: int, sizes: Sequence[Size], location: str, side: str, way_round: str) -> int:
    pack = ShimPack(
        removal_id=removal_id, location=location.strip(), side=side.strip(), way_round=way_round.strip()
    )
    tx.session.add(pack)
    tx.session.flush()
    for place, size in enumerate(sizes):
        tx.session.add(
            ShimLeaf(
                pack_id=pack.id,
                position=place,
                thickness_text=size.text,
                thickness_unit=size.unit,
                thickness_mm=size.mm,
            )
        )
    return pack.id
