"""The story of a part on one printed page: as found beside as made, and what was done when."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import Any

from rebuild.sheets.paper import A4, Heading, Paper, build, words
from rebuild.sheets.table import ruled
from rebuild.work.making.rows_story import PartStory
from rebuild.work.records.field import show_day


def write_part_story(
    told: PartStory, target: Path, on: Paper = A4, *, printed: dt.datetime | None = None
) -> int:
    """Print the story of a part; returns how many pages it took. Raises FileTrouble."""
    heading = Heading(
        f"From as found to as made · {told.machine}",
        told.part,
        (told.material,),
        "",
        f"{told.part} · {told.machine}",
    )
    return build(target, heading, story(told, on), on, printed=printed)


def story(told: PartStory, on: Paper = A4) -> list[Any]:
    """What stands on the page."""
    wide = on.inside_mm
    found: list[Any] = []
    facts = [
        [words(label, "small"), text]
        for label, text in (("condition as found", told.condition), ("decision", told.decision))
        if text
    ]
    if facts:
        found.append(ruled(facts, (32, wide - 32), head=False))
    if told.features:
        rows: list[list[Any]] = [["Feature", "wanted", "first read", "last read", "verdict on the last"]]
        rows += [[one.feature, one.wanted, one.first, one.last, one.verdict] for one in told.features]
        found.append(ruled(rows, (0.24 * wide, 0.18 * wide, 0.22 * wide, 0.22 * wide, 0.14 * wide)))
    if told.events:
        found.append(words("What was done", "heading"))
        days = [[show_day(event.when), words(event.what, "strong"), event.text] for event in told.events]
        found.append(ruled(days, (22, 0.27 * wide, 0.73 * wide - 22), head=False))
    if told.fits:
        found.append(words("Its fits now", "heading"))
        found += [words(line) for line in told.fits]
    return found
