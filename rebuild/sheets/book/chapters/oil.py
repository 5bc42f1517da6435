"""The lubrication card: every point on the machine, what it feeds, its oil, and whether oil was seen to arrive."""

from __future__ import annotations

from reportlab.platypus import Flowable

from rebuild.sheets.book.columns import Column
from rebuild.sheets.book.figures import Sketch
from rebuild.sheets.book.flow import chapter_of, prose, section, table
from rebuild.sheets.book.options import BookOptions
from rebuild.sheets.book.pages import MARGIN_MM
from rebuild.sheets.book.ruled import Line
from rebuild.sheets.paper import MM, paper
from rebuild.trade.lubrication.machine_outline import outline
from rebuild.work.book.rows import BookData
from rebuild.work.lubrication.rows import OilRow

#: How much of the width of a page the outline takes; the numbers stand round it.
_SHARE = 0.86


def chapter(book: BookData, options: BookOptions) -> list[Flowable]:
    """Map, points, oils to buy, and what the lines say."""
    card = book.oil
    if not card.rows:
        return []
    wide = (paper(options.paper).width_mm - 2 * MARGIN_MM) * MM * _SHARE
    marks = [(row.x, row.y, row.number) for row in card.rows if row.x is not None and row.y is not None]
    not_proved = len(card.not_proved)
    content: list[Flowable] = []
    if marks:
        content.append(Sketch(outline(card.kind.value), wide, marks))
    if not_proved:
        content.append(
            prose(f"At {not_proved} of {len(card.rows)} points oil was not yet seen to arrive.", bold=True)
        )
    columns = (
        Column("No.", mm=10),
        "Point",
        "Feeds",
        "Oil now",
        "Oil of the manual",
        "Quantity",
        "Interval",
        "Flow",
    )
    content += table(columns, [_point(row) for row in card.rows])
    oils: list[Line] = [(name, str(count)) for name, count in card.oils]
    content += section("Oils to have", "oils", table(("Oil", Column("Points", right=True)), oils))
    content += section("What the lines say", "oil-lines", [prose(one.text) for one in card.findings])
    return chapter_of("Lubrication card", "oil", content)


def _point(row: OilRow) -> Line:
    return (
        row.number,
        "\n".join(filter(None, (row.kind.value, row.path))),
        "\n".join(filter(None, (row.feeds, row.part, row.fed_by and f"fed by {row.fed_by}"))),
        row.oil,
        row.old_oil,
        row.quantity,
        row.interval,
        "\n".join(filter(None, (row.flow, row.proved_note, row.note))),
    )
