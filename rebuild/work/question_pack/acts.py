"""The answer filed back where it is wanted: the part's own note, a spec, or the note of the step it held up."""

from __future__ import annotations

from rebuild.errors import BadEntry
from rebuild.model.records.features import Feature
from rebuild.model.records.log import Question
from rebuild.model.records.machines import Machine, Subassembly
from rebuild.model.records.parts import Part
from rebuild.model.records.steps import Task
from rebuild.store.act import Act
from rebuild.store.store import Store, Tx
from rebuild.words.log import QuestionState
from rebuild.words.readings import SpecOrigin
from rebuild.work.question_pack.filing import Filing
from rebuild.work.readings.acts_features import put_spec
from rebuild.work.records.columns import title
from rebuild.work.records.rows_settings import decimal_comma
from rebuild.work.records.wall_clock import now

_NOTED: dict[str, type[Part | Task | Subassembly | Machine]] = {
    "part": Part, "task": Task, "subassembly": Subassembly, "machine": Machine,
}  # fmt: skip


def file_answer(store: Store, question_id: int, text: str, by: str, filing: Filing, spec: str = "") -> str:
    """Answer a question and file the answer in one act; returns where it went, in words.

    Filed as a spec, ``spec`` is what the feature is to measure, its origin judgement, and the answer its note.

    Raises:
        BadEntry, Ambiguous: the answer is empty, the spec is none, or the place is of another machine.
    """
    if not text.strip():
        raise BadEntry("is empty.", where="Answer", way_out="Type what was found out; then it can be filed.")
    with store.act(Act.FILE_ANSWER, "") as tx:
        question = tx.get(Question, question_id, "question")
        said = f"{question.text.strip()} {text.strip()}" + (f" ({by.strip()})" if by.strip() else "")
        if filing.record == "feature":
            words = _as_spec(
                store, tx, question, filing.id, spec, f"{text.strip()}; {by.strip()}".rstrip("; ")
            )
        else:
            words = _as_note(tx, question, filing, said)
        question.answer, question.answered_by, question.answered_at = text.strip(), by.strip(), now()
        question.state = QuestionState.ANSWERED
        tx.subject = f"to {words}"
    return words


def _as_spec(store: Store, tx: Tx, question: Question, feature_id: int, spec: str, note: str) -> str:
    feature = tx.get(Feature, feature_id, "feature")
    part = tx.get(Part, feature.part_id, "part")
    _refuse_elsewhere(question, part.machine_id, title(part))
    if not spec.strip():
        raise BadEntry("is empty.", where="Spec", way_out="Type what the feature is to measure, e.g. 25 H7.")
    put_spec(feature, spec, SpecOrigin.JUDGEMENT, comma=decimal_comma(store))
    feature.spec_note = note[:200]
    return f"the spec of {title(part)}: {feature.name}"


def _as_note(tx: Tx, question: Question, filing: Filing, said: str) -> str:
    row = tx.get(_NOTED[filing.record], filing.id, filing.record)
    machine_id = row.id if isinstance(row, Machine) else row.machine_id
    _refuse_elsewhere(question, machine_id, title(row))
    name = "story" if isinstance(row, Machine) else "note"
    setattr(row, name, "\n".join(filter(None, (getattr(row, name), said))))
    return f"the {name} of {title(row)}"


def _refuse_elsewhere(question: Question, machine_id: int, called: str) -> None:
    if question.machine_id != machine_id:
        raise BadEntry(
            "belongs to another machine.",
            where="File to",
            value=called,
            way_out="Choose one of this machine.",
        )
