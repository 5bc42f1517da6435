"""Accept or decline a link that a second teardown proposes."""

from __future__ import annotations

from sqlalchemy import select

from rebuild.errors import NotThere
from rebuild.model.records.refit import DraftedLink, LinkProposal, RefitStep
from rebuild.model.records.steps import Link, Task
from rebuild.model.records.teardown import Attempt, Removal
from rebuild.store.act import Act
from rebuild.store.store import Store, Tx
from rebuild.trade.schedule.network import loop_closed_by
from rebuild.words.steps import LinkAnswer
from rebuild.work.records.wall_clock import now
from rebuild.work.records.ways_out import Refused
from rebuild.work.refit.acts import draft_in
from rebuild.work.refit.acts_carry import links_of


def accept(store: Store, before_removal_id: int, after_removal_id: int, reason: str = "") -> int:
    """Write a missed constraint down as a link between the two refit steps, drafting them if need be.

    Returns the link's id. A link that was only drafted becomes the user's own, with this reason.

    Raises:
        Refused: it would close a loop with links that stand.
        NotThere: one of the steps was taken out of the draft.
    """
    with store.act(Act.ANSWER_LINK, "") as tx:
        removal = tx.get(Removal, before_removal_id, "removal")
        attempt = tx.get(Attempt, removal.attempt_id, "attempt")
        draft_in(tx, attempt)
        first, then = _step(tx, before_removal_id), _step(tx, after_removal_id)
        link = _firm_link(tx, first, then, reason.strip() or "found at a second teardown")
        _note(tx, before_removal_id, after_removal_id, LinkAnswer.ACCEPTED)
        tx.subject = f"yes: “{first.title}” before “{then.title}”"
        return link.id


def decline(store: Store, before_removal_id: int, after_removal_id: int) -> None:
    """Say that a proposed link is none; it is not proposed again."""
    with store.act(Act.ANSWER_LINK, "no") as tx:
        tx.get(Removal, before_removal_id, "removal")
        tx.get(Removal, after_removal_id, "removal")
        _note(tx, before_removal_id, after_removal_id, LinkAnswer.DECLINED)


def _step(tx: Tx, removal_id: int) -> Task:
    task = tx.session.scalars(
        select(Task).join(RefitStep, RefitStep.task_id == Task.id).where(RefitStep.removal_id == removal_id)
    ).first()
    if task is None:
        raise NotThere(
            "The step of this removal was taken out of the draft.", way_out="Add it again, then link it."
        )
    return task


def _firm_link(tx: Tx, first: Task, then: Task, reason: str) -> Link:
    link = tx.session.scalars(
        select(Link).where(Link.before_id == first.id, Link.after_id == then.id)
    ).first()
    if link is None:
        loop = loop_closed_by(first.id, then.id, links_of(tx, first.machine_id))
        if loop is not None:
            titles = {
                task.id: task.title for task in tx.session.scalars(select(Task).where(Task.id.in_(loop)))
            }
            raise Refused(
                "The steps would wait for each other in a loop:",
                chain=tuple(titles[key] for key in loop),
                way_out="Take one of these links away first.",
            )
        link = Link(before_id=first.id, after_id=then.id)
        tx.session.add(link)
        tx.session.flush()
    link.reason = reason
    for row in tx.session.scalars(select(DraftedLink).where(DraftedLink.link_id == link.id)):
        row.link_id = None
    tx.session.flush()
    return link


def _note(tx: Tx, before_id: int, after_id: int, answer: LinkAnswer) -> None:
    tx.session.add(LinkProposal(before_id=before_id, after_id=after_id, answer=answer, answered_at=now()))
