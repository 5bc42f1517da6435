"""Orders, work sent out and loans; what it all came to only when it was asked for."""

from __future__ import annotations

from collections.abc import Sequence

from reportlab.platypus import Flowable

from rebuild.sheets.book.columns import Column
from rebuild.sheets.book.flow import chapter_of, section, table
from rebuild.sheets.book.options import BookOptions
from rebuild.sheets.book.ruled import Line
from rebuild.work.book.rows import BookData
from rebuild.work.waiting.rows import WaitingRow
from rebuild.work.waiting.rows_costs import CostRow, total


def chapter(book: BookData, options: BookOptions) -> list[Flowable]:
    """The list of orders; with ``cost`` prices and sums too."""
    content = table(_columns(options), [_order(row, options) for row in book.bought.waiting], strong=True)
    if options.cost:
        content += section("Cost by subassembly", "cost-groups", _sums(book.bought.by_subassembly))
        content += section("Cost by decision", "cost-decisions", _sums(book.bought.by_decision))
    return chapter_of("Orders and cost" if options.cost else "Orders and loans", "orders", content)


def _columns(options: BookOptions) -> list[Column | str]:
    columns: list[Column | str] = ["What", "For", "Sort", "From", "Reference", "Stands", "Found on arrival"]
    return [*columns, Column("Cost", right=True)] if options.cost else columns


def _order(row: WaitingRow, options: BookOptions) -> Line:
    cells = (
        f"{row.quantity} x {row.what}" if row.quantity != 1 else row.what,
        row.about,
        row.kind.value,
        row.who,
        row.reference,
        row.words,
        "\n".join(filter(None, (row.inspected_note, row.note))),
    )
    if not options.cost:
        return cells
    return (*cells, f"{row.cost:.2f}" if row.cost is not None else "")


def _sums(rows: Sequence[CostRow]) -> list[Flowable]:
    if not rows:
        return []
    lines: list[Line] = [
        (row.name, _money(row.paid), _money(row.promised), f"{row.hours:g}" if row.hours else "")
        for row in (*rows, total(rows))
    ]
    columns = (
        "For",
        Column("Paid", right=True),
        Column("Ordered, not arrived", right=True),
        Column("Hours", right=True),
    )
    return table(columns, lines, strong=True)


def _money(amount: float) -> str:
    return f"{amount:.2f}" if amount else ""
