"""Pages of labels: each label where the stock has it, nothing else on the page but the edge of a tag's hole."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from rebuild.errors import BadEntry, FileTrouble
from rebuild.sheets import fonts
from rebuild.sheets.labels.label import Box, draw_label
from rebuild.sheets.paper import MM
from rebuild.trade.labels.stock import Stock, placed
from rebuild.work.labels.rows import Label


def write_labels(labels: Sequence[Label], stock: Stock, target: Path, first: int = 1) -> int:
    """Print labels on their stock, true to size, from label ``first`` of the first sheet on; returns the pages.

    Raises:
        BadEntry: there is nothing to print.
        OutOfRange: there is no label ``first`` on the sheet.
        FileTrouble: it cannot be written there.
    """
    from reportlab.pdfgen.canvas import Canvas

    if not labels:
        raise BadEntry("names nothing to print.", where="Labels", way_out="Choose parts or places.")
    fonts.register()
    size = (stock.page_wide * MM, stock.page_high * MM)
    canvas = Canvas(str(target), pagesize=size, invariant=1)
    canvas.setTitle("Labels")
    canvas.setCreator("Rebuild")
    # A viewer that fits pages to the paper would shift every label.
    canvas.setViewerPreference("PrintScaling", "None")
    page = 0
    for label, place in zip(labels, placed(stock, len(labels), first), strict=True):
        if place.page != page:
            canvas.showPage()
            page = place.page
        hole = stock.hole * MM
        low = (stock.page_high - place.top - stock.high) * MM
        box = Box(place.left * MM + hole, low, stock.wide * MM - hole, stock.high * MM)
        draw_label(canvas, label, box)
    canvas.showPage()
    try:
        canvas.save()
    except OSError as trouble:
        raise FileTrouble(
            f"the labels cannot be written: {trouble.strerror}.",
            where=target.name,
            way_out="Choose another folder, or close the program that shows it.",
        ) from trouble
    return page + 1
