"""What the order of work asks of a step: what comes first, what must still be off, what must be proved or cured.

Whichever act finishes a step, opens it again, moves it or links it asks here; each refusal spells the chain out
and names its ways out. A refusal can be overruled: what happened at the bench has happened.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Sequence

from sqlalchemy import select

from rebuild.model.records.steps import Link, Task
from rebuild.store.tx import Tx
from rebuild.trade.schedule.network import held_up_by, loop_closed_by
from rebuild.words.steps import LinkKind, TaskState
from rebuild.work.plan.rows_graph import work_graph
from rebuild.work.records.field import show_day
from rebuild.work.records.obstacle import Obstacle
from rebuild.work.records.ways_out import Refused, Way, WayKind
from rebuild.work.steps.rules_holds import obstacles_to, short

CLOSED = (TaskState.DONE, TaskState.LEFT_OUT)


def obstacles(tx: Tx, task: Task, at: dt.datetime) -> list[Obstacle]:
    """What of the order of work stands against finishing ``task`` at that moment: the work graph's answer."""
    with tx.session.no_autoflush:
        return obstacles_to(work_graph(tx.connection, task.machine_id, at), task.id)


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
        rows=[row for obstacle in obstacles for row in obstacle.rows],
    )


def _on_again(task: Task, refit: Task) -> Obstacle:
    since = f" since {show_day(refit.done_at)}" if refit.done_at else ""
    return Obstacle(
        f"“{task.title}” can only be done while it is still off, but it is on again{since}:",
        (task.title, refit.title),
        "Take it off again first.",
        (
            Way(WayKind.OPEN_AGAIN, f"It is off again: open “{short(refit.title)}”", refit.id),
            Way(WayKind.GO_TO, f"Go to “{short(refit.title)}”", refit.id),
        ),
    )


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
            Way(WayKind.OPEN_AGAIN, f"Open “{short(after[0].title)}” too", after[0].id),
            Way(WayKind.ALL_THE_SAME, "Open it all the same", task.id),
        ),
    )


def refuse_link(tx: Tx, before: Task, after: Task, kind: LinkKind) -> None:
    """Raise Refused for a link that could never be kept: something off that is on again already."""
    if kind is LinkKind.WHILE_OFF and after.state is TaskState.DONE and before.state not in CLOSED:
        refuse([_on_again(before, after)], Way(WayKind.GO_TO, f"Go to “{short(after.title)}”", after.id))


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
    ways = [Way(WayKind.GO_TO, f"Go to “{short(titles[first])}”", first)]
    link = tx.session.scalar(select(Link.id).where(Link.before_id == path[0], Link.after_id == path[1]))
    if link is not None:
        ways.append(Way(WayKind.TAKE_LINK_AWAY, "Take the first link of it away", link))
    raise Refused(
        "This order would break a constraint:",
        chain=tuple(titles[key] for key in path),
        way_out="Move them together, or take the link away first.",
        ways=ways,
    )
