"""The Questions page: what is not known yet, what it holds up, and the entries kept from being lost."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QAbstractItemView,
    QCheckBox,
    QHBoxLayout,
    QHeaderView,
    QLabel,
    QLineEdit,
    QPlainTextEdit,
    QPushButton,
    QSplitter,
    QTreeWidget,
    QTreeWidgetItem,
    QVBoxLayout,
    QWidget,
)

from rebuild.model.enums import QuestionState
from rebuild.store.changed import Changed
from rebuild.window.desk import Desk
from rebuild.window.shapes import shape_for, shape_icon
from rebuild.work.field import show_moment
from rebuild.work.lookup.notes import QuestionRow, questions
from rebuild.work.lookup.record import kept_entries
from rebuild.work.notes import answer, ask

_ROW = Qt.ItemDataRole.UserRole
_COLUMNS = ("Question", "State", "About", "Holds up", "Asked")


class QuestionsPage(QWidget):
    """Questions above, the answer to the chosen one below, kept entries at the foot."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self.setAccessibleName("Questions")
        self._new = QLineEdit()
        self._new.setPlaceholderText("New question about the chosen part: type it and press Enter")
        self._new.setAccessibleName("New question")
        self._open_only = QCheckBox("&Open only")
        self.list = _tree("Questions", _COLUMNS)
        self._whole = QLabel()
        self._whole.setWordWrap(True)
        self._answer = QPlainTextEdit()
        self._answer.setAccessibleName("Answer")
        self._answer.setPlaceholderText("What was found out, or what you assume until someone knows")
        self._answer.setTabChangesFocus(True)
        self._by = QLineEdit()
        self._by.setAccessibleName("Answered by")
        self._by.setPlaceholderText("Who or what says so")
        self._known = QPushButton("It is &known")
        self._assumed = QPushButton("We a&ssume it")
        self.kept = _tree("Entries kept from being lost", ("Kept", "Meant for", "Typed", "Why"))
        self._settle = QPushButton("Dealt &with")
        self._kept_box = QWidget()
        self._lay_out()
        self._wire()

    def _lay_out(self) -> None:
        top = QHBoxLayout()
        top.addWidget(self._new, 1)
        top.addWidget(self._open_only)
        below = QWidget()
        form = QVBoxLayout(below)
        form.setContentsMargins(0, 4, 0, 0)
        row = QHBoxLayout()
        row.addWidget(self._by, 1)
        row.addWidget(self._known)
        row.addWidget(self._assumed)
        form.addWidget(self._whole)
        form.addWidget(self._answer)
        form.addLayout(row)
        kept = QVBoxLayout(self._kept_box)
        kept.setContentsMargins(0, 4, 0, 0)
        kept.addWidget(QLabel("Entries kept from being lost"))
        kept.addWidget(self.kept)
        kept.addWidget(self._settle, 0, Qt.AlignmentFlag.AlignLeft)
        whole = QSplitter(Qt.Orientation.Vertical)
        for widget, stretch in ((self.list, 5), (below, 2), (self._kept_box, 2)):
            whole.addWidget(widget)
            whole.setStretchFactor(whole.count() - 1, stretch)
        whole.setChildrenCollapsible(False)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 8, 8, 8)
        layout.addLayout(top)
        layout.addWidget(whole)

    def _wire(self) -> None:
        for signal in (self._desk.opened, self._desk.closed, self._desk.machine_changed):
            signal.connect(self._refresh_if_seen)
        self._desk.changed.connect(self._hear)
        self._new.returnPressed.connect(self._ask)
        self._open_only.toggled.connect(self.refresh)
        self.list.currentItemChanged.connect(self._show)
        self._known.clicked.connect(lambda: self._store(assumed=False))
        self._assumed.clicked.connect(lambda: self._store(assumed=True))
        self._settle.clicked.connect(self._settle_kept)

    def showEvent(self, event: object) -> None:
        """Read when first seen."""
        super().showEvent(event)  # type: ignore[arg-type]
        self.refresh()

    def _refresh_if_seen(self) -> None:
        if self.isVisible():
            self.refresh()

    def _hear(self, changed: Changed) -> None:
        if changed.touches("question", "part", "task"):
            self._refresh_if_seen()

    def refresh(self) -> None:
        """Read the questions and the kept entries again."""
        here = self._current()
        self.list.clear()
        self.kept.clear()
        if not self._desk.is_open or self._desk.machine_id is None:
            return
        with self._desk.store.read() as connection:
            rows = questions(connection, self._desk.machine_id)
            kept = kept_entries(connection)
        for row in rows:
            if self._open_only.isChecked() and row.state is not QuestionState.OPEN:
                continue
            item = _item(row)
            self.list.addTopLevelItem(item)
            if here is not None and row.id == here.id:
                self.list.setCurrentItem(item)
        for entry in kept:
            item = QTreeWidgetItem([entry.at, entry.meant_for, entry.typed, entry.why])
            item.setData(0, _ROW, entry.id)
            self.kept.addTopLevelItem(item)
        self._kept_box.setVisible(bool(kept))

    def _current(self) -> QuestionRow | None:
        item = self.list.currentItem()
        row = item.data(0, _ROW) if item is not None else None
        return row if isinstance(row, QuestionRow) else None

    def _show(self) -> None:
        row = self._current()
        self._whole.setText(row.text if row else "")
        self._answer.setPlainText(row.answer if row else "")
        self._by.setText(row.answered_by if row else "")

    def _ask(self) -> None:
        machine, chosen = self._desk.machine_id, self._desk.selection
        if machine is None or not self._new.text().strip():
            return
        part = chosen.part_ids[0] if chosen.part_ids else None
        step = chosen.task_ids[0] if chosen.task_ids else None
        made = self._desk.attempt(
            lambda: ask(
                self._desk.store, machine, self._new.text(),
                subassembly_id=chosen.subassembly_id, part_id=part, task_id=step,
            )
        )  # fmt: skip
        if made is not None:
            self._new.clear()

    def _store(self, *, assumed: bool) -> None:
        row = self._current()
        if row is not None:
            text, by = self._answer.toPlainText(), self._by.text()
            self._desk.attempt(
                lambda: answer(self._desk.store, row.id, text, by, assumed=assumed), "Answer stored."
            )

    def _settle_kept(self) -> None:
        for item in self.kept.selectedItems():
            key = int(item.data(0, _ROW))
            self._desk.store.settle_kept(key)
        self.refresh()


def _item(row: QuestionRow) -> QTreeWidgetItem:
    asked = f"{show_moment(row.asked_at)[:10] if row.asked_at else ''} {row.asked_where}".strip()
    words = [row.text.replace("\n", " "), row.state.value, row.about, row.holds_up, asked]
    item = QTreeWidgetItem(words)
    item.setIcon(1, shape_icon(shape_for(row.state)))
    item.setData(0, _ROW, row)
    for column, text in enumerate(words):
        item.setToolTip(column, text)
    return item


def _tree(name: str, columns: tuple[str, ...]) -> QTreeWidget:
    tree = QTreeWidget()
    tree.setAccessibleName(name)
    tree.setHeaderLabels(list(columns))
    tree.setRootIsDecorated(False)
    tree.setUniformRowHeights(True)
    tree.setAlternatingRowColors(True)
    tree.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
    header = tree.header()
    header.setStretchLastSection(False)
    wide = columns.index("Why") if "Why" in columns else 0
    for column in range(len(columns)):
        mode = QHeaderView.ResizeMode.Stretch if column == wide else QHeaderView.ResizeMode.Interactive
        header.setSectionResizeMode(column, mode)
        if column != wide:
            tree.setColumnWidth(column, 90 if column == 1 else 190)
    return tree
