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
    again = f", attempt {sheet.attempt}" if sheet.attempt > 1 else ""
    return f"{sheet.part}{again}: {sheet.state.value}"


def _sheet(sheet: SheetPage, wide: float) -> list[Flowable]:
    settled = f"{sheet.state.value} {sheet.settled_at:%Y-%m-%d}" if sheet.settled_at is not None else ""
    found = facts(
        (
            ("Why", sheet.why),
            ("Not to be copied", sheet.do_not_copy),
            ("Shape and quantity", f"{sheet.shape.value}, {sheet.quantity} off"),
            ("Material", sheet.material),
            ("Blank", sheet.blank),
            ("Surface", sheet.finish),
            ("Settled", " ".join(filter(None, (settled, sheet.settled_by and f"by {sheet.settled_by}")))),
            ("Remark on it", sheet.settled_note),
            ("Trial fit", sheet.trial_fit),
            ("Marked", sheet.marked),
            ("Note", sheet.note),
        )
    )
    found += _drawing(sheet, wide)
    found += table(
        (Column("Size", mm=38), Column("Limits", mm=46), Column("From", mm=38), Column("As made")),
        [_size(row) for row in sheet.sizes],
        strong=True,
    )
    for block in sheet.data:
        found += section(block.title, f"sheet-{sheet.id}-{block.title}", facts(block.lines), level=3)
        if block.trouble:
            found.append(small(block.trouble))
    found += [prose(f"Accepted outside its limits: {text}") for text in sheet.concessions]
    found += [small(text) for text in (*sheet.waits, *sheet.stale)]
    return found


def _drawing(sheet: SheetPage, wide: float) -> list[Flowable]:
    if sheet.drawing is None:
        return [small(sheet.drawing_trouble)] if sheet.drawing_trouble else []
    laid = best_fit(sheet.drawing, wide, _DRAWING_MM, sheet.unit)
    return [drawing_pdf.flowable(laid, wide)]


def _size(row: SizeRow) -> Line:
    made = "\n".join(
        ", ".join(filter(None, (one.station, one.words, one.verdict.value, one.instrument)))
        for one in row.made
    )
    limits = "\n".join(filter(None, (row.words, row.other_unit)))
    return (Linked(row.name), limits, row.source, made)
