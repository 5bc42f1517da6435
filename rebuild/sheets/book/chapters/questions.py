"""Questions that came up and what answered them; what was assumed is called so."""

from __future__ import annotations

from reportlab.platypus import Flowable

from rebuild.sheets.book.flow import chapter_of, table
from rebuild.sheets.book.options import BookOptions
from rebuild.sheets.book.ruled import Line
from rebuild.work.book.rows import BookData
from rebuild.work.records.field import show_day


def chapter(book: BookData, _options: BookOptions) -> list[Flowable]:
    """Open ones first."""
    rows: list[Line] = [
        (
            row.text,
            row.about,
            row.state.value,
            row.answer,
            "\n".join(
                filter(
                    None,
                    (
                        row.answered_by,
                        show_day(row.answered_at) if row.answered_at is not None else "",
                        row.asked_where and f"asked at {row.asked_where}",
                    ),
                )
            ),
        )
        for row in book.bench.questions
    ]
    content = table(("Question", "About", "State", "Answer", "By and when"), rows)
    return chapter_of("Questions and answers", "questions", content)
