"""Bring in a part list or readings: which column means what, how every row would go, then all in one act."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QApplication,
    QCheckBox,
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
from rebuild.exchange.guess import batches_of, which
from rebuild.exchange.tables import read_tables
from rebuild.window.desk.desk import Desk
from rebuild.window.exchange.import_columns import ImportColumns
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.plain_table import PlainTable
from rebuild.work.lists.acts import Batch, Looked, bring_in, look_over

_KINDS = "Tables (*.csv *.txt *.xlsx *.xlsm);;Any file (*)"


class ImportDialog(QDialog):
    """File, columns, rows; *Import* is there once a row can be stored."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._looked: list[Looked] = []
        self._batches: tuple[Batch, ...] = ()
        self.setWindowTitle("Import")
        self.path = QLineEdit()
        self.path.setAccessibleName("File or exported folder")
        self.path.setPlaceholderText(
            "A CSV or workbook with a part list or readings, or a folder made by an export"
        )
        self.choose = QPushButton("&File…")
        self.choose_folder = QPushButton("F&older…")
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
        layout.addWidget(self.columns)
        layout.addWidget(self.rows, 1)
        layout.addWidget(self.sure)
        layout.addWidget(self.keep_bad)
        layout.addWidget(self.says)
        layout.addWidget(self.buttons)
        self.resize(940, 640)

    def _wire(self) -> None:
        self.choose.clicked.connect(self._ask_file)
        self.choose_folder.clicked.connect(self._ask_folder)
        self.path.editingFinished.connect(self._read)
        self.columns.changed.connect(self._look)
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
        self._batches, self._looked = (), []
        self.columns.show_table(None, None)
        try:
            tables = () if path.is_dir() else read_tables(path)
            if len(tables) == 1:
                self.columns.show_table(tables[0], which(tables[0]))
            else:
                self._batches = batches_of(path)
        except RebuildError as trouble:
            self.rows.plain.fill([])
            self.says.setText(str(trouble))
            self.bring.setEnabled(False)
            return
        self._look()

    def _look(self) -> None:
        """How every row would go as things stand; nothing is stored by looking."""
        batch = self.columns.batch()
        if batch is not None:
            self._batches = (batch,)
        QApplication.setOverrideCursor(Qt.CursorShape.WaitCursor)
        try:
            self._looked = look_over(self._desk.store, self._desk.machine_id, self._batches)
        except RebuildError as trouble:
            self._looked = []
            self.says.setText(str(trouble))
        finally:
            QApplication.restoreOverrideCursor()
        order = sorted(self._looked, key=lambda row: row.clear)
        self.rows.plain.fill([(at, _shown(row, len(self._batches))) for at, row in enumerate(order)])
        self._say()

    def _bad(self) -> list[Looked]:
        return [row for row in self._looked if row.trouble and not (row.odd and self.sure.isChecked())]

    def _say(self) -> None:
        bad = self._bad()
        good = len(self._looked) - len(bad)
        if self._looked:
            self.says.setText(_words(good, len(self._looked), bad))
        self.sure.setEnabled(any(row.odd for row in self._looked))
        self.keep_bad.setEnabled(bool(bad))
        self.bring.setEnabled(good > 0 and (not bad or self.keep_bad.isChecked()))

    def store(self) -> None:
        """Store them in one act and close."""
        made = self._desk.attempt(
            lambda: bring_in(
                self._desk.store,
                self._desk.machine_id,
                self._batches,
                confirmed=self.sure.isChecked(),
                keep_bad=self.keep_bad.isChecked(),
            )
        )
        if made is not None:
            kept = f" {made.kept} rows are in the kept entries (File, Kept entries)." if made.kept else ""
            self._desk.say(f"Imported in one act: {made.words}.{kept} Ctrl+Z takes it back.")
            self.accept()


def _shown(row: Looked, lists: int) -> tuple[str, str, str]:
    where = f"{row.what.value} {row.line.number}" if lists > 1 else str(row.line.number)
    return where, row.says, row.trouble


def _words(good: int, whole: int, bad: Sequence[Looked]) -> str:
    words = [f"{good} of {whole} rows can be stored, in one act."]
    odd = sum(row.odd for row in bad)
    if odd:
        words.append(f"{odd} readings look odd: take them as they are, or mend the file.")
    if len(bad) > odd:
        words.append(f"{len(bad) - odd} cannot be stored: mend the file, or keep them aside.")
    return " ".join(words)


def import_tables(desk: Desk, window: QWidget) -> ImportDialog:
    """Ask what to import."""
    dialog = ImportDialog(desk, window)
    dialog.open()
    return dialog
