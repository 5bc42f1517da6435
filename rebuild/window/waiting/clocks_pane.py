"""Clocks: what lies in a bath, cures, may be recoated, or must be seen to again. Shown here; nothing rings."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable

from PySide6.QtWidgets import QComboBox, QHBoxLayout, QLineEdit, QPushButton, QVBoxLayout, QWidget

from rebuild.errors import RebuildError
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.pane_trouble import PaneTrouble
from rebuild.window.forms.list_and_form import Listed
from rebuild.window.lists.plain_table import PlainTable
from rebuild.words.waiting import ClockKind
from rebuild.work.waiting import acts_clocks as clocks
from rebuild.work.waiting.rows_clocks import BathRow, ClockRow, clocks as clock_rows, in_baths

_COLUMNS = ("Clock", "What", "How it stands", "That time from")


class ClocksPane(QWidget):
    """Open clocks, the line that starts one, and what lies in baths."""

    def __init__(self, desk: Desk, now: Callable[[], dt.datetime], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk, self._now = desk, now
        self.kind = QComboBox(self)
        self.what, self.soonest, self.latest = QLineEdit(self), QLineEdit(self), QLineEdit(self)
        self.start_button = QPushButton("&Start", self)
        self.said = PaneTrouble(desk, (self.kind, self.what, self.soonest, self.latest), self)
        self.list = Listed(desk, "clock", "Clocks, those to be seen to first", _COLUMNS, self._line(), self)
        self.baths = PlainTable("In baths", ("In a bath", "Which, since when"), self)
        self._compose()

    def _line(self) -> QWidget:
        box = QWidget(self)
        row = QHBoxLayout(box)
        row.setContentsMargins(0, 0, 0, 0)
        for kind in ClockKind:
            self.kind.addItem(kind.value, kind)
        self.kind.setAccessibleName("Kind of clock")
        for field, name, hint in (
            (self.what, "What", "What: grey primer on the column"),
            (self.soonest, "Soonest after", "Soonest: 4 h; or 4 h, 3 d, 30 d"),
            (self.latest, "Latest after", "Latest: 3 d"),
        ):
            field.setAccessibleName(name)
            field.setPlaceholderText(hint)
            field.returnPressed.connect(self.start)
        row.addWidget(self.kind)
        row.addWidget(self.what, 3)
        row.addWidget(self.soonest, 2)
        row.addWidget(self.latest, 1)
        row.addWidget(self.start_button)
        self.start_button.clicked.connect(self.start)
        return box

    def _compose(self) -> None:
        self.list.add_button(
            "&Seen to",
            self.close_chosen,
            "Close the clock: out of the bath, recoated, re-torqued",
            of_one=True,
        )
        self.list.close_buttons()
        self.list.table.when_empty(
            "Baths, coats of paint, cures and re-torquings run here by the clock.",
            "Start the first",
            self.what.setFocus,
        )
        row = self.baths.verticalHeader().defaultSectionSize()
        self.baths.setMaximumHeight(row * 6)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(4)
        layout.addWidget(self.list, 1)
        layout.addWidget(self.said)
        layout.addWidget(self.baths)

    def refresh(self, machine_id: int | None) -> None:
        """Read the clocks and baths as they stand now."""
        rows: list[ClockRow] = []
        baths: list[BathRow] = []
        if machine_id is not None:
            with self._desk.store.read() as connection:
                rows = clock_rows(connection, machine_id, self._now())
                baths = in_baths(connection, machine_id, self._now())
        self.list.fill(
            [
                (
                    row.id,
                    (
                        row.kind.value,
                        " ".join(
                            filter(
                                None,
                                (
                                    row.what,
                                    f"({row.about})" if row.about and row.about not in row.what else "",
                                ),
                            )
                        ),
                        row.words,
                        row.source,
                    ),
                )
                for row in rows
            ]
        )
        self.baths.plain.fill([(row.part_id, (row.part, row.words)) for row in baths])
        self.baths.setVisible(bool(baths))

    def start(self) -> None:
        """Start a clock with what stands in the line; on trouble the texts stay."""
        machine = self._desk.machine_id
        if machine is None:
            return
        chosen = self._desk.selection.part_ids
        about = clocks.About(
            subassembly_id=self._desk.selection.subassembly_id,
            part_id=chosen[0] if len(chosen) == 1 else None,
        )
        try:
            clocks.start_clock(
                self._desk.store,
                machine,
                ClockKind(self.kind.currentData()),
                self.what.text(),
                after=self.soonest.text().split(","),
                latest=self.latest.text(),
                about=about,
                started=self._now(),
            )
        except RebuildError as trouble:
            self.said.tell(trouble)
            return
        self.said.end()
        for field in (self.what, self.soonest, self.latest):
            field.clear()

    def close_chosen(self) -> None:
        """Close the chosen clock now."""
        key = self.list.table.chosen()
        if key is not None:
            self.list.form.settle_all()
            self._desk.attempt(lambda: clocks.close_clock(self._desk.store, [key], at=self._now()))
