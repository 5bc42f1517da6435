"""The list that lies in a tray or bag: its name large, its code, and what must be in it, to be ticked off."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from rebuild.errors import BadEntry
from rebuild.sheets.labels.flowable import square_pair
from rebuild.sheets.paper import A4, Heading, Paper, build, words
from rebuild.sheets.table import cell, ruled
from rebuild.work.labels.rows import place_labels
from rebuild.work.places.rows import Lying, lying, places
from rebuild.work.records.wall_clock import now

if TYPE_CHECKING:
    from rebuild.store.store import Store

_HOUR = re.compile(r" \d{1,2}:\d\d(?=,|$)")
TICK = "☐"
_HEAD = ("", "What lies here", "What it is", "Of", "Since")
_SHARES = (0.06, 0.37, 0.12, 0.19, 0.26)
#: Letters [pt] and the least height of a row [mm] for so many things at most: few are read from further off.
_SIZES = ((5, 14.0, 13.0), (10, 12.5, 10.0), (10_000, 10.5, 7.0))
_NAME = 24.0
#: So many things are a short list: two of them go on a page.
_SHORT = 16


def write_tray_list(
    store: Store,
    place_ids: Sequence[int],
    target: Path,
    on: Paper = A4,
    *,
    printed: dt.datetime | None = None,
) -> int:
    """Print what lies in places; returns how many pages it took.

    Short lists come first, several on a page to be cut apart; each other one has a page of its own.

    Raises:
        BadEntry: no place is named.
        FileTrouble: it cannot be written there.
    """
    from reportlab.platypus import PageBreak

    short: list[list[Any]] = []
    long: list[Any] = []
    with store.read() as connection:
        chosen = [row for row in places(connection) if row.id in set(place_ids)]
        codes = {row.id: place_labels(connection, [row.id])[0].code for row in chosen}
        for row in chosen:
            things = lying(connection, row.id, printed or now())
            page = [
                *_head(row.called, row.note, len(things), codes[row.id], on),
                _things(things, on.inside_mm),
            ]
            if len(things) > _SHORT:
                long += [PageBreak(), *page]
            else:
                short.append(page)
    if not chosen:
        raise BadEntry("names no place.", where="Tray list", way_out="Choose a place, or add one first.")
    title = chosen[0].called if len(chosen) == 1 else "What lies where"
    story = [*_to_be_cut(short), *long]
    return build(target, Heading("Tray list", title, foot=title), story[not short :], on, printed=printed)


def _to_be_cut(pages: Sequence[list[Any]]) -> list[Any]:
    """Short lists beneath each other, none torn, a dashed line between two."""
    from reportlab.platypus import HRFlowable, KeepTogether, Spacer

    cut = (Spacer(0, 10), HRFlowable(width="100%", color="grey", dash=(3, 3)), Spacer(0, 10))
    return [KeepTogether([*(cut if at else ()), *page]) for at, page in enumerate(pages)]


def _head(called: str, note: str, count: int, code: str, on: Paper) -> list[Any]:
    from reportlab.platypus import Spacer, Table

    said = [
        cell(called, _NAME, bold=True),
        Spacer(0, 3),
        words(f"{count} in it{f'. {note}' if note else ''}"),
    ]
    pair = square_pair(code, 18.0)
    table = Table([[said, pair]], colWidths=[on.inside_mm * 72 / 25.4 - pair.width, pair.width])
    table.setStyle([("VALIGN", (0, 0), (-1, -1), "TOP"), ("LEFTPADDING", (0, 0), (-1, -1), 0)])
    return [table, Spacer(0, 6)]


def _things(things: Sequence[Lying], wide: float) -> Any:
    if not things:
        return words("Nothing is noted to lie here.")
    size, high = next((size, high) for most, size, high in _SIZES if len(things) <= most)
    rows: list[tuple[Any, ...]] = [
        tuple(
            cell(word, size if at < 2 else min(size, 11.0), bold=at == 1)
            for at, word in enumerate(
                (TICK, one.called, one.sort.value, one.machine, _in_one_line(one.since))
            )
        )
        for one in things
    ]
    return ruled([_HEAD, *rows], [share * wide for share in _SHARES], least_mm=high)


def _in_one_line(since: str) -> str:
    """The day and how long that is: the hour says nothing on a list that lies in a tray.

    >>> _in_one_line("7 Jun 2025 11:00, 542 d")
    '7 Jun 2025, 542 d'
    """
    return _HOUR.sub("", since)
