"""What a decision would touch before it is taken: fits, mates, making, steps, spares."""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass
from enum import StrEnum

from sqlalchemy import Connection, select

from rebuild.model.tables.features import Features
from rebuild.model.tables.fits import Fits
from rebuild.model.tables.parts import MatchedSets, Parts
from rebuild.model.tables.steps import Tasks
from rebuild.trade.limits.judgement import Rule
from rebuild.trade.schedule.network import held_up_by
from rebuild.words.decisions import Decision
from rebuild.words.fits import Side
from rebuild.words.steps import TaskKind, TaskState
from rebuild.work.fits import rows as fits
from rebuild.work.fits.rows import FitRow

#: The tables the lookups here ask.
READS = frozenset({"feature", "fit", "instrument", "matched_set", "part", "reading", "station", "task"})

MAKING = (Decision.REMAKE, Decision.REWORK, Decision.BUY)
#: Gives the making sheets (id, title) of some parts; passed in by who knows them.
Sheets = Callable[[Connection, Collection[int]], Sequence[tuple[int, str]]]


class Touch(StrEnum):
    """How a decision touches something."""

    STALE = "fit becomes stale"
    WAITS = "waits"
    NO_LONGER_WAITS = "no longer waits"
    STEP = "step concerned"
    SHEET = "making sheet waits"
    SET = "matched set"
    SPARE = "spare"
    ODD = "odd size carried on"
    BOOK = "machine's book"


@dataclass(frozen=True, slots=True)
class Touched:
    """One thing a decision touches."""

    how: Touch
    title: str
    sentence: str
    part_id: int | None = None
    fit_id: int | None = None


@dataclass(frozen=True, slots=True)
class Ripple:
    """All a decision would touch, and the parts among it."""

    part: str
    decision: Decision
    touched: tuple[Touched, ...]
    parts: tuple[tuple[int, str], ...]


def ripple(
    connection: Connection,
    part_id: int,
    decision: Decision,
    *,
    odd: str = "",
    sheets: Sheets | None = None,
    rule: Rule = Rule.CONFORMANCE_95,
) -> Ripple:
    """What ``decision`` on a part would touch, the part not yet changed.

    Args:
        odd: what would be non-standard about it (``pin No. 3``), carried to mates, spares and the book.
        sheets: lists the making sheets of parts, where there are any.
    """
    part = connection.execute(select(*Parts.columns()).where(Parts.id == part_id)).one()
    title = f"{part.code} {part.name}".strip()
    in_fits = fits.rows(connection, fits.of_parts(connection, [part_id]), rule)
    found = (
        [_stale(row, part_id, decision, part.decision) for row in in_fits]
        if decision is not part.decision
        else []
    )
    waiting = _waiting(connection, part_id, part.machine_id, decision, part.decision, in_fits, title)
    found += waiting
    followers = {touch.part_id for touch in waiting if touch.part_id is not None}
    found += _steps(connection, part_id, followers, decision)
    if sheets is not None:
        found += [
            Touched(Touch.SHEET, name, f"{name} waits for {title}", None, None)
            for _, name in sheets(connection, followers)
        ]
    found += _set_and_spares(connection, (part.id, part.matched_set_id), decision, title)
    if odd.strip():
        found += _odd(connection, part_id, in_fits, odd.strip(), title)
    parts = _parts(connection, {touch.part_id for touch in found if touch.part_id not in (None, part_id)})
    return Ripple(title, decision, tuple(found), parts)


def _mate(row: FitRow, part_id: int) -> tuple[int, str]:
    mate = row.inner if row.outer.part_id == part_id else row.outer
    return mate.part_id, mate.title


def _stale(row: FitRow, part_id: int, decision: Decision, was: Decision) -> Touched:
    mate_id, mate = _mate(row, part_id)
    already = "; it is stale already" if row.stale else ""
    words = f"{row.title}: decided {decision.value}, was {was.value}; look at it with {mate}{already}"
    return Touched(Touch.STALE, row.title, words, mate_id, row.id)


def _waiting(
    connection: Connection,
    part_id: int,
    machine_id: int,
    decision: Decision,
    was: Decision,
    in_fits: list[FitRow],
    title: str,
) -> list[Touched]:
    """Followers that must wait for the part to be made, or need not any more; and those behind them."""
    if (decision in MAKING) == (was in MAKING):
        return []
    waits = decision in MAKING
    how = Touch.WAITS if waits else Touch.NO_LONGER_WAITS
    found: dict[int, Touched] = {}
    for row in in_fits:
        master, follower = row.master_side, row.follower_side
        if master is None or follower is None or master.part_id != part_id or follower.part_id == part_id:
            continue
        if follower.decision is Decision.REUSE:
            continue
        then = (
            f"{'waits for' if waits else 'no longer waits for'} {master.title}{' as made' if waits else ''}"
        )
        made = follower.decision in MAKING and follower.wait is None
        after = "; it was made to the old one: measure the fit again" if made and waits else ""
        found[follower.part_id] = Touched(
            how, follower.part, f"{follower.title} {then}{after}", follower.part_id, row.id
        )
    behind = held_up_by([part_id], _followings(connection, machine_id)) - found.keys()
    for key, name in _parts(connection, _not_kept(connection, behind - {part_id})):
        found[key] = Touched(how, name, f"{name} comes after, through its masters", key)
    return list(found.values())


