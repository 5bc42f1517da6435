"""The Waiting page: what is on its way or owed back, what runs by itself, what is in stock, what it cost."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable

from PySide6.QtWidgets import QVBoxLayout, QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.desk.live_page import LivePage
from rebuild.window.layout.views import Views
from rebuild.window.waiting.batches_pane import BatchesPane
from rebuild.window.waiting.clocks_pane import ClocksPane
from rebuild.window.waiting.orders_pane import OrdersPane
from rebuild.window.waiting.stock_and_cost import CostPane, StockPane
from rebuild.work.records.wall_clock import now
from rebuild.work.treatments import rows as treatment_rows
from rebuild.work.waiting import rows as waiting_rows, rows_clocks, rows_costs, rows_stock, rows_to_buy

ORDERS, CLOCKS, BATCHES, STOCK = 0, 1, 2, 3


class WaitingPage(LivePage):
    """Waiting for · Clocks · Batches · Stock · Cost and hours. ``now`` is the shop's clock."""

    shows = (waiting_rows, rows_clocks, rows_stock, rows_costs, rows_to_buy, treatment_rows)
    by_the_clock = True

    def __init__(
        self, desk: Desk, parent: QWidget | None = None, now: Callable[[], dt.datetime] = now
    ) -> None:
        super().__init__(desk, "Waiting", parent)
        self.orders = OrdersPane(desk, now, self)
        self.clocks = ClocksPane(desk, now, self)
        self.batches = BatchesPane(desk, now, self)
        self.stock = StockPane(desk, self)
        self.cost = CostPane(desk, self)
        self.views = Views(
            [
                ("Waiting for", self.orders),
                ("Clocks", self.clocks),
                ("Batches", self.batches),
                ("Stock", self.stock),
                ("Cost and hours", self.cost),
            ],
            self,
        )
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 6, 8, 8)
        layout.addWidget(self.views)
        self.orders.line.found_asked.connect(self._show_found)

    def refresh(self) -> None:
        """Read all five views again."""
        self.setEnabled(self.machine is not None)
        self.orders.refresh(self.machine)
        self.clocks.refresh(self.machine)
        self.batches.refresh(self.machine)
        self.stock.refresh()
        self.cost.refresh(self.machine)

    def choose(self, waiting_id: int) -> None:
        """Turn to one order or loan."""
        self.views.show_view(0)
        self.orders.list.table.choose(waiting_id)

    def panes(self) -> list[QWidget]:
        """The panes F6 goes round."""
        return [self.views, self.orders.line.line, self.orders.list.table, self.orders.list.form]

    def show_row(self, table: str, key: int) -> None:
        """Choose an order, a clock, a part of a batch or stock in its view; a part has its order line filled."""
        if table == "part":
            self.views.show_view(ORDERS)
            self.orders.line.order_part(key)
            return
        if table == "batch":
            self.views.show_view(BATCHES)
            self.batches.choose(key)
            return
        view, shown = {
            "waiting": (ORDERS, self.orders.list.table),
            "clock": (CLOCKS, self.clocks.list.table),
            "stock_item": (STOCK, self.stock.table),
        }[table]
        self.views.show_view(view)
        shown.choose(key)

    def _show_found(self, record: str, key: int) -> None:
        """Turn to something the shop already has."""
        if record == "stock_item":
            self.views.show_view(STOCK)
            self.stock.table.choose(key)
        elif record == "waiting":
            self.orders.list.table.choose(key)
        else:
            self._desk.choose(part_ids=(key,), key=None)
            self._desk.page_asked.emit("bench")
