"""Bring in a part list or readings: which column means what, how every row would go, then all in one act."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import QMimeData
from PySide6.QtWidgets import (
    QApplication,
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

from rebuild.errors import BadEntry, RebuildError
from rebuild.exchange.guess import batches_from, batches_of, which
from rebuild.exchange.pasted import pasted_table
from rebuild.exchange.tables import Table, read_tables, without_heads
from rebuild.exchange.whole_in import bring_in_folder, is_whole, read_whole
from rebuild.window.desk.desk import Desk, Say
from rebuild.window.desk.turns import in_turns
from rebuild.window.exchange.import_columns import ImportColumns
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.plain_table import PlainTable
from rebuild.words.counted import counted
from rebuild.work.lists.acts import Batch, Looked, bring_in, look_over
from rebuild.work.lists.fields import What
from rebuild.work.lists.line import InHand

_ENDINGS = (".csv", ".tsv", ".txt", ".xlsx", ".xlsm", ".xls", ".ods")
_KINDS = f"Tables ({' '.join(f'*{ending}' for ending in _ENDINGS)});;Any file (*)"


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
        self.no_heads = QCheckBox("The first row is no &heading but one of the rows")
        self.columns = ImportColumns()
        self.rows = PlainTable("How each row would go", ("Row", "Would become", "Stopped by"))
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
        self.sheet.activated.connect(lambda _at: self._show_sheet())
        self.no_heads.toggled.connect(lambda _on: self._show_table())
        self.sure.toggled.connect(self._say)
        self.keep_bad.toggled.connect(self._say)
        self.bring.clicked.connect(self.store)
        self.buttons.rejected.connect(self.reject)
        self._desk.closed.connect(self.reject)

    def _ask_file(self) -> None:
        name, _kind = QFileDialog.getOpenFileName(self, "Import", str(self._desk.store.path.parent), _KINDS)
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

    def _forget(self) -> None:
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
        lists = [table for table in tables if _kind_of(table)[0] is not None]
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
        what, self._not_placed = _kind_of(table)
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
                lambda tell: look_over(store, machine_id, self._batches, self.hand, tell),
            )
        except RebuildError as trouble:
            self._looked = []
            self.says.setText(str(trouble))
        order = sorted(self._looked, key=lambda row: row.clear)
        self.rows.plain.fill([(at, _shown(row, len(self._batches))) for at, row in enumerate(order)])
        self._say()

    def _bad(self) -> list[Looked]:
        return [row for row in self._looked if row.trouble and not (row.odd and self.sure.isChecked())]

    def _say(self) -> None:
        bad = self._bad()
        good = len(self._looked) - len(bad)
        words = _words(good, len(self._looked), bad) if self._looked else ""
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
                    self._batches,
                    confirmed=self.sure.isChecked(),
                    keep_bad=self.keep_bad.isChecked(),
                    hand=self.hand,
                    tell=tell,
                ),
            )
        )
        if made is not None:
            kept = f" {made.kept} rows are in the kept entries (File, Kept entries)." if made.kept else ""
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


def _kind_of(table: Table) -> tuple[What | None, str]:
    """Which list a table is; or none, and the sentence that says so."""
    try:
        return which(table), ""
    except BadEntry as none:
        return None, f"{none.where} {none.what} Say below what each column means."


def _shown(row: Looked, lists: int) -> tuple[str, str, str]:
    where = f"{row.what.value} {row.line.number}" if lists > 1 else str(row.line.number)
    return where, row.says, row.trouble


def _words(good: int, whole: int, bad: Sequence[Looked]) -> str:
    words = [f"{good} of {counted(whole, 'row')} can be stored, in one act."]
    odd = sum(row.odd for row in bad)
    if odd:
        words.append(f"{odd} readings look odd: take them as they are, or mend the file.")
    if len(bad) > odd:
        words.append(f"{len(bad) - odd} cannot be stored: mend the file, or keep them aside.")
    return " ".join(words)


def paste_list(desk: Desk, window: QWidget) -> ImportDialog | None:
    """Show how the list in the clipboard would go into the chosen subassembly; with none there say so, open nothing."""
    held: QMimeData | None = QApplication.clipboard().mimeData()
    held = held or QMimeData()  # an empty clipboard has none
    files = [Path(url.toLocalFile()) for url in held.urls() if url.isLocalFile()]
    lists = [path for path in files if path.suffix.lower() in _ENDINGS]
    if not lists and (files or not held.text().strip()):
        desk.say(_no_list(files, picture=held.hasImage()), Say.ASK)
        return None
    dialog = ImportDialog(desk, window)
    dialog.setWindowTitle("Paste a list of parts")
    dialog.open()
    if lists:
        dialog.read(lists[0])
    else:
        dialog.read_pasted(held.text())
    return dialog


def _no_list(files: Sequence[Path], *, picture: bool) -> str:
    """Why nothing is pasted, and what to do instead."""
    if files:
        name = files[0].name
        return f"The clipboard holds “{name}”, which is no list of parts; photos are pasted under Photos."
    if picture:
        return (
            "The clipboard holds a picture, no list of parts: paste it under Photos, or in the removal line."
        )
    return "The clipboard is empty: copy a list of parts first, in a spreadsheet or a text; Ctrl+N adds one part."


def import_tables(desk: Desk, window: QWidget) -> ImportDialog:
    """Ask what to import."""
    dialog = ImportDialog(desk, window)
    dialog.open()
    return dialog
