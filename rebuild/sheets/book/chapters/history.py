"""The rebuild month by month, and how far the journal of the file reaches."""

from __future__ import annotations

import datetime as dt

from reportlab.platypus import Flowable

from rebuild.sheets.book.columns import Column
from rebuild.sheets.book.flow import chapter_of, prose, table
from rebuild.sheets.book.options import BookOptions
from rebuild.sheets.book.ruled import Line
from rebuild.work.book.rows import BookData
from rebuild.work.records.field import show_exact


def chapter(book: BookData, _options: BookOptions) -> list[Flowable]:
    """Months with their counts; the journal's span."""
    months = book.bench.months
    rows: list[Line] = [
        (
            f"{dt.date.fromisoformat(f'{one.month}-01'):%b %Y}",
            _count(one.sessions),
            f"{one.hours:g}" if one.hours else "",
            _count(one.readings),
            _count(one.decisions),
            _count(one.steps_done),
        )
        for one in months
    ]
    if rows:
        rows.append(
            (
                "in all",
                _count(sum(one.sessions for one in months)),
                f"{sum(one.hours for one in months):g}",
                _count(sum(one.readings for one in months)),
                _count(sum(one.decisions for one in months)),
                _count(sum(one.steps_done for one in months)),
            )
        )
    counted = [
        Column(head, right=True, mm=25)
        for head in ("Sessions", "Hours", "Readings", "Parts decided", "Steps done")
    ]
    content = table([Column("Month", mm=20), *counted], rows, strong=True)
    span = book.bench.journal
    if content and span.first is not None and span.last is not None:
        content.append(
            prose(
                f"The journal of the file holds {span.acts} acts from {show_exact(span.first)} to "
                f"{show_exact(span.last)}, of which {span.taken_back} were taken back. Every one of them, with the "
                "values before and after, can be read in the file itself."
            )
        )
    return chapter_of("History", "history", content)


def _count(number: int) -> str:
    return str(number) if number else ""
