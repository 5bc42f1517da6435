"""The Photos page: the inbox and what is sorted on the left, the chosen photo with its marks on the right."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from pathlib import Path

from PySide6.QtCore import QEvent, QSize, Qt
from PySide6.QtGui import QAction, QDragEnterEvent, QDropEvent, QKeySequence
from PySide6.QtWidgets import (
    QAbstractItemView,
    QComboBox,
    QFileDialog,
    QHBoxLayout,
    QLineEdit,
    QListView,
    QPushButton,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from rebuild.errors import BadEntry
from rebuild.trade.photos.clock import ahead_words
from rebuild.window.desk.desk import Desk, Say
from rebuild.window.desk.live_page import LivePage
from rebuild.window.forms.add_dialog import AddDialog, Adding
from rebuild.window.forms.editors import ReferenceEditor
from rebuild.window.layout.plain import PlainLabel, plain_tip
from rebuild.window.lists.empty_state import EmptyState
from rebuild.window.lists.said import exact, moment
from rebuild.window.photos.dropped import files_dropped
from rebuild.window.photos.mark_tools import MarkTools, part_offered
from rebuild.window.photos.sheet import PhotoSheet
from rebuild.window.photos.strip import NO_PICTURE, take_clipboard
from rebuild.window.photos.taking import Taking
from rebuild.window.photos.thumbs import ROW, SIDE, ThumbModel
from rebuild.window.photos.watch import FolderWatch
from rebuild.words.counted import counted
from rebuild.work.editing.acts import edit, remove
from rebuild.work.photos import rows as photo_rows, rows_shown
from rebuild.work.photos.about import About
from rebuild.work.photos.acts import (
    photos_in,
    set_camera,
    show_on,
    sort_each,
    sort_photos,
)
from rebuild.work.photos.rows import PhotoRow, Which, marks, photos
from rebuild.work.photos.rows_shown import shown, what_was_in_hand
from rebuild.work.photos.rules_pictures import ENDINGS
from rebuild.work.records.field import Field, FieldKind
from rebuild.work.records.rows import choices
from rebuild.work.records.wall_clock import now

#: When a photo was taken by the shop's own clock.
SHOP_TIME = Field("at", "When it was taken", FieldKind.MOMENT, help="By the shop’s clock.")


class InHandEditor(ReferenceEditor):
    """The part in hand: choosing it stores nothing."""

    asks_only = True


#: The words under a picture: lines, and letters a line.
LINES, LETTERS = 2, 18


class PhotosPage(LivePage):
    """Drop photos or a folder here; sort with one key to what is chosen on the bench."""

    shows = (photo_rows, rows_shown)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, "Photos", parent)
        self.setAcceptDrops(True)
        self.which = QComboBox()
        self.which.setAccessibleName("Which photos")
        self.which.addItems([which.value for which in Which])
        self.which.setCurrentText(Which.ALL.value)
        self.model = ThumbModel(self)
        self.list = QListView()
        self.sheet = PhotoSheet()
        self.marking = MarkTools(desk)
        self.tool, self.words, self.names = self.marking.tool, self.marking.words, self.marking.names
        self.hand = InHandEditor()
        self.hand.setAccessibleName("Part in hand")
        self.hand.line().setAccessibleName("Part in hand")
        self.hand.line().setPlaceholderText("code or name of the part P files to")
        self.proves = QLineEdit()
        self.proves.setAccessibleName("What it shows")
        self.proves.setPlaceholderText("what it shows")
        self.about = PlainLabel()
        self.about.setWordWrap(True)
        self.taking = Taking(desk, self)
        self.watch = FolderWatch(self)
        self.watch_button = QPushButton("&Watch a folder…")
        self.hand_button = QPushButton("What was in ha&nd")
        self.clock_button = QPushButton("Camera’s cloc&k…")
        self._lay_out()
        self._make_actions()
        self._wire()

    def _size_grid(self) -> None:
        """A picture with two lines of words under it, which are not cut where the text is large."""
        letters = self.fontMetrics()
        wide = max(SIDE + 14, LETTERS * letters.averageCharWidth())
        self.list.setGridSize(QSize(wide, SIDE + LINES * letters.lineSpacing() + 8))

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange and hasattr(self, "list"):
            self._size_grid()

    def _lay_out(self) -> None:
        self.list.setModel(self.model)
        self.list.setAccessibleName("Photos")
        self.list.setViewMode(QListView.ViewMode.IconMode)
        self.list.setIconSize(QSize(SIDE, SIDE))
        self.list.setWordWrap(True)
        self._size_grid()
        self.list.setResizeMode(QListView.ResizeMode.Adjust)
        self.list.setUniformItemSizes(True)
        self.list.setMovement(QListView.Movement.Static)
        self.list.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.list.setContextMenuPolicy(Qt.ContextMenuPolicy.ActionsContextMenu)
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
            (
                "To the chosen &part",
                "P",
                self.sort_to_part,
            ),
            (
                "To the chosen &subassembly",
                "S",
                lambda: self.sort(About(subassembly_id=self._desk.selection.subassembly_id)),
            ),
            (
                "To the chosen s&tep",
                "T",
                lambda: self.sort(About(task_id=self._first(self._desk.selection.task_ids))),
            ),
            (
                "S&hows the chosen part, too",
                "Shift+P",
                lambda: self.show_too("part", self._desk.selection.part_ids),
            ),
            (
                "Shows the chosen step, t&oo",
                "Shift+T",
                lambda: self.show_too("task", self._desk.selection.task_ids),
            ),
            ("To what was in ha&nd", "H", self.offer),
            ("Pa&ste", "Ctrl+V", self.paste),
            ("Back to the &inbox", "I", lambda: self.sort(None)),
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
        self.hand.settled.connect(self._take_in_hand)
        self.proves.editingFinished.connect(self._store_proves)
        self.watch_button.clicked.connect(self.watch_folder)
        self.hand_button.clicked.connect(self.offer)
        self.clock_button.clicked.connect(self.set_clock)
        self.watch.arrived.connect(self.take)
        self.watch.lost.connect(self._lost_folder)
        self._desk.closed.connect(self.watch.end)

    def _lost_folder(self, sentence: str) -> None:
        self._say_watch()
        self._desk.say(sentence, Say.TROUBLE)

    def show_row(self, _table: str, key: int) -> None:
        """Choose one photo among all of the machine."""
        self.which.setCurrentText(Which.ALL.value)
        self.refresh()
        for at in range(self.model.rowCount()):
            row = self.model.row(at)
            if row is not None and row.id == key:
                self.list.setCurrentIndex(self.model.index(at))

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
        self._show_in_hand()
        ids = [row.id for row in rows]
        at = ids.index(here.id) if here is not None and here.id in ids else (0 if ids else -1)
        if at >= 0:
            self.list.setCurrentIndex(self.model.index(at))
        self._show()

    def current(self) -> PhotoRow | None:
        """The photo shown large."""
        return self.model.row(self.list.currentIndex().row())

    def _chosen(self) -> list[int]:
        found = [index.data(ROW) for index in self.list.selectionModel().selectedIndexes()]
        return [row.id for row in found if isinstance(row, PhotoRow)]

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

    def watch_folder(self) -> None:
        """Begin to watch a folder the user names, or end."""
        if self.watch.folder is not None:
            self.watch.end()
            self._say_watch()
            return
        name = QFileDialog.getExistingDirectory(self, "Watch a folder for new photos")
        if name:
            self._desk.attempt(lambda: self.watch.begin(Path(name)))
        self._say_watch()

    def _say_watch(self) -> None:
        folder = self.watch.folder
        self.watch_button.setText("&Watch a folder…" if folder is None else "End &watching")
        if folder is not None:
            self._desk.say(f"New photos in “{folder.name}” are taken in by themselves.")

    def offer(self) -> None:
        """Sort the chosen photos of the inbox to what was in hand at their time; what cannot be told stays there."""
        ids, machine = tuple(self._chosen()), self._desk.machine_id
        if not ids or machine is None:
            self._desk.say("Choose photos first.", Say.ASK)
            return
        sorted_ids = {row.id for row in self._every() if row.about}
        with self._desk.store.read() as connection:
            found = what_was_in_hand(
                connection, machine, tuple(key for key in ids if key not in sorted_ids), now()
            )
        pairs = [(one.photo_id, one.parts[0][0]) for one in found if one.parts]
        names = Counter(one.parts[0][1] for one in found if one.parts)
        doubts = list(dict.fromkeys(one.doubt for one in found if one.doubt))
        doubts += ["it is sorted already"] if sorted_ids.intersection(ids) else []
        if pairs and self._desk.attempt(lambda: (self._sort_each(pairs),)) is None:
            return
        where = ", ".join(f"{count} to {name}" for name, count in names.items())
        words = f"{counted(len(pairs), 'photo')} filed to what was in hand" + (f": {where}" if where else "")
        stays = f"; {len(ids) - len(pairs)} stay: {'; '.join(doubts)}" if doubts else ""
        self._desk.say(f"{words}{stays}.", Say.ASK if doubts else Say.DONE)

    def _sort_each(self, pairs: list[tuple[int, int]]) -> int:
        sort_each(self._desk.store, pairs)
        return len(pairs)

    def set_clock(self) -> AddDialog | None:
        """Ask when the photo shown was really taken: its camera's clock is put right by that."""
        photo = self.current()
        if photo is None:
            return None

        def act(typed: dict[str, str]) -> int:
            when = SHOP_TIME.read(typed.get("at", ""))["at"]
            if not isinstance(when, dt.datetime):
                raise BadEntry("is empty.", where=SHOP_TIME.label, way_out="Type it as 2026-05-02 19:15.")
            minute = typed.get("at", "").count(":") < 2
            ahead.append(set_camera(self._desk.store, photo.id, when, to_the_minute=minute))
            return photo.id

        def say(_key: int) -> None:
            dated = sum(row.camera == photo.camera and row.by_camera is not None for row in self._every())
            clock = f"{photo.camera or 'This camera'} is {ahead_words(ahead[-1])}"
            self._desk.say(f"{clock}; {counted(dated, 'photo')} put right.")

        ahead: list[float] = []
        own = photo.by_camera
        taken = f"{own:%Y-%m-%d %H:%M:%S}" if own else ""
        under = f"{photo.camera or 'This camera'} says {taken or 'nothing of when'}."
        adding = Adding("Camera’s clock", under, [SHOP_TIME], act, say, lambda: {"at": taken}, again=False)
        dialog = AddDialog(self._desk, adding, self)
        dialog.add_button.setText("Put right")
        dialog.open()
        return dialog

    def _every(self) -> list[PhotoRow]:
        """Every photo of the machine."""
        if self._desk.machine_id is None:
            return []
        with self._desk.store.read() as connection:
            return photos(connection, self._desk.machine_id)

    def show_too(self, record: str, ids: tuple[int, ...]) -> None:
        """Say that the chosen photos show what is chosen on the bench, too."""
        chosen = self._chosen()
        if chosen and ids:
            self._desk.attempt(
                lambda: show_on(self._desk.store, chosen, record, ids[0]),
                "Shown there, too; undo takes it off.",
            )
        else:
            self._desk.say("Choose photos here, and a part or step on the bench, first.", Say.ASK)

    def _show_in_hand(self) -> None:
        """The part chosen, unless another one is being typed."""
        if not self.hand.line().hasFocus():
            part = self._first(self._desk.selection.part_ids) if self._desk.is_open else None
            self.hand.put(str(part) if part is not None else "")

    def _take_in_hand(self) -> None:
        """A part was typed or chosen here: it is the chosen one everywhere, and the keys go to the photos again."""
        typed, part = self.hand.typed(), part_offered(self.hand)
        if part is not None:
            self.hand.put(str(part))
            self.list.setFocus()
            self._desk.choose(part_ids=(part,), key=None)
        elif typed:
            self._desk.say(
                f"“{typed}” is no part of this machine, or several are called so: type its code, or choose it.",
                Say.ASK,
            )
        else:
            self._desk.choose(part_ids=(), key=None)

    def sort_to_part(self) -> None:
        """Sort the chosen photos to the part in hand; without one it is asked here."""
        part = self._first(self._desk.selection.part_ids)
        if part is None:
            self.hand.line().setFocus()
            self._desk.say("Choose a part first: type its code or name into “Part in hand”.", Say.ASK)
        else:
            self.sort(About(part_id=part), to=self.hand.currentText())

    @staticmethod
    def _first(ids: tuple[int, ...]) -> int | None:
        return ids[0] if ids else None

    def sort(self, about: About | None, to: str = "") -> None:
        """Sort the chosen photos; None puts them back into the inbox. ``to`` is where they go, in words."""
        ids = self._chosen()
        if about == About():
            self._desk.say("Choose a part, subassembly or step on the bench first.", Say.ASK)
        elif ids:
            done = f"{counted(len(ids), 'photo')} filed to {to}." if to else ""
            self._desk.attempt(lambda: sort_photos(self._desk.store, ids, about or About()), done)

    def remove(self) -> None:
        """Take photos out of the project; their files stay for undo."""
        ids = self._chosen()
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
