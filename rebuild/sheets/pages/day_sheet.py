"""Tonight on paper: each step that fits, with its photo, sizes, torque, cautions and the boxes its parts lie in."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import TYPE_CHECKING, Any

from rebuild.sheets.pages.tray_list import TICK
from rebuild.sheets.paper import A4, MM, Heading, Paper, build, words
from rebuild.sheets.pictures import picture
from rebuild.sheets.table import ruled
from rebuild.trade.results.cautions import stored_caution
from rebuild.trade.sizes.amounts import show_minutes
from rebuild.words.counted import counted
from rebuild.work.day_sheet.rows import DayStep, day_steps
from rebuild.work.machines.rows_tree import machines
from rebuild.work.plan.rows_tonight import Tonight
from rebuild.work.readings.told_in import told_reading, told_spec
from rebuild.work.records.field import show_day
from rebuild.work.records.rows_settings import verdict_rule
from rebuild.work.records.wall_clock import now
from rebuild.work.steps.rows import TaskRow

if TYPE_CHECKING:
    from rebuild.store.store import Store

PHOTO_MM, MOST_SIZES = 58.0, 8


def write_day_sheet(
    store: Store,
    machine_id: int,
    tonight: Tonight,
    target: Path,
    on: Paper = A4,
    *,
    printed: dt.datetime | None = None,
) -> int:
    """Print the steps that fit an evening, best first, as many as its minutes hold; returns the pages.

    Raises:
        FileTrouble: it cannot be written there.
    """
    day, rule = printed or now(), verdict_rule(store)
    with store.read() as connection:
        machine = next(row for row in machines(connection) if row.id == machine_id)
        steps = day_steps(connection, machine_id, tonight, day, rule)
    heading = Heading(
        "Day sheet",
        machine.name,
        (show_day(day), f"{show_minutes(tonight.minutes)}, {counted(len(steps), 'step')}"),
        foot=f"Day sheet · {machine.name}",
    )
    story: list[Any] = []
    for one in steps:
        story += _step(one, machine.unit, store.path, on.inside_mm)
    if not steps:
        story.append(words("No open step fits. Give it more time, another place or a helper."))
    story += [words("Done, found, left on the bench, next:", "strong")]
    story.append(ruled([("",), ("",), ("",)], [on.inside_mm], head=False, least_mm=9.0))
    return build(target, heading, story, on, printed=day)


def _step(one: DayStep, own: str, project: Path, wide: float) -> list[Any]:
    """A step as one block that is not torn between pages."""
    from reportlab.platypus import KeepTogether, Spacer, Table

    shown = picture(one.photo.path(project), PHOTO_MM, PHOTO_MM * 0.8) if one.photo is not None else None
    said = [words(f"{TICK}  {one.title}", "large"), *(words(line) for line in lines_of(one, own))]
    said += [words(stored_caution(topic).line()) for topic in one.step.cautions] if one.step else []
    widths = [wide - PHOTO_MM - 2, PHOTO_MM + 2] if shown is not None else [wide]
    cells = [said, shown] if shown is not None else [said]
    table = Table([cells], colWidths=[width * MM for width in widths])
    table.setStyle([
        ("VALIGN", (0, 0), (-1, -1), "TOP"), ("LEFTPADDING", (0, 0), (0, 0), 0),
        ("LINEBELOW", (0, 0), (-1, 0), 0.6, "black"),
    ])  # fmt: skip
    return [KeepTogether([table]), Spacer(0, 4)]


def lines_of(one: DayStep, own: str) -> list[str]:
    """What stands under the step's title, a line each; sizes in ``own``, mm or in, first."""
    step, off = one.step, one.off
    at = [f"about {show_minutes(one.minutes)}" if one.minutes is not None else "", one.where]
    at += ["follows from what is known"] if step is None else []
    said = [", ".join(filter(None, at))]
    said += [f"Why tonight: {one.why}"] if one.why else []
    said += [f"Part: {one.part}" + (f", lies in {one.lies}" if one.lies else "")] if one.part else []
    said += _asked(step) if step is not None else []
    if off is not None:
        sat = [
            off.orientation and f"this way round: {off.orientation}",
            off.match_mark and f"mark {off.match_mark}",
        ]
        said.append(f"Came off as no. {off.number}: {', '.join(filter(None, (off.way, *sat)))}")
        said += [held.words for held in off.fasteners] + [f"shims {pack.words}" for pack in off.shims]
    for row in one.sizes[:MOST_SIZES]:
        read = told_reading(row.speaking, own)
        where = ", ".join(filter(None, (row.feature, row.station)))
        said.append(f"{where}: {told_spec(row, own) or 'no limits'}" + (f", read {read}" if read else ""))
    if len(one.sizes) > MOST_SIZES:
        said.append(f"and {len(one.sizes) - MOST_SIZES} more sizes on the measuring sheet")
    said += [step.note] if step is not None and step.note else []
    return [line for line in said if line]


def _asked(step: TaskRow) -> list[str]:
    """What a typed step asks for: torque, tools, what must hold, that it cannot be undone."""
    said = [f"Torque: {step.torque_wanted}   set to ……………"] if step.torque_wanted else []
    said += [f"Tools: {step.tools}"] if step.tools else []
    said += [", ".join(filter(None, (kind.value, detail))) for kind, detail in step.constraints]
    said += ["Cannot be undone: read it again before you begin."] if step.irreversible else []
    return said
