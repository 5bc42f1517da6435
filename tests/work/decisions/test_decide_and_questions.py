"""Decisions and concessions, open questions, the bench log, and settings of the file."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Any

import pytest
from sqlalchemy import text

from rebuild.errors import BadEntry, NotThere
from rebuild.store.store import Store
from rebuild.trade.limits.verdict import Rule
from rebuild.words.decisions import Decision
from rebuild.work.decisions import acts as decide
from rebuild.work.editing import acts as edit
from rebuild.work.log import acts as notes
from rebuild.work.machines import acts as identify
from rebuild.work.records import acts_settings as settings, rows_settings

if TYPE_CHECKING:
    from tests.conftest import Shop


def row(shop: Shop, table: str, key: int) -> Any:
    with shop.store.read() as connection:
        return connection.execute(text(f"SELECT * FROM {table} WHERE id = {key}")).one()


def test_a_decision_carries_its_reason(shop: Shop) -> None:
    at = dt.datetime(2026, 3, 14)
    decide.decide(
        shop.store,
        [shop.spindle, shop.cap],
        Decision.REWORK,
        reason=" scored ",
        criterion="run-out under 0.01",
        would_change="a spare turns up",
        at=at,
    )
    found = row(shop, "part", shop.spindle)
    assert (found.decision, found.decision_reason, found.decision_criterion, found.decision_would_change) == (
        "rework",
        "scored",
        "run-out under 0.01",
        "a spare turns up",
    )
    assert found.decided_at == "2026-03-14T00:00:00"
    assert shop.store.undo_label() == "decision rework on HS-01 spindle and 1 more"
    decide.decide(shop.store, [shop.spindle], Decision.OPEN)
    assert row(shop, "part", shop.spindle).decided_at is None


@pytest.mark.parametrize("decision", [Decision.REMAKE, Decision.BUY, Decision.REWORK, Decision.DEFER])
def test_what_costs_work_or_money_wants_a_reason(shop: Shop, decision: Decision) -> None:
    with pytest.raises(BadEntry, match=f"Reason: is empty. Say in a few words why to {decision.value}"):
        decide.decide(shop.store, [shop.spindle], decision, reason="  ")
    with pytest.raises(BadEntry, match="Reason: is empty"):
        edit.edit(shop.store, "part", [shop.spindle], {"decision": decision.value})
    edit.edit(shop.store, "part", [shop.spindle], {"decision": decision.value, "decision_reason": "worn"})
    assert row(shop, "part", shop.spindle).decided_at is not None


def test_deciding_nothing_leaves_no_trace(shop: Shop) -> None:
    label = shop.store.undo_label()
    decide.decide(shop.store, [], Decision.REUSE)
    assert shop.store.undo_label() == label


def test_a_concession_names_why_and_on_what(shop: Shop) -> None:
    key = decide.concede(
        shop.store,
        shop.spindle,
        "runs cool",
        feature_id=shop.journal,
        accepted="59.95 mm",
        by="me",
        at=dt.datetime(2026, 3, 14),
    )
    found = row(shop, "concession", key)
    assert (found.reason, found.accepted, found.accepted_by, found.feature_id) == (
        "runs cool",
        "59.95 mm",
        "me",
        shop.journal,
    )
    assert shop.store.undo_label() == "concession on HS-01 spindle: 59.95 mm"
    with pytest.raises(BadEntry, match=r"Reason: is empty\. Say why\."):
        decide.concede(shop.store, shop.spindle, " ")
    with pytest.raises(BadEntry, match="Feature: is of another part"):
        decide.concede(shop.store, shop.spindle, "x", feature_id=shop.lost_motion)
    with pytest.raises(NotThere, match=r"The part no\. 99"):
        decide.concede(shop.store, 99, "x")


def test_a_question_is_asked_and_answered(shop: Shop) -> None:
    key = notes.ask(shop.store, shop.machine, "Which way round does the shim go?", part_id=shop.cap)
    assert row(shop, "question", key).state == "open"
    notes.answer(shop.store, key, "thin side up", "a photograph", assumed=True)
    found = row(shop, "question", key)
    assert (found.state, found.answer, found.answered_by) == ("assumed", "thin side up", "a photograph")
    assert shop.store.undo_label() == "answer to Which way round does the shim go?"
    with pytest.raises(BadEntry, match=r"Answer: is empty\. Type what was found out, or what you assume\."):
        notes.answer(shop.store, key, "")
    with pytest.raises(BadEntry, match=r"Question: is empty\. Type the question\."):
        notes.ask(shop.store, shop.machine, " ")


def test_a_question_is_about_its_own_machine(shop: Shop) -> None:
    other = identify.add_machine(shop.store, "Shaper")
    for wrong in ({"part_id": shop.spindle}, {"task_id": shop.strip}, {"subassembly_id": shop.headstock}):
        with pytest.raises(BadEntry, match="belongs to another machine"):
            notes.ask(shop.store, other, "What?", **wrong)
    about = notes.ask(shop.store, other, "What?")
    with pytest.raises(BadEntry, match="belongs to another machine"):
        edit.edit(shop.store, "question", [about], {"task_id": str(shop.strip)})
    with pytest.raises(BadEntry, match="Answer: is empty"):
        edit.edit(shop.store, "question", [about], {"state": "answered"})


def test_a_session_in_the_bench_log(shop: Shop) -> None:
    key = notes.log_session(
        shop.store,
        shop.machine,
        {"did": "scraped", "hours": "2,5", "temperature_c": "65 F", "at": "2026-03-14 19:30"},
    )
    found = row(shop, "log_entry", key)
    assert (found.at, found.hours, found.temperature_c) == (
        "2026-03-14T19:30:00",
        2.5,
        pytest.approx(18.333333),
    )
    assert shop.store.undo_label() == "bench log entry of 2026-03-14"


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ({}, "Did: is empty. Write what was done"),
        ({"hours": "3"}, "Did: is empty."),
        ({"did": "x", "hours": "long"}, "Hours: “long” is not a number. Type it as 1.5."),
        ({"did": "x", "hours": "-1"}, "Hours: “-1” is below 0. Type a larger number."),
        ({"did": "x", "at": "yesterday"}, "When: “yesterday” is not a date. Type it as 2026-03-14"),
        ({"did": "x", "at": ""}, "When: is empty."),
    ],
)
def test_a_session_refused(shop: Shop, typed: dict[str, str], said: str) -> None:
    with pytest.raises(BadEntry) as refusal:
        notes.log_session(shop.store, shop.machine, typed)
    assert str(refusal.value).startswith(said)


def test_settings_belong_to_the_file(store: Store) -> None:
    assert rows_settings.decimal_comma(store) is None
    for decimal in (True, False, None):
        settings.set_decimal_comma(store, decimal)
        assert rows_settings.decimal_comma(store) is decimal
    assert rows_settings.verdict_rule(store) is Rule.CONFORMANCE_95
    for rule in Rule:
        settings.set_verdict_rule(store, rule)
        assert rows_settings.verdict_rule(store) is rule
    settings.set_owner(store, "  the owner ")
    store.close()
    again = Store.open(store.path)
    assert rows_settings.owner(again) == "the owner"
    assert rows_settings.verdict_rule(again) is list(Rule)[-1]
    assert again.undo_label() is None
    again.set_setting("verdict rule", "a rule of another edition")
    assert rows_settings.verdict_rule(again) is Rule.CONFORMANCE_95
    again.close()


def test_a_part_is_no_spare_of_itself_and_its_set_is_its_machines(shop: Shop) -> None:
    with pytest.raises(BadEntry, match="Spare of: “spindle” cannot be a spare of itself"):
        edit.edit(shop.store, "part", [shop.spindle], {"spare_of_id": str(shop.spindle)})
    other = identify.add_machine(shop.store, "Shaper")
    foreign = identify.add_matched_set(shop.store, other, "gib and slide")
    with pytest.raises(BadEntry, match="Matched set: “gib and slide” belongs to another machine"):
        edit.edit(shop.store, "part", [shop.spindle], {"matched_set_id": str(foreign)})


def test_limits_of_an_instrument_are_edited_with_their_unit(shop: Shop) -> None:
    edit.edit(shop.store, "instrument", [shop.micrometer], {"mpe": "0.0002 in"})
    found = row(shop, "instrument", shop.micrometer)
    assert (found.mpe_text, found.mpe_unit, found.mpe_mm) == ("0.0002 in", "in", 0.00508)
