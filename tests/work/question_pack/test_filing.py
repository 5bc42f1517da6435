"""The answer filed back: to the part, a spec, a note; one act, one undo, and each refusal."""

from __future__ import annotations

from rebuild.words.log import QuestionState
from rebuild.words.readings import SpecOrigin
from rebuild.work.log.acts import ask
from rebuild.work.log.rows import questions
from rebuild.work.machines.acts import add_machine
from rebuild.work.question_pack.acts import file_answer
from rebuild.work.question_pack.filing import Filing
from rebuild.work.question_pack.rows_filing import filings
from rebuild.work.records.rows import card
from tests.conftest import Shop
from tests.support import read_contents, refuses


def test_an_answer_goes_where_it_is_wanted_and_one_undo_takes_both_back(shop: Shop) -> None:
    store = shop.store
    before = read_contents(shop.path)
    with store.read() as connection:
        offered = filings(connection, shop.question)
    assert [(one.filing.record, one.words) for one in offered] == [
        ("part", "note of HS-01 spindle"),
        ("feature", "spec of HS-01 spindle: front journal"),
        ("task", "note of the step Refit the spindle"),
        ("machine", "story of Toolroom lathe"),
    ]
    said = file_answer(store, shop.question, "Thin spindle oil", "old foreman", offered[0].filing)
    assert said == "the note of HS-01 spindle"
    with store.read() as connection:
        noted = card(connection, "part", shop.spindle).fields["note"]
        row = next(one for one in questions(connection, shop.machine) if one.id == shop.question)
    assert noted == "Which oil did the maker print? Thin spindle oil (old foreman)"
    assert (row.state, row.answer, row.answered_by) == (
        QuestionState.ANSWERED,
        "Thin spindle oil",
        "old foreman",
    )
    store.undo()
    assert read_contents(shop.path) == before
    file_answer(store, shop.question, "Ground to size", "foreman", offered[1].filing, "60 h6")
    with store.read() as connection:
        row_of = connection.exec_driver_sql(
            "SELECT spec_text, spec_origin, spec_note FROM feature WHERE id = 1"
        ).one()
    assert tuple(row_of) == ("60 h6", SpecOrigin.JUDGEMENT.value, "Ground to size; foreman")
    store.undo()
    for filing in (offered[2].filing, offered[3].filing):
        file_answer(store, shop.question, "Yes", "", filing)
    with store.read() as connection:
        assert "Yes" in card(connection, "task", shop.refit).fields["note"]
        assert "Yes" in card(connection, "machine", shop.machine).fields["story"]


def test_what_cannot_be_filed_is_refused_and_nothing_is_stored(shop: Shop) -> None:
    part, spec = Filing("part", shop.spindle), Filing("feature", shop.journal)
    with refuses(shop.store, "Answer: is empty"):
        file_answer(shop.store, shop.question, " ", "", part)
    with refuses(shop.store, "Spec: is empty. Type what the feature is to measure"):
        file_answer(shop.store, shop.question, "Yes", "", spec, " ")
    with refuses(shop.store, "60 of something"):
        file_answer(shop.store, shop.question, "Yes", "", spec, "60 of something")
    mill = add_machine(shop.store, "Mill")
    other = ask(shop.store, mill, "Which oil?")
    with refuses(shop.store, "“HS-01 spindle” belongs to another machine"):
        file_answer(shop.store, other, "Yes", "", part)
