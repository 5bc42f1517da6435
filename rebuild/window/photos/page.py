"""The Photos page: the inbox and what is sorted on the left, the chosen photo with its marks on the right."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QPointF, QSize, Qt
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

from rebuild.errors import RebuildError
from rebuild.window.desk.desk import Desk, Say
from rebuild.window.desk.live_page import LivePage
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.empty_state import EmptyState
from rebuild.window.photos.sheet import PhotoSheet
from rebuild.window.photos.thumbs import ROW, SIDE, ThumbModel
from rebuild.words.counted import counted
from rebuild.words.photos import MarkKind, PhotoPhase
from rebuild.work.editing.acts import edit, remove
from rebuild.work.photos import rows as photo_rows
from rebuild.work.photos.acts import ENDINGS, About, mark_photo, photos_in, sort_photos, take_in
from rebuild.work.photos.rows import PhotoRow, Which, marks, photos

_LOOK = "look only"


class PhotosPage(LivePage):
    """Drop photos or a folder here; sort with one key to what is chosen on the bench."""

    shows = (photo_rows,)

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
        self.tool = QComboBox()
        self.tool.setAccessibleName("Mark to draw")
        self.tool.addItems([_LOOK, *(kind.value for kind in MarkKind)])
        self.words = QLineEdit()
        self.words.setAccessibleName("Words of the mark")
        self.words.setPlaceholderText("words of the mark, e.g. 1-1")
        self.proves = QLineEdit()
        self.proves.setAccessibleName("What it shows")
        self.proves.setPlaceholderText("what it shows")
        self.about = PlainLabel()
        self.about.setWordWrap(True)
        self._lay_out()
        self._make_actions()
        self._wire()

    def _lay_out(self) -> None:
        self.list.setModel(self.model)
        self.list.setAccessibleName("Photos")
        self.list.setViewMode(QListView.ViewMode.IconMode)
        self.list.setIconSize(QSize(SIDE, SIDE))
        self.list.setGridSize(QSize(SIDE + 14, SIDE + 26))
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
        top.addStretch(1)
        left, right = QWidget(), QWidget()
        side = QVBoxLayout(left)
        side.setContentsMargins(0, 0, 0, 0)
        side.addLayout(top)
        side.addWidget(self.list)
        marking = QHBoxLayout()
        marking.addWidget(PlainLabel("Mark"))
        marking.addWidget(self.tool)
        marking.addWidget(self.words)
        body = QVBoxLayout(right)
        body.setContentsMargins(0, 0, 0, 0)
        body.addWidget(self.about)
        body.addWidget(self.sheet, 1)
        body.addWidget(self.proves)
        body.addLayout(marking)
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
                lambda: self.sort(About(part_id=self._first(self._desk.selection.part_ids))),
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
        self.which.currentIndexChanged.connect(self.refresh)
        self.list.selectionModel().currentChanged.connect(lambda *_: self._show())
        self.tool.currentTextChanged.connect(lambda text: setattr(self.sheet, "drawing", text != _LOOK))
        self.sheet.drawn.connect(self._mark)
        self.proves.editingFinished.connect(self._store_proves)

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
        self.sheet.show_photo(photo, self._desk.store.path, drawn)
        taken = f", {photo.taken_at:%Y-%m-%d %H:%M}" if photo.taken_at else ""
        self.about.setText(f"{photo.about or 'inbox'}: {photo.phase.value}{taken}, {photo.file_name}")
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
        done = self._desk.attempt(
            lambda: take_in(self._desk.store, machine, paths, phase=PhotoPhase.AS_FOUND)
        )
        if done is None:
            return
        words = f"{counted(len(done.added), 'photo')} taken in"
        if done.already:
            words += f", {len(done.already)} were there already"
        troubles = (*done.refused, *done.said)
        how = Say.TROUBLE if troubles else Say.DONE
        self._desk.say(". ".join([words, *troubles]) + ("." if not troubles else ""), how)

    @staticmethod
    def _first(ids: tuple[int, ...]) -> int | None:
        return ids[0] if ids else None

    def sort(self, about: About | None) -> None:
        """Sort the chosen photos; None puts them back into the inbox."""
        ids = self._chosen()
        if about == About():
            self._desk.say("Choose a part, subassembly or step on the bench first.", Say.ASK)
        elif ids:
            self._desk.attempt(lambda: sort_photos(self._desk.store, ids, about or About()))

    def remove(self) -> None:
        """Take photos out of the project; their files stay for undo."""
        ids = self._chosen()
        if ids:
            self._desk.attempt(
                lambda: remove(self._desk.store, "photo", ids), "Removed; undo brings it back."
            )

    def _mark(self, start: QPointF, end: QPointF) -> None:
        photo = self.current()
        if photo is None or self.tool.currentText() == _LOOK:
            return
        kind = MarkKind(self.tool.currentText())
        try:
            mark_photo(
                self._desk.store,
                photo.id,
                kind,
                (start.x(), start.y()),
                (end.x(), end.y()),
                self.words.text(),
            )
        except RebuildError as trouble:
            self._desk.say(str(trouble), Say.TROUBLE)
            self.words.setFocus()
        else:
            self.words.clear()

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
        paths: list[Path] = []
        for url in event.mimeData().urls():
            path = Path(url.toLocalFile())
            paths += photos_in(path) if path.is_dir() else [path]
        self.take(paths)
