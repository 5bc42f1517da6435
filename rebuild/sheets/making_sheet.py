"""The making sheet on paper: in front what to cut and what to measure, behind it how, with room to write."""

from __future__ import annotations

import datetime as dt
import math
from pathlib import Path
from typing import Any

from rebuild.sheets import drawing_pdf
from rebuild.sheets.paper import A4, Heading, Paper, build, words
from rebuild.sheets.table import ruled
from rebuild.trade.drawing.laid import STYLE
from rebuild.trade.drawing.lay_out import best_fit
from rebuild.trade.drawing.title import Title
from rebuild.trade.making.limits import general_words
from rebuild.work.making.rows_sheet_lists import SheetPage, SizeRow
from rebuild.work.records.field import show_day

STALE_MARK = "STALE VALUES"
WAITS_MARK = "NOT FINAL"
#: The drawing takes what the sizes leave of the front page [mm].
DRAWING_MOST_MM, DRAWING_LEAST_MM, SIZE_HIGH_MM = 110.0, 62.0, 11.5
_UNITS = {"in": "inches", "mm": "mm"}


def write_making_sheet(
    page: SheetPage, target: Path, on: Paper = A4, *, printed: dt.datetime | None = None
) -> int:
    """Print one making sheet; returns how many pages it took.

    A sheet whose mates were measured again since its limits were taken carries a mark on every page.

    Raises:
        FileTrouble: it cannot be written there.
    """
    return build(target, heading(page), story(page, on), on, printed=printed)


def heading(page: SheetPage) -> Heading:
    """The heading of a sheet, with the mark it must carry."""
    mark = STALE_MARK if page.course.stale else WAITS_MARK if page.course.waits else ""
    quantity = f"{page.head.quantity} off" + (
        f", spare of {page.head.spare_of}" if page.head.spare_of else ""
    )
    started = show_day(page.head.started_at) if page.head.started_at else ""
    return Heading(
        " · ".join(filter(None, ("Making sheet", page.head.machine, page.head.subassembly))),
        page.head.part,
        (
            f"attempt {page.head.attempt}, {started} · {page.course.issue.words}",
            quantity,
            f"{page.course.state.value} · sizes in {_UNITS[page.head.unit]}",
        ),
        mark,
        f"{page.head.part} · {page.head.machine} · {page.course.issue.dated} · "
        f"limits of {_moment(page.course.looked_at)}",
    )


def story(page: SheetPage, on: Paper = A4) -> list[Any]:
    """Everything on the sheet, in the order it is wanted at the machine."""
    from reportlab.platypus import PageBreak

    wide = on.inside_mm
    front = [
        *_warnings(page),
        *_why(page, wide),
        *_mates(page, wide),
        *_drawing(page, wide),
        *_sizes(page, wide),
        *_details(page, wide),
    ]
    back = [
        *_data(page, wide),
        *_steps(page, wide),
        *_tools(page, wide),
        *_fittings(page, wide),
        *_cautions(page),
    ]
    return [*front, PageBreak(), *back, *_acceptance(page, wide)]


def _warnings(page: SheetPage) -> list[Any]:
    found = [words(page.course.issue.told, "strong")] if page.course.issue.told else []
    if page.course.stale:
        lines = "\n".join(f"· {line}" for line in page.course.stale)
        found.append(
            words(
                f"Stale: limits are of {_moment(page.course.looked_at)}. Refresh the sheet before cutting.\n{lines}",
                "strong",
            )
        )
    if page.course.since_accepted:
        lines = "\n".join(f"· {line}" for line in page.course.since_accepted)
        found.append(words(f"Changed since it was accepted: look at it with its mate.\n{lines}", "strong"))
    if page.course.waits:
        found.append(words("\n".join(f"Waits: {line}." for line in page.course.waits), "strong"))
    return found


def _why(page: SheetPage, wide: float) -> list[Any]:
    """Why it is made, what not to copy, and what to saw it from."""
    lies = f"; lies at {page.blank.at}" if page.blank.at else ""
    rows = [
        [words(label, "small"), text]
        for label, text in (
            ("why", page.head.why),
            ("do not copy", page.head.do_not_copy),
            ("handed", page.head.handedness),
            ("material", page.blank.material or "to be named"),
            ("blank", (page.blank.words or page.blank.trouble) + lies),
            ("piece in hand", "; ".join(filter(None, (page.blank.in_hand, page.blank.too_small)))),
            ("surface", page.head.finish),
            (
                "limits",
                "reduced by the uncertainty of the mates' readings" if page.course.allow_uncertainty else "",
            ),
        )
        if text
    ]
    return [ruled(rows, (22, wide - 22), head=False)]


