"""The readings of a survey, cell by cell: stored where they are typed, pasted as a column, sent by a gauge."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QAbstractItemDelegate, QApplication, QTableView, QWidget

from rebuild.errors import RebuildError
from rebuild.window.desk.desk import Desk, Say
from rebuild.window.lists.headings_at_rest import choose_nothing
from rebuild.window.readings.cell_editor import CellDelegate, CellEditor
from rebuild.window.surveys.model import RunModel
from rebuild.words.counted import counted
from rebuild.work.landings.acts import put
from rebuild.work.landings.stored import How, replaces
from rebuild.work.readings.landing import Landing, Surface
from rebuild.work.readings.pasted import in_unit_named, unit_named, units_said, without_heading
from rebuild.work.surveys.acts import enter_reading, enter_run


class RunTable(QTableView):
    """The runs of the survey shown; ``show_survey`` says which that is, in the words of where a value lands."""

    def __init__(self, desk: Desk, how: Callable[[], How], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk, self._how = desk, how
        self._survey: tuple[str, str] | None = None
        self._stays = False
        self.runs = RunModel(self.enter, self)
        self.setAccessibleName("Readings")
        self.setModel(self.runs)
        choose_nothing(self)
        letters = self.fontMetrics()
        self.horizontalHeader().setDefaultSectionSize(letters.averageCharWidth() * 13)
        self.verticalHeader().setDefaultSectionSize(letters.lineSpacing() + 10)
        self.setItemDelegate(CellDelegate(self._take, self._park, self, self.move_on))
        QShortcut(QKeySequence.StandardKey.Paste, self, self.paste, context=Qt.ShortcutContext.WidgetShortcut)

    def show_survey(self, name: str | None, stage: str = "") -> None:
        """The readings are of this survey; None: of none."""
        self._survey = (name, stage) if name is not None else None

    @property
    def wanted_width(self) -> int:
        """How wide all lines are, with what stands beside them [px]."""
        beside = self.verticalHeader().sizeHint().width() + 2 * self.frameWidth()
        bar = self.verticalScrollBar().sizeHint().width()
        return beside + bar + self.runs.columnCount() * self.horizontalHeader().defaultSectionSize()

    def landing_at(self, index: QModelIndex | QPersistentModelIndex) -> Landing | None:
        """The place of a cell, or None."""
        key, survey = self.runs.column_key(index.column()), self._survey
        if not index.isValid() or key is None or survey is None:
            return None
        name, stage = survey
        across = self.runs.headerData(index.column(), Qt.Orientation.Horizontal)
        down = self.runs.headerData(index.row(), Qt.Orientation.Vertical)
        words = "  ·  ".join(str(word) for word in (name, across, down, stage) if word)
        return Landing(Surface.SURVEY, (*key, index.row()), stage, words=words)

    def stand_on(self, landing: Landing) -> bool:
        """Take the cell of a place in hand; False where its run is not shown."""
        line_id, run, place = landing.row
        column = self.runs.column_of(line_id, run)
        if column < 0:
            return False
        self._stays = False
        self.setCurrentIndex(self.runs.index(place, column))
        return True

    def enter(self, line_id: int, place: int, text: str, run: int) -> bool:
        """Store a text at a place, or say why not."""
        column = self.runs.column_of(line_id, run)
        landing = self.landing_at(self.runs.index(place, column))
        try:
            if landing is None or not text.strip():
                enter_reading(self._desk.store, line_id, place, text, run)
                return True
            stored = put(self._desk.store, text, landing, self._how())
        except RebuildError as trouble:
            self._desk.say(f"{trouble} “{text}” was not stored.", Say.TROUBLE)
            return False
        self._desk.remember(stored)
        self._desk.say(f"{stored.typed} stored on {landing.words}.{replaces(stored)}")
        return True

    def _take(self, index: QModelIndex | QPersistentModelIndex, text: str, _seen: str) -> bool:
        """Store what was typed into a cell; an empty text that is refused leaves the stored one on show."""
        self._stays = False
        taken = self.runs.setData(self.runs.index(index.row(), index.column()), text)
        if not taken and not text.strip():
            self._stays = True
            return True
        return taken

    def _park(self, index: QModelIndex | QPersistentModelIndex, text: str | None) -> None:
        """A text whose cell had to close is kept; its cell shows what is stored."""
        landing = self.landing_at(index) if index.isValid() else None
        if text and text.strip() and self._desk.is_open:
            where = landing.words if landing is not None else "a survey"
            self._desk.attempt(
                lambda: self._desk.store.keep_entry(where, text, "could not be stored when its cell was left")
            )

    def move_on(self) -> None:
        """After Enter: the next place of the run, which has always one more."""
        here = self.currentIndex()
        if here.isValid() and not self._stays:
            self.setCurrentIndex(self.runs.index(here.row() + 1, here.column()))

    def take_burst(self, text: str) -> bool:
        """A gauge's value for the cell in hand, past an editor that is open there; whether it was stored."""
        landing, editor = self._desk.landing, QApplication.focusWidget()
        if landing is None:
            return False
        if isinstance(editor, CellEditor):
            editor.settled = True
            self.closeEditor(editor, QAbstractItemDelegate.EndEditHint.RevertModelCache)
        line_id, run, place = landing.row
        if not self.enter(line_id, place, text, run):
            return False
        self.go_on()
        return True

    def go_on(self) -> None:
        """A value was put on the cell in hand: the next one is."""
        self._stays = False
        self.move_on()

    def paste(self) -> None:
        """Paste a column of readings into the chosen run, from the chosen place on; one bad one stops all."""
        index = self.currentIndex()
        key = self.runs.column_key(index.column())
        rows = [row.split("\t")[0] for row in QApplication.clipboard().text().splitlines()]
        headed, rows = without_heading(rows)
        unit = unit_named(headed)
        rows = [in_unit_named(text, unit) for text in rows]
        if key is None or not rows:
            return
        texts = self.runs.texts_of(index.column())[: index.row()] + rows
        left = f" Its heading “{headed}” was left out{units_said([unit])}." if headed else ""
        self._desk.attempt(
            lambda: enter_run(self._desk.store, key[0], texts, key[1]),
            f"{counted(len(rows), 'reading')} stored.{left}",
        )
