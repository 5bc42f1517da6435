"""A step as the list draws it: the words are made once, when the row is read."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rebuild.trade.results.cautions import stored_caution
from rebuild.trade.sizes.amounts import show_minutes
from rebuild.words.steps import TaskState
from rebuild.work.records.field import show_day
from rebuild.work.steps.rows import TaskRow
from rebuild.work.steps.rows_told import Told

_NOTHING = Told()


@dataclass(frozen=True, slots=True)
class StepLine:
    """One row: the title, the quiet second line, the caution line, and the whole for a tool tip."""

    row: TaskRow
    title: str
    about: str
    cautions: str
    tip: str
    spoken: str
    told: Told = _NOTHING

    @property
    def id(self) -> int:
        """The step's id."""
        return self.row.id


def line_of(row: TaskRow, told: Told = _NOTHING, lacks: Sequence[str] = ()) -> StepLine:
    """The words of one step; ``lacks`` says what it needs that the shop has not got."""
    named = not row.part_code or row.part_code in row.title
    title = row.title if named else f"{row.title} [{row.part_code}]"
    about = " · ".join(filter(None, (_about(row, told), *lacks)))
    titles = [stored_caution(topic).title for topic in row.cautions]
    cautions = "Caution: " + ", ".join(titles) if titles else ""
    return StepLine(
        row, title, about, cautions, _tip(row, told), ". ".join(filter(None, (title, about, cautions))), told
    )


def _about(row: TaskRow, told: Told) -> str:
    words = [row.kind.value]
    if row.state is TaskState.DONE:
        return " · ".join(filter(None, [*words, _done(row, told.left), *row.clocks, *_passed(told)]))
    if row.state is not TaskState.OPEN:
        words.append(row.state.value)
    if row.likely_min is not None:
        words.append(show_minutes(row.likely_min))
    if row.irreversible:
        words.append("cannot be undone")
    words += [f"{kind.value}{f': {detail}' if detail else ''}" for kind, detail in row.constraints]
    words += row.clocks
    if told.attempts:
        words.append(f"attempt {len(told.attempts) + 1}")
    words += told.at_refit
    if row.settled:
        words.append(f"{row.settled}: holds nothing any more, tick it off")
    if row.waits_for:
        more = f" and {len(row.waits_for) - 1} more" if len(row.waits_for) > 1 else ""
        words.append(f"waits for “{row.waits_for[0][1]}”{more}")
    return " · ".join(words)


def _passed(told: Told) -> list[str]:
    """What it was gone on with, as long as that is not closed."""
    return [f"all the same, {len(told.gone_on)} open: see below"] if told.gone_on else []


def _done(row: TaskRow, left: str) -> str:
    """What was noted of it; a joint it left loose is said first, since "done" alone reads as tight."""
    noted = [f"done {show_day(row.done_at)}" if row.done_at else "done", *([left] if left else [])]
    noted += [
        f"{name} {value}"
        for name, value in (
            ("measured", row.done_measured),
            ("torqued", row.done_torque),
            ("", row.done_note),
        )
        if value
    ]
    return ", ".join(part.strip() for part in noted)


def beside(line: StepLine | None) -> str:
    """Earlier attempts and what was gone on with, each on a line of its own, for the pane under the list."""
    if line is None:
        return ""
    earlier = [f"Earlier {words}" for words in line.told.attempts]
    passed = [f"Gone on all the same, still open: {words}" for words in line.told.gone_on]
    return "\n".join((*earlier, *passed))


def _tip(row: TaskRow, told: Told) -> str:
    parts = [row.title]
    if row.note:
        parts.append(row.note)
    if row.place:
        parts.append(f"Where: {row.place}")
    if row.torque_wanted:
        parts.append(f"Torque to be: {row.torque_wanted}")
    parts += [f"Waits for: {title}" for _, title in row.waits_for]
    parts += [f"Earlier {words}" for words in told.attempts]
    parts += told.gone_on
    parts += told.at_refit
    parts += [f"{stored_caution(topic).title}: {stored_caution(topic).text}" for topic in row.cautions]
    return "\n".join(parts)
