"""Say that two features run or sit together, what is wanted between them, and that a fit has been looked at."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence

from sqlalchemy import func, select

from rebuild.errors import BadEntry
from rebuild.model.records.features import Feature
from rebuild.model.records.fits import Fit
from rebuild.model.records.machines import Machine
from rebuild.model.records.parts import Part
from rebuild.store.act import Act
from rebuild.store.store import Store, Tx
from rebuild.trade.fits.wanted import refuse_unfit
from rebuild.words.fits import LimitsTo, Side, WantedOrigin
from rebuild.work.fits import rows as lookup
from rebuild.work.fits.acts_wanted import ends, put_wanted
from rebuild.work.fits.entry import FitEntry, joint_of, kind_of
from rebuild.work.fits.rows_stale import Fact, written
from rebuild.work.fits.rules import checked
from rebuild.work.fits.rules_called import called
from rebuild.work.records.columns import read_typed, set_columns
from rebuild.work.records.rows_settings import decimal_comma
from rebuild.work.records.wall_clock import now

__all__ = [
    "FitEntry",
    "add_fit",
    "change_fit",
    "look",
    "name_later_mate",
    "put_fit",
    "replace_side",
    "set_wanted",
]


def add_fit(store: Store, entry: FitEntry, *, confirmed: bool = False, at: dt.datetime | None = None) -> int:
    """A new fit of two features; returns its id. It counts as looked at, ``at`` now unless given.

    Raises:
        BadEntry: the same feature twice, features of two machines, a shaft for the hole, a range that cannot be.
        Ambiguous: a range with two honest readings.
        Implausible: a range too large for the size, until ``confirmed``.
        NotThere: a feature was removed.
    """
    comma = decimal_comma(store)
    with store.act(Act.ADD_FIT, "") as tx:
        row = put_fit(tx, entry, comma, confirmed=confirmed, at=at)
        tx.subject = called(tx, row)
        return row.id


def put_fit(
    tx: Tx, entry: FitEntry, comma: bool | None, *, confirmed: bool = False, at: dt.datetime | None = None
) -> Fit:
    """Put a new fit in, inside an act. Raises as ``add_fit``."""
    outer, inner = (tx.get(Feature, key, "feature") for key in (entry.outer_id, entry.inner_id))
    machine_id = checked(tx, entry, outer, inner)
    joint = entry.joint or joint_of(outer.kind, inner.kind)
    kind = entry.kind or kind_of(joint)
    last = tx.session.scalar(select(func.max(Fit.position)).where(Fit.machine_id == machine_id))
    row = Fit(
        machine_id=machine_id,
        outer_id=outer.id,
        inner_id=inner.id,
        gap_id=entry.gap_id,
        joint=joint,
        kind=kind,
        outer_station_id=entry.outer_station_id,
        inner_station_id=entry.inner_station_id,
        master=entry.master,
        adjuster=entry.adjuster,
        position=0 if last is None else last + 1,
    )
    unit = entry.unit or (
        outer.unit if outer.unit == inner.unit else tx.get(Machine, machine_id, "machine").unit
    )
    set_columns(row, read_typed("fit", {"name": entry.name, "unit": unit, "note": entry.note}))
    put_wanted(tx, row, (entry.wanted, comma), entry.origin, entry.wanted_note, confirmed)
    tx.session.add(row)
    tx.session.flush()
    _sign(row, lookup.facts_of(lookup.fit(tx.connection, row.id)), at)
    return row


def set_wanted(
    store: Store,
    fit_id: int,
    text: str,
    *,
    origin: WantedOrigin | None = None,
    note: str | None = None,
    confirmed: bool = False,
) -> None:
    """Set what is wanted between the sides, as typed (``0.02-0.04``, ``H7/g6``, ``rule slow``); empty: nothing.

    Raises:
        BadEntry, Ambiguous, OutOfRange: as ``parse_wanted``.
        Implausible: a range too large for the size, until ``confirmed``.
    """
    comma = decimal_comma(store)
    with store.act(Act.SET_WANTED, "") as tx:
        row = tx.get(Fit, fit_id, "fit")
        put_wanted(tx, row, (text, comma), origin, note, confirmed)
        tx.subject = f"{text.strip() or 'none'} of {called(tx, row)}"


def change_fit(store: Store, fit_id: int, typed: Mapping[str, str]) -> None:
    """Set fields of a fit from typed text. A fit that was looked at stays so: its own user changed it.

    Raises:
        BadEntry: a field cannot be read, or the range does not suit the kind of fit.
    """
    columns = read_typed("fit", typed)
    with store.act(Act.CHANGE_FIT, "") as tx:
        row = tx.get(Fit, fit_id, "fit")
        fresh = not lookup.fit(tx.connection, fit_id).stale
        set_columns(row, columns)
        low, high = ends(row)
        if low is not None or high is not None:
            refuse_unfit(row.kind, low, high, row.wanted_text, row.unit)
        tx.session.flush()
        if fresh:
            _sign(row, lookup.facts_of(lookup.fit(tx.connection, row.id)))
        tx.subject = f"of {called(tx, row)}: {', '.join(typed)}"


def replace_side(
    store: Store, fit_id: int, side: Side, feature_id: int, *, station_id: int | None = None
) -> None:
    """Put another feature on one side of a fit (the part was replaced); the fit is stale until looked at.

    Raises:
        BadEntry: the feature is the other side, or of another machine.
    """
    with store.act(Act.CHANGE_FIT, "") as tx:
        row = tx.get(Fit, fit_id, "fit")
        ids = {Side.OUTER: row.outer_id, Side.INNER: row.inner_id, side: feature_id}
        entry = FitEntry(
            ids[Side.OUTER],
            ids[Side.INNER],
            outer_station_id=station_id if side is Side.OUTER else row.outer_station_id,
            inner_station_id=station_id if side is Side.INNER else row.inner_station_id,
        )
        outer, inner = (tx.get(Feature, key, "feature") for key in (entry.outer_id, entry.inner_id))
        checked(tx, entry, outer, inner, but=fit_id)
        row.outer_id, row.inner_id = entry.outer_id, entry.inner_id
        row.outer_station_id, row.inner_station_id = entry.outer_station_id, entry.inner_station_id
        tx.session.flush()
        tx.subject = f"of the {side.value} side of {called(tx, row)}"


def name_later_mate(
    store: Store, fit_id: int, feature_id: int | None, limits_to: LimitsTo = LimitsTo.BOTH
) -> None:
    """Name the mate the follower is made for in the end; None takes it off. The master is the one it must pass today.

    Raises:
        BadEntry: no master is chosen, the feature is a side already, or of another machine.
        NotThere: it was removed.
    """
    with store.act(Act.NAME_LATER_MATE, "") as tx:
        row = tx.get(Fit, fit_id, "fit")
        if feature_id is None:
            row.later_id, row.limits_to = None, None
            tx.subject = f"of {called(tx, row)}: none"
            return
        if row.master is None:
            raise BadEntry(
                "is not chosen.",
                where=f"Master of {called(tx, row)}",
                way_out="Choose the side that is not made new.",
            )
        if feature_id in (row.outer_id, row.inner_id, row.gap_id):
            raise BadEntry(
                "is a side of this fit already.", where="Later mate", way_out="Choose the new part's."
            )
        feature = tx.get(Feature, feature_id, "feature")
        if tx.get(Part, feature.part_id, "part").machine_id != row.machine_id:
            raise BadEntry(
                "is on another machine.",
                where="Later mate",
                value=feature.name,
                way_out="Choose one of this machine.",
            )
        row.later_id, row.limits_to = feature_id, limits_to
        tx.subject = f"of {called(tx, row)}: {feature.name}"


def look(store: Store, fit_ids: Sequence[int], *, at: dt.datetime | None = None) -> None:
    """The user has looked at these fits as they are now; they are no longer stale. Raises NotThere."""
    with store.act(Act.LOOK, "") as tx:
        found = look_in(tx, fit_ids, at)
        more = f" and {len(found) - 1} more" if len(found) > 1 else ""
        tx.subject = f"{called(tx, found[0])}{more}" if found else ""


def look_in(tx: Tx, fit_ids: Sequence[int], at: dt.datetime | None = None) -> list[Fit]:
    """Fits were looked at inside an act; returns them. Raises NotThere."""
    tx.session.flush()
    found = [tx.get(Fit, key, "fit") for key in fit_ids]
    now_known = {row.id: lookup.facts_of(row) for row in lookup.rows(tx.connection, list(fit_ids))}
    for row in found:
        _sign(row, now_known[row.id], at)
    return found


def _sign(row: Fit, known: Sequence[Fact], at: dt.datetime | None = None) -> None:
    text = written(known)
    if row.looked != text:
        row.looked = text
        row.looked_at = at or now()
