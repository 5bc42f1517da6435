"""Attempts: a second teardown and what it taught."""

from __future__ import annotations

import datetime as dt

import pytest

from rebuild.store.store import Store
from rebuild.words.steps import LinkAnswer, TaskKind, TaskState
from rebuild.work.records.ways_out import Refused
from rebuild.work.refit import acts_missed_links as proposals
from rebuild.work.steps import acts as tasks
from rebuild.work.steps.rows import links
from rebuild.work.teardown import acts_attempts as attempts, rows_removals as rows
from rebuild.work.teardown.rows_second_teardown import second_teardown
from tests.work.teardown.bench_apron import Apron, drafted, on_the_bench, take_all_off


@pytest.fixture
def apron(store: Store) -> Apron:
    return on_the_bench(store)


def put_back(apron: Apron, order: tuple[str, ...]) -> None:
    at = dt.datetime(2026, 5, 1, 19, 0)
    for minutes, name in enumerate(order):
        done = tasks.Done(at=at + dt.timedelta(minutes=minutes))
        try:
            tasks.tick(apron.store, apron.step(name).id, done)
        except Refused:
            tasks.tick(apron.store, apron.step(name).id, done, reason="tried it in this order")


def test_a_second_teardown_shows_the_missed_constraint_and_keeps_attempt_one(apron: Apron) -> None:
    take_all_off(apron)
    drafted(apron)
    put_back(apron, ("casting", "half nuts", "worm", "cover"))  # the bracket was never put back
    new = attempts.begin_attempt(
        apron.store,
        apron.machine,
        apron.group,
        stopped_by="worm would not pass the half nuts",
        changed="order",
    )
    apron.off("cover", typed={"orientation": "logo up"})
    apron.off("half nuts")
    apron.off("worm")
    apron.off("apron casting")
    with apron.store.read() as connection:
        found = second_teardown(connection, new)
        first = next(row for row in rows.attempts(connection, apron.machine) if row.number == 1)
    assert found is not None
    assert (first.stopped_by, first.changed, first.removals, first.refitted) == (
        "worm would not pass the half nuts", "order", 5, 4,
    )  # fmt: skip
    (proposal,) = found.proposals
    assert (proposal.before, proposal.after) == ("AP-03 worm", "AP-02 half nuts")
    assert (found.missing, found.new) == ((), ())
    assert [(one.part, one.what, one.now) for one in found.differences] == [
        ("AP-05 cover", "which way it sat", "logo up")
    ]

    link = proposals.accept(apron.store, proposal.before_id, proposal.after_id, proposal.reason)
    attempt_two = [row for row in apron.steps() if row.state is TaskState.OPEN and row.kind is TaskKind.REFIT]
    nuts = next(row for row in attempt_two if "half nuts" in row.title)
    worm = next(row for row in attempt_two if "worm" in row.title)
    with apron.store.read() as connection:
        assert (link, worm.id, nuts.id) in links(connection, apron.machine)
        again = second_teardown(connection, new)
    assert again is not None
    assert again.proposals[0].answer is LinkAnswer.ACCEPTED


def test_links_the_user_made_are_carried_into_the_next_attempt(apron: Apron) -> None:
    take_all_off(apron, ("cover", "worm", "half nuts"))
    drafted(apron)
    tasks.add_link(apron.store, apron.step("half nuts").id, apron.step("cover").id, reason="my own")
    put_back(apron, ("half nuts", "worm", "cover"))
    attempts.begin_attempt(apron.store, apron.machine, apron.group, stopped_by="worm bound")
    take_all_off(apron, ("cover", "worm", "half nuts"))
    drafted(apron)
    fresh = {row.title: row.id for row in apron.steps() if row.state is TaskState.OPEN}
    with apron.store.read() as connection:
        pairs = {(before, after) for _, before, after in links(connection, apron.machine)}
    assert (fresh["Refit AP-02 half nuts"], fresh["Refit AP-05 cover"]) in pairs


def test_a_declined_proposal_is_remembered(apron: Apron) -> None:
    take_all_off(apron, ("cover", "worm", "half nuts"))
    drafted(apron)
    put_back(apron, ("half nuts", "worm", "cover"))
    new = attempts.begin_attempt(apron.store, apron.machine, apron.group, stopped_by="worm bound")
    take_all_off(apron, ("worm", "cover", "half nuts"))
    with apron.store.read() as connection:
        found = second_teardown(connection, new)
    assert found is not None
    (proposal,) = found.proposals
    proposals.decline(apron.store, proposal.before_id, proposal.after_id)
    with apron.store.read() as connection:
        again = second_teardown(connection, new)
    assert again is not None
    assert again.proposals[0].answer is LinkAnswer.DECLINED
