"""The removal log read backwards: draft reassembly steps with their links; drafting again keeps what the user did."""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import pairwise

from sqlalchemy import select

from rebuild.model.records.refit import DraftedLink, RefitStep
from rebuild.model.records.steps import Link, Task, TaskCaution, TaskConstraint
from rebuild.model.records.teardown import Attempt
from rebuild.store.act import Act
from rebuild.store.store import Store, Tx
from rebuild.trade.refit.words import CameOff, is_final, refit_note, refit_title, wants_help
from rebuild.trade.results.cautions import suggest
from rebuild.trade.schedule.network import loop_closed_by
from rebuild.words.counted import counted
from rebuild.words.steps import ConstraintKind, TaskKind, TaskState
from rebuild.work.refit.acts_carry import CAME_AFTER, link_makings, links_of, links_of_last_attempt
from rebuild.work.refit.acts_subassemblies import link_subassemblies
from rebuild.work.teardown.acts_attempts import of_what
from rebuild.work.teardown.rows_removals import RemovalRow, removals

MOST_CAUTIONS = 3
_OPEN = (TaskState.OPEN, TaskState.UNDER_WAY)


@dataclass(slots=True)
class Drafted:
    """What drafting did: steps made, rewritten, taken away; links made; and links left out, each as a sentence."""

    made: int = 0
    rewritten: int = 0
    taken_away: int = 0
    links: int = 0
    left_out: list[str] = field(default_factory=list)

    def add(self, other: Drafted) -> None:
        """Count what another draft did with this one."""
        self.made += other.made
        self.rewritten += other.rewritten
        self.taken_away += other.taken_away
        self.links += other.links
        self.left_out += other.left_out

    def sentence(self) -> str:
        """The report for the message line."""
        parts = [f"{counted(self.made, 'step')} drafted", counted(self.links, "link")]
        if self.rewritten:
            parts.append(f"{self.rewritten} rewritten from the log")
        if self.taken_away:
            parts.append(f"{self.taken_away} taken away")
        if self.left_out:
            parts.append("left out: " + "; ".join(self.left_out))
        return ", ".join(parts) + "."


def draft(store: Store, attempt_id: int) -> Drafted:
    """Draft, or draft again, the refit of an attempt; the user's own edits, orders and links stay.

    A step the user wrote over, moved, ticked, linked or removed stays as he left it; a link he took away stays
    away. Links he made in the attempt before are carried over where the same parts came off.
    """
    with store.act(Act.DRAFT_REFIT, "") as tx:
        attempt = tx.get(Attempt, attempt_id, "attempt")
        done = draft_in(tx, attempt)
        tx.subject = f"of {of_what(tx, attempt)}, attempt {attempt.number}"
        return done


def draft_machine(store: Store, machine_id: int) -> Drafted:
    """``draft`` of the newest attempt on each subassembly of a machine, in one act."""
    with store.act(Act.DRAFT_REFIT, "of the whole machine") as tx:
        newest: dict[int | None, Attempt] = {}
        for attempt in tx.session.scalars(
            select(Attempt).where(Attempt.machine_id == machine_id).order_by(Attempt.number, Attempt.id)
        ):
            newest[attempt.subassembly_id] = attempt
        done = Drafted()
        for attempt in sorted(newest.values(), key=lambda attempt: attempt.id):
            done.add(draft_in(tx, attempt))
        return done


def draft_in(tx: Tx, attempt: Attempt) -> Drafted:
    """``draft`` inside an act that is under way."""
    done = Drafted()
    _drop_orphans(tx, attempt, done)
    rows = list(reversed(removals(tx.connection, attempt.id)))
    known = {
        step.removal_id: step
        for step in tx.session.scalars(select(RefitStep).where(RefitStep.attempt_id == attempt.id))
    }
    new: list[RefitStep] = []
    for row in rows:
        step = known.get(row.id)
        if step is None:
            known[row.id] = made = _new_step(tx, attempt, row)
            new.append(made)
            done.made += 1
        else:
            done.rewritten += _rewrite(tx, step, row)
    if new:
        _place(tx, attempt, [known[row.id] for row in rows], {step.id for step in new})
    standing = [known[row.id] for row in rows if known[row.id].task_id is not None]
    fresh = {step.task_id for step in new if step.task_id is not None}
    done.links += links_of_last_attempt(tx, attempt, fresh)
    done.links += link_makings(
        tx, [(step.task_id or 0, row.part_ids) for step, row in _paired(known, rows) if step.task_id in fresh]
    )
    _chain(tx, attempt.machine_id, standing, done)
    done.links += link_subassemblies(tx, attempt.machine_id)
    return done


def _paired(known: dict[int | None, RefitStep], rows: list[RemovalRow]) -> list[tuple[RefitStep, RemovalRow]]:
    return [(known[row.id], row) for row in rows]


def came_off(row: RemovalRow) -> CameOff:
    """A line of the log as the words of its refit step need it."""
    return CameOff(
        row.called,
        row.how.value,
        row.from_end,
        row.orientation,
        row.match_mark,
        row.location,
        [one.words for one in row.fasteners],
        [one.kind.value for one in row.fasteners],
        [pack.words for pack in row.shims],
        row.hard,
        row.found,
        row.tools,
        row.photo,
        row.place,
        row.note,
        row.broke,
    )


