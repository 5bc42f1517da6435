"""The list of fits with what narrows it down: words, a state, an order."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, Qt, Signal
from PySide6.QtWidgets import (
    QAbstractItemView,
    QComboBox,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QTableView,
    QVBoxLayout,
    QWidget,
)

from rebuild.store.changed import Changed
from rebuild.window.desk.desk import Desk
from rebuild.window.fits.lines import FitLine, line_of
from rebuild.window.fits.model import FitModel
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.empty_state import EmptyState
from rebuild.window.lists.fitted import FittedColumns
from rebuild.words.counted import counted
from rebuild.work.fits import rows as fits
from rebuild.work.fits.rows import FitState
from rebuild.work.fits.rows_touched import touched
from rebuild.work.records.rows_settings import verdict_rule

ALL, STALE, UNSETTLED = "all fits", "stale", "not in order"
AS_ENTERED, WORST_FIRST = "as entered", "worst first"


class FitList(QWidget):
    """Fits of the machine; one of them is chosen."""

    chosen = Signal(int)
    new_asked = Signal()

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self.model = FitModel(self)
        self.search = QLineEdit(self)
        self.state = QComboBox(self)
        self.order = QComboBox(self)
        self.new_button = QPushButton("&New fit…", self)
        self.table = QTableView(self)
        self.counts = PlainLabel(self)
        self.counts.setWordWrap(True)  # in a large type it is longer than the list is wide
        self._compose()
        self._wire()

    def _compose(self) -> None:
        self.search.setPlaceholderText("Find part, feature or fit")
        self.search.setAccessibleName("Find in the fits")
        self.search.setClearButtonEnabled(True)
        self.state.addItems([ALL, STALE, UNSETTLED, *(state.value for state in FitState)])
        self.state.setAccessibleName("Which fits")
        self.order.addItems([AS_ENTERED, WORST_FIRST])
        self.order.setAccessibleName("Order of the fits")
        self.table.setModel(self.model)
        self.table.setAccessibleName("Fits")
        self.table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.table.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.table.setShowGrid(False)
        self.table.setAlternatingRowColors(True)
        self.table.setTabKeyNavigation(False)
        self.table.verticalHeader().hide()
        self.table.horizontalHeader().setDefaultAlignment(Qt.AlignmentFlag.AlignLeft)
        self.table.horizontalHeader().setHighlightSections(False)
        FittedColumns(self.table)
        EmptyState(
            self.table,
            "A fit sets a feature of one part against that of another: what is wanted, and what it is now.",
            "New fit",
            self.new_asked.emit,
        )
        top = QHBoxLayout()
        top.addWidget(self.search, 1)
        for widget in (self.state, self.order, self.new_button):
            top.addWidget(widget)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(4)
        layout.addLayout(top)
        layout.addWidget(self.table, 1)
        layout.addWidget(self.counts)

    def _wire(self) -> None:
        self.search.textChanged.connect(self._ask)
        self.state.currentIndexChanged.connect(self._ask)
        self.order.currentIndexChanged.connect(self._ask)
        self.new_button.clicked.connect(self.new_asked)
        self.table.selectionModel().currentRowChanged.connect(self._current)

    def refresh(self) -> None:
        """Work out every fit of the machine."""
        key = self.key
        desk = self._desk
        lines: list[FitLine] = []
        if desk.is_open and desk.machine_id is not None:
            rule = verdict_rule(desk.store)
            with desk.store.read() as connection:
                found = fits.rows(connection, fits.fit_ids(connection, desk.machine_id), rule)
            lines = [line_of(row, desk.unit_for) for row in found]
        self.model.set_lines(lines)
        self._count()
        self.choose(key if key is not None and self.model.row_of(key) >= 0 else self.model.key_at(0))

    def hear(self, changed: Changed) -> set[int]:
        """Work out again the fits an act has touched; returns them (all when everything was)."""
        desk = self._desk
        rule = verdict_rule(desk.store)
        with desk.store.read() as connection:
            ids = touched(connection, changed)
            if ids is None:
                self.refresh()
                return set(self.model.ids)
            if not ids:
                return set()
            found = {row.id: row for row in fits.rows(connection, sorted(ids), rule)}
        own = {key: row for key, row in found.items() if row.machine_id == desk.machine_id}
        self.model.update_lines(
            {key: line_of(own[key], desk.unit_for) if key in own else None for key in ids}
        )
        self._count()
        return ids

    @property
    def key(self) -> int | None:
        """The chosen fit."""
        return self.model.key_at(self.table.currentIndex().row())

    def choose(self, key: int | None) -> None:
        """Choose a fit, widening the list when it hides it."""
        if key is None:
            self.chosen.emit(0)
            return
        if self.model.row_of(key) < 0 and (self.search.text() or self.state.currentIndex()):
            self.search.clear()
            self.state.setCurrentIndex(0)
        row = self.model.row_of(key)
        if row >= 0:
            self.table.setCurrentIndex(self.model.index(row, 0))
            self.table.scrollTo(self.model.index(row, 0))
        self.chosen.emit(self.key or 0)

    def _current(self, current: QModelIndex) -> None:
        self.chosen.emit(self.model.key_at(current.row()) or 0)

    def _ask(self) -> None:
        key, words, state = self.key, self.search.text().lower().split(), self.state.currentText()

        def wanted(line: FitLine) -> bool:
            if not all(word in line.sought for word in words):
                return False
            if state == STALE:
                return line.stale
            if state == UNSETTLED:
                return line.stale or line.state is not FitState.CONFORMS
            return state in (ALL, line.state.value)

        worst = self.order.currentText() == WORST_FIRST
        self.model.ask(wanted, lambda line: (line.rank, not line.stale) if worst else ())
        self._count()
        self.choose(key if key is not None and self.model.row_of(key) >= 0 else self.model.key_at(0))

    def _count(self) -> None:
        parts = [
            counted(self.model.count(lambda _line: True), "fit"),
            f"{self.model.count(lambda line: line.stale)} stale",
        ]
        parts += [
            f"{number} {state.value}"
            for state in FitState
            if (number := self.model.count(lambda line, state=state: line.state is state))  # type: ignore[misc]
        ]
        self.counts.setText(" · ".join(parts))
