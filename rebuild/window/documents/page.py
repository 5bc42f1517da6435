"""The Manuals page: the machine's documents on the left, the page shown in the middle, its call-outs beneath."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QDragEnterEvent, QDropEvent, QKeySequence
from PySide6.QtWidgets import (
    QFileDialog,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from rebuild.errors import NotThere
from rebuild.window.desk.desk import Desk, Say
from rebuild.window.desk.live_page import LivePage
from rebuild.window.documents.call_out_pane import CallOutPane, follow_call_out
from rebuild.window.documents.taking import TakingManual
from rebuild.window.documents.view import ZOOM_STEP, Fit, PageView
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.plain_table import PlainTable
from rebuild.window.photos.dropped import files_dropped
from rebuild.work.documents import rows, rows_named
from rebuild.work.documents.rows import PageRow, call_outs, documents, page, pages
from rebuild.work.editing.acts import edit, remove
from rebuild.work.photos.acts import photos_in
from rebuild.work.photos.rules_pictures import ENDINGS

_KINDS = " ".join(f"*{ending}" for ending in (".pdf", *ENDINGS))


class ManualsPage(LivePage):
    """Drop PDFs or scans here; PgDn and PgUp turn pages, + and - zoom."""

    shows = (rows, rows_named)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, "Manuals", parent)
        self.setAcceptDrops(True)
        self.pages: list[PageRow] = []
        self.at = 0
        self._document: int | None = None
        self.list = PlainTable("Manuals", ("Manual", "Pages", "Call-outs"), self)
        self.name = QLineEdit(self)
        self.taking = TakingManual(desk, self)
        self.view = PageView(self)
        self.marks = CallOutPane(desk, self)
        self.go_to = QLineEdit(self)
        self.of = PlainLabel(self)
        self.buttons: dict[str, QPushButton] = {}
        self._lay_out()
        self._wire()

    # How it is laid out

    def _lay_out(self) -> None:
        self.list.when_empty(
            "Manuals, parts lists and drawings of this machine: PDFs, or scans of their pages.",
            "Take a manual in",
            self.ask_files,
        )
        self.name.setAccessibleName("Name of the manual")
        self.name.setPlaceholderText("name of the manual")
        left = QWidget(self)
        side = QVBoxLayout(left)
        side.setContentsMargins(0, 0, 0, 0)
        row = QHBoxLayout()
        for key, words, act in (
            ("take", "Take in…", self.ask_files),
            ("scans", "A folder of scans…", self.ask_folder),
            ("remove", "Remove", self.remove),
        ):
            row.addWidget(self._button(key, words, act))
        row.addStretch(1)
        side.addLayout(row)
        side.addWidget(self.list, 1)
        side.addWidget(self.name)
        side.addWidget(self.taking)
        right = QWidget(self)
        body = QVBoxLayout(right)
        body.setContentsMargins(0, 0, 0, 0)
        body.addLayout(self._turning())
        split = QSplitter(Qt.Orientation.Vertical, self)
        split.addWidget(self.view)
        split.addWidget(self.marks)
        split.setChildrenCollapsible(False)
        split.setStretchFactor(0, 1)
        split.setSizes([520, 190])
        body.addWidget(split, 1)
        whole = QSplitter(Qt.Orientation.Horizontal, self)
        whole.addWidget(left)
        whole.addWidget(right)
        whole.setChildrenCollapsible(False)
        whole.setStretchFactor(1, 1)
        whole.setSizes([340, 900])
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 8, 8, 8)
        layout.addWidget(whole)

    def _turning(self) -> QHBoxLayout:
        row = QHBoxLayout()
        self.go_to.setAccessibleName("Page")
        self.go_to.setFixedWidth(self.fontMetrics().horizontalAdvance("0") * 7)
        self.go_to.setToolTip("A page by its place or the number printed on it, then Enter")
        row.addWidget(self._button("back", "Page before", lambda: self.turn(-1), "PgUp"))
        row.addWidget(PlainLabel("Page", self))
        row.addWidget(self.go_to)
        row.addWidget(self.of)
        row.addWidget(self._button("on", "Page after", lambda: self.turn(1), "PgDown"))
        row.addStretch(1)
        for key, words, act, keys in (
            ("smaller", "Smaller", lambda: self.view.zoom_by(1 / ZOOM_STEP), "-"),
            ("larger", "Larger", lambda: self.view.zoom_by(ZOOM_STEP), "+"),
            ("width", "Width", lambda: self.view.set_fit(Fit.WIDTH), "W"),
            ("whole", "Whole page", lambda: self.view.set_fit(Fit.PAGE), "0"),
        ):
            row.addWidget(self._button(key, words, act, keys))
        return row

    def _button(self, key: str, words: str, act: object, keys: str = "") -> QPushButton:
        """A button; its key works while the page or the list of manuals has the keyboard."""
        button = QPushButton(words, self)
        button.setAutoDefault(False)
        button.clicked.connect(lambda _checked=False: act())  # type: ignore[operator]
        self.buttons[key] = button
        if keys:
            button.setToolTip(keys)
            for widget in (self.view, self.list):
                action = QAction(words, widget)
                action.setShortcut(QKeySequence(keys))
                action.setShortcutContext(Qt.ShortcutContext.WidgetShortcut)
                action.triggered.connect(button.click)
                widget.addAction(action)
        return button

    def _wire(self) -> None:
        self.list.selectionModel().selectionChanged.connect(lambda _new, _old: self._choose())
        self.name.editingFinished.connect(self._rename)
        self.go_to.returnPressed.connect(self._go_to)
        self.taking.ended.connect(self.open_document)
        self.marks.draw_button.toggled.connect(lambda on: setattr(self.view.sheet, "drawing", on))
        self.marks.chosen.connect(self._stand_on)
        self.marks.held.connect(self.view.sheet.hold)
        self.view.sheet.drawn.connect(self.marks.mark)
        self.view.sheet.clicked.connect(self._clicked)
        self._desk.closed.connect(self.view.drawer.forget)

    # Showing

    def refresh(self) -> None:
        """Read the manuals again; the page shown stays."""
        listed = []
        if self.machine is not None:
            with self._desk.store.read() as connection:
                listed = documents(connection, self.machine)
        here = self._document
        self.marks.offer()
        self.list.plain.fill(
            [(row.id, (row.name, str(row.pages), str(row.call_outs or ""))) for row in listed]
        )
        ids = [row.id for row in listed]
        if here not in ids:
            self._document, self.pages, self.at = None, [], 0
            here = ids[0] if ids else None
        if here is not None and self.list.chosen() != here:
            self.list.choose(here)
        self._choose()

    def _choose(self) -> None:
        """Another manual was chosen, or the list was read again."""
        chosen = self.list.chosen()
        if chosen is None or self.machine is None:
            self._document, self.pages = None, []
        elif chosen != self._document:
            with self._desk.store.read() as connection:
                self.pages = pages(connection, chosen)
            self._document, self.at = chosen, 0
        row = self.list.selectionModel().selectedRows()
        name = self.list.plain.text(row[0].row())[0] if row else ""
        if not self.name.hasFocus():
            self.name.setText(name)
        self.name.setEnabled(bool(row))
        self._show()

    def _show(self) -> None:
        shown = self.pages[self.at] if self.at < len(self.pages) else None
        marks = []
        if shown is not None:
            with self._desk.store.read() as connection:
                marks = call_outs(connection, shown.id)
        project = self._desk.store.path if self._desk.is_open else Path()
        self.view.show_page(project, shown, marks, "No manual yet. Drop a PDF or scans here.")
        self.marks.show_page(shown, marks)
        printed = f", printed {shown.label}" if shown is not None and shown.label else ""
        self.go_to.setText(str(self.at + 1) if shown is not None else "")
        self.of.setText(f"of {len(self.pages)}{printed}" if shown is not None else "")
        for key in ("smaller", "larger", "width", "whole", "remove"):
            self.buttons[key].setEnabled(shown is not None)
        self.buttons["back"].setEnabled(self.at > 0)
        self.buttons["on"].setEnabled(self.at + 1 < len(self.pages))

    def turn(self, by: int) -> None:
        """So many pages on or back, no farther than the first or last."""
        to = max(0, min(len(self.pages) - 1, self.at + by))
        if to != self.at:
            self.at = to
            self._show()

    def _go_to(self) -> None:
        """To the page typed: as printed on it, else by its place."""
        typed = self.go_to.text().strip()
        printed = [
            at for at, row in enumerate(self.pages) if row.label.casefold() == typed.casefold() and typed
        ]
        placed = [at for at, row in enumerate(self.pages) if str(row.number) == typed]
        found = next(iter((*printed, *placed)), None)
        if found is None:
            self._desk.say(
                f"Page: “{typed}” is none of this manual. Type 1 to {len(self.pages)}, or a number printed on a page.",
                Say.ASK,
            )
            return
        self.at = found
        self._show()
        self.view.setFocus()

    def open_document(self, document_id: int) -> None:
        """Show a manual from its first page."""
        self.refresh()
        self.list.choose(document_id)

    def show_row(self, table: str, key: int) -> None:
        """Show a manual, one page of it, or a call-out in view."""
        self.refresh()
        if table == "document":
            self.list.choose(key)
            return
        with self._desk.store.read() as connection:
            page_id = rows.page_of_call_out(connection, key) if table == "call_out" else key
            try:
                shown = page(connection, page_id)
            except NotThere as gone:
                self._desk.say(str(gone), Say.TROUBLE)
                return
        self.list.choose(shown.document_id)
        self.at = shown.number - 1
        self._show()
        if table == "call_out":
            self.marks.table.choose(key)

    def _stand_on(self, key: int) -> None:
        shown = self.pages[self.at] if self.pages else None
        if shown is not None:
            with self._desk.store.read() as connection:
                mark = next((one for one in call_outs(connection, shown.id) if one.id == key), None)
            if mark is not None:
                self.view.stand_on(mark)

    def _clicked(self, key: int) -> None:
        """A call-out on the page was clicked: to what it names, else to its line."""
        self.marks.table.choose(key)
        with self._desk.store.read() as connection:
            marks = call_outs(connection, self.pages[self.at].id)
        mark = next((one for one in marks if one.id == key), None)
        if mark is not None and mark.named:
            follow_call_out(self._desk, mark)

    # Acting

    def ask_files(self) -> None:
        """Choose PDFs, or the scans of one manual."""
        names, _ = QFileDialog.getOpenFileNames(self, "Take in a manual", "", f"Manuals ({_KINDS})")
        self.taking.take([Path(name) for name in names])

    def ask_folder(self) -> None:
        """Choose a folder whose pictures are the pages of one manual, by their names."""
        name = QFileDialog.getExistingDirectory(self, "Take in a folder of scans")
        if name:
            found = self._desk.attempt(lambda: photos_in(Path(name)))
            self.taking.take(found or [])

    def _rename(self) -> None:
        key, name = self._document, self.name.text().strip()
        shown = self.list.selectionModel().selectedRows()
        was = self.list.plain.text(shown[0].row())[0] if shown else ""
        if key is not None and name != was:
            self._desk.attempt(
                lambda: edit(self._desk.store, "document", [key], {"name": name}, seen={"name": was})
            )

    def remove(self) -> None:
        """Take the manual out of the project with its call-outs; its file stays for undo."""
        key = self._document
        if key is not None:
            self._desk.attempt(
                lambda: remove(self._desk.store, "document", [key]), "Removed; undo brings it back."
            )

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Files are welcome."""
        if event.mimeData().hasUrls():
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        """Take in what was dropped: PDFs, pictures, or folders of scans."""
        self.taking.take(files_dropped(event))

    def panes(self) -> list[QWidget]:
        """The panes F6 goes round."""
        return [self.list, self.view, self.marks.table, self.marks.line.words]
