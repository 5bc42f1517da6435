"""The bench log, oldest first."""

from __future__ import annotations

from reportlab.platypus import Flowable

from rebuild.sheets.book.columns import Column
from rebuild.sheets.book.flow import chapter_of, table, warmth
from rebuild.sheets.book.options import BookOptions
from rebuild.sheets.book.ruled import Line
from rebuild.work.book.rows import BookData
from rebuild.work.log.rows import LogRow
from rebuild.work.records.field import show_day


def chapter(book: BookData, options: BookOptions) -> list[Flowable]:
    """One row a session, unless the log was not wanted."""
    if not options.log:
        return []
    columns = (
        Column("On", mm=19),
        Column("Hours", right=True, mm=9),
        Column("°C", right=True, mm=7),
        "Did",
        "Found",
        "Left, next, blocked",
    )
    content = table(columns, [_session(row) for row in book.bench.log])
    return chapter_of("Bench log", "bench-log", content)


def _session(row: LogRow) -> Line:
    after = (
        row.left_on_bench and f"left: {row.left_on_bench}",
        row.next_step and f"next: {row.next_step}",
        row.blocked_by and f"blocked by: {row.blocked_by}",
        row.do_not_forget and f"mind: {row.do_not_forget}",
    )
    return (
        show_day(row.at),
        f"{row.hours:g}" if row.hours is not None else "",
        warmth(row.temperature_c),
        row.did,
        row.found,
        "\n".join(filter(None, after)),
    )
