"""Sizes that are not standard: what the next owner must know before ordering a part."""

from __future__ import annotations

from reportlab.platypus import Flowable

from rebuild.sheets.book.flow import chapter_of, prose, table
from rebuild.sheets.book.options import BookOptions
from rebuild.sheets.book.ruled import Line, Linked
from rebuild.work.book.rows import BookData


def chapter(book: BookData, _options: BookOptions) -> list[Flowable]:
    """One row a size."""
    rows: list[Line] = [
        (
            Linked(row.part, f"part-{row.part_id}"),
            "\n".join(filter(None, (row.what, row.feature))),
            row.size,
            row.instead_of,
            row.reason,
            row.since,
        )
        for row in book.odd
    ]
    content = table(
        ("Part", "What is not standard", "Size", "In place of", "Why", "Since"), rows, strong=True
    )
    if content:
        content.insert(
            0, prose("Before a part is ordered or made for one of these, or for its mate, read this.")
        )
    return chapter_of("Sizes that are not standard", "odd-sizes", content)
