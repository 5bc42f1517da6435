"""How it came apart: what came off in which order, the fasteners of every hole, shims leaf by leaf."""

from __future__ import annotations

from reportlab.platypus import Flowable

from rebuild.sheets.book.flow import chapter_of, prose, section, table
from rebuild.sheets.book.options import BookOptions
from rebuild.sheets.book.ruled import Line
from rebuild.work.book.rows import BookData, TakenApart
from rebuild.work.records.field import show_day
from rebuild.work.teardown.rows_removals import RemovalRow


def chapter(book: BookData, _options: BookOptions) -> list[Flowable]:
    """The removal log, attempt by attempt."""
    content = [
        one
        for made in book.taken_apart
        for one in section(_title(made), f"attempt-{made.attempt.id}", _attempt(made))
    ]
    return chapter_of("How it came apart", "taken-apart", content)


def _title(made: TakenApart) -> str:
    again = f", attempt {made.attempt.number}" if made.attempt.number > 1 else ""
    return f"{made.attempt.of}{again}, begun {show_day(made.attempt.began_at)}"


def _attempt(made: TakenApart) -> list[Flowable]:
    rows: list[Line] = [
        (
            str(row.number),
            row.called,
            row.way,
            _lines(row.location, row.orientation, row.match_mark and f"mark {row.match_mark}"),
            _lines(*(fastener.words for fastener in row.fasteners), *(shim.words for shim in row.shims)),
            _found(row),
        )
        for row in made.removals
    ]
    columns = ("No.", "What came off", "How", "Where and which way round", "Fasteners and shims", "Found")
    words = [
        f"The refit was stopped by: {made.attempt.stopped_by}." if made.attempt.stopped_by else "",
        f"Changed since: {made.attempt.changed}." if made.attempt.changed else "",
    ]
    said = " ".join(filter(None, words))
    return [*table(columns, rows), *([prose(said)] if said else [])]


def _found(row: RemovalRow) -> str:
    hard = f"hard: {row.hard}" if row.hard else ""
    broke = f"broke: {row.broke}" if row.broke else ""
    return _lines(row.found, hard, broke, row.note)


def _lines(*texts: str) -> str:
    return "\n".join(text for text in texts if text)
