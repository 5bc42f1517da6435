"""Within an act the work is that read anew, however it was come by: each input, in turn, and runs of acts at random."""

from __future__ import annotations

import random
from collections.abc import Callable
from contextlib import suppress

import pytest
from sqlalchemy import Connection, delete, insert, update

from rebuild.model.tables.log import Questions
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.steps import Links, Tasks
from rebuild.store.act import Act
from rebuild.store.store import Store
from rebuild.store.tx import Tx
from rebuild.trade.limits.judgement import Rule
from rebuild.words.steps import TaskState
from rebuild.work.plan import rows_facts
from rebuild.work.plan.rows_facts import facts
from rebuild.work.plan.rows_graph import Work, lay, work_graph
from rebuild.work.steps import acts as tasks
from tests.conftest import Shop
from tests.depth import examples
from tests.work.plan.test_graph_kept import CHANGES, NOW, counted
from tests.work.plan.test_plan_kept import TITLES, busy as busy, free, others


def same_as_anew(connection: Connection, machine: int, what: object = "") -> Work:
    """The work as the act is told it; it must be that read anew over the same connection."""
    told = work_graph(connection, machine, NOW)
    anew = lay(facts(connection, machine, Rule.CONFORMANCE_95), NOW)
    assert told.facts == anew.facts, what
    assert (told.graph.nodes, told.graph.edges, told.graph.ready) == (
        anew.graph.nodes, anew.graph.edges, anew.graph.ready,
    ), what  # fmt: skip
    return told


class _GivenUp(Exception):
    pass


def _retitled(tx: Tx, step: int, title: str) -> None:
    tx.session.execute(update(Tasks.table).where(Tasks.table.c.id == step).values(title=title))


@pytest.mark.parametrize("tables", CHANGES)
def test_an_act_hears_what_every_act_before_it_stored(shop: Shop, tables: str) -> None:
    store = shop.store
    with store.act(Act.EDIT, "first") as tx:
        _retitled(tx, shop.strip, "Draw it")
        before = same_as_anew(tx.connection, shop.machine)
    CHANGES[tables](shop)
    with store.act(Act.EDIT, "second") as tx:
        _retitled(tx, shop.strip, "Pull it")
        assert same_as_anew(tx.connection, shop.machine).facts != before.facts
    store.undo()
    store.undo()
    with store.act(Act.EDIT, "third") as tx:
        same_as_anew(tx.connection, shop.machine)
        _retitled(tx, shop.strip, "Draw it out")
        same_as_anew(tx.connection, shop.machine)


def test_every_column_written_within_an_act_is_heard_in_it_and_forgotten_with_it(busy: Shop) -> None:
    with busy.store.read() as connection:
        before = work_graph(connection, busy.machine, NOW)
    with suppress(_GivenUp), busy.store.act(Act.EDIT, "all columns") as tx:
        for table, ids in ((Parts, (busy.cap, busy.spindle)), (Tasks, (busy.strip, busy.refit))):
            for column in free(table):
                for at, value in enumerate(others(column)):
                    tx.session.execute(
                        update(table.table)
                        .where(table.table.c.id == ids[at % 2])
                        .values({column.name: value})
                    )
                    same_as_anew(tx.connection, busy.machine, (column.name, value))
        raise _GivenUp
    with busy.store.act(Act.EDIT, "after it") as tx:
        assert same_as_anew(tx.connection, busy.machine).facts == before.facts
        tx.session.add(tasks.Task(machine_id=busy.machine, title="Sweep"))
        tx.session.flush()
        same_as_anew(tx.connection, busy.machine)


def test_numbers_of_the_journal_given_again_after_an_act_given_up_are_other_rows(shop: Shop) -> None:
    """Both acts write the same row under the same number of the journal: what the first read must not stand."""
    for title in TITLES:
        with suppress(_GivenUp), shop.store.act(Act.EDIT, "given up") as tx:
            _retitled(tx, shop.strip, f"not {title}")
            same_as_anew(tx.connection, shop.machine)
            raise _GivenUp
        with shop.store.act(Act.EDIT, "stored") as tx:
            _retitled(tx, shop.strip, title)
            node = same_as_anew(tx.connection, shop.machine).graph.node(shop.strip)
        assert node is not None
        assert node.title == title


