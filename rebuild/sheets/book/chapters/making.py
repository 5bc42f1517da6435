"""What was made: each making sheet with its drawing, its sizes with the values as made, and its data."""

from __future__ import annotations

from reportlab.platypus import Flowable

from rebuild.sheets import drawing_pdf
from rebuild.sheets.book.columns import Column
from rebuild.sheets.book.flow import chapter_of, facts, prose, section, small, table
from rebuild.sheets.book.options import BookOptions
from rebuild.sheets.book.pages import MARGIN_MM
from rebuild.sheets.book.ruled import Line, Linked
from rebuild.sheets.paper import paper
from rebuild.trade.drawing.lay_out import best_fit
from rebuild.work.book.rows import BookData
from rebuild.work.making.rows_sheet_lists import SheetPage, SizeRow
from rebuild.work.records.field import show_exact

_DRAWING_MM = 85.0


def chapter(book: BookData, options: BookOptions) -> list[Flowable]:
    """One section a sheet."""
    wide = paper(options.paper).width_mm - 2 * MARGIN_MM
    content = [
        one
        for sheet in book.sheets
        for one in section(_title(sheet), f"sheet-{sheet.id}", _sheet(sheet, wide))
    ]
    return chapter_of("Making sheets", "making", content)


def _title(sheet: SheetPage) -> str:
    again = f", attempt {sheet.head.attempt}" if sheet.head.attempt > 1 else ""
    return f"{sheet.head.part}{again}: {sheet.course.state.value}"


def _sheet(sheet: SheetPage, wide: float) -> list[Flowable]:
    settled = (
        f"{sheet.course.state.value} {show_exact(sheet.outcome.settled_at)}"
        if sheet.outcome.settled_at is not None
        else ""
    )
    found = _drawing(sheet, wide)
    found += facts(
        (
            ("Why", sheet.head.why),
            ("Not to be copied", sheet.head.do_not_copy),
            ("Shape and quantity", f"{sheet.head.shape.value}, {sheet.head.quantity} off"),
            ("Material", sheet.blank.material),
            ("Blank", sheet.blank.words),
            ("Surface", sheet.head.finish),
            ("Settled", " ".join(filter(None, (settled, sheet.outcome.by and f"by {sheet.outcome.by}")))),
            ("Remark on it", sheet.outcome.remark),
            ("Trial fit", sheet.outcome.trial_fit),
            ("Marked", sheet.outcome.marked),
            ("Note", sheet.outcome.note),
        )
    )
    found += table(
        (Column("Size", mm=38), Column("Limits", mm=46), Column("From", mm=38), Column("As made")),
        [_size(row) for row in sheet.sizes],
        strong=True,
    )
    for block in sheet.data:
        found += section(block.title, f"sheet-{sheet.id}-{block.title}", facts(block.lines), level=3)
        if block.trouble:
            found.append(small(block.trouble))
    found += [prose(f"Accepted outside its limits: {text}") for text in sheet.outcome.concessions]
    found += [small(text) for text in (*sheet.course.waits, *sheet.course.stale)]
    return found


def _drawing(sheet: SheetPage, wide: float) -> list[Flowable]:
    if sheet.drawing.drawn is None:
        return [small(sheet.drawing.trouble)] if sheet.drawing.trouble else []
    laid = best_fit(sheet.drawing.drawn, wide, _DRAWING_MM, sheet.head.unit)
    return [drawing_pdf.flowable(laid, wide)]


def _size(row: SizeRow) -> Line:
    made = "\n".join(
        ", ".join(filter(None, (one.station, one.words, one.verdict.value, one.instrument)))
        for one in row.made
    )
    limits = "\n".join(filter(None, (row.words, row.other_unit)))
    return (Linked(row.name), limits, row.source, made)
