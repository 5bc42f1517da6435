"""Decisions and concessions with their reasons."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Any

import pytest
from sqlalchemy import text

from rebuild.errors import BadEntry, NotThere
from rebuild.words.decisions import Decision
from rebuild.work.decisions import acts as decide
from rebuild.work.editing import acts as edit

if TYPE_CHECKING:
    from tests.conftest import Shop


def row(shop: Shop, table: str, key: int) -> Any:
    with shop.store.read() as connection:
        return connection.execute(text(f"SELECT * FROM {table} WHERE id = {key}")).one()


def test_a_decision_carries_its_reason(shop: Shop) -> None:
    at = dt.datetime(2026, 3, 14)
    decide.decide(
        shop.store, [shop.spindle, shop.cap], Decision.REWORK, reason=" scored ", criterion="run-out under 0.01",
        would_change="a spare turns up", at=at,
    )  # fmt: skip
    found = row(shop, "part", shop.spindle)
    assert (found.decision, found.decision_reason, found.decision_criterion, found.decision_would_change) == (
        "rework", "scored", "run-out under 0.01", "a spare turns up",
    )  # fmt: skip
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
        shop.store, shop.spindle, "runs cool", feature_id=shop.journal, accepted="59.95 mm", by="me",
        at=dt.datetime(2026, 3, 14),
    )  # fmt: skip
    found = row(shop, "concession", key)
    assert (found.reason, found.accepted, found.accepted_by, found.feature_id) == (
        "runs cool", "59.95 mm", "me", shop.journal,
    )  # fmt: skip
    assert shop.store.undo_label() == "concession on HS-01 spindle: 59.95 mm"
    with pytest.raises(BadEntry, match=r"Reason: is empty\. Say why\."):
        decide.concede(shop.store, shop.spindle, " ")
    with pytest.raises(BadEntry, match="Feature: is of another part"):
        decide.concede(shop.store, shop.spindle, "x", feature_id=shop.lost_motion)
    with pytest.raises(NotThere, match=r"The part no\. 99"):
        decide.concede(shop.store, 99, "x")