def _new_step(tx: Tx, attempt: Attempt, row: RemovalRow) -> RefitStep:
    off = came_off(row)
    heading, note = refit_title(off), refit_note(off)
    task = Task(
        machine_id=attempt.machine_id,
        subassembly_id=attempt.subassembly_id,
        kind=TaskKind.REFIT,
        part_id=row.part_ids[0] if row.part_ids else None,
        title=heading,
        note=note,
        tools=row.tools,
        irreversible=is_final(off),
        position=0,
    )
    tx.session.add(task)
    tx.session.flush()
    helped = wants_help(off)
    if helped:
        tx.session.add(TaskConstraint(task_id=task.id, kind=ConstraintKind.TWO_PEOPLE, detail=helped))
    for topic in suggest(f"{heading}. {row.hard}. {row.tools}")[:MOST_CAUTIONS]:
        tx.session.add(TaskCaution(task_id=task.id, topic=topic))
    step = RefitStep(
        attempt_id=attempt.id, removal_id=row.id, task_id=task.id, drafted_title=heading, drafted_note=note
    )
    tx.session.add(step)
    tx.session.flush()
    return step


def _rewrite(tx: Tx, step: RefitStep, row: RemovalRow) -> int:
    """Bring a step still as drafted up to what the log says now; 1 when something was changed."""
    task = tx.session.get(Task, step.task_id) if step.task_id is not None else None
    if task is None or task.state not in _OPEN:
        return 0
    off = came_off(row)
    heading, note = refit_title(off), refit_note(off)
    changed = 0
    if task.title == step.drafted_title and heading != step.drafted_title:
        task.title, changed = heading, 1
    if task.note == step.drafted_note and note != step.drafted_note:
        task.note, changed = note, 1
    step.drafted_title, step.drafted_note = heading, note
    return changed


def _drop_orphans(tx: Tx, attempt: Attempt, done: Drafted) -> None:
    """A removal struck from the log takes its step with it, unless the user has made it his own."""
    orphans = tx.session.scalars(
        select(RefitStep).where(RefitStep.attempt_id == attempt.id, RefitStep.removal_id.is_(None))
    ).all()
    for step in orphans:
        task = tx.session.get(Task, step.task_id) if step.task_id is not None else None
        as_drafted = task is not None and (task.title, task.note) == (step.drafted_title, step.drafted_note)
        if task is not None and as_drafted and task.state in _OPEN:
            tx.session.delete(task)
            done.taken_away += 1
        tx.session.delete(step)
    tx.session.flush()


def _place(tx: Tx, attempt: Attempt, steps: list[RefitStep], new: set[int]) -> None:
    """Put new steps where the log backwards has them, beside those the user may have moved."""
    listed = list(
        tx.session.scalars(
            select(Task)
            .where(
                Task.machine_id == attempt.machine_id,
                Task.subassembly_id.is_(attempt.subassembly_id),
                Task.id.not_in([step.task_id for step in steps if step.id in new]),
            )
            .order_by(Task.position, Task.id)
        )
    )
    tasks = {
        task.id: task
        for task in tx.session.scalars(
            select(Task).where(Task.id.in_([step.task_id for step in steps if step.task_id is not None]))
        )
    }
    for place in range(len(steps) - 1, -1, -1):
        step = steps[place]
        if step.id not in new or step.task_id is None:
            continue
        following = [tasks[one.task_id] for one in steps[place + 1 :] if one.task_id in tasks]
        at = next((listed.index(task) for task in following if task in listed), len(listed))
        listed.insert(at, tasks[step.task_id])
    for position, task in enumerate(listed):
        if task.position != position:
            task.position = position


def _chain(tx: Tx, machine_id: int, standing: list[RefitStep], done: Drafted) -> None:
    """Link neighbours of the log backwards; a link of the user's that says otherwise stands."""
    drafted = {
        (row.before_id, row.after_id): row
        for row in tx.session.scalars(
            select(DraftedLink).where(DraftedLink.before_id.in_([step.id for step in standing]))
        )
    }
    pairs = list(pairwise(standing))
    _drop_stale(tx, drafted, {(first.id, then.id) for first, then in pairs})
    links = set(links_of(tx, machine_id))
    for first, then in pairs:
        pair = (first.task_id or 0, then.task_id or 0)
        if (first.id, then.id) in drafted or pair in links:
            continue
        if loop_closed_by(*pair, links) is not None:
            done.left_out.append(
                f"“{first.drafted_title}” before “{then.drafted_title}” goes against your own links"
            )
            continue
        link = Link(before_id=pair[0], after_id=pair[1], reason=CAME_AFTER)
        tx.session.add(link)
        tx.session.flush()
        tx.session.add(DraftedLink(before_id=first.id, after_id=then.id, link_id=link.id))
        links.add(pair)
        done.links += 1
    tx.session.flush()


def _drop_stale(tx: Tx, drafted: dict[tuple[int, int], DraftedLink], wanted: set[tuple[int, int]]) -> None:
    """Drafted links the log no longer asks for go, unless the user gave them a reason of his own."""
    for pair, row in list(drafted.items()):
        if pair in wanted or row.link_id is None:
            continue
        link = tx.session.get(Link, row.link_id)
        if link is not None and link.reason == CAME_AFTER:
            tx.session.delete(link)
            tx.session.delete(row)
            del drafted[pair]
    tx.session.flush()