def _mates(page: SheetPage, wide: float) -> list[Any]:
    if not page.mates:
        return []
    rows: list[list[Any]] = [["Mate", "reads", "with", "wanted", "final"]]
    for mate in page.mates:
        reads = "\n".join(mate.reads) or "no reading yet"
        known = f"\n{mate.known_to}" if mate.known_to else ""
        rows.append(
            [
                f"{mate.mate}\n({mate.own_feature})",
                reads + known,
                mate.instrument,
                mate.wanted,
                "yes" if mate.final else f"no: {mate.wait}",
            ]
        )
    return [ruled(rows, (0.28 * wide, 0.26 * wide, 0.14 * wide, 0.16 * wide, 0.16 * wide))]


def _drawing(page: SheetPage, wide: float) -> list[Any]:
    if page.drawing.drawn is None:
        return [words(f"No drawing: {page.drawing.trouble}", "small")] if page.drawing.trouble else []
    taken = len(page.sizes) + len(page.mates) + len(page.course.stale) + len(page.course.waits)
    room = DRAWING_MOST_MM - SIZE_HIGH_MM * max(0, taken - 4)
    high = max(DRAWING_LEAST_MM, room - drawing_pdf.STRIP_MM + 6.0)
    laid = best_fit(page.drawing.drawn, wide - 2, high, page.head.unit, STYLE)
    strip = title_of(page).cells(laid.scale, page.head.unit)
    return [drawing_pdf.flowable(laid, wide, strip=strip)]


def title_of(page: SheetPage) -> Title:
    """What a sheet's drawing says of itself."""
    head = page.head
    date = f", {show_day(head.started_at)}" if head.started_at else ""
    issue = f"attempt {head.attempt}{date}, {page.course.issue.words}"
    drawn = page.drawing.drawn
    largest = max((one.measured_mm for one in drawn.dimensions), default=math.inf) if drawn else math.inf
    general = general_words(head.unit, largest)
    return Title(head.part, page.blank.material, head.finish, head.quantity, issue, general)


def _sizes(page: SheetPage, wide: float) -> list[Any]:
    """The sizes: limits in large type where they are measured, and a box to write into."""
    rows: list[list[Any]] = [["Size", "limits", "from", "measured with", "as made"]]
    for size in page.sizes:
        beside = " · ".join(filter(None, (size.other_unit, size.grades)))
        limits = "large" if size.measured_with or size.made or not size.role else "strong"
        rows.append(
            [
                [words(size.name, "strong"), *([words(size.note, "small")] if size.note else [])],
                [words(size.words, limits), *([words(beside, "small")] if beside else [])],
                words(size.source, "small"),
                words(size.measured_with, "small"),
                words(_made(size)),
            ]
        )
    without = page.drawing.drawn is None  # else the drawing's strip says it
    loose = [words(f"Without limits: {general_words(page.head.unit)}.", "small")] if without else []
    widths = (0.20 * wide, 0.34 * wide, 0.17 * wide, 0.12 * wide, 0.17 * wide)
    return [ruled(rows, widths, boxed=(4,)), *loose]


def _details(page: SheetPage, wide: float) -> list[Any]:
    """Holes, flats and grooves, each with a box to tick as made."""
    if not page.details:
        return []
    rows: list[list[Any]] = [["", "Detail", "where and how large", "came out"]]
    for row in page.details:
        came = f"{row.came_out}, outside its limits" if row.outside else row.came_out
        rows.append(["X" if row.done_at else "", words(row.title, "strong"), words(row.words), words(came)])
    return [ruled(rows, (8, 0.28 * wide, 0.52 * wide - 8, 0.20 * wide), boxed=(0, 3))]


def _fittings(page: SheetPage, wide: float) -> list[Any]:
    """What is brought to size at assembly, with room for what came out."""
    if not page.fittings:
        return []
    rows = [["X" if row.done_at else "", words(row.asked), words(row.came_out)] for row in page.fittings]
    return [
        words("Fit at assembly", "heading"),
        ruled(rows, (8, 0.70 * wide - 8, 0.30 * wide), head=False, boxed=(0, 2)),
    ]


