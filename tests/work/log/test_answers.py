"""An answer is words, and an assumption is not yet an answer."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from rebuild.work.editing import acts as edit
from rebuild.work.log import acts as notes
from tests.support import refuses

if TYPE_CHECKING:
    from tests.conftest import Shop


def state(shop: Shop) -> str:
    query = f"SELECT state FROM question WHERE id = {shop.question}"
    with shop.store.read() as connection:
        return str(connection.exec_driver_sql(query).scalar_one())


@pytest.mark.parametrize("blank", ["", " \n"])
def test_blanks_are_no_answer(shop: Shop, blank: str) -> None:
    for assumed in (False, True):
        with refuses(shop.store, "Answer: is empty. Type what was found out, or what you assume"):
            notes.answer(shop.store, shop.question, blank, assumed=assumed)
    with refuses(shop.store, "Answer: is empty"):
        edit.edit(shop.store, "question", [shop.question], {"state": "answered", "answer": blank})
    assert state(shop) == "open"


def test_what_is_assumed_is_told_apart_until_someone_knows(shop: Shop) -> None:
    notes.answer(shop.store, shop.question, "VG 22", assumed=True)
    assert state(shop) == "assumed"
    notes.answer(shop.store, shop.question, "VG 32", "the chart")
    assert state(shop) == "answered"
    shop.store.undo()
    assert state(shop) == "assumed"
