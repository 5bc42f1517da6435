"""Bring in a part list or readings: which column means what, how every row would go, then all in one act."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QDialog,
    QDialogButtonBox,
    QFileDialog,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from rebuild.errors import RebuildError
from rebuild.exchange.guess import batches_from, batches_of
from rebuild.exchange.pasted import pasted_table
from rebuild.exchange.tables import Table, read_tables, without_heads
from rebuild.exchange.whole_in import bring_in_folder, is_whole, read_whole
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.turns import in_turns
from rebuild.window.exchange.import_columns import ImportColumns
from rebuild.window.exchange.import_words import KINDS, kind_of, row_words, sum_words
from rebuild.window.exchange.mend_table import MendTable
from rebuild.window.layout.plain import PlainLabel
from rebuild.words.counted import counted
from rebuild.work.lists.acts import Batch, Looked, bring_in, look_over
from rebuild.work.lists.fields import What
from rebuild.work.lists.line import InHand, Line
from rebuild.work.lists.mending import mended


class ImportDialog(QDialog):
    """File, columns, rows; *Import* is there once a row can be stored."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._looked: list[Looked] = []
        self._batches: tuple[Batch, ...] = ()
        self._tables: tuple[Table, ...] = ()
        self._whole: Path | None = None
        self._not_placed = ""
        self._changes: dict[tuple[What, int], dict[str, str]] = {}
        self._order: list[Looked] = []
        chosen = desk.selection
        self.hand = InHand(
            chosen.subassembly_id,
            chosen.part_ids[0] if len(chosen.part_ids) == 1 else None,
            chosen.key[0] if chosen.key is not None else None,
        )
        self.setWindowTitle("Import")
        self.path = QLineEdit()
        self.path.setAccessibleName("File or exported folder")
        self.path.setPlaceholderText(
            "A CSV or workbook with a part list or readings, or a folder made by an export"
        )
        self.choose = QPushButton("&File…")
        self.choose_folder = QPushButton("F&older…")
        self.sheet = QComboBox()
        self.sheet.setAccessibleName("Which sheet")
        self.sheet.hide()
        self.no_heads = QCheckBox("The first row is no &heading but one of the rows")
        self.no_heads.hide()
        self.columns = ImportColumns()
        self.rows = MendTable("How each row would go")
        self.sure = QCheckBox("Take readings that look &odd as they are")
        self.keep_bad = QCheckBox("Put rows that cannot be stored into the &kept entries")
        self.says = PlainLabel()
        self.says.setWordWrap(True)
        self.buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        self.bring = self.buttons.addButton("&Import", QDialogButtonBox.ButtonRole.ActionRole)
        self._lay_out()
        self._wire()
        self._say()

    def _lay_out(self) -> None:
        line = QHBoxLayout()
        line.addWidget(self.path, 1)
        line.addWidget(self.choose)
        line.addWidget(self.choose_folder)
        layout = QVBoxLayout(self)
        layout.addLayout(line)
        layout.addWidget(self.sheet)
        layout.addWidget(self.no_heads)
        layout.addWidget(self.columns)
        layout.addWidget(self.rows, 1)
        layout.addWidget(self.sure)
        layout.addWidget(self.keep_bad)
        layout.addWidget(self.says)
        layout.addWidget(self.buttons)
        self.resize(940, 640)

    def _wire(self) -> None:
        for button in self.findChildren(QPushButton):
            button.setAutoDefault(False)  # Enter in the file's name reads the file: it is no button's key
        self.choose.clicked.connect(self._ask_file)
        self.choose_folder.clicked.connect(self._ask_folder)
        self.path.editingFinished.connect(self._read)
        self.columns.changed.connect(self._look)
        self.rows.mending.typed.connect(self._mend)
        self.sheet.activated.connect(lambda _at: self._show_sheet())
        self.no_heads.toggled.connect(lambda _on: self._show_table())
        self.sure.toggled.connect(self._say)
        self.keep_bad.toggled.connect(self._say)
        self.bring.clicked.connect(self.store)
        self.buttons.rejected.connect(self.reject)
        self._desk.closed.connect(self.reject)

    def _ask_file(self) -> None:
        name, _kind = QFileDialog.getOpenFileName(self, "Import", str(self._desk.store.path.parent), KINDS)
        if name:
            self.read(Path(name))

    def _ask_folder(self) -> None:
        name = QFileDialog.getExistingDirectory(self, "Import", str(self._desk.store.path.parent))
        if name:
            self.read(Path(name))

    def _read(self) -> None:
        typed = self.path.text().strip()
        if typed and self.path.isModified():
            self.read(Path(typed))

    def read(self, path: Path) -> None:
        """Read a file or folder and show how its rows would go."""
        self.path.setText(str(path))
        self.path.setModified(False)
        self._forget()
        try:
            if is_whole(path):
                self._show_whole(path)
                return
            if path.is_dir():
                self._batches = batches_of(path)
                self._look()
                return
            self._offer(read_tables(path))
        except RebuildError as trouble:
            self.says.setText(str(trouble))

    def read_pasted(self, text: str) -> None:
        """Show how a list from the clipboard would go."""
        self.path.setText("what was pasted")
        self._forget()
        try:
            self._offer((pasted_table(text),))
        except RebuildError as trouble:
            self.says.setText(str(trouble))

    def read_kept(self, what: What, lines: Sequence[Line]) -> None:
        """Show how rows that were kept aside would go now."""
        self.path.setText("what was kept aside")
        self._forget()
        if len({line.number for line in lines}) < len(
            lines
        ):  # of two lists: their own numbers would be mixed up
            lines = [replace(line, number=at) for at, line in enumerate(lines, 1)]
        self._batches = (Batch(what, tuple(lines)),)
        self._look()

    def _forget(self) -> None:
        self._changes.clear()
        self._batches, self._looked, self._tables, self._whole, self._not_placed = (), [], (), None, ""
        self.columns.show_table(None, None)
        self.sheet.clear()
        self.sheet.hide()
        self.no_heads.hide()
        self.rows.plain.fill([])
        self.bring.setEnabled(False)

    def _offer(self, tables: tuple[Table, ...]) -> None:
        """One table with its columns; of several sheets all that are lists together, or each by itself."""
        self._tables = tables
        lists = [table for table in tables if kind_of(table)[0] is not None]
        if len(lists) > 1:
            self.sheet.addItem(f"all {len(lists)} lists", None)
        for at, table in enumerate(tables):
            self.sheet.addItem(f"sheet “{table.name}”", at)
        first = tables.index(lists[0]) if len(lists) == 1 else 0
        self.sheet.setCurrentIndex(0 if len(lists) > 1 else first)
        self.sheet.setVisible(len(tables) > 1)
        self._show_sheet()

    def _show_sheet(self) -> None:
        at = self.sheet.currentData()
        self.no_heads.blockSignals(True)
        self.no_heads.setChecked(False)
        self.no_heads.blockSignals(False)
        if at is None:
            self._not_placed = ""
            self.no_heads.hide()
            self.columns.show_table(None, None)
            self._batches = batches_from(self._tables)
            self._look()
        else:
            self._show_table()

    def _show_table(self) -> None:
        """A table nobody can place is shown all the same, its columns to be said by hand."""
        at = self.sheet.currentData()
        table = self._tables[at if isinstance(at, int) else 0]
        what, self._not_placed = kind_of(table)
        self.no_heads.setVisible(True)
        self.columns.show_table(
            without_heads(table) if self.no_heads.isChecked() else table, what or What.PARTS
        )
        self._look()

    def _show_whole(self, folder: Path) -> None:
        """An export that nobody edited comes in whole, table by table."""
        whole = read_whole(folder)
        self._whole = folder
        rows = [
            (at, (table.name.replace("_", " "), counted(len(table.rows), "row"), ""))
            for at, table in enumerate(whole.tables)
        ]
        self.rows.plain.fill(rows)
        self.says.setText(
            f"A whole export: all {whole.count} rows of {len(rows)} tables come in, in one act."
        )
        self.sure.setEnabled(False)
        self.keep_bad.setEnabled(False)
        self.bring.setEnabled(True)

    def _look(self) -> None:
        """How every row would go as things stand; nothing is stored by looking."""
        batch = self.columns.batch()
        if batch is not None:
            self._batches = (batch,)
        store, machine_id = self._desk.store, self._desk.machine_id
        try:
            self._looked = in_turns(
                "Looking how each row would go",
                self,
                lambda tell: look_over(store, machine_id, self._mended(), self.hand, tell),
            )
        except RebuildError as trouble:
            self._looked = []
            self.says.setText(str(trouble))
        self._order = sorted(self._looked, key=lambda row: row.clear)
        can = frozenset(at for at, row in enumerate(self._order) if self._field(row))
        several = len(self._batches)
        self.rows.mending.fill_with(
            [(at, (*row_words(row, several), self._to_mend(row))) for at, row in enumerate(self._order)], can
        )
        self._say()

    def _mended(self) -> tuple[Batch, ...]:
        return mended(self._batches, self._changes)

    def _field(self, row: Looked) -> str:
        """The column a row is mended in: what stops it, else what was mended last."""
        return row.field or next(reversed(self._changes.get((row.what, row.line.number), {})), "")

    def _to_mend(self, row: Looked) -> str:
        return row.line.text(self._field(row)) if self._field(row) else ""

    def _mend(self, at: int, text: str) -> None:
        """What was typed into a row's cell stands in its place; every row is looked over again."""
        row = self._order[at]
        changed = self._changes.setdefault((row.what, row.line.number), {})
        changed.pop(self._field(row), None)
        changed[row.field or self._field(row)] = text
        self._look()
        self.rows.setFocus()
        self.rows.choose(0)

    def _bad(self) -> list[Looked]:
        return [row for row in self._looked if row.trouble and not (row.odd and self.sure.isChecked())]

    def _say(self) -> None:
        bad = self._bad()
        good = len(self._looked) - len(bad)
        words = sum_words(good, len(self._looked), bad) if self._looked else ""
        if words or self._not_placed:
            self.says.setText(" ".join(filter(None, (self._not_placed, words))))
        self.sure.setEnabled(any(row.odd for row in self._looked))
        self.keep_bad.setEnabled(bool(bad))
        self.bring.setEnabled(good > 0 and (not bad or self.keep_bad.isChecked()))

    def store(self) -> None:
        """Store them in one act and close."""
        if self._whole is not None:
            self._store_whole(self._whole)
            return
        made = self._desk.attempt(
            lambda: in_turns(
                "Importing",
                self,
                lambda tell: bring_in(
                    self._desk.store,
                    self._desk.machine_id,
                    self._mended(),
                    confirmed=self.sure.isChecked(),
                    keep_bad=self.keep_bad.isChecked(),
                    hand=self.hand,
                    tell=tell,
                ),
            )
        )
        if made is not None:
            kept = (
                f" {counted(made.kept, 'row')} in the kept entries (File, Kept entries)." if made.kept else ""
            )
            self._desk.say(f"Imported in one act: {made.words}.{kept} Ctrl+Z takes it back.")
            self.accept()

    def _store_whole(self, folder: Path) -> None:
        came = self._desk.attempt(
            lambda: in_turns("Importing", self, lambda tell: bring_in_folder(self._desk.store, folder, tell))
        )
        if came is not None:
            photos = f" {counted(came.photos, 'photo')} came with it." if came.photos else ""
            self._desk.say(f"Imported in one act: {came.words}.{photos} Ctrl+Z takes it back.")
            self.accept()


def import_tables(desk: Desk, window: QWidget) -> ImportDialog:
    """Ask what to import."""
    dialog = ImportDialog(desk, window)
    dialog.open()
    return dialog