def _made(size: SizeRow) -> str:
    return "\n".join(
        f"{value.station + ' ' if value.station else ''}{value.words}, {value.verdict.value}"
        for value in size.made
    )


def _data(page: SheetPage, wide: float) -> list[Any]:
    found = []
    for block in page.data:
        found.append(words(block.title, "heading"))
        if block.trouble:
            found.append(words(block.trouble, "strong"))
        pairs = [list(pair) for pair in block.lines]
        if pairs:
            found.append(_two_columns(pairs, wide))
    return found


def _two_columns(pairs: list[list[str]], wide: float) -> Any:
    """Label and value, two of them side by side."""
    half = (len(pairs) + 1) // 2
    rows = []
    for number in range(half):
        other = pairs[number + half] if number + half < len(pairs) else ["", ""]
        rows.append([words(pairs[number][0], "small"), pairs[number][1], words(other[0], "small"), other[1]])
    return ruled(rows, (0.15 * wide, 0.35 * wide, 0.15 * wide, 0.35 * wide), head=False)


def _steps(page: SheetPage, wide: float) -> list[Any]:
    if not page.steps:
        return []
    rows: list[list[Any]] = [["", "step", "machine, held", "tool", "speed, feed", "done"]]
    for number, step in enumerate(page.steps, 1):
        cut = "\n".join(filter(None, (step.speed, step.feed)))
        told = [words(step.what, "body")]
        stop = "STOP and measure" if step.measure else ""
        leave = f"leave {step.leave}" if step.leave else ""
        if stop or leave:
            told.append(words("; ".join(filter(None, (stop, leave))), "strong" if stop else "small"))
        if step.note:
            told.append(words(step.note, "small"))
        held = "\n".join(filter(None, (step.machine, step.hold)))
        done = f"{step.done_at:%m-%d}" if step.done_at else ""
        rows.append(
            [
                words(str(number), "strong"),
                told,
                words(held, "small"),
                words(step.tool, "small"),
                words(cut, "small"),
                done,
            ]
        )
    widths = (7, 0.40 * wide, 0.17 * wide, 0.15 * wide, 0.19 * wide, 0.09 * wide - 7)
    tight = [words(f"Tight to make: {size.tight}.", "small") for size in page.sizes if size.tight]
    return [words("Steps", "heading"), ruled(rows, widths, boxed=(5,)), *tight]


def _tools(page: SheetPage, wide: float) -> list[Any]:
    if not page.tools:
        return []
    rows = [["X" if tool.in_hand else "", tool.what, words(tool.why, "small")] for tool in page.tools]
    return [
        words("In hand before starting", "heading"),
        ruled(rows, (8, 0.62 * wide, 0.38 * wide - 8), head=False, boxed=(0,)),
    ]


def _cautions(page: SheetPage) -> list[Any]:
    if not page.cautions:
        return []
    from reportlab.platypus import KeepTogether

    first, *others = (words(one.line(), "caution") for one in page.cautions)
    return [KeepTogether([words("Cautions", "heading"), first]), *others]


def _acceptance(page: SheetPage, wide: float) -> list[Any]:
    from reportlab.platypus import KeepTogether

    choices = "[  ] accepted    [  ] rework    [  ] scrapped    [  ] accepted by concession, reason:"
    settled = ""
    if page.course.settled:
        by = f" by {page.outcome.by}" if page.outcome.by else ""
        settled = f"{page.course.state.value}{by}, {_moment(page.outcome.settled_at)}. {page.outcome.remark}".strip()
    rows: list[list[Any]] = [
        [words("deviation and acceptance", "small"), settled or choices],
        [words("", "small"), "\n".join(page.outcome.concessions) or " "],
        [words("trial fit", "small"), page.outcome.trial_fit or " "],
        [words("marked; lies at; spare made", "small"), page.outcome.marked or " "],
    ]
    if page.outcome.note:
        rows.append([words("note", "small"), page.outcome.note])
    return [KeepTogether([words("After", "heading"), ruled(rows, (32, wide - 32), head=False, least_mm=8.5)])]


def _moment(value: dt.datetime | None) -> str:
    return show_day(value) if value is not None else "no date"
