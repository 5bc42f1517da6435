"""A session ends with three short answers, and what is said on coming back."""

from __future__ import annotations

import datetime as dt

import pytest

from rebuild.errors import BadEntry
from rebuild.words.places import PlaceKind
from rebuild.words.waiting import ClockKind
from rebuild.work.editing import acts as edit
from rebuild.work.gates.acts import close
from rebuild.work.joints import acts as joints
from rebuild.work.log import acts as notes
from rebuild.work.log.rows import log
from rebuild.work.machines import acts as identify
from rebuild.work.plan.rows_tonight import Tonight
from rebuild.work.readings import acts as measure
from rebuild.work.run_in import acts as run
from rebuild.work.run_in.rows import run_steps
from rebuild.work.steps import acts as tasks
from rebuild.work.waiting import acts as waiting, acts_clocks as clocks
from rebuild.work.waiting.rows import Stand
from rebuild.work.where_was_i import acts as reentry
from rebuild.work.where_was_i.rows import where_was_i
from tests.conftest import Shop

NOW = dt.datetime(2026, 6, 15, 20, 0)


def ago(**time: float) -> dt.datetime:
    return NOW - dt.timedelta(**time)


def test_a_session_ends_with_three_short_answers(shop: Shop) -> None:
    reentry.end_session(
        shop.store, shop.machine, did="spindle in", left="caps finger tight", next_step="peel one leaf rear",
        split="HS 1, HS-02 30 min", at=NOW,
    )  # fmt: skip
    with shop.store.read() as connection:
        row = next(row for row in log(connection, shop.machine) if row.did == "spindle in")
    assert (row.did, row.left_on_bench, row.next_step, row.hours) == (
        "spindle in", "caps finger tight", "peel one leaf rear", 1.5,
    )  # fmt: skip


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ({"did": ""}, "Did: is empty"),
        ({"did": "x", "hours": "1", "split": "HS 2"}, "comes to 2 h, more than the 1 h"),
        ({"did": "x", "split": "ZZ 1"}, "“ZZ” is no code"),
        ({"did": "x", "split": "HS"}, "“HS” is not a code with its hours"),
    ],
)
def test_what_cannot_be_stored_of_a_session_is_said(shop: Shop, typed: dict[str, str], sentence: str) -> None:
    with pytest.raises(BadEntry, match=sentence):
        reentry.end_session(shop.store, shop.machine, **typed)


def test_coming_back_after_half_a_year(shop: Shop) -> None:
    store, machine = shop.store, shop.machine
    bench = identify.add_place(store, "left bench", PlaceKind.BENCH)
    bath = identify.add_place(store, "rust bath", PlaceKind.BATH)
    identify.put(store, [shop.spindle], bench, at=ago(days=190))
    identify.put(store, [shop.cap], bath, at=ago(days=185))
    notes.log_session(store, machine, {
        "at": "2025-12-10 21:00", "did": "lift measured", "left_on_bench": "caps finger tight",
        "do_not_forget": "expander screws are in the red lid",
    })  # fmt: skip
    joints.add_joint(
        store, machine, shop.headstock, "rear cap screws", {"tight": "finger", "wanted": "torqued"}
    )
    waiting.add_waiting(
        store, machine, "half nuts", typed={"ordered_at": "2025-11-01", "promised_at": "2026-02-20"}
    )
    lift = {"place": "left bay", "tools": "hoist, two straps", "title": "Lift the spindle out"}
    edit.edit(store, "task", [shop.strip], lift)
    edit.remove(store, "log_entry", [1])
    with store.read() as connection:
        found = where_was_i(connection, machine, NOW)
    assert found.last_seen == "10 Dec 2025 21:00, 186 d ago"
    assert (found.left_on_bench, [row.part for row in found.bench]) == (
        "caps finger tight",
        ["HS-01 spindle"],
    )
    assert found.bench[0].next_step == "Measure the journals"
    assert [row.name for row in found.not_final] == ["rear cap screws"]
    assert [row.part for row in found.baths] == ["HS-02 bearing cap"]
    assert [row.stand for row in found.orders] == [Stand.LATE]
    assert [text for _, text in found.questions] == ["Which oil did the maker print?"]
    action, joint = found.next_actions  # everything else waits
    assert (joint.title, joint.ref.table) == (
        "Make final rear cap screws: finger tight, to be torqued",
        "joint",
    )
    assert (action.title, action.place, action.tools) == (
        "Lift the spindle out",
        "left bay",
        "hoist, two straps",
    )
    assert found.cautions[0] == "Do not forget: expander screws are in the red lid"
    assert found.cautions[1] == "Do not lift, turn or power it: not tight is rear cap screws (finger tight)."
    assert any("Defers to" in words for words in action.cautions)


def test_what_cures_or_waits_for_an_answer_is_no_next_action(shop: Shop) -> None:
    tasks.tick(shop.store, shop.strip)
    clocks.start_clock(
        shop.store, shop.machine, ClockKind.CURE, "sealer", after=["2 d"], started=ago(days=1),
        about=clocks.About(task_id=shop.strip),
    )  # fmt: skip
    with shop.store.read() as connection:
        assert where_was_i(connection, shop.machine, NOW).next_actions == ()
        later = where_was_i(connection, shop.machine, NOW + dt.timedelta(days=2))
    assert [action.title for action in later.next_actions] == ["Measure the journals [HS-01]"]


def test_what_is_apart_is_said_before_what_is_only_finger_tight(shop: Shop) -> None:
    """Seen: a front cap apart was left out, and only the guard's finger-tight bolt was named."""
    said = {"wanted": "torqued"}
    joints.add_joint(shop.store, shop.machine, shop.headstock, "Belt guard, M8", {"tight": "finger", **said})
    for name in ("Front cap", "Rear cap"):
        joints.add_joint(shop.store, shop.machine, shop.headstock, name, said)
    with shop.store.read() as connection:
        found = where_was_i(connection, shop.machine, NOW)
    assert found.cautions[0] == (
        "Do not lift, turn or power it: apart are Front cap; Rear cap; not tight is Belt guard, M8 (finger tight)."
    )


def test_what_runs_and_what_was_gone_on_with_is_said_until_closed(shop: Shop) -> None:
    """Seen: an override of first power and a speed still running stood nowhere on Where was I."""
    key = run.add_step(shop.store, shop.machine, "slow", {"speed_rpm": "200"})
    run.begin_step(shop.store, key, reason="supply isolated, turned by hand")
    with shop.store.read() as connection:
        found = where_was_i(connection, shop.machine, NOW)
        (step,) = run_steps(connection, shop.machine)
    assert [rung.id for rung in found.running] == [key]
    (gone,) = found.gone_on
    assert gone.reason == "supply isolated, turned by hand"
    assert step.gone_on == (gone.words,)
    close(shop.store, [gone.id], "all checked since")
    with shop.store.read() as connection:
        assert where_was_i(connection, shop.machine, NOW).gone_on == ()


def test_a_decision_is_offered_among_the_next_three_and_what_does_not_fit_says_why(shop: Shop) -> None:
    """Seen: one line in "Next three actions" while "decide on the bush", a few minutes, was never offered."""
    measure.record_reading(shop.store, "59.98", measure.Entry(shop.journal, shop.near))
    with shop.store.read() as connection:
        found = where_was_i(connection, shop.machine, NOW, tonight=Tonight(45))
        short = where_was_i(connection, shop.machine, NOW, tonight=Tonight(1))
    assert "Decide what becomes of HS-01 spindle" in [one.title for one in found.next_actions]
    assert short.next_actions == ()
    assert "and there is 1 min; " in short.no_fit
