"""What lies in stock; and what it all cost, by subassembly and by decision."""

from __future__ import annotations

from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.forms.add_dialog import AddDialog, Adding
from rebuild.window.forms.list_and_form import Listed
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.plain_table import PlainTable
from rebuild.work.records.fields import FIELDS
from rebuild.work.waiting import acts as waiting, rows_costs as costs
from rebuild.work.waiting.rows_costs import CostRow
from rebuild.work.waiting.rows_stock import stock


class StockPane(Listed):
    """Stock: bar ends, fasteners, spares, felt."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(
            desk,
            "stock_item",
            "Stock",
            ("What", "Material", "Sizes", "Thread", "How much", "Place"),
            None,
            parent,
        )
        self.add_button("&New stock…", self.new)
        self.close_buttons()
        self.table.when_empty(
            "Bar ends, fasteners, spares and felt the shop has.", "Note the first", self.new
        )

    def refresh(self) -> None:
        """Read the stock again."""
        if not self._desk.is_open:
            self.fill([])
            return
        with self._desk.store.read() as connection:
            rows = stock(connection)
        self.fill(
            [(row.id, (row.name, row.material, row.sizes, row.thread, row.amount, row.place)) for row in rows]
        )

    def new(self) -> None:
        """Add something to the stock."""
        AddDialog(
            self._desk,
            Adding(
                "New stock",
                "",
                FIELDS["stock_item"],
                lambda typed: waiting.add_stock(self._desk.store, typed.pop("name", ""), typed),
                self.table.choose,
            ),
            self,
        ).open()


class CostPane(QWidget):
    """Two tables that sum up to the same."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        headings = ("Paid", "On order", "Hours")
        self.groups = PlainTable("Cost by subassembly", ("By subassembly", *headings), self)
        self.decisions = PlainTable("Cost by decision", ("By decision", *headings), self)
        row = QHBoxLayout()
        for table in (self.groups, self.decisions):
            row.addWidget(table)
            table.when_empty("Nothing paid, ordered or worked at yet.")
        note = PlainLabel(
            "Orders and work sent out, in the file's own money. Hours come from the bench log; what "
            "no subassembly or part was named for stands last, unallocated.",
            self,
        )
        note.setWordWrap(True)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addLayout(row, 1)
        layout.addWidget(note)

    def refresh(self, machine_id: int | None) -> None:
        """Sum up again."""
        groups: list[CostRow] = []
        decisions: list[CostRow] = []
        if machine_id is not None:
            with self._desk.store.read() as connection:
                groups = costs.by_subassembly(connection, machine_id)
                decisions = costs.by_decision(connection, machine_id)
        for table, rows in ((self.groups, groups), (self.decisions, decisions)):
            listed = [*rows, costs.total(rows)] if rows else []
            table.plain.fill([(at, _line(row)) for at, row in enumerate(listed)])


def _line(row: CostRow) -> tuple[str, ...]:
    return (row.name, f"{row.paid:.2f}", f"{row.promised:.2f}", f"{row.hours:.1f}")
