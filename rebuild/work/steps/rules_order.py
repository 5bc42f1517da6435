"""What the order of work asks of a step: what comes first, what must still be off, what must be proved or cured.

Whichever act finishes a step, opens it again, moves it or links it asks here; each refusal spells the chain out
and names its ways out. A refusal can be overruled: what happened at the bench has happened.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Sequence
from dataclasses import dataclass

from sqlalchemy import select

from rebuild.model.records.steps import Link, Task
from rebuild.store.tx import Tx
from rebuild.trade.schedule.network import held_up_by, loop_closed_by
from rebuild.words.steps import LinkKind, TaskKind, TaskState
from rebuild.work.lubrication import rules_oil_proof as flow
from rebuild.work.means import rules as means
from rebuild.work.records.obstacle import Obstacle
from rebuild.work.records.ways_out import Refused, Way, WayKind
from rebuild.work.steps import rules_closing as closing

CLOSED = (TaskState.DONE, TaskState.LEFT_OUT)
LONGEST_CHAIN = 12


@dataclass(frozen=True, slots=True)
class Before:
    """An open step that comes before another, and the link that says so."""

    link_id: int
    kind: LinkKind
    reason: str
    task: Task


def open_before(tx: Tx, task_id: int) -> list[Before]:
    """The steps that should be done before this one and are not, in their own order."""
    rows = tx.session.execute(
        select(Link.id, Link.kind, Link.reason, Task)
        .join(Task, Link.before_id == Task.id)
        .where(Link.after_id == task_id, Task.state.not_in(CLOSED))
        .order_by(Task.position, Task.id)
    )
    return [Before(row[0], row[1], row[2], row[3]) for row in rows]


def refuse_finishing(tx: Tx, task: Task, at: dt.datetime, *, confirmed: bool = False) -> None:
    """Raise Refused when finishing ``task`` now would break the order, or cannot be undone.

    ``confirmed`` leaves out the question about what cannot be undone (an inline edit asks nothing).
    """
    with tx.session.no_autoflush:
        obstacles = [
            *_open_before(tx, task),
            *_back_on_already(tx, task),
            *closing.resting(tx, task, at),
            *closing.unproved(tx, task),
            *flow.unproved_flow(tx, task),
            *closing.closed_off(tx, task),
            *closing.not_ready(tx, task),
            *means.not_here(tx, task),
        ]
    if task.irreversible and not confirmed:
        obstacles.append(
            Obstacle(
                f"“{task.title}” cannot be undone on the machine.",
                way_out="Look once more, take a photo, then tick it again to confirm.",
            )
        )
    refuse(obstacles, Way(WayKind.ALL_THE_SAME, "Tick it all the same", task.id))


def refuse(obstacles: Sequence[Obstacle], insist: Way) -> None:
    """Raise one Refused for all obstacles found: the first in full, the others after it, with every way out."""
    if not obstacles:
        return
    first, *others = obstacles
    ways = [way for obstacle in obstacles for way in obstacle.ways]
    unique = {way.kind: way for way in reversed(ways)}
    also = "".join(f" Also: {obstacle.sentence()}" for obstacle in others)
    raise Refused(
        first.what,
        chain=first.chain,
        way_out=f"{first.way_out}{also}".strip(),
        ways=(*reversed(unique.values()), insist),
    )


def _open_before(tx: Tx, task: Task) -> list[Obstacle]:
    waiting = open_before(tx, task.id)
    if not waiting:
        return []
    first = waiting[0]
    more = f" ({len(waiting) - 1} more steps before it are open too)" if len(waiting) > 1 else ""
    off = next((before for before in waiting if before.kind is LinkKind.WHILE_OFF), None)
    if off is not None:
        first = off
        what = f"“{off.task.title}” can only be done while this is still off, and it is open{more}:"
    else:
        what = f"A step before this one is still open{more}:"
    chain = (*_back_to_the_start(tx, first.task), task.title)
    ways = (
        Way(WayKind.GO_TO, f"Go to “{_short(first.task.title)}”", first.task.id),
        Way(WayKind.LEAVE_OUT, f"Leave “{_short(first.task.title)}” out", first.task.id),
        Way(WayKind.TAKE_LINK_AWAY, "Take this link away", first.link_id),
    )
    return [Obstacle(what, chain, "Do it first, or tick this one all the same.", ways)]


def _back_to_the_start(tx: Tx, task: Task) -> tuple[str, ...]:
    """Open steps from the first that can be done now up to ``task``."""
    chain, seen, here = [task.title], {task.id}, task
    while len(chain) < LONGEST_CHAIN:
        before = [one.task for one in open_before(tx, here.id) if one.task.id not in seen]
        if not before:
            break
        here = before[0]
        seen.add(here.id)
        chain.append(here.title)
    return tuple(reversed(chain))


def _back_on_already(tx: Tx, task: Task) -> list[Obstacle]:
    """A step done only while something is off: refused when that is on again, or has not come off yet."""
    rows = tx.session.scalars(
        select(Task)
        .join(Link, Link.after_id == Task.id)
        .where(Link.before_id == task.id, Link.kind == LinkKind.WHILE_OFF)
        .order_by(Task.position, Task.id)
    )
    found: list[Obstacle] = []
    for refit in rows:
        if refit.state is TaskState.DONE:
            found.append(_on_again(task, refit))
        elif (still := _still_on(tx, refit)) is not None:
            go = Way(WayKind.GO_TO, f"Go to “{_short(still.title)}”", still.id)
            what = f"“{task.title}” can only be done while it is off, and it has not come off yet:"
            found.append(Obstacle(what, (still.title, task.title, refit.title), "Take it off first.", (go,)))
    return found


def _on_again(task: Task, refit: Task) -> Obstacle:
    since = f" since {refit.done_at:%Y-%m-%d}" if refit.done_at else ""
    return Obstacle(
        f"“{task.title}” can only be done while it is still off, but it is on again{since}:",
        (task.title, refit.title),
        "Take it off again first.",
        (
            Way(WayKind.OPEN_AGAIN, f"It is off again: open “{_short(refit.title)}”", refit.id),
            Way(WayKind.GO_TO, f"Go to “{_short(refit.title)}”", refit.id),
        ),
    )


def _still_on(tx: Tx, refit: Task) -> Task | None:
    if refit.part_id is None:
        return None
    return tx.session.scalars(
        select(Task)
        .where(
            Task.machine_id == refit.machine_id,
            Task.part_id == refit.part_id,
            Task.kind == TaskKind.REMOVE,
            Task.state.not_in(CLOSED),
        )
        .order_by(Task.position, Task.id)
        .limit(1)
    ).first()


def refuse_reopening(tx: Tx, task: Task) -> None:
    """Raise Refused when a step that stands on this one is done."""
    with tx.session.no_autoflush:
        after = tx.session.scalars(
            select(Task)
            .join(Link, Link.after_id == Task.id)
            .where(Link.before_id == task.id, Task.state == TaskState.DONE)
            .order_by(Task.position, Task.id)
        ).all()
    if not after:
        return
    more = f" ({len(after) - 1} more)" if len(after) > 1 else ""
    raise Refused(
        f"A step that comes after this one is done{more}:",
        chain=(task.title, after[0].title),
        way_out="Open that one first, or open this one all the same.",
        ways=(
            Way(WayKind.OPEN_AGAIN, f"Open “{_short(after[0].title)}” too", after[0].id),
            Way(WayKind.ALL_THE_SAME, "Open it all the same", task.id),
        ),
    )


def refuse_link(tx: Tx, before: Task, after: Task, kind: LinkKind) -> None:
    """Raise Refused for a link that could never be kept: something off that is on again already."""
    if kind is LinkKind.WHILE_OFF and after.state is TaskState.DONE and before.state not in CLOSED:
        refuse([_on_again(before, after)], Way(WayKind.GO_TO, f"Go to “{_short(after.title)}”", after.id))


def refuse_order(tx: Tx, old: Sequence[Task], new: Sequence[Task], moved: Collection[int]) -> None:
    """Raise Refused when a new order of a list puts a step above one it waits for and it was not so before."""
    links = [
        (row.before_id, row.after_id)
        for row in tx.session.execute(
            select(Link.before_id, Link.after_id)
            .join(Task, Task.id == Link.after_id)
            .where(Task.machine_id == new[0].machine_id)
        )
    ]
    backwards = [(after, before) for before, after in links]
    was = {task.id: place for place, task in enumerate(old)}
    now = {task.id: place for place, task in enumerate(new)}
    closed = {task.id for task in new if task.state in CLOSED}
    for key in moved:
        after, before = held_up_by([key], links), held_up_by([key], backwards)
        pairs = [(key, other) for other in after & now.keys()] + [
            (other, key) for other in before & now.keys()
        ]
        for first, then in pairs:
            if now[first] > now[then] and was[first] < was[then] and first not in closed:
                _refuse_pair(tx, first, then, links)


def _refuse_pair(tx: Tx, first: int, then: int, links: list[tuple[int, int]]) -> None:
    path = (loop_closed_by(then, first, links) or (first, then, first))[:-1]
    titles = {task.id: task.title for task in tx.session.scalars(select(Task).where(Task.id.in_(path)))}
    ways = [Way(WayKind.GO_TO, f"Go to “{_short(titles[first])}”", first)]
    link = tx.session.scalar(select(Link.id).where(Link.before_id == path[0], Link.after_id == path[1]))
    if link is not None:
        ways.append(Way(WayKind.TAKE_LINK_AWAY, "Take the first link of it away", link))
    raise Refused(
        "This order would break a constraint:",
        chain=tuple(titles[key] for key in path),
        way_out="Move them together, or take the link away first.",
        ways=ways,
    )


def _short(title: str) -> str:
    return title if len(title) <= 34 else f"{title[:33]}…"
