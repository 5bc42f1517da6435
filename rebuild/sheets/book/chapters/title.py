"""The first page: which machine this is, drawn in outline, and what its data are as of."""

from __future__ import annotations

from reportlab.lib.enums import TA_LEFT
from reportlab.platypus import Flowable, PageBreak, Paragraph, Spacer

from rebuild.sheets.book.figures import Sketch
from rebuild.sheets.book.flow import facts, prose, style
from rebuild.sheets.book.holds import on_the_title
from rebuild.sheets.book.options import BookOptions
from rebuild.sheets.paper import MM, paragraph
from rebuild.trade.lubrication.machine_outline import outline
from rebuild.work.book.rows import BookData
from rebuild.work.records.field import show_day


def chapter(book: BookData, options: BookOptions) -> list[Flowable]:
    """The title page."""
    known = book.identity
    return [
        Spacer(1, 30 * MM),
        _large("The machine’s book", 11),
        Spacer(1, 5 * MM),
        _large(book.name, 30),
        Spacer(1, 3 * MM),
        _large(", ".join(filter(None, (known.get("model", ""), known.get("year", "")))), 13),
        Spacer(1, 16 * MM),
        Sketch(outline(book.kind.value), 120 * MM),
        Spacer(1, 16 * MM),
        *facts((*on_the_title(book), ("Printed", show_day(options.printed) if options.printed else ""))),
        Spacer(1, 6 * MM),
        prose(
            "Every size is as it was typed, with the unit it was read in. A verdict counts the uncertainty of the "
            "instrument; what could not be proved is called undecided, not good.",
            slanted=True,
        ),
        PageBreak(),
    ]


def _large(text: str, size: float) -> Paragraph:
    made = style(size, bold=size > 12)
    made.alignment, made.leading = TA_LEFT, size * 1.15
    return paragraph(text, made)