def _not_kept(connection: Connection, ids: Collection[int]) -> list[int]:
    """Those of some parts that are not to be reused as they are."""
    query = select(Parts.id).where(Parts.id.in_(list(ids)), Parts.decision != Decision.REUSE)
    return list(connection.execute(query).scalars())


def _followings(connection: Connection, machine_id: int) -> list[tuple[int, int]]:
    """(master part, follower part) of every fit with a master."""
    outer, inner = Features.clause().alias("outer_feature"), Features.clause().alias("inner_feature")
    rows = connection.execute(
        select(Fits.master, outer.c.part_id.label("outer_part"), inner.c.part_id.label("inner_part"))
        .join(outer, outer.c.id == Fits.outer_id)
        .join(inner, inner.c.id == Fits.inner_id)
        .where(Fits.machine_id == machine_id, Fits.master.is_not(None))
    )
    pairs = [
        (row.outer_part, row.inner_part) if row.master is Side.OUTER else (row.inner_part, row.outer_part)
        for row in rows
    ]
    return [pair for pair in pairs if pair[0] != pair[1]]


def _steps(
    connection: Connection, part_id: int, followers: Collection[int], decision: Decision
) -> list[Touched]:
    """Open making steps of the part that fall away or are wanted, and those of its followers."""
    rows = connection.execute(
        select(Tasks.id, Tasks.title, Tasks.kind, Tasks.part_id)
        .where(
            Tasks.part_id.in_([part_id, *followers]),
            Tasks.state.not_in((TaskState.DONE, TaskState.LEFT_OUT)),
            Tasks.kind.in_((TaskKind.MAKE, TaskKind.BUY, TaskKind.REWORK, TaskKind.SEND_OUT)),
        )
        .order_by(Tasks.position)
    ).all()
    found = []
    for row in rows:
        if row.part_id == part_id:
            words = "is wanted" if decision in MAKING else "falls away"
            found.append(Touched(Touch.STEP, row.title, f"step “{row.title}” {words}", part_id))
        elif decision in MAKING:
            found.append(Touched(Touch.STEP, row.title, f"step “{row.title}” waits", row.part_id))
    if decision in MAKING and not any(row.part_id == part_id for row in rows):
        found.append(Touched(Touch.STEP, "no step yet", f"no open step says to {decision.value} it", part_id))
    return found


def _set_and_spares(
    connection: Connection, ids: tuple[int, int | None], decision: Decision, title: str
) -> list[Touched]:
    found = []
    key, set_id = ids
    kin = connection.execute(
        select(Parts.id, Parts.code, Parts.name, MatchedSets.name.label("set_name"))
        .join(MatchedSets, MatchedSets.id == Parts.matched_set_id)
        .where(Parts.matched_set_id == set_id, Parts.id != key)
        .order_by(Parts.code)
    )
    for row in kin if set_id is not None else ():
        name = f"{row.code} {row.name}".strip()
        found.append(Touched(Touch.SET, name, f"{name} stays together with it ({row.set_name})", row.id))
    if decision in MAKING:
        for spare, name in _spares(connection, key):
            found.append(
                Touched(Touch.SPARE, name, f"{name} is a spare of {title}: does it still fit?", spare)
            )
    return found


def _spares(connection: Connection, part_id: int) -> list[tuple[int, str]]:
    rows = connection.execute(
        select(Parts.id, Parts.code, Parts.name).where(Parts.spare_of_id == part_id).order_by(Parts.code)
    )
    return [(row.id, f"{row.code} {row.name}".strip()) for row in rows]


def _odd(connection: Connection, part_id: int, in_fits: list[FitRow], odd: str, title: str) -> list[Touched]:
    found = []
    for row in in_fits:
        mate_id, mate = _mate(row, part_id)
        found.append(Touched(Touch.ODD, mate, f"{mate}: its mate {title} is {odd}", mate_id, row.id))
    for spare, name in _spares(connection, part_id):
        found.append(Touched(Touch.ODD, name, f"{name}: a spare must be {odd}", spare))
    found.append(Touched(Touch.BOOK, "machine's book", f"{title}: {odd}", part_id))
    return found


def _parts(connection: Connection, ids: Collection[int | None]) -> tuple[tuple[int, str], ...]:
    known = [key for key in ids if key is not None]
    rows = connection.execute(
        select(Parts.id, Parts.code, Parts.name).where(Parts.id.in_(known)).order_by(Parts.code, Parts.id)
    )
    return tuple((row.id, f"{row.code} {row.name}".strip()) for row in rows)
