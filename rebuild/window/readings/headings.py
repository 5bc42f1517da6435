"""The grid's headings: which columns are shown, and what the rows are put in order by."""

from __future__ import annotations

from PySide6.QtCore import QByteArray, QObject, QPoint, Qt, Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu, QWidget

from rebuild.window.readings.columns import HEADINGS, HIDDEN_AT_FIRST, STAGE_COLUMNS, Column, stage_of
from rebuild.window.readings.view import GridView
from rebuild.words.readings import STAGES, Stage
from rebuild.work.readings.rows_grid import SortBy

_CHOICES = b"|columns|"


class Headings(QObject):
    """Stage columns without a reading hide by themselves until someone asks for them."""

    sorted = Signal()

    def __init__(self, view: GridView) -> None:
        super().__init__(view)
        self._view = view
        self._header = view.horizontalHeader()
        self._wanted: dict[Column, bool] = {}
        self._read: set[Stage] = set()
        self.stage_in_hand: Stage | None = None
        self._measured: set[Stage] = set()  #: stages in hand since the machine was turned to
        self._applied = False
        self._fitting: frozenset[Stage] = frozenset()
        self.sort = SortBy.TREE
        self.descending = False
        self._sorted_column: Column | None = None
        self._header.setSortIndicatorShown(False)
        self._header.sectionClicked.connect(self._clicked)
        self._header.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        self._header.customContextMenuRequested.connect(self._show_menu)
        view.measured.connect(self._show_unit)
        view.measured.connect(self._apply)
        view.resized.connect(self._apply)
        self._apply()

    def _show_unit(self) -> None:
        if (
            self._view.isColumnHidden(Column.UNIT) is not self._view.one_unit
            and Column.UNIT not in self._wanted
        ):
            self._view.setColumnHidden(Column.UNIT, self._view.one_unit)

    @property
    def by_part(self) -> bool:
        """Whether the rows of a part stand together, so that its name is a rule over them."""
        return self.sort in (SortBy.TREE, SortBy.CODE)

    # Columns

    def show_for(self, stages: set[Stage]) -> None:
        """Show the stage columns at which something is read (and those measured at)."""
        if stages != self._read or self._measured:
            self._read = stages
            self._apply()

    def measure_at(self, stage: Stage) -> None:
        """A stage is in hand: where there is room its column is shown, and stays when another row is in hand."""
        self.stage_in_hand = stage
        if stage not in self._measured:
            self._measured.add(stage)
            self._apply()

    def forget_measured(self) -> None:
        """Another machine: nothing was measured at any stage yet."""
        self._measured.clear()

    def show_also(self, stages: set[Stage]) -> None:
        """Show the stage columns at which something has just been read."""
        if not stages <= self._read:
            self._read = self._read | stages
            self._apply()

    def show_column(self, column: Column, shown: bool = True) -> None:
        """Show or hide a column from now on."""
        self._wanted[column] = shown
        self._apply()

    def _apply(self) -> None:
        """Show what is wanted; the widths are shared out anew only where that differs: every Enter comes here."""
        self._fitting = self._stages_with_room()
        shown = tuple(map(self._shows, Column))
        there = tuple(not self._view.isColumnHidden(column) for column in Column)
        if self._applied and shown == there and self._view.bands is not self._shows(Column.PART):
            return
        self._applied = True
        for column, is_shown in zip(Column, shown, strict=True):
            self._view.setColumnHidden(column, not is_shown)
        self._view.bands = not self._shows(Column.PART)
        self._view.share_out()

    def _stages_with_room(self) -> frozenset[Stage]:
        """Empty stages measured at whose columns push nothing out of the window, first come first."""
        self._fitting = frozenset()
        there = [column for column in Column if self._shows(column)]
        for stage in sorted(self._measured - self._read, key=STAGES.index):
            column = STAGE_COLUMNS[STAGES.index(stage)]
            if column in there or not self._view.has_room_for([*there, column]):
                continue
            there.append(column)
            self._fitting |= {stage}
        return self._fitting

    def _shows(self, column: Column) -> bool:
        if column in self._wanted:
            return self._wanted[column]
        if column in STAGE_COLUMNS:
            stage = stage_of(column)
            first = stage is Stage.AS_FOUND and not self._read
            return first or stage in self._read or (stage in self._measured and stage in self._fitting)
        if column is Column.PART:
            return not self.by_part
        if column is Column.UNIT:
            return not self._view.one_unit
        return column not in HIDDEN_AT_FIRST

    def visible(self, first: int | None = None) -> list[int]:
        """The columns shown, left to right, from one on."""
        ordered = [self._header.logicalIndex(place) for place in range(self._header.count())]
        shown = [column for column in ordered if not self._view.isColumnHidden(column)]
        return shown[shown.index(first) :] if first in shown else shown if first is None else []

    def menu(self, parent: QWidget) -> QMenu:
        """A menu that shows and hides columns."""
        menu = QMenu("Co&lumns", parent)
        for column, heading in HEADINGS.items():
            action = QAction(heading.title, menu)
            action.setCheckable(True)
            action.setChecked(not self._view.isColumnHidden(column))
            action.setEnabled(column not in (Column.PART, Column.FEATURE))
            action.toggled.connect(lambda shown, column=column: self.show_column(column, shown))
            menu.addAction(action)
        menu.addSeparator()
        menu.addAction("&As at first", self._forget)
        return menu

    def _forget(self) -> None:
        self._wanted.clear()
        self._view.shared = True
        self._apply()

    def _show_menu(self, at: QPoint) -> None:
        menu = self.menu(self._view)
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        menu.popup(self._header.mapToGlobal(at))

    # Order

    def _clicked(self, section: int) -> None:
        """Up, then down, then the order of the tree again; worst and newest first begin with those."""
        column = Column(section)
        by = HEADINGS[column].sort
        if by is None:
            return
        first = by is SortBy.NEWEST
        if column is not self._sorted_column:
            self._order(column, by, descending=first)
        elif self.descending is first:
            self._order(column, by, descending=not first)
        else:
            self._order(None, SortBy.TREE, descending=False)

    def _order(self, column: Column | None, by: SortBy, *, descending: bool) -> None:
        self._sorted_column, self.sort, self.descending = column, by, descending
        self._apply()
        self._header.setSortIndicatorShown(column is not None)
        if column is not None:
            down = descending is not (by in (SortBy.WORST, SortBy.MARGIN))
            order = Qt.SortOrder.DescendingOrder if down else Qt.SortOrder.AscendingOrder
            self._header.setSortIndicator(column, order)
        self.sorted.emit()

    # Remembering

    def save(self) -> QByteArray:
        """The header's state, and the columns someone asked for."""
        dragged = "" if self._view.shared else "dragged,"
        words = dragged + ",".join(f"{column.name}={int(shown)}" for column, shown in self._wanted.items())
        return QByteArray(bytes(self._header.saveState().data()) + _CHOICES + words.encode())

    def restore(self, state: QByteArray) -> None:
        """Take back what ``save`` gave; anything else is left alone."""
        self._applied = False
        header, mark, words = bytes(state.data()).partition(_CHOICES)
        if not mark or not self._header.restoreState(QByteArray(header)):
            return
        self._view.shared = not words.startswith(b"dragged")
        named = (word.split("=") for word in words.decode().split(",") if "=" in word)
        self._wanted = {Column[name]: shown == "1" for name, shown in named if name in Column.__members__}
        self._header.setSortIndicatorShown(self._sorted_column is not None)
        self._apply()