def test_a_part_of_an_act_taken_back_is_not_kept(shop: Shop) -> None:
    with shop.store.act(Act.EDIT, "in parts") as tx:
        _retitled(tx, shop.strip, "Draw it")
        same_as_anew(tx.connection, shop.machine)
        part = tx.session.begin_nested()
        _retitled(tx, shop.strip, "Burn it")
        same_as_anew(tx.connection, shop.machine)
        part.rollback()
        same_as_anew(tx.connection, shop.machine)
        _retitled(tx, shop.refit, "Put it back")
        same_as_anew(tx.connection, shop.machine)
    with shop.store.act(Act.EDIT, "after it") as tx:
        same_as_anew(tx.connection, shop.machine)


def test_another_window_s_act_is_heard_in_an_act(shop: Shop) -> None:
    tasks.tick(shop.store, shop.strip)
    other = Store.open(shop.path)
    tasks.add_task(other, shop.machine, None, "Sweep")
    other.close()
    with shop.store.act(Act.EDIT, "here") as tx:
        told = same_as_anew(tx.connection, shop.machine)
        assert any(node.title == "Sweep" for node in told.graph.nodes)


def test_a_tick_asks_only_what_changed_since_the_one_before(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Neither the first tick after a page was shown, nor one after another, reads the machine's facts whole."""
    with shop.store.read() as connection:
        work_graph(connection, shop.machine, NOW)
    for section in ("tree", "oil", "clocks", "orders", "puts_on", "fits_in_work"):
        monkeypatch.setattr(rows_facts, section, _refuse)
    tasks.tick(shop.store, shop.strip)
    tasks.tick(shop.store, shop.measure)
    with shop.store.act(Act.EDIT, "count") as tx:
        work_graph(tx.connection, shop.machine, NOW)
        with counted(tx.connection) as said:
            work_graph(tx.connection, shop.machine, NOW)
        assert len(said) == 3, "the rule, whether it wrote, how far the journal has come, and no more"


def _refuse(*_: object) -> tuple[object, ...]:
    raise AssertionError("read anew although nothing of it changed")


def _walk(shop: Shop, chance: random.Random) -> None:
    """Acts at random, stored, given up and undone, each asking now and then, and readers between them."""
    for turn in range(8):
        with suppress(_GivenUp), shop.store.act(Act.EDIT, f"turn {turn}") as tx:
            for _ in range(chance.randint(0, 4)):
                chance.choice(WRITES)(tx, shop, chance)
                if chance.random() < 0.6:
                    same_as_anew(tx.connection, shop.machine, turn)
            if chance.random() < 0.3:
                raise _GivenUp
        if chance.random() < 0.3:
            shop.store.undo()
        if chance.random() < 0.4:
            with shop.store.read() as connection:
                same_as_anew(connection, shop.machine, turn)


def _step(shop: Shop, chance: random.Random) -> int:
    return chance.choice((shop.strip, shop.measure, shop.remake, shop.refit))


WRITES: tuple[Callable[[Tx, Shop, random.Random], object], ...] = (
    lambda tx, shop, chance: _retitled(tx, _step(shop, chance), f"step {chance.randrange(99)}"),
    lambda tx, shop, chance: tx.session.execute(
        update(Tasks.table)
        .where(Tasks.table.c.id == _step(shop, chance))
        .values(state=chance.choice((TaskState.DONE, TaskState.OPEN)), position=chance.randrange(9))
    ),
    lambda tx, shop, chance: tx.session.execute(
        insert(Links.table).values(before_id=shop.strip, after_id=_link_to(tx, shop))
    ),
    lambda tx, shop, chance: tx.session.execute(delete(Links.table).where(Links.table.c.after_id == shop.refit)),
    lambda tx, shop, chance: tx.session.execute(
        update(Parts.table).where(Parts.table.c.id == shop.cap).values(code=f"HS-{chance.randrange(99)}")
    ),
    lambda tx, shop, chance: tx.session.execute(
        update(Questions.table)
        .where(Questions.table.c.id == shop.question)
        .values(text=f"Which, {chance.randrange(99)}?")
    ),
)  # fmt: skip


def _link_to(tx: Tx, shop: Shop) -> int:
    step = tasks.Task(machine_id=shop.machine, title="One more")
    tx.session.add(step)
    tx.session.flush()
    return step.id


def test_runs_of_acts_at_random_are_told_what_stands(shop: Shop) -> None:
    for seed in range(examples(3)):
        _walk(shop, random.Random(seed))
