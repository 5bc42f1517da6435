"""The grid's model: every key at once, the rows themselves in pages of 128, prepared before they are asked.

``data()`` only looks strings up: no SQL, no judging, no formatting. The view asks for the pages it is
about to paint (``ensure``). A change updates just the rows concerned; only another question resets.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, Qt
from PySide6.QtGui import QBrush

from rebuild.store.changed import Changed
from rebuild.trade.limits.uncertainty import InstrumentLimit
from rebuild.trade.limits.verdict import Rule
from rebuild.window.desk.desk import Desk
from rebuild.window.ink import theme
from rebuild.window.layout.plain import plain_tip
from rebuild.window.readings import touched
from rebuild.window.readings.columns import ALIGNMENTS, HEADINGS, Column, stage_of
from rebuild.window.readings.runs import runs
from rebuild.window.readings.shown import Shown, prepare
from rebuild.window.readings.words import edit_text, spoken, tip
from rebuild.work.readings import rows_grid as grid
from rebuild.work.readings.rows_grid import Asked, GridRow, Key
from rebuild.work.readings.rows_judged import instrument_limits
from rebuild.work.records.rows_settings import verdict_rule

if TYPE_CHECKING:
    from sqlalchemy import Connection

PAGE = 128
#: Prepared rows kept; beyond it all but what is on the screen are dropped.
KEPT = 4096

_Index = QModelIndex | QPersistentModelIndex
_ROOT = QModelIndex()

_DISPLAY = int(Qt.ItemDataRole.DisplayRole)
_EDIT = int(Qt.ItemDataRole.EditRole)
_ALIGN = int(Qt.ItemDataRole.TextAlignmentRole)
_INK = int(Qt.ItemDataRole.ForegroundRole)
_TIP = int(Qt.ItemDataRole.ToolTipRole)
_SPOKEN = int(Qt.ItemDataRole.AccessibleTextRole)
#: Whether what a cell shows was typed and has not landed.
DRAFT = int(Qt.ItemDataRole.UserRole)


class GridModel(QAbstractTableModel):
    """Rows of one question (``Asked``); drafts are typed texts that could not be stored yet."""

    def __init__(self, desk: Desk, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._asked: Asked | None = None
        self._keys: list[Key] = []
        self._places: dict[Key, int] = {}
        self._shown: dict[Key, Shown] = {}
        self._drafts: dict[tuple[Key, int], str] = {}
        self._rule = Rule.CONFORMANCE_95
        self._limits: dict[int, InstrumentLimit] = {}
        #: The unit of every row, when there is but one.
        self.common_unit = ""
        self._faint = QBrush(theme.ink().faint)

    # What is asked

    @property
    def asked(self) -> Asked | None:
        """The question whose rows are shown."""
        return self._asked

    @property
    def keys(self) -> Sequence[Key]:
        """The keys of every row, in order."""
        return self._keys

    def ask(self, asked: Asked | None) -> None:
        """Show the rows of another question; the same question is only brought up to date."""
        if asked is not None and asked == self._asked:
            self.refresh()
            return
        keys = self._fetch_keys(asked)  # first: where it stumbles, the rows shown stay
        self.beginResetModel()
        self._asked = asked
        self._shown.clear()
        self._take_keys(keys)
        self.endResetModel()

    def refresh(self) -> None:
        """Ask the same question again and change only what differs."""
        self._move_to(self._fetch_keys(self._asked))

    def _fetch_keys(self, asked: Asked | None) -> list[Key]:
        if asked is None or not self._desk.is_open:
            return []
        with self._desk.store.read() as connection:
            self._read_rules(connection)
            return grid.keys(connection, asked, self._rule, self._limits)

    def _read_rules(self, connection: Connection) -> None:
        self._rule = verdict_rule(self._desk.store)
        self._limits = instrument_limits(connection)

    def _take_keys(self, keys: list[Key]) -> None:
        self._keys = keys
        self._places = {key: place for place, key in enumerate(keys)}

    def _move_to(self, new: list[Key]) -> None:
        """Remove, put in order and insert rows until the keys are ``new``; selections stay on their rows."""
        kept = set(new)
        gone = (place for place, key in enumerate(self._keys) if key not in kept)
        for first, last in reversed(runs(gone)):
            self.beginRemoveRows(_ROOT, first, last)
            for key in self._keys[first : last + 1]:
                self._shown.pop(key, None)
            self._take_keys(self._keys[:first] + self._keys[last + 1 :])
            self.endRemoveRows()
        staying = [key for key in new if key in self._places]
        if staying != self._keys:
            self._reorder(staying)
        for first, last in runs([place for place, key in enumerate(new) if key not in self._places]):
            self.beginInsertRows(_ROOT, first, last)
            self._take_keys(self._keys[:first] + new[first : last + 1] + self._keys[first:])
            self.endInsertRows()

    def _reorder(self, keys: list[Key]) -> None:
        self.layoutAboutToBeChanged.emit()
        old = self._keys
        self._take_keys(keys)
        indexes = self.persistentIndexList()
        self.changePersistentIndexList(
            indexes, [self.index(self._places[old[index.row()]], index.column()) for index in indexes]
        )
        self.layoutChanged.emit()

    # Pages

    def ensure(self, first: int, last: int) -> None:
        """Load the pages that hold rows ``first`` to ``last`` and are not loaded."""
        if not self._keys or first > last:
            return
        last = min(last, len(self._keys) - 1)
        if all(key in self._shown for key in self._keys[first : last + 1]):
            return
        start = first - first % PAGE
        wanted = self._keys[start : last - last % PAGE + PAGE]
        if len(self._shown) > KEPT:
            self._shown.clear()
        self._load([key for key in wanted if key not in self._shown])

    def _load(self, keys: Sequence[Key]) -> None:
        with self._desk.store.read() as connection:
            self._prepare(connection, keys)

    def _prepare(self, connection: Connection, keys: Sequence[Key]) -> None:
        unit_for = self._desk.unit_for
        for row in grid.rows(connection, keys, self._rule, self._limits):
            self._shown[row.key] = prepare(row, unit_for)

    def say_unit(self, units: Collection[str]) -> None:
        """The units of the rows shown; a single one stands in the heading of the spec."""
        one = next(iter(units)) if len(units) == 1 else ""
        if one != self.common_unit:
            self.common_unit = one
            self.headerDataChanged.emit(Qt.Orientation.Horizontal, Column.SPEC, Column.SPEC)

    def holds(self, first: int, last: int) -> bool:
        """Whether every row from ``first`` to ``last`` is loaded."""
        return all(key in self._shown for key in self._keys[first : last + 1])

    def loaded(self) -> list[tuple[int, Shown]]:
        """The rows loaded, each with its place."""
        return [(self._places[key], shown) for key, shown in self._shown.items() if key in self._places]

    def shown_at(self, place: int) -> Shown | None:
        """The prepared row at a place, loaded when it is not; None when it was removed."""
        self.ensure(place, place)
        return self._shown.get(self._keys[place]) if 0 <= place < len(self._keys) else None

    def prepared_at(self, place: int) -> Shown | None:
        """The prepared row at a place if it is loaded; never asks the file."""
        return self._shown.get(self._keys[place]) if 0 <= place < len(self._keys) else None

    def row_of(self, key: Key) -> GridRow | None:
        """The row of a key in this view."""
        place = self._places.get(key)
        shown = self.shown_at(place) if place is not None else None
        return shown.row if shown is not None else None

    def place_of(self, key: Key | None) -> int | None:
        """Where a key stands, or None."""
        return self._places.get(key) if key is not None else None

    # Changes

    def hear(self, changed: Changed) -> None:
        """Bring the rows touched by a change up to date, and the list of rows where it can differ."""
        if self._asked is None or not changed:
            return
        with self._desk.store.read() as connection:
            news = touched.find(connection, changed, self._asked, self._places.keys(), self._shown)
            if news.everything:
                self._read_rules(connection)
        if news.everything:
            self._shown.clear()
        if news.list_may_differ:
            self.refresh()
        if news.everything:
            self._say_changed(range(len(self._keys)))
            return
        stale = [key for key in news.keys if key in self._shown and key in self._places]
        if stale:
            self._load(stale)
            self._say_changed(self._places[key] for key in stale)

    def show_other_unit(self) -> None:
        """Prepare the loaded rows again in the unit now chosen."""
        self._shown = {key: prepare(shown.row, self._desk.unit_for) for key, shown in self._shown.items()}
        self._say_changed(range(len(self._keys)))

    def use_ink(self) -> None:
        """Take the secondary ink of the scheme in force."""
        self._faint = QBrush(theme.ink().faint)
        self._say_changed(range(len(self._keys)))

    def _say_changed(self, places: Iterable[int]) -> None:
        last = len(Column) - 1
        for first, end in runs(places):
            self.dataChanged.emit(self.index(first, 0), self.index(end, last))

    # Drafts: typed, not stored yet, never lost

    def draft(self, key: Key, column: int) -> str | None:
        """Text typed into a cell that could not be stored."""
        return self._drafts.get((key, column))

    def keep_draft(self, key: Key, column: int, text: str | None) -> None:
        """Keep (or with None drop) a typed text that could not be stored."""
        if text is None:
            self._drafts.pop((key, column), None)
        else:
            self._drafts[key, column] = text
        place = self._places.get(key)
        if place is not None:
            self.dataChanged.emit(self.index(place, column), self.index(place, column))

    # What Qt asks

    def rowCount(self, parent: _Index = _ROOT) -> int:
        return 0 if parent.isValid() else len(self._keys)

    def columnCount(self, parent: _Index = _ROOT) -> int:
        return 0 if parent.isValid() else len(Column)

    def data(self, index: _Index, role: int = _DISPLAY) -> object:
        if not index.isValid():
            return None
        if role == _ALIGN:
            return ALIGNMENTS[index.column()]
        if role not in (_DISPLAY, _INK, _EDIT, _TIP, _SPOKEN, DRAFT):
            return None
        key = self._keys[index.row()]
        shown = self._shown.get(key)
        if shown is None:
            return None
        column = index.column()
        if role == _DISPLAY:
            if self._drafts and (key, column) in self._drafts:
                return f"{self._drafts[key, column]} ?"
            return shown.texts[column]
        if role == DRAFT:
            return (key, column) in self._drafts
        if role == _INK:
            return self._faint if shown.faint >> column & 1 else None
        if role == _EDIT:
            return self._drafts.get((key, column)) or edit_text(shown.row, column)
        return plain_tip(tip(shown, column, self._limits)) if role == _TIP else spoken(shown, column)

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = _DISPLAY) -> object:
        if orientation is Qt.Orientation.Horizontal:
            heading = HEADINGS[Column(section)]
            if role == _DISPLAY:
                of_all = section == Column.SPEC and self.common_unit
                return f"{heading.title}, {self.common_unit}" if of_all else heading.title
            if role == _TIP:
                return heading.help
            if role == _ALIGN:
                return ALIGNMENTS[section]
        return None

    def flags(self, index: _Index) -> Qt.ItemFlag:
        base = Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable
        if not index.isValid():
            return Qt.ItemFlag.NoItemFlags
        column = index.column()
        return base | Qt.ItemFlag.ItemIsEditable if column == Column.SPEC or stage_of(column) else base
