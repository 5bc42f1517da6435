"""What is to be bought and not ordered yet, over the orders; one press takes the chosen one to the order line."""

from __future__ import annotations

from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.labels.printing import print_to_buy
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.plain_table import PlainTable
from rebuild.window.waiting.order_line import OrderLine
from rebuild.words.counted import counted
from rebuild.work.means import acts as means
from rebuild.work.waiting.rows_to_buy import ToBuy, to_buy

_LINES = 4


class ToBuyList(QWidget):
    """Hidden while nothing is to be bought."""

    def __init__(self, desk: Desk, line: OrderLine, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk, self._line = desk, line
        self._rows: list[ToBuy] = []
        self.said = PlainLabel(self)
        self.table = PlainTable("To buy", ("To buy, not ordered yet", "Why", "For"), self, sortable=True)
        self.take = QPushButton("To the order l&ine", self)
        self.take.setAutoDefault(False)
        self.take.setToolTip(
            "A part or a material is filled in under What to order; a tool goes on the list as an order at once"
        )
        self.take.clicked.connect(lambda _checked=False: self.order_chosen())
        self.table.activated.connect(lambda _index: self.order_chosen())
        top = QHBoxLayout()
        top.addWidget(self.said, 1)
        top.addWidget(self.take)
        self.printed = QPushButton("Prin&t list…", self)
        self.printed.setAutoDefault(False)
        self.printed.setToolTip(
            "To take along: boxes for from whom and the price, and what is on order from whom"
        )
        self.printed.clicked.connect(lambda _checked=False: print_to_buy(self._desk, self))
        top.addWidget(self.printed)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(3)
        layout.addLayout(top)
        layout.addWidget(self.table)
        self.hide()

    def refresh(self, machine_id: int | None) -> None:
        """Read the list again; the chosen one stays chosen."""
        self._rows = []
        if machine_id is not None:
            with self._desk.store.read() as connection:
                self._rows = to_buy(connection, machine_id)
        here = self.table.chosen()
        self.table.plain.fill([(at, (row.what, row.why, row.about)) for at, row in enumerate(self._rows)])
        if self._rows:
            self.table.choose(here if here is not None and here < len(self._rows) else 0)
        row = self.table.verticalHeader().defaultSectionSize()
        lines = min(_LINES, len(self._rows))
        self.table.setFixedHeight(row * lines + self.table.horizontalHeader().sizeHint().height() + 6)
        self.said.setText(f"{counted(len(self._rows), 'thing')} to buy, not ordered yet")
        self.setVisible(bool(self._rows))

    def order_chosen(self) -> None:
        """Take the chosen one to the order line; a means becomes an order at once, so that its steps know of it."""
        at, machine = self.table.chosen(), self._desk.machine_id
        if at is None or machine is None:
            return
        row = self._rows[at]
        if row.record == "part":
            self._line.order_part(row.id)
        elif row.record == "means":
            self._desk.attempt(
                lambda: means.buy(self._desk.store, row.id, machine),
                f"{row.what} is on the list of what to order.",
            )
        else:
            self._line.order_text(row.what)
