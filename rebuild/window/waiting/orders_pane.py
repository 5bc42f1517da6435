"""Orders, work sent out, quotes and loans: how each stands, and one press for what happened to it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from functools import partial

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QVBoxLayout, QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.forms.list_and_form import Listed
from rebuild.window.waiting.order_line import OrderLine
from rebuild.window.waiting.to_buy_list import ToBuyList
from rebuild.work.waiting import acts as waiting
from rebuild.work.waiting.acts import Mark
from rebuild.work.waiting.rows import WaitingRow, waiting as waiting_rows

_COLUMNS = ("How it stands", "What", "Kind", "For", "Who", "Cost")
_MARKS = (
    (Mark.ORDERED, "&Ordered or sent", "Alt+O"), (Mark.CHASED, "Chase&d", "Alt+D"), (Mark.ARRIVED, "A&rrived", "Alt+R"),
    (Mark.CHECKED, "Chec&ked", "Alt+K"), (Mark.RETURNED, "Re&turned", "Alt+T"),
)  # fmt: skip


class OrdersPane(QWidget):
    """The list, the line that adds to it, and the form of the chosen one."""

    def __init__(self, desk: Desk, now: Callable[[], dt.datetime], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk, self._now = desk, now
        self.line = OrderLine(desk, self)
        self.to_buy = ToBuyList(desk, self.line, self)
        self.list = Listed(desk, "waiting", "Waiting for, late first", _COLUMNS, self.line, self)
        for mark, words, keys in _MARKS:
            self.list.add_button(
                words, partial(self.mark, mark), f"{keys}: note that it happened now", of_one=True
            )
        self.list.close_buttons()
        self.list.table.when_empty(
            "What is ordered, sent out, quoted for or lent stands here, late ones first.",
            "Type the first one",
            self.line.line.setFocus,
        )
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.to_buy)
        layout.addWidget(self.list, 1)
        self.line.added.connect(self.list.table.choose)
        shortcut = QShortcut(QKeySequence("Ins"), self)
        shortcut.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        shortcut.activated.connect(self.line.line.setFocus)

    def refresh(self, machine_id: int | None) -> None:
        """Read the list again."""
        rows: list[WaitingRow] = []
        if machine_id is not None:
            with self._desk.store.read() as connection:
                rows = waiting_rows(connection, machine_id, self._now())
        self.line.offer_buys()
        self.to_buy.refresh(machine_id)
        self.list.fill([(row.id, _line(row)) for row in rows])

    def mark(self, what: Mark) -> None:
        """Note that something happened to the chosen one now; what was found is typed in its form."""
        key = self.list.table.chosen()
        if key is not None:
            self.list.form.settle_all()
            self._desk.attempt(lambda: waiting.mark(self._desk.store, key, what, at=self._now()))


def _line(row: WaitingRow) -> tuple[str, ...]:
    what = f"{row.quantity} × {row.what}" if row.quantity != 1 else row.what
    cost = f"{row.cost:.2f}" if row.cost is not None else ""
    return (row.words, what, row.kind.value, row.about, row.who, cost)
