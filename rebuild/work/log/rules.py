"""What must hold of a question as a whole: an answer where it is said to be answered."""

from __future__ import annotations

from collections.abc import Mapping

from rebuild.errors import BadEntry
from rebuild.model.records.log import Question
from rebuild.store.tx import Tx
from rebuild.words.log import QuestionState
from rebuild.work.records.rules import refuse_other_machine
from rebuild.work.records.wall_clock import now


def question(tx: Tx, row: Question, before: Mapping[str, object], typed: Mapping[str, str]) -> None:
    with tx.session.no_autoflush:
        if "part_id" in typed:
            refuse_other_machine(tx, row.machine_id, part=row.part_id)
        if "task_id" in typed:
            refuse_other_machine(tx, row.machine_id, step=row.task_id)
    if row.state not in (None, QuestionState.OPEN) and not (row.answer or "").strip():
        raise BadEntry("is empty.", where="Answer", way_out="Type what was found out, or what you assume.")
    if row.answer and row.answer != before.get("answer") and "answered_at" not in typed:
        row.answered_at = now()
