"""What the book of a machine would hold, counted; no paper is needed to say it."""

from __future__ import annotations

from rebuild.words.counted import counted
from rebuild.work.book.rows import BookData
from rebuild.work.records.field import show_exact


def holds(book: BookData) -> tuple[tuple[str, str], ...]:
    """Chapter and how much stands in it; what is empty is left out, as in the book."""
    parts = sum(len(group.parts) for group in book.groups)
    readings = sum(len(line.readings) for line in book.features)
    removals = sum(len(one.removals) for one in book.taken_apart)
    again = sum(line.found_and_now is not None for line in book.features)
    lines = (
        ("How it came apart", removals, "removal"),
        ("Subassemblies and parts", parts, "part"),
        ("As found to rebuilt", again, "size"),
        ("Readings and verdicts", readings, "reading"),
        ("Fits as built", len(book.fits), "fit"),
        ("Sizes that are not standard", len(book.odd), "size"),
        ("Making sheets", len(book.sheets), "sheet"),
        ("Surveys of ways and plates", len(book.surveys), "survey"),
        ("Test chart", len(book.tried.chart), "test"),
        ("Lubrication card", len(book.oil.rows), "point"),
        ("Adjustments and joints", len(book.joints), "joint"),
        ("Commissioning", len(book.tried.run) + len(book.tried.cuts) + len(book.tried.checks), "line"),
        ("Spares and stock", len(book.bought.stock), "item in stock"),
        ("Orders and loans", len(book.bought.waiting), "order"),
        ("Photos", len(book.photos), "photo"),
        ("Questions and answers", len(book.bench.questions), "question"),
        ("Bench log", len(book.bench.log), "session"),
        ("History", len(book.bench.months), "month"),
    )
    return tuple((title, _words(count, one)) for title, count, one in lines if count)


def _words(count: int, one: str) -> str:
    """``3 items in stock``.

    >>> _words(1, "reading"), _words(3, "item in stock")
    ('1 reading', '3 items in stock')
    """
    first, _, rest = one.partition(" ")
    plural = first if count == 1 else f"{first}s"
    return f"{count} {plural} {rest}".strip()


def on_the_title(book: BookData) -> tuple[tuple[str, str], ...]:
    """What the title page says of the machine beneath its name; a word not known is empty, and left out there."""
    known = book.identity
    parts = sum(len(group.parts) for group in book.groups)
    readings = sum(len(line.readings) for line in book.features)
    return (
        ("Kind", book.kind.value),
        ("Serial number", known.get("serial", "")),
        ("Scope of the rebuild", known.get("scope", "")),
        ("Rebuilt by", book.owner),
        (
            "Holds",
            f"{counted(len(book.groups), 'subassembly', 'subassemblies')}, "
            f"{counted(parts, 'part')}, {counted(readings, 'reading')}, "
            f"{counted(len(book.fits), 'fit')}",
        ),
        ("Verdicts by", book.rule.value),
        ("Data as of", show_exact(book.as_of) if book.as_of else "nothing done yet"),
    )
