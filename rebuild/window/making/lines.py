"""The rows of the sheet's tables as strings."""

from __future__ import annotations

from rebuild.trade.limits.judgement import Verdict
from rebuild.window.ink.shapes import Shape
from rebuild.window.making.step_cards import CardWords
from rebuild.work.making.rows_as_made import worst
from rebuild.work.making.rows_sheet_lists import MateRow, SheetPage, SizeRow, StepRow, ToolRow
from rebuild.work.making.rules_threads import WAY_OUT_OF_TWO
from rebuild.work.records.field import show_day

SIZE_COLUMNS = ("Size", "Limits", "As made", "Verdict")
MATE_COLUMNS = ("Its feature", "Mate", "Reads", "Known to", "With", "To be", "Final")
TOOL_COLUMNS = ("In hand", "Tool", "For")
DATA_COLUMNS = ("", "What", "Value")

VERDICT_SHAPES = {
    Verdict.CONFORMS: Shape.CONFORMS, Verdict.DOES_NOT: Shape.DOES_NOT, Verdict.UNDECIDED: Shape.UNDECIDED,
    Verdict.NO_SPEC: Shape.NO_SPEC,
}  # fmt: skip


def size_line(size: SizeRow) -> tuple[str, ...]:
    """One size."""
    decides = worst(size.made)
    made = " | ".join(value.words for value in size.made)
    return (
        size.name,
        size.words,
        made,
        decides.verdict.value if decides is not None else "",
    )


def about_size(size: SizeRow) -> str:
    """What else is known of a size: where its limits come from, what it is measured with, the other unit."""
    told = (
        f"limits {size.source}" if size.source else "",
        f"measured with {size.measured_with}" if size.measured_with else "",
        f"{size.words} ({size.other_unit})" if size.other_unit else "",
    )
    return "; ".join(filter(None, told))


def mate_line(mate: MateRow) -> tuple[str, ...]:
    """One mate."""
    return (
        mate.own_feature,
        mate.mate,
        "; ".join(mate.reads) or "no reading yet",
        mate.known_to,
        mate.instrument,
        mate.wanted,
        "yes" if mate.final else f"no: {mate.wait}",
    )


def step_card(number: int, step: StepRow) -> CardWords:
    """One step."""
    facts = (
        step.machine,
        step.hold,
        step.tool,
        step.speed,
        step.feed,
        f"leave {step.leave}" if step.leave else "",
        "stop and measure" if step.measure else "",
        step.note,
    )
    done = show_day(step.done_at) if step.done_at is not None else ""
    return CardWords(step.id, number, step.what, "  ·  ".join(filter(None, facts)), done)


def tool_line(tool: ToolRow) -> tuple[str, ...]:
    """One tool."""
    return ("yes" if tool.in_hand else "no", tool.what, tool.why)


def data_lines(page: SheetPage) -> list[tuple[int, tuple[str, ...]]]:
    """Blank, material and the data blocks; the id tells whose working a line opens (0: the blank's)."""
    blank = page.blank.words or page.blank.trouble
    rows: list[tuple[int, tuple[str, ...]]] = [
        (0, ("Blank", "material", page.blank.material or "to be named")),
        (0, ("", "blank", blank)),
        *([(0, ("", "piece in hand", _in_hand(page)))] if page.blank.in_hand else []),
    ]
    for number, block in enumerate(page.data, 1):
        if block.trouble:
            rows.append((number, (block.title, "", block.trouble)))
        rows += [
            (number, (block.title if place == 0 else "", label, text))
            for place, (label, text) in enumerate(block.lines)
        ]
    return rows


def _in_hand(page: SheetPage) -> str:
    return "; ".join(filter(None, (page.blank.in_hand, page.blank.too_small)))


def warnings(page: SheetPage) -> str:
    """What must be known before cutting, one sentence a line."""
    lines = [page.course.issue.told] if page.course.issue.draft and page.course.issue.told else []
    if page.course.since_accepted:
        changed = "; ".join(page.course.since_accepted)
        lines.append(f"Changed since it was accepted, look at it with its mate: {changed}.")
    if page.clash:
        lines.append(f"{page.clash}: it is not released or printed so. {WAY_OUT_OF_TWO}")
    if page.course.stale:
        lines.append("Stale, refresh before cutting: " + "; ".join(page.course.stale) + ".")
    if page.offered is not None:
        lines.append(f"{page.offered.sentence}. Make the fit, or say it is not its mate.")
    lines += [f"Waits: {line}." for line in page.course.waits]
    missing = [size.name for size in page.sizes if not size.measure.given]
    if missing and not page.course.settled:
        lines.append(f"Not known yet: {', '.join(missing)}.")
    loose = [size.name for size in page.sizes if _no_limits(size)]
    if loose and not page.course.settled:
        lines.append(f"Without limits, so nothing judges it: {', '.join(loose)}.")
    lines += [
        f"Tight to make: {size.tight}." for size in page.sizes if size.tight and not page.course.settled
    ]
    return "\n".join(lines)


def _no_limits(size: SizeRow) -> bool:
    """A length to be measured with a number and no limits."""
    measure = size.measure
    return bool(size.measured_with) and measure.given and measure.low_mm is None and measure.high_mm is None


def settled_words(page: SheetPage) -> str:
    """How an attempt ended."""
    if page.outcome.settled_at is None:
        return ""
    by = f" by {page.outcome.by}" if page.outcome.by else ""
    told = f"{page.course.state.value}{by}, {show_day(page.outcome.settled_at)}"
    parts = [page.outcome.remark, *(f"concession: {line}" for line in page.outcome.concessions)]
    return ". ".join(filter(None, (told, *parts)))
