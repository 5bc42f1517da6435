"""The state of a rebuild as plain text to read, and as data for other programs."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from rebuild.trade.sizes.amounts import show_minutes
from rebuild.words.counted import counted
from rebuild.work.plan.rows_summary import MachineState, ShopState
from rebuild.work.plan.rows_what_next import Candidate

MOST = 8


def summary_text(state: ShopState) -> str:
    """One page of text; long lists are cut and counted."""
    if not state.machines:
        return f"{state.file}: no machine in it yet."
    return "\n\n".join(_machine(machine) for machine in state.machines)


def _machine(state: MachineState) -> str:
    about = ", ".join(filter(None, (state.kind, state.year, f"scope: {state.scope}")))
    steps = state.steps
    lines = [
        state.name,
        f"  {about}",
        f"  {counted(state.subassemblies, 'subassembly', 'subassemblies')}, "
        f"{counted(state.parts, 'part')}: {_counts(state.parts_by_decision)}",
        f"  {counted(state.features, 'feature')}, "
        f"{counted(state.readings, 'reading')}: {_counts(state.readings_by_verdict)}",
        f"  steps: {steps.done} done, {steps.under_way} under way, {steps.open} open, {steps.left_out} left out",
        *_listed(
            f"can be done now ({len(steps.can_be_done_now)}), {steps.waiting} wait", steps.can_be_done_now
        ),
    ]
    if state.make_next:
        first = state.make_next[0]
        lines += [
            f"  make next: {first.code} {first.name} ({first.decision.value})",
            f"    because {why(first)}",
        ]
    lines += _listed("measured but still to be decided", state.undecided)
    lines += _listed("open questions", state.questions)
    if state.last_log:
        lines.append(f"  last in the bench log, {state.last_log}")
    return "\n".join(lines)


def why(candidate: Candidate) -> str:
    """Why a part is the next to make, in a sentence's end."""
    freed = f"it unblocks {counted(len(candidate.freed), 'step')} at once"
    if candidate.freed:
        freed += f" ({'; '.join(candidate.freed[:3])}{'; …' if len(candidate.freed) > 3 else ''})"
    waits = f"; it must itself wait for {'; '.join(candidate.waits_for)}" if candidate.waits_for else ""
    return (
        f"{freed}, holds up {candidate.held_up} in all, and asks for {show_minutes(candidate.minutes)}{waits}"
    )


def _counts(counts: Mapping[str, int]) -> str:
    return ", ".join(f"{count} {word}" for word, count in counts.items()) or "none"


def _listed(title: str, items: Iterable[str]) -> list[str]:
    listed = list(items)
    if not listed:
        return []
    lines = [f"  {title}:", *(f"    {item}" for item in listed[:MOST])]
    if len(listed) > MOST:
        lines.append(f"    … and {len(listed) - MOST} more")
    return lines


def summary_data(state: ShopState) -> dict[str, object]:
    """Everything of the summary, nothing cut."""
    return {
        "file": state.file,
        "instruments": state.instruments,
        "undo": state.undo,
        "machines": [_machine_data(machine) for machine in state.machines],
    }


def _machine_data(state: MachineState) -> dict[str, object]:
    return {
        "name": state.name,
        "kind": state.kind,
        "year": state.year,
        "scope": state.scope,
        "subassemblies": state.subassemblies,
        "parts": state.parts,
        "parts_by_decision": state.parts_by_decision,
        "features": state.features,
        "readings": state.readings,
        "readings_by_verdict": state.readings_by_verdict,
        "steps": {
            "done": state.steps.done,
            "left_out": state.steps.left_out,
            "under_way": state.steps.under_way,
            "open": state.steps.open,
            "can_be_done_now": list(state.steps.can_be_done_now),
            "waiting": state.steps.waiting,
        },
        "make_next": [
            {
                "part": f"{candidate.code} {candidate.name}".strip(),
                "decision": candidate.decision.value,
                "reason": candidate.reason,
                "why": why(candidate),
                "frees": list(candidate.freed),
                "holds_up": candidate.held_up,
                "minutes": candidate.minutes,
                "startable": candidate.startable,
                "waits_for": list(candidate.waits_for),
            }
            for candidate in state.make_next
        ],
        "undecided": list(state.undecided),
        "open_questions": list(state.questions),
        "last_log": state.last_log,
    }
