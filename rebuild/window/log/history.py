"""The History page: every act of this file, newest first; undone ones stay, marked."""

from __future__ import annotations

from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QPushButton, QVBoxLayout, QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.desk.live_page import LivePage
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.plain_table import NOWHERE, AnyIndex, PlainModel, PlainTable
from rebuild.window.lists.said import moment
from rebuild.work.records import rows_history

_COLUMNS = ("When", "What", "State")
_UNDONE = "undone"
#: So many acts are listed at once; the search looks through all of them.
MOST = 1000
#: The search waits for the hand to rest: a rare word is looked for through the whole journal.
REST_MS = 150


class ActsModel(PlainModel):
    """Prepared rows; what was undone is struck through."""

    def data(self, index: AnyIndex = NOWHERE, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        """As ``PlainModel``, and the font of an act that was undone."""
        if role == Qt.ItemDataRole.FontRole:
            undone = index.column() == 1 and self.text(index.row())[2] == _UNDONE
            return self._struck if undone else None
        return super().data(index, role)

    def __init__(self, font: QFont, parent: QWidget | None = None) -> None:
        super().__init__(_COLUMNS, parent)
        self._struck = QFont(font)
        self._struck.setStrikeOut(True)


class HistoryPage(LivePage):
    """The journal as a list a person can read, with undo and redo by name."""

    shows = (rows_history,)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, "History", parent)
        self._find = QLineEdit()
        self._find.setPlaceholderText("Find in the history")
        self._find.setAccessibleName("Find in the history")
        self._undo = QPushButton()
        self._redo = QPushButton()
        self.table = PlainTable("Acts, newest first", _COLUMNS, model=ActsModel(self.font(), self))
        self.table.when_empty(
            "Everything done to this file stands here, newest first; each act can be undone."
        )
        self.more = PlainLabel("", self)
        self._rest = QTimer(self)
        self._rest.setSingleShot(True)
        self._rest.setInterval(REST_MS)
        self._rest.timeout.connect(self._list)
        self._build()
        self._find.textChanged.connect(lambda _text: self._rest.start())
        self._undo.clicked.connect(desk.undo)
        self._redo.clicked.connect(desk.redo)

    def _build(self) -> None:
        top = QHBoxLayout()
        top.addWidget(self._find, 1)
        top.addWidget(self._undo)
        top.addWidget(self._redo)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 8, 8, 8)
        layout.addLayout(top)
        layout.addWidget(self.table, 1)
        layout.addWidget(self.more)

    def refresh(self) -> None:
        """Read the journal again."""
        if not self._desk.is_open:
            self.table.plain.fill([])
            return
        self._list()
        undo, redo = self._desk.store.undo_label(), self._desk.store.redo_label()
        self._undo.setText(f"Undo {_short(undo)}" if undo else "Nothing to undo")
        self._undo.setEnabled(bool(undo))
        self._redo.setText(f"Redo {_short(redo)}" if redo else "Nothing to redo")
        self._redo.setEnabled(bool(redo))

    def _list(self) -> None:
        if not self._desk.is_open:
            return
        store, find = self._desk.store, self._find.text().strip()
        found = rows_history.acts(store, most=MOST + 1, find=find)
        rows = found[:MOST]
        self.table.plain.fill(
            [(act.act_id, (moment(act.at), act.label, _UNDONE if act.undone else "")) for act in rows]
        )
        self.more.setVisible(len(found) > MOST or not found)
        if found:
            every = "" if find else f" of {rows_history.how_many(store):,}"
            self.more.setText(f"The newest {MOST:,}{every} are listed; the search looks through all.")
        else:
            self.more.setText("No act has these words." if find else "")

    def keyPressEvent(self, event: object) -> None:
        """Esc clears the search."""
        if getattr(event, "key", lambda: None)() == Qt.Key.Key_Escape and self._find.text():
            self._find.clear()
            return
        super().keyPressEvent(event)  # type: ignore[arg-type]


def _short(words: str | None) -> str:
    text = words or ""
    return text if len(text) <= 48 else f"{text[:47]}…"
