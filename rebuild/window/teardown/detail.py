"""One removal in full: its fields, the fasteners of each hole, the shims with their totals."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtWidgets import QFrame, QHBoxLayout, QLineEdit, QPushButton, QScrollArea, QVBoxLayout, QWidget

from rebuild.errors import RebuildError
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.pane_trouble import PaneTrouble
from rebuild.window.forms.edit_form import EditForm
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.plain_table import PlainTable
from rebuild.window.photos.attached import AttachedPhotos
from rebuild.window.teardown.samples import fastener_sample, shims_sample
from rebuild.work.editing.acts import remove
from rebuild.work.photos.about import About
from rebuild.work.records.field import show_day
from rebuild.work.teardown import acts_fasteners
from rebuild.work.teardown.rows_removals import RemovalRow

_LINES = 3


class RemovalDetail(QWidget):
    """The chosen removal, edited in place; fasteners and shims are added as they are said."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._row: RemovalRow | None = None
        self.heading = PlainLabel(self)
        self.fasteners = PlainTable("Fasteners", ("Fasteners, per hole", "Thread"), self)
        self.shims = PlainTable("Shims", ("Shims: where", "Leaves", "Total"), self)
        self.fastener_line, self.shim_line = QLineEdit(self), QLineEdit(self)
        self.form = EditForm(desk, "removal", self, most_columns=1)
        self.photos = AttachedPhotos(desk, "removal", "Photos of it", self, about=self._about)
        self._trouble = PaneTrouble(desk, (self.fastener_line, self.shim_line), self)
        self._compose()
        self.show_samples("mm")
        self.fastener_line.returnPressed.connect(self._add_fastener)
        self.shim_line.returnPressed.connect(self._add_shims)
        self.shims.selectionModel().selectionChanged.connect(self._show_sum)

    def _compose(self) -> None:
        self.heading.setWordWrap(True)
        self.fastener_line.setAccessibleName("Add a fastener")
        self.shim_line.setAccessibleName("Add a shim pack")
        for table in (self.fasteners, self.shims):
            row = table.verticalHeader().defaultSectionSize()
            table.setFixedHeight(row * _LINES + table.horizontalHeader().sizeHint().height() + 4)
        scroll = QScrollArea(self)
        scroll.setAccessibleName("Fields of the chosen removal")
        scroll.setWidget(self.form)
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        strike = QPushButton("Delete entr&y", self)
        strike.clicked.connect(self._strike)
        buttons = QHBoxLayout()
        buttons.addWidget(strike)
        buttons.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(4)
        for widget in (
            self.heading,
            self.fasteners,
            self.fastener_line,
            self.shims,
            self.shim_line,
            self._trouble,
            self.photos,
        ):
            layout.addWidget(widget)
        layout.addWidget(scroll, 1)
        layout.addLayout(buttons)

    def show_samples(self, unit: str) -> None:
        """Show how a fastener and shims are said, in a machine's unit."""
        self.fastener_line.setPlaceholderText(fastener_sample(unit))
        self.shim_line.setPlaceholderText(shims_sample(unit))

    def show_row(self, row: RemovalRow | None) -> None:
        """Show one line of the log, or nothing."""
        same = row is not None and self._row is not None and row.id == self._row.id
        self._row = row
        self.setEnabled(row is not None)
        self.heading.setText(
            f"No. {row.number}  {row.called}: {row.way}, {show_day(row.at)}" if row else "Nothing chosen"
        )
        fasteners = row.fasteners if row else ()
        self.fasteners.plain.fill(
            [(one.id, (one.words, "read" if one.thread_known else "as said")) for one in fasteners]
        )
        packs = row.shims if row else ()
        self.shims.plain.fill(
            [(one.id, (one.where, " + ".join(one.leaves), one.total_words)) for one in packs]
        )
        self.photos.show_row(row.id if row else None)
        if not same:
            self._trouble.end()
        self.form.show_record(row.id if row else None)

    def _about(self) -> About | None:
        """Photos of a removal are photos of the part that came off, too."""
        row = self._row
        return About(part_id=row.part_ids[0]) if row is not None and row.part_ids else None

    def take(self, paths: list[Path]) -> None:
        """Take photos in as photos of this removal."""
        self.photos.take(paths)

    def _show_sum(self) -> None:
        key = self.shims.chosen()
        for pack in self._row.shims if self._row else ():
            if pack.id == key:
                self._desk.ask_working(pack.total.working)

    def _add_fastener(self) -> None:
        row, words = self._row, self.fastener_line.text()
        if row is not None and self._try(
            lambda: acts_fasteners.add_fastener(self._desk.store, row.id, words)
        ):
            self.fastener_line.clear()

    def _add_shims(self) -> None:
        row, text = self._row, self.shim_line.text().strip()
        if row is None or not text:
            return
        first = next((at for at, letter in enumerate(text) if letter.isdigit() or letter == "."), len(text))
        where, leaves = text[:first].strip(), text[first:]
        if self._try(lambda: acts_fasteners.add_shims(self._desk.store, row.id, leaves, location=where)):
            self.shim_line.clear()

    def _try(self, act: Callable[[], object]) -> bool:
        """Do an act; the sentence of a trouble stands under the fields, and what was typed stays."""
        try:
            act()
        except RebuildError as trouble:
            self._trouble.tell(trouble)
            return False
        self._trouble.end()
        return True

    def _strike(self) -> None:
        if self._row is not None:
            key = self._row.id
            self.form.show_record(None)
            self._desk.attempt(
                lambda: remove(self._desk.store, "removal", [key]),
                "Entry deleted from the log; undo brings it back, drafting again drops its step.",
            )
