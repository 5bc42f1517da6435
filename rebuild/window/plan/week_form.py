"""The Week pane: hours on which evenings, and days off."""

from __future__ import annotations

import datetime as dt

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QFormLayout,
    QHBoxLayout,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from rebuild.errors import RebuildError
from rebuild.trade.schedule.week_entry import DAYS, show_day
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.live_page import LivePage
from rebuild.window.desk.pane_trouble import PaneTrouble
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.empty_state import EmptyState
from rebuild.window.lists.plain_table import PlainTable
from rebuild.window.lists.said import day
from rebuild.work.editing.acts import remove
from rebuild.work.plan import rows_week
from rebuild.work.plan.acts_week import add_day_off, set_week
from rebuild.work.plan.rows_week import days_off, week_of, weeks_ahead
from rebuild.work.records.wall_clock import now

#: Weeks shown to come.
WEEKS = 12
_ID = Qt.ItemDataRole.UserRole


class WeekPane(LivePage):
    """Typed hours by weekday; dates of holidays beneath."""

    shows = (rows_week,)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, "The owner's week", parent)
        self.days = [QLineEdit() for _ in DAYS]
        self._about = PlainLabel()
        self._about.setWordWrap(True)
        self._store = QPushButton("&Store the week")
        self.off = QListWidget()
        self.off.setAccessibleName("Days off")
        EmptyState(self.off, "Holidays and other days without bench work; the first one is typed below.")
        self.ahead = PlainTable("The weeks to come", ("Week from", "Bench hours", "Bench days off"))
        self._first, self._last, self._why = QLineEdit(), QLineEdit(), QLineEdit()
        self._trouble = PaneTrouble(desk, self.days, self)
        self._off_trouble = PaneTrouble(desk, (self._first, self._last, self._why), self)
        self._add = QPushButton("&Add days off")
        self._remove = QPushButton("&Remove")
        self._lay_out()
        self._store.clicked.connect(self._set)
        self._add.clicked.connect(self._add_off)
        self._remove.clicked.connect(self._remove_off)
        for field in self.days:
            field.returnPressed.connect(self._set)

    def _lay_out(self) -> None:
        form = QFormLayout()
        for name, field in zip(DAYS, self.days, strict=True):
            field.setAccessibleName(f"Hours on {name}")
            field.setPlaceholderText("no bench work")
            field.setMaximumWidth(320)
            form.addRow(name, field)
        row = QHBoxLayout()
        for field, name, hint in (
            (self._first, "First day off", "first day off"),
            (self._last, "Last day off", "last day off"),
            (self._why, "Why", "holiday"),
        ):
            field.setAccessibleName(name)
            field.setPlaceholderText(hint)
            row.addWidget(field)
        row.addWidget(self._add)
        row.addWidget(self._remove)
        hours = QWidget(self)
        left, right = QVBoxLayout(hours), QVBoxLayout()
        left.setContentsMargins(0, 0, 0, 0)
        for inner in (right, row):  # else they take the wide gap between the two halves
            inner.setSpacing(left.spacing())
        left.addWidget(_bold("Hours at the bench"))
        left.addLayout(form)
        for widget in (self._about, self._trouble):
            left.addWidget(widget)
        left.addWidget(self._store, 0, Qt.AlignmentFlag.AlignLeft)
        left.addSpacing(12)
        left.addWidget(_bold("The weeks to come"))
        left.addWidget(self.ahead, 1)
        right.addWidget(_bold("Days off"))
        right.addWidget(self.off)
        right.addLayout(row)
        right.addWidget(self._off_trouble)
        whole = QHBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.setSpacing(24)
        whole.addWidget(hours, 2)
        whole.addLayout(right, 3)

    def refresh(self) -> None:
        """Read the week again."""
        self.setEnabled(self._desk.is_open)
        self.off.clear()
        if not self._desk.is_open:
            return
        with self._desk.store.read() as connection:
            week, is_set = week_of(connection)
            off = days_off(connection)
            ahead = weeks_ahead(connection, now(), WEEKS)
        self.ahead.plain.fill(
            [
                (
                    at,
                    (
                        day(dt.datetime.combine(one.monday, dt.time())),
                        f"{one.minutes / 60:g}",
                        str(one.off or ""),
                    ),
                )
                for at, one in enumerate(ahead)
            ]
        )
        for weekday, field in enumerate(self.days):
            if field.isModified():  # typed and not stored: a day off added meanwhile takes nothing away
                continue
            field.setText(show_day([spell for spell in week.spells if spell.weekday == weekday]))
        hours = f"{week.minutes_a_week / 60:g} hours a week."
        self._about.setText(hours if is_set else f"{hours} Assumed until you store your own.")
        for key, first, last, why in off:
            days = f"{first}" if first == last else f"{first} to {last}"
            item = QListWidgetItem(f"{days}   {why}".strip())
            item.setData(_ID, key)
            self.off.addItem(item)

    def _show_stored(self) -> None:
        """What is typed is nobody's now: it was stored, or it belongs to another file."""
        for field in self.days:
            field.setModified(False)
        self.refresh()

    def put_by(self) -> None:
        """Hours typed and not stored go to the kept entries; the file may close next."""
        typed = [
            f"{day} {field.text().strip()}"
            for day, field in zip(DAYS, self.days, strict=True)
            if field.isModified()
        ]
        if typed and self._desk.is_open:
            words, why = "; ".join(typed), "The week was not stored."
            self._desk.attempt(lambda: self._desk.store.keep_entry("hours at the bench", words, why))
        for field in self.days:
            field.setModified(False)

    def _set(self) -> None:
        try:
            set_week(self._desk.store, [field.text() for field in self.days])
        except RebuildError as trouble:
            self._trouble.tell(trouble)
        else:
            self._trouble.end()
            self._show_stored()
            self._desk.say("The week is stored; the plan follows it.")

    def _add_off(self) -> None:
        try:
            add_day_off(self._desk.store, self._first.text(), self._last.text(), self._why.text())
        except RebuildError as trouble:
            self._off_trouble.tell(trouble)
        else:
            self._off_trouble.end()
            for field in (self._first, self._last, self._why):
                field.clear()

    def _remove_off(self) -> None:
        ids = [int(item.data(_ID)) for item in self.off.selectedItems()]
        if ids:
            self._desk.attempt(lambda: remove(self._desk.store, "day_off", ids))


def _bold(text: str) -> PlainLabel:
    label = PlainLabel(text)
    font = label.font()
    font.setBold(True)
    label.setFont(font)
    return label
