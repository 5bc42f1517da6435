"""The chapters of the book in their order, one module each; a chapter without anything to say is left out."""

from __future__ import annotations

#: ``title`` is the first page; every other module is a chapter: ``chapter(book, options) -> list of flowables``.
CHAPTERS = (
    "identity", "condition", "taken_apart", "parts", "rebuilt", "readings", "fits", "odd_sizes", "making", "surveys",
    "charts", "oil", "adjustments", "controls", "commissioning", "spares", "orders", "photos", "questions", "bench_log",
    "history", "cautions", "colophon",
)  # fmt: skip
