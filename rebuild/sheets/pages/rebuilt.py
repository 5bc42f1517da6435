"""A subassembly from as found to rebuilt on one page: photos, readings before and after, decisions, hours."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from rebuild.sheets.pages.measuring_sheet import grid_rows
from rebuild.sheets.paper import A4, MM, Heading, Paper, build
from rebuild.sheets.pictures import picture
from rebuild.sheets.table import SIZES, cell, dense, on_one_page
from rebuild.words.counted import counted
from rebuild.words.photos import PhotoPhase
from rebuild.words.readings import Stage
from rebuild.work.machines.rows_named import subassembly_named, with_inner
from rebuild.work.machines.rows_tree import CLOSED, PartRow, machines, parts
from rebuild.work.photos.rows import PhotoRow, Which, photos
from rebuild.work.readings.rows_grid import GridRow, ReadingRow
from rebuild.work.readings.told_in import told_reading, told_spec
from rebuild.work.steps.rows import TaskRow, tasks
from rebuild.work.waiting.rows_costs import by_subassembly

if TYPE_CHECKING:
    from rebuild.store.store import Store

_HEAD = ("Part", "Feature", "To be", "As found", "Now", "Verdict")
_SHARES = (0.21, 0.23, 0.15, 0.12, 0.12, 0.17)
#: Letters tried, the largest first [pt].
_SIZES = (10.5, 9.8, 9.2, *SIZES)
#: Photos of each time, and how high the row of them is [mm].
MOST_PHOTOS, HIGH_MM = 2, 52.0


@dataclass(frozen=True, slots=True)
class Rebuilt:
    """What stands on the page."""

    machine: str
    unit: str
    title: str
    parts: tuple[PartRow, ...]
    readings: tuple[GridRow, ...]
    before: tuple[PhotoRow, ...]
    after: tuple[PhotoRow, ...]
    steps: tuple[TaskRow, ...]
    hours: float


def write_rebuilt(
    store: Store,
    machine_id: int,
    subassembly_id: int,
    target: Path,
    on: Paper = A4,
    *,
    printed: dt.datetime | None = None,
) -> int:
    """Print the page of one subassembly with what is inside it; returns the pages (one, unless it is very long).

    Raises:
        FileTrouble: it cannot be written there.
    """
    page = rebuilt(store, machine_id, subassembly_id)
    heading = Heading(
        "As found to rebuilt",
        page.title,
        (page.machine, counted(len(page.parts), "part"), f"{page.hours:g} h"),
        foot=f"{page.title} · {page.machine}",
    )
    return on_one_page(
        lambda size: build(target, heading, story(page, store.path, size, on), on, printed=printed), _SIZES
    )


def rebuilt(store: Store, machine_id: int, subassembly_id: int) -> Rebuilt:
    """Read what the page tells."""
    readings = grid_rows(store, machine_id, subassembly_id)
    with store.read() as connection:
        machine = next(row for row in machines(connection) if row.id == machine_id)
        title = subassembly_named(connection, machine_id, subassembly_id)
        inside = with_inner(connection, machine_id, subassembly_id) or frozenset()
        named = {subassembly_named(connection, machine_id, key) for key in inside}
        mine = [row for row in parts(connection, machine_id) if row.subassembly_id in inside]
        shown = [
            row for key in inside for row in photos(connection, machine_id, Which.CHOSEN, subassembly_id=key)
        ]
        if mine:
            ids = tuple(row.id for row in mine)
            shown += photos(connection, machine_id, Which.CHOSEN, part_ids=ids)
        steps = tasks(connection, machine_id, inside)
        hours = sum(row.hours for row in by_subassembly(connection, machine_id) if row.name in named)
    once = {row.id: row for row in shown}.values()
    return Rebuilt(
        machine.name,
        machine.unit,
        title,
        tuple(mine),
        tuple(row for row in readings if row.speaking is not None),
        tuple(row for row in once if row.phase is PhotoPhase.AS_FOUND)[:MOST_PHOTOS],
        tuple(row for row in once if row.phase is PhotoPhase.AFTER)[:MOST_PHOTOS],
        tuple(steps),
        hours,
    )


def story(page: Rebuilt, project: Path, size: float, on: Paper = A4) -> list[Any]:
    """Photos, what was decided and done, and the readings, in letters of ``size`` points."""
    from reportlab.platypus import Spacer

    told: list[Any] = [*_photos(page, project, on.inside_mm), Spacer(0, 2 * MM)]
    told.append(cell(_decided(page), size))
    told.append(cell(_done(page), size))
    told.append(Spacer(0, 2 * MM))
    if page.readings:
        rows, starts = _lines(page.readings, page.unit)
        told.append(dense(_HEAD, rows, [share * on.inside_mm for share in _SHARES], size, starts))
    else:
        told.append(cell("Nothing was measured on it.", size))
    return told


def _photos(page: Rebuilt, project: Path, wide: float) -> list[Any]:
    """As found on the left, after on the right; a time without a photo says so."""
    from reportlab.platypus import Table

    if not page.before and not page.after:
        return [cell("No photo of it, neither as found nor rebuilt.", 9.0, grey=True)]
    half = wide / 2
    cells, heads = [], []
    for name, rows in (("As found", page.before), ("Rebuilt", page.after)):
        each = (half - 4) / max(1, len(rows))
        made = [picture(row.path(project), each - 1, HIGH_MM) for row in rows]
        read = [one for one in made if one is not None]
        heads.append(cell(name, 10.5, bold=True))
        cells.append([_side_by_side(read, each)] if read else [cell("No photo of it.", 9.0, grey=True)])
    table = Table([heads, cells], colWidths=[half * MM, half * MM])
    table.setStyle([("VALIGN", (0, 0), (-1, -1), "TOP"), ("LEFTPADDING", (0, 0), (0, -1), 0)])
    return [table]


def _side_by_side(pictures: Sequence[Any], each_mm: float) -> Any:
    from reportlab.platypus import Table

    table = Table([list(pictures)], colWidths=[each_mm * MM] * len(pictures))
    table.setStyle([("LEFTPADDING", (0, 0), (-1, -1), 0), ("RIGHTPADDING", (0, 0), (-1, -1), 2)])
    table.hAlign = "LEFT"
    return table


def _decided(page: Rebuilt) -> str:
    counts = Counter(row.decision for row in page.parts)
    said = ", ".join(f"{decision.value} {number}" for decision, number in counts.most_common())
    return f"Decided of its parts: {said}." if said else "It has no parts yet."


def _done(page: Rebuilt) -> str:
    done = sum(step.state in CLOSED for step in page.steps)
    judged = Counter(row.judgement.verdict.value for row in page.readings if row.judgement is not None)
    verdicts = ", ".join(f"{word} {number}" for word, number in judged.most_common())
    return f"Steps done: {done} of {len(page.steps)}." + (f" Readings: {verdicts}." if verdicts else "")


def _lines(readings: Sequence[GridRow], own: str) -> tuple[list[tuple[str, ...]], list[int]]:
    """The rows, a part named at its first one only, and which rows begin a part."""
    rows, starts, named = [], [], ""
    for at, row in enumerate(readings):
        line = _line(row, own)
        if line[0] != named:
            starts.append(at)
        rows.append(("" if line[0] == named else line[0], *line[1:]))
        named = line[0]
    return rows, starts


def _line(row: GridRow, own: str) -> tuple[str, ...]:
    found = next((one for one in row.readings if one is not None and one.stage is Stage.AS_FOUND), None)
    now = row.speaking if row.speaking is not found else None
    where = ", ".join(filter(None, (row.feature, row.station)))
    verdict = row.judgement.verdict.value if row.judgement is not None else ""
    return (
        f"{row.part_code} {row.part_name}".strip(),
        where,
        told_spec(row, own),
        _read(found, own),
        _read(now, own),
        verdict,
    )


def _read(one: ReadingRow | None, own: str) -> str:
    said = told_reading(one, own)
    for unit in (own, one.unit if one is not None else own):
        said = said.replace(f" {unit}", f"\N{NO-BREAK SPACE}{unit}")
    return said
