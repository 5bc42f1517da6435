"""Kept entries: what was typed but could not be stored where it was meant, until it is dealt with."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.desk.hearing import Hearing
from rebuild.window.exchange.import_dialog import ImportDialog
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.plain_table import PlainTable
from rebuild.work.lists.fields import What
from rebuild.work.lists.line import Line
from rebuild.work.lists.mending import read_kept
from rebuild.work.records import rows_kept
from rebuild.work.records.rows_kept import kept_entries


class KeptEntries(QDialog):
    """The list of kept entries; each can be copied and marked as dealt with, a row of a list be put in now."""

    def __init__(self, desk: Desk, parent: QWidget | None) -> None:
        super().__init__(parent)
        self._desk = desk
        self.setWindowTitle("Kept entries")
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.table = PlainTable("Kept entries", ("When", "Meant for", "Typed", "Why it was kept"), self)
        self.empty = PlainLabel("Nothing is kept: everything typed was stored where it was meant.", self)
        self.copy = QPushButton("Copy what was typed", self)
        self.put_in = QPushButton("Put it in now…", self)
        self.put_in.setToolTip(
            "Looks over again the rows kept aside of that list; what still stops one is mended there"
        )
        self.settle = QPushButton("Dealt with", self)
        self.settle.setToolTip("Takes the entry off this list; type it where it belongs first")
        self.copy.clicked.connect(self._copy)
        self.put_in.clicked.connect(self._put_in)
        self.settle.clicked.connect(self._settle)
        self.table.selectionModel().selectionChanged.connect(lambda _new, _old: self._enable())
        close = QDialogButtonBox(QDialogButtonBox.StandardButton.Close, self)
        close.rejected.connect(self.reject)
        line = QHBoxLayout()
        line.addWidget(self.put_in)
        line.addWidget(self.copy)
        line.addWidget(self.settle)
        line.addStretch(1)
        line.addWidget(close)
        layout = QVBoxLayout(self)
        layout.addWidget(self.empty)
        layout.addWidget(self.table, 1)
        layout.addLayout(line)
        self.resize(860, 340)
        desk.closed.connect(self.close)
        self._hearing = Hearing(desk, self, (rows_kept,), lambda _changed: self.read(), while_hidden=True)
        self.read()

    def read(self) -> None:
        """Read the list again."""
        if not self._desk.is_open:
            return
        with self._desk.store.read() as connection:
            kept = kept_entries(connection)
        self.table.plain.fill([(row.id, (row.at, row.meant_for, row.typed, row.why)) for row in kept])
        if kept:
            self.table.selectRow(0)
        self.empty.setVisible(not kept)
        self.table.setVisible(bool(kept))
        self.copy.setEnabled(bool(kept))
        self.settle.setEnabled(bool(kept))
        self._enable()

    def _enable(self) -> None:
        self.put_in.setEnabled(bool(self._rows_kept()))

    def _rows_kept(self) -> dict[int, tuple[What, Line]]:
        """The chosen entry and all others that are rows of the same list, by their ids, in the list's order."""
        found = {}
        for key in self.table.plain.ids:
            row = self.table.plain.text(self.table.plain.ids.index(key))
            read = read_kept(row[1], row[2])
            if read is not None:
                found[key] = read
        chosen = found.get(self.table.chosen() or 0)
        if chosen is None:
            return {}
        of_it = [(key, row) for key, row in found.items() if row[0] is chosen[0]]
        return dict(sorted(of_it, key=lambda one: one[1][1].number))

    def _put_in(self) -> None:
        """Look the rows over as an import; those stored are dealt with."""
        rows = self._rows_kept()
        if not rows:
            return
        dialog = ImportDialog(self._desk, self)
        dialog.setWindowTitle("Put in what was kept aside")
        dialog.accepted.connect(lambda: self._settle_all(tuple(rows)))
        dialog.open()
        what = next(iter(rows.values()))[0]
        dialog.read_kept(what, [line for _, line in rows.values()])

    def _settle_all(self, keys: tuple[int, ...]) -> None:
        for key in keys:
            self._desk.store.settle_kept(key)

    def _copy(self) -> None:
        key = self.table.chosen()
        if key is not None:
            place = self.table.plain.ids.index(key)
            QGuiApplication.clipboard().setText(self.table.plain.text(place)[2])

    def _settle(self) -> None:
        key = self.table.chosen()
        if key is not None:
            self._desk.attempt(lambda: self._desk.store.settle_kept(key))


def show_kept(desk: Desk, window: QWidget | None) -> KeptEntries:
    """Open the list of kept entries."""
    dialog = KeptEntries(desk, window)
    dialog.open()
    return dialog
