"""What must hold of a record as a whole, whichever act changed it: codes, durations, one machine, reasons.

Each function refuses in a sentence. The rules of each record lie with its noun (``work/<noun>/rules.py``).
"""

from __future__ import annotations

from sqlalchemy import select

from rebuild.errors import BadEntry
from rebuild.model.records.machines import Subassembly
from rebuild.model.records.parts import MatchedSet, Part
from rebuild.model.records.steps import Task
from rebuild.store.tx import Tx
from rebuild.words.decisions import Decision

WANT_A_REASON = (Decision.REMAKE, Decision.BUY, Decision.REWORK, Decision.DEFER)


def refuse_taken_code(tx: Tx, machine_id: int, code: str, but: int | None = None) -> None:
    """Raise BadEntry when another part of the machine carries ``code``."""
    if not code:
        return
    with tx.session.no_autoflush:
        other = tx.session.scalar(
            select(Part).where(Part.machine_id == machine_id, Part.code == code, Part.id.is_not(but)).limit(1)
        )
    if other is not None:
        raise BadEntry(
            f"is already the code of “{other.name}”.",
            where="Code",
            value=code,
            way_out="Choose another; a tag must name one part.",
        )


def refuse_falling_durations(task: Task) -> None:
    """Raise BadEntry unless shortest ≤ likely ≤ longest, as far as they are given."""
    given = [minutes for minutes in (task.low_min, task.likely_min, task.high_min) if minutes is not None]
    if given != sorted(given):
        raise BadEntry(
            "do not rise from shortest to likely to longest.",
            where="Durations",
            value=" / ".join(f"{minutes:g}" for minutes in given),
            way_out="Give them in that order.",
        )


def refuse_no_reason(decision: Decision, reason: str) -> None:
    """Raise BadEntry when a decision that costs work or money comes without a reason."""
    if decision in WANT_A_REASON and not reason.strip():
        raise BadEntry(
            "is empty.",
            where="Reason",
            way_out=f"Say in a few words why to {decision.value}; you will ask yourself in a year.",
        )


_OF_A_MACHINE: dict[str, type[Subassembly] | type[Part] | type[MatchedSet] | type[Task]] = {
    "subassembly": Subassembly, "part": Part, "matched set": MatchedSet, "step": Task,
}  # fmt: skip


def refuse_other_machine(tx: Tx, machine_id: int, **ids: int | None) -> None:
    """Raise BadEntry when something referred to belongs to another machine.

    ``ids`` names what is referred to: ``subassembly``, ``part``, ``matched_set`` or ``step``.
    """
    for name, key in ids.items():
        called = name.replace("_", " ")
        if key is None:
            continue
        other = tx.get(_OF_A_MACHINE[called], key, called)
        if other.machine_id != machine_id:
            words = str(getattr(other, "title", "") or getattr(other, "name", ""))
            raise BadEntry(
                "belongs to another machine.",
                where=called.capitalize(),
                value=words,
                way_out="Choose one of the same machine.",
            )
