"""The test chart on one printed page: set-up, allowed, as found and after, with where each limit comes from."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from rebuild.sheets.paper import A4, MM, Heading, Paper, build
from rebuild.sheets.strokes_pdf import sketch_flowable
from rebuild.sheets.table import cell, dense, on_one_page
from rebuild.trade.charts.set_up_sketches import sketch
from rebuild.words.counted import counted
from rebuild.work.charts.rows import chart
from rebuild.work.charts.rows_levelling import Levelling, levelling
from rebuild.work.charts.rows_tests import LineRow, ReadRow, TestRow, shown_value
from rebuild.work.machines.rows_tree import machines
from rebuild.work.records.field import show_exact
from rebuild.work.records.rows import card
from rebuild.work.records.rows_settings import verdict_rule

if TYPE_CHECKING:
    from rebuild.store.store import Store

_HEAD = ("Set-up", "Test", "Position", "Limit", "As found", "After", "Verdict")
_SHARES = (0.135, 0.17, 0.125, 0.165, 0.155, 0.125, 0.125)


_RESERVE = (
    "A limit that is not published does not pass or fail a machine by itself. Verdicts count the uncertainty of the "
    "instrument; a reading without one is undecided."
)


@dataclass(frozen=True, slots=True)
class ChartPage:
    """What stands on the page."""

    machine: str
    kind: str
    serial: str
    tests: tuple[TestRow, ...]
    levels: Levelling
    unit: str


def chart_page(store: Store, machine_id: int, unit: str = "") -> ChartPage:
    """Read the chart of a machine; ``unit`` is mm or in for all lengths, empty for the machine's."""
    with store.read() as connection:
        machine = next(row for row in machines(connection) if row.id == machine_id)
        tests = chart(connection, machine_id, verdict_rule(store))
        levels = levelling(connection, machine_id)
        serial = card(connection, "machine", machine_id).fields["serial"]
    return ChartPage(machine.name, machine.kind.value, serial, tuple(tests), levels, unit or machine.unit)


def write_test_chart(
    store: Store,
    machine_id: int,
    target: Path,
    on: Paper = A4,
    *,
    unit: str = "",
    printed: dt.datetime | None = None,
) -> int:
    """Print the chart of a machine; returns how many pages it took (one, unless it is very long).

    Raises:
        FileTrouble: it cannot be written there.
    """
    page = chart_page(store, machine_id, unit)
    read = [line for test in page.tests for line in test.lines]
    after = sum(line.after is not None for line in read)
    heading = Heading(
        "Test chart",
        page.machine,
        (
            f"{page.kind}, serial number {page.serial}"
            if page.serial
            else f"{page.kind}, serial number …………",
            f"{counted(len(page.tests), 'test')}, {counted(len(read), 'position')}",
            f"{after} read after",
        ),
        "",
        f"Test chart · {page.machine}",
    )
    return on_one_page(lambda size: build(target, heading, story(page, size, on), on, printed=printed))


def story(page: ChartPage, size: float, on: Paper = A4) -> list[Any]:
    """The table with its notes, in letters of ``size`` points."""
    from reportlab.platypus import Spacer

    wide = on.inside_mm
    notes = _Notes()
    rows: list[list[Any]] = []
    starts: list[int] = []
    commands: list[tuple[int, int]] = []
    for test in page.tests:
        starts.append(len(rows))
        for at, line in enumerate(test.lines):
            first = [
                sketch_flowable(sketch(test.sketch), wide * _SHARES[0] - 3),
                cell(test.called, size, bold=True),
            ]
            rows.append([*(first if at == 0 else ["", ""]), *_cells(line, page.unit, notes)])
        if len(test.lines) > 1:
            commands.append((starts[-1] + 1, len(rows)))
    table = dense(_HEAD, rows, [share * wide for share in _SHARES], size, starts)
    table.setStyle(
        [("SPAN", (column, first), (column, last)) for first, last in commands for column in (0, 1)]
    )
    table.setStyle([("ALIGN", (0, 0), (0, -1), "LEFT")])
    small = size - 0.8
    told: list[Any] = [table, Spacer(0, 2 * MM)]
    told += [cell(f"{letter}  {text}", small, grey=True) for letter, text in notes.listed()]
    told += [cell(f"▸ {test.called}: {words}", small) for test in page.tests for words in test.warnings]
    told += [cell(words, small) for words in _level_words(page.levels)]
    told.append(cell(_RESERVE, small, grey=True))
    return told


class _Notes:
    """Letters for the origins of limits, in the order they are first used."""

    def __init__(self) -> None:
        self._letters: dict[str, str] = {}

    def letter(self, origin: str, status: str) -> str:
        """The letter of an origin."""
        text = f"{origin or 'as entered'} ({status})"
        return self._letters.setdefault(text, chr(ord("a") + len(self._letters) % 26))

    def listed(self) -> list[tuple[str, str]]:
        """Each letter with its origin."""
        return [(letter, text) for text, letter in self._letters.items()]


def _cells(line: LineRow, unit: str, notes: _Notes) -> list[str]:
    allowed = line.allowed_words(unit)
    if line.limit.allowed_mm is not None:
        allowed += f" [{notes.letter(line.origin, line.status.value)}]"
    verdict = ", then ".join(read.verdict.value for read in (line.found, line.after) if read is not None)
    return [line.name, allowed, _read(line.found, unit, line), _read(line.after, unit, line), verdict]


def _read(row: ReadRow | None, unit: str, line: LineRow) -> str:
    if row is None:
        return "…………"
    words = [shown_value(row, unit, line.unit)]
    if row.over_mm and line.limit.per_mm and abs(row.over_mm - line.limit.per_mm) > 0.005 * line.limit.per_mm:
        words.append(f"over {row.over_mm / (25.4 if unit == 'in' else 1):g} {unit}")
    warm = f", {row.temperature_c:g} °C" if row.temperature_c is not None else ""
    words.append(f"{show_exact(row.taken_at)}{warm}")
    return "\n".join(words)


def _level_words(levels: Levelling) -> Sequence[str]:
    said = [f"Level {one.called}: {one.settled.value.text}." for one in levels.series]
    if levels.twist is not None:
        said.append(f"{levels.twist.value.text.capitalize()}.")
    return said
