"""Spares kept for this machine, and what lies in stock."""

from __future__ import annotations

from reportlab.platypus import Flowable

from rebuild.sheets.book.flow import chapter_of, section, table
from rebuild.sheets.book.options import BookOptions
from rebuild.sheets.book.ruled import Line, Linked
from rebuild.words.parts import Origin
from rebuild.work.book.rows import BookData


def chapter(book: BookData, _options: BookOptions) -> list[Flowable]:
    """Spare parts, donors, stock."""
    content = [
        *section("Spares", "spares", _spares(book)),
        *section("In stock", "stock", _stock(book)),
    ]
    return chapter_of("Spares and stock", "spares-and-stock", content)


def _spares(book: BookData) -> list[Flowable]:
    rows: list[Line] = [
        (
            Linked(part.title, f"part-{part.id}"),
            part.spare_of,
            part.origin.value,
            str(part.quantity),
            part.place,
            part.note,
        )
        for group in book.groups
        for part in group.parts
        if part.spare_of or part.origin is Origin.DONOR
    ]
    return table(("Part", "Spare of", "Source", "Qty", "Lies in", "Note"), rows, strong=True)


def _stock(book: BookData) -> list[Flowable]:
    rows: list[Line] = [
        (one.name, one.material, one.sizes, one.thread, one.quantity, one.place, one.note)
        for one in book.bought.stock
    ]
    return table(("What", "Material", "Sizes", "Thread", "Quantity", "Lies in", "Note"), rows, strong=True)
