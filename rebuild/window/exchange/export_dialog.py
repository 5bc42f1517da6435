"""Write the whole file as plain CSV and JSON, or its lists as a workbook, beside the window."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtWidgets import (
    QCheckBox,
    QDialog,
    QDialogButtonBox,
    QFileDialog,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QRadioButton,
    QVBoxLayout,
    QWidget,
)

from rebuild.exchange.folder import export_folder
from rebuild.exchange.workbook import export_workbook
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.job import Job, Tell
from rebuild.window.layout.plain import PlainLabel
from rebuild.words.counted import counted
from rebuild.work.records.wall_clock import now


class ExportDialog(QDialog):
    """What to write and where; a folder must be new, so nothing is written over."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self.setWindowTitle("Export")
        self.folder = QRadioButton("&Everything as a folder of CSV and JSON, with a note that explains it")
        self.book = QRadioButton("Part list and &measurements as a workbook (XLSX)")
        self.folder.setChecked(True)
        self.photos = QCheckBox("With the &photos")
        self.target = QLineEdit()
        self.target.setAccessibleName("Where it is written")
        self.choose = QPushButton("&Choose…")
        self.choose.setAutoDefault(False)  # Enter in the name is no button's key
        self.says = PlainLabel()
        self.says.setWordWrap(True)
        self.buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        self.write = self.buttons.addButton("E&xport", QDialogButtonBox.ButtonRole.ActionRole)
        self.job = Job(self)
        self._lay_out()
        self._wire()
        self._name()

    def _lay_out(self) -> None:
        line = QHBoxLayout()
        line.addWidget(self.target, 1)
        line.addWidget(self.choose)
        layout = QVBoxLayout(self)
        for widget in (self.folder, self.photos, self.book):
            layout.addWidget(widget)
        layout.addLayout(line)
        layout.addWidget(self.says)
        layout.addWidget(self.buttons)
        self.resize(620, 0)

    def _wire(self) -> None:
        self.folder.toggled.connect(self._name)
        self.choose.clicked.connect(self._choose)
        self.write.clicked.connect(self.start)
        self.buttons.rejected.connect(self.reject)
        self.job.progressed.connect(lambda _share, words: self.says.setText(f"{words}…"))
        self.job.done.connect(self._done)
        self.job.failed.connect(self._failed)
        self._desk.closed.connect(self.reject)

    def _name(self) -> None:
        """A name that is free, for what is chosen."""
        path = self._desk.store.path
        today = f"{now():%Y-%m-%d}"
        tail = "" if self.folder.isChecked() else ".xlsx"
        wanted = path.with_name(f"{path.stem} export {today}{tail}")
        number = 2
        while wanted.exists():
            wanted = path.with_name(f"{path.stem} export {today} {number}{tail}")
            number += 1
        self.target.setText(str(wanted))
        self.photos.setEnabled(self.folder.isChecked())

    def _choose(self) -> None:
        kind = "" if self.folder.isChecked() else "Workbook (*.xlsx)"
        name, _kind = QFileDialog.getSaveFileName(self, "Export", self.target.text(), kind)
        if name:
            self.target.setText(name)

    def start(self) -> None:
        """Write it, beside the window."""
        path, target = self._desk.store.path, Path(self.target.text().strip())
        whole, photos = self.folder.isChecked(), self.photos.isChecked()

        def write(tell: Tell) -> object:
            if not whole:
                return f"Written: {target}, {counted(export_workbook(path, target, tell), 'row')}."

            made = export_folder(path, target, photos=photos, tell=tell)
            with_photos = f", {made.photos} photos" if made.photos else ""
            held = f"{counted(made.files, 'file')} with {counted(made.rows, 'row')}{with_photos}"
            return f"Written: {made.folder}, {held}."

        if self.job.start(write):
            self.write.setEnabled(False)

    def _done(self, words: object) -> None:
        self.write.setEnabled(True)
        self.says.setText(str(words))
        self._desk.say(str(words))

    def _failed(self, sentence: str) -> None:
        self.write.setEnabled(True)
        self.says.setText(sentence)

    def reject(self) -> None:
        """Close; what is under way is stopped first."""
        self.job.finish()
        super().reject()


def export_project(desk: Desk, window: QWidget) -> ExportDialog:
    """Ask what to export and where."""
    dialog = ExportDialog(desk, window)
    dialog.open()
    return dialog
