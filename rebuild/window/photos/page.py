"""The Photos page: the inbox and what is sorted on the left, the chosen photo with its marks on the right."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QDragEnterEvent, QDropEvent, QKeySequence
from PySide6.QtWidgets import (
    QComboBox,
    QFileDialog,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from rebuild.window.desk.desk import Desk, Say
from rebuild.window.desk.live_page import LivePage
from rebuild.window.forms.add_dialog import AddDialog
from rebuild.window.layout.plain import PlainLabel, plain_tip
from rebuild.window.lists.empty_state import EmptyState
from rebuild.window.lists.said import exact, moment
from rebuild.window.photos.camera_clock import ask_clock
from rebuild.window.photos.dropped import files_dropped
from rebuild.window.photos.filing import Filing
from rebuild.window.photos.in_hand import InHandEditor
from rebuild.window.photos.mark_tools import MarkTools
from rebuild.window.photos.photo_list import PhotoList
from rebuild.window.photos.sheet import PhotoSheet
from rebuild.window.photos.strip import NO_PICTURE, take_clipboard
from rebuild.window.photos.taking import Taking
from rebuild.window.photos.thumbs import ThumbModel
from rebuild.window.photos.watch import FolderWatch
from rebuild.window.photos.watch_button import WatchButton
from rebuild.work.editing.acts import edit, remove
from rebuild.work.photos import rows as photo_rows, rows_shown
from rebuild.work.photos.about import About
from rebuild.work.photos.acts import photos_in
from rebuild.work.photos.rows import PhotoRow, Which, marks, photos
from rebuild.work.photos.rows_shown import shown
from rebuild.work.photos.rules_pictures import ENDINGS
from rebuild.work.records import rows_like
from rebuild.work.records.rows import choices


class PhotosPage(LivePage):
    """Drop photos or a folder here; sort with one key to what is chosen on the bench."""

    shows = (photo_rows, rows_shown, rows_like)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, "Photos", parent)
        self.setAcceptDrops(True)
        self.which = QComboBox()
        self.which.setAccessibleName("Which photos")
        self.which.addItems([which.value for which in Which])
        self.which.setCurrentText(Which.ALL.value)
        self.model = ThumbModel(self)
        self.list = PhotoList(self.model)
        self.filing = Filing(desk, self.list.chosen)
        self.sheet = PhotoSheet()
        self.marking = MarkTools(desk)
        self.tool, self.words, self.names = self.marking.tool, self.marking.words, self.marking.names
        self.hand = InHandEditor(desk)
        self.proves = QLineEdit()
        self.proves.setAccessibleName("What it shows")
        self.proves.setPlaceholderText("what it shows")
        self.about = PlainLabel()
        self.about.setWordWrap(True)
        self.taking = Taking(desk, self)
        self.watch = FolderWatch(self)
        self.watch_button = WatchButton(desk, self.watch)
        self.hand_button = QPushButton("What was in ha&nd")
        self.clock_button = QPushButton("Camera’s cloc&k…")
        self._lay_out()
        self._make_actions()
        self._wire()

    def _lay_out(self) -> None:
        take, folder = QPushButton("&Take in…"), QPushButton("Take in a f&older…")
        take.clicked.connect(self.ask_files)
        folder.clicked.connect(self.ask_folder)
        EmptyState(self.list, "Photos, to be sorted to parts and steps.", "Take photos in", self.ask_files)
        top = QHBoxLayout()
        top.addWidget(self.which)
        top.addWidget(take)
        top.addWidget(folder)
        top.addWidget(self.watch_button)
        top.addStretch(1)
        second = QHBoxLayout()
        second.addWidget(PlainLabel("Part in hand"))
        second.addWidget(self.hand, 1)
        for button in (self.hand_button, self.clock_button):
            second.addWidget(button)
        left, right = QWidget(), QWidget()
        side = QVBoxLayout(left)
        side.setContentsMargins(0, 0, 0, 0)
        side.addLayout(top)
        side.addWidget(self.list)
        side.addWidget(self.taking)
        side.addLayout(second)
        body = QVBoxLayout(right)
        body.setContentsMargins(0, 0, 0, 0)
        body.addWidget(self.about)
        body.addWidget(self.sheet, 1)
        body.addWidget(self.proves)
        body.addWidget(self.marking)
        whole = QSplitter(Qt.Orientation.Horizontal)
        whole.addWidget(left)
        whole.addWidget(right)
        whole.setChildrenCollapsible(False)
        whole.setSizes([540, 640])
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 8, 8, 8)
        layout.addWidget(whole)

    def _make_actions(self) -> None:
        for words, keys, handler in (
            ("To the chosen &part", "P", self.sort_to_part),
            ("To the chosen &subassembly", "S", self.filing.to_subassembly),
            ("To the chosen s&tep", "T", self.filing.to_step),
            ("S&hows the chosen part, too", "Shift+P", self.filing.show_part_too),
            ("Shows the chosen step, t&oo", "Shift+T", self.filing.show_step_too),
            ("To what was in ha&nd", "H", self.offer),
            ("Pa&ste", "Ctrl+V", self.paste),
            ("Back to the &inbox", "I", self.filing.back_to_inbox),
            ("&Remove", "Del", self.remove),
        ):
            action = QAction(words, self.list)
            action.setShortcut(QKeySequence(keys))
            action.setShortcutContext(Qt.ShortcutContext.WidgetShortcut)
            action.triggered.connect(handler)
            self.list.addAction(action)

    def _wire(self) -> None:
        self._desk.selection_changed.connect(self.look_again)
        self._desk.closed.connect(self.model.stop)
        self._desk.closed.connect(self.sheet.job.drop)
        self.which.currentIndexChanged.connect(self.refresh)
        self.list.selectionModel().currentChanged.connect(lambda *_: self._show())
        self.marking.drawing.connect(lambda on: setattr(self.sheet, "drawing", on))
        self.sheet.drawn.connect(lambda start, end: self.marking.mark(self.current(), start, end))
        self.sheet.clicked.connect(self.marking.follow)
        self.hand.named.connect(self.list.setFocus)
        self.proves.editingFinished.connect(self._store_proves)
        self.hand_button.clicked.connect(self.offer)
        self.clock_button.clicked.connect(self.set_clock)
        self.watch.arrived.connect(self.take)
        self._desk.closed.connect(self.watch.end)

    def show_row(self, _table: str, key: int) -> None:
        """Choose one photo among all of the machine."""
        self.which.setCurrentText(Which.ALL.value)
        self.refresh()
        self.list.choose(key)

    def refresh(self) -> None:
        """Read the list again; the chosen photo stays chosen."""
        here = self.current()
        rows: list[PhotoRow] = []
        if self._desk.is_open and self._desk.machine_id is not None:
            chosen = self._desk.selection
            with self._desk.store.read() as connection:
                parts = choices(connection, "part", self._desk.machine_id)
                self.marking.offer(parts)
                self.hand.offer(parts)
                rows = photos(
                    connection,
                    self._desk.machine_id,
                    Which(self.which.currentText()),
                    subassembly_id=chosen.subassembly_id,
                    part_ids=chosen.part_ids,
                    task_ids=chosen.task_ids,
                )
            self.model.set_rows(self._desk.store.path, rows)
        else:
            self.model.set_rows(Path(), [])
        self.hand.show_chosen()
        ids = [row.id for row in rows]
        at = ids.index(here.id) if here is not None and here.id in ids else (0 if ids else -1)
        if at >= 0:
            self.list.setCurrentIndex(self.model.index(at))
        self._show()

    def current(self) -> PhotoRow | None:
        """The photo shown large."""
        return self.list.current()

    def _show(self) -> None:
        photo = self.current()
        if photo is None or not self._desk.is_open:
            self.sheet.show_photo(None, Path(), [])
            self.about.setText("No photos here yet.")
            self.proves.clear()
            return
        with self._desk.store.read() as connection:
            drawn = marks(connection, photo.id)
            more = shown(connection, photo.id)
        self.sheet.show_photo(photo, self._desk.store.path, drawn)
        taken = f", {moment(photo.taken_at)}" if photo.taken_at else ""
        also = ", ".join([photo.about or "inbox", *(one.called for one in more)])
        self.about.setText(f"{also}: {photo.phase.value}{taken}, {photo.file_name}")
        self.about.setToolTip(plain_tip(exact(moment(photo.taken_at))))
        if not self.proves.hasFocus():
            self.proves.setText(photo.proves)

    # Acting

    def ask_files(self) -> None:
        """Choose photos to take in."""
        kinds = " ".join(f"*{ending}" for ending in ENDINGS)
        names, _ = QFileDialog.getOpenFileNames(self, "Take in photos", "", f"Photos ({kinds})")
        self.take([Path(name) for name in names])

    def ask_folder(self) -> None:
        """Choose a folder to take in whole."""
        name = QFileDialog.getExistingDirectory(self, "Take in a folder of photos")
        if name:
            found = self._desk.attempt(lambda: photos_in(Path(name)))
            self.take(found or [])

    def take(self, paths: list[Path]) -> None:
        """Take photos in, to the inbox; what was refused is said."""
        machine = self._desk.machine_id
        if not paths or machine is None:
            return
        self.taking.take(paths)

    def paste(self) -> None:
        """Take in the picture or files of the clipboard."""
        if not take_clipboard(self.take):
            self._desk.say(NO_PICTURE, Say.ASK)

    def offer(self) -> None:
        """Sort the chosen photos of the inbox to what was in hand at their time; what cannot be told stays there."""
        self.filing.to_what_was_in_hand()

    def set_clock(self) -> AddDialog | None:
        """Ask when the photo shown was really taken: its camera's clock is put right by that."""
        photo = self.current()
        return ask_clock(self._desk, photo, self) if photo is not None else None

    def sort_to_part(self) -> None:
        """Sort the chosen photos to the part in hand; without one it is asked here."""
        chosen = self._desk.selection.part_ids
        if not chosen:
            self.hand.line().setFocus()
            self._desk.say("Choose a part first: type its code or name into “Part in hand”.", Say.ASK)
        else:
            self.filing.file(About(part_id=chosen[0]), to=self.hand.currentText())

    def remove(self) -> None:
        """Take photos out of the project; their files stay for undo."""
        ids = self.list.chosen()
        if ids:
            self._desk.attempt(
                lambda: remove(self._desk.store, "photo", ids), "Removed; undo brings it back."
            )

    def _store_proves(self) -> None:
        photo = self.current()
        if photo is not None and self.proves.text() != photo.proves:
            text = self.proves.text()
            self._desk.attempt(
                lambda: edit(
                    self._desk.store, "photo", [photo.id], {"proves": text}, seen={"proves": photo.proves}
                )
            )

    # Dropping files

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Files are welcome."""
        if event.mimeData().hasUrls():
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        """Take in what was dropped: photos, or whole folders."""
        self.take(files_dropped(event))
