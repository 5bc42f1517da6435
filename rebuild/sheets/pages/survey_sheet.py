"""The blank sheet of a survey: a row a place and a column a run of a line, as the Survey page has them.

Typed back column by column, in the page's own order.
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import TYPE_CHECKING

from rebuild.sheets.paper import A4, FOOT_MM, TOP_MM, Heading, Paper, build, unit_name, words
from rebuild.sheets.table import ruled
from rebuild.trade.geometry.flatness import line_words
from rebuild.trade.sizes.show import exact_text
from rebuild.words.surveys import BETWEEN_STATIONS
from rebuild.work.machines.rows_tree import machines
from rebuild.work.surveys.data import SurveyData
from rebuild.work.surveys.rows import survey_data

if TYPE_CHECKING:
    from rebuild.store.store import Store

#: Columns on one page, and rows where nobody has measured yet, so that it is not known how many there are.
ACROSS, UNKNOWN_ROWS = 8, 16
#: The lengths meant by those who read so.
_LENGTHS = {"in": "in", "in/ft": "in", "mm": "mm", "mm/m": "mm"}
#: Heights of a row, the lines for what was seen and how high each is, and what else stands on the page [mm].
_LOWEST_MM, _HIGHEST_MM, _SEEN, _SEEN_MM, _ROUND_IT_MM = 8.5, 14.0, 3, 9.0, 36.0


def write_survey_sheet(
    store: Store,
    machine_id: int,
    survey_id: int,
    target: Path,
    on: Paper = A4,
    *,
    printed: dt.datetime | None = None,
) -> int:
    """Print the blank sheet of one survey, there and back; returns how many pages it took.

    Raises:
        NotThere: the survey was removed.
        FileTrouble: it cannot be written there.
    """
    from reportlab.platypus import Spacer

    with store.read() as connection:
        data = survey_data(connection, survey_id)
        before = survey_data(connection, data.before_id) if data.before_id is not None else None
        machine = next(row for row in machines(connection) if row.id == machine_id)
    told = [f"readings in {unit_name(data.unit)}"]
    told += [f"step {_step(data.step_mm, data.unit, machine.unit)}"] if data.step_mm is not None else []
    heading = Heading(
        "Survey sheet", data.name, (machine.name, data.method.value, ", ".join(told)), foot=data.name
    )
    story = [words("Date ……………   Instrument ……………………   Begun at ………………   Shop ……… °C   Settled …… h")]
    columns, rows = columns_of(data), places_of(data, before)
    for first in range(0, len(columns), ACROSS):
        names = columns[first : first + ACROSS]
        word = "step" if data.method in BETWEEN_STATIONS else "station"
        lines = [(f"{word} {number}", *("" for _ in names)) for number in range(1, rows + 1)]
        width = (on.inside_mm - 22.0) / max(len(names), 4)
        boxed = tuple(range(1, len(names) + 1))
        high = _row_mm(on, rows)
        table = ruled([("", *names), *lines], [22.0, *(width for _ in names)], least_mm=high, boxed=boxed)
        story += [Spacer(0, 6), table]
    story += [
        Spacer(0, 8),
        words("Seen, set up how, what stood in the way:", "strong"),
        ruled([("",)] * _SEEN, [on.inside_mm], head=False, least_mm=_SEEN_MM),
    ]
    return build(target, heading, story, on, printed=printed)


def _row_mm(on: Paper, rows: int) -> float:
    """Rows high enough to write in with a gloved hand, as long as one page holds them."""
    room = on.height_mm - TOP_MM - FOOT_MM - _ROUND_IT_MM - _SEEN * _SEEN_MM
    return min(_HIGHEST_MM, max(_LOWEST_MM, room / max(rows, 1)))


def _step(step_mm: float, unit: str, own: str) -> str:
    """The step in the unit that is read in; where that is no length (arcsec, divisions), in the machine's."""
    shown = _LENGTHS.get(unit, own)
    return f"{exact_text(step_mm, shown)} {shown}"


def columns_of(data: SurveyData) -> list[str]:
    """The columns in the order they are typed: each line there and, behind it, back."""
    names = [line_words(line.name) for line in data.lines]
    return [column for name in names for column in (name, f"{name}, back")]


def places_of(data: SurveyData, before: SurveyData | None) -> int:
    """How many places there are: as many as were measured, in it or in the survey it is compared with."""
    runs = [
        run for one in (data, before) if one is not None for line in one.lines for run in line.runs.values()
    ]
    return max((len(run) for run in runs), default=UNKNOWN_ROWS)
