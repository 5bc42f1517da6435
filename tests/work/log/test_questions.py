"""Open questions: asked, answered, about their own machine."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest
from sqlalchemy import text

from rebuild.errors import BadEntry
from rebuild.work.editing import acts as edit
from rebuild.work.log import acts as notes
from rebuild.work.machines import acts as identify

if TYPE_CHECKING:
    from tests.conftest import Shop


def row(shop: Shop, table: str, key: int) -> Any:
    with shop.store.read() as connection:
        return connection.execute(text(f"SELECT * FROM {table} WHERE id = {key}")).one()


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
