"""The measurement grid of the bench: filter bar, table and menu, and which of its rows is in hand."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QByteArray, QModelIndex, QPoint, Qt, Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QVBoxLayout, QWidget

from rebuild.store.changed import Changed
from rebuild.window.desk.desk import Desk
from rebuild.window.lists.empty_state import EmptyState
from rebuild.window.readings.asked_rows import AskedRows
from rebuild.window.readings.cell_acts import CellActs, Takes
from rebuild.window.readings.cell_editor import CellDelegate
from rebuild.window.readings.cell_menu import CellMenu
from rebuild.window.readings.columns import STAGE_COLUMNS, Column, stage_of
from rebuild.window.readings.filters import FilterBar, Reach
from rebuild.window.readings.headings import Headings
from rebuild.window.readings.model import GridModel
from rebuild.window.readings.paste_landing import HowTaken
from rebuild.window.readings.touched import MANY
from rebuild.window.readings.view import GridView
from rebuild.words.readings import Stage
from rebuild.work.readings.landing import first_of_part, nearest
from rebuild.work.readings.rows_destination import all_remade, features_of, read_of, stages_of, stages_read
from rebuild.work.readings.rows_grid import Key

#: What an empty grid says.
NO_FEATURE = "Nothing to measure here yet. Choose a part; Ctrl+E gives it its first feature with its spec."


class MeasurementGrid(QWidget):
    """Spec, readings by stage and verdict of every feature; its current row is where the entry line lands.

    ``row_in_hand`` tells that row's key, and the stage when a stage's cell was chosen; None: no row is in hand.
    A stage's cell chosen is where the next value lands, read already or not. ``typed`` carries a digit typed on
    a cell that takes none, for the entry line; ``stored`` a value typed into a cell.
    """

    row_in_hand = Signal(object, object)
    typed = Signal(str)
    entry_wanted = Signal()
    stored = Signal(object)
    pasted = Signal(object)  #: a column, its first value with the others behind it

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._choosing = False
        self._parts: tuple[int, ...] = ()
        self._asked_at = -1  #: the desk's turn when the rows were asked for; less: not yet for this machine
        self.model = GridModel(desk, self)
        self.view = GridView(self.model, self)
        self.filters = FilterBar(self)
        self.empty = EmptyState(self.view, NO_FEATURE, "Show all rows", self.filters.clear)
        self.headings = Headings(self.view)
        self._acts = CellActs(desk, self.model, self.stored.emit, self.pasted.emit)
        self._rows = AskedRows(desk, self.filters, self.headings)
        self._cells = CellMenu(desk, self.model, self.view, self.headings, self._acts, self)
        self._editors = CellDelegate(self._acts.take, self._acts.park, self, self._down)
        for column in (Column.SPEC, *STAGE_COLUMNS):
            self.view.setItemDelegateForColumn(column, self._editors)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self.filters)
        layout.addWidget(self.view, 1)
        self.setFocusProxy(self.view)
        self._cells.entry_wanted.connect(self.entry_wanted)
        self._filter_by_key()
        self._connect()
        self._ask()

    def _connect(self) -> None:
        desk = self._desk
        for signal in (desk.machine_changed, desk.closed):
            signal.connect(self._other_file)
        desk.selection_changed.connect(self._follow_selection)
        desk.changed.connect(self._hear)
        desk.unit_changed.connect(self.model.show_other_unit)
        self.filters.changed.connect(self._ask)
        self.headings.sorted.connect(self._sorted)
        self.view.opened.connect(self._acts.open_working)
        self.view.typed.connect(self.typed)
        self.view.selectionModel().currentChanged.connect(self._choose_row)
        self.view.customContextMenuRequested.connect(self._show_menu)

    # What others may ask and set

    @property
    def keys(self) -> Sequence[Key]:
        """The rows shown, in order."""
        return self.model.keys

    def set_how_taken(self, how: HowTaken, line: Takes) -> None:
        """How a reading pasted into a cell was taken; one typed there is taken as ``line`` would take it."""
        self._acts.how_taken, self._acts.line = how, line

    def show_stage(self, stage: Stage) -> None:
        """The stage being measured: its column is shown though nothing is read there yet."""
        self.headings.measure_at(stage)
        self._choosing = True
        self.view.show_stage(stage)
        self._choosing = False

    def save_state(self) -> QByteArray:
        """Widths, order and chosen columns, to be remembered."""
        return self.headings.save()

    def restore_state(self, state: QByteArray) -> None:
        """Take back what ``save_state`` gave."""
        self.headings.restore(state)
        self._show_columns()

    def _filter_by_key(self) -> None:
        find = QAction("Filter", self)
        find.setShortcut("Ctrl+Shift+F")
        find.setShortcutContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        find.triggered.connect(self.filters.text.setFocus)
        self.addAction(find)

    # Which rows

    def _other_file(self) -> None:
        """Another machine: what is chosen on it follows at once, and the rows are asked for then, not twice."""
        if self._desk.is_open and self._asked_at == self._desk.turn:
            return
        self.headings.forget_measured()
        self._asked_at = -1
        if not self._desk.is_open:
            self._rows.forget()
            self._ask()

    def _ask(self) -> None:
        self._asked_at = self._desk.turn
        asked = self._rows.asked()
        self._choosing = True
        self._desk.attempt(lambda: self.model.ask(asked))
        self._choosing = False
        self._show_columns()
        self._say_count()
        key = self._desk.selection.key
        if key is not None:
            self._go_to(key)
        self._settle_row()

    def _sorted(self) -> None:
        """Another order: its top comes into view, the row in hand stays where the next value lands."""
        self._ask()
        self.view.scrollToTop()

    def _say_count(self) -> None:
        self.filters.show_count(len(self.model.keys))
        hidden = self.filters.filtering
        self.empty.say("The filters leave no row." if hidden else NO_FEATURE)
        if self.empty.button is not None:
            self.empty.button.setVisible(hidden)

    def _show_columns(self) -> None:
        asked = self.model.asked
        if asked is None or not self._desk.is_open:
            return
        with self._desk.store.read() as connection:
            self.headings.show_for(stages_read(connection, asked))

    def _hear(self, changed: Changed) -> None:
        if changed.touches("subassembly", "machine"):
            self._rows.forget()
            if self._rows.asked() != self.model.asked:
                self._ask()
                return
        self._choosing = True
        self._desk.attempt(lambda: self.model.hear(changed))
        self._choosing = False
        self._show_stages_of(changed)
        self._say_count()
        self._settle_row()

    def _show_stages_of(self, changed: Changed) -> None:
        """Show the columns of stages just read; asking the whole machine again would cost every Enter."""
        rows = changed.rows("reading")
        added = rows.added | rows.updated
        if len(added) > MANY or rows.removed or rows.updated:
            self._show_columns()
        elif added:
            with self._desk.store.read() as connection:
                self.headings.show_also(stages_of(connection, added))

    # The row in hand

    def _follow_selection(self) -> None:
        if self._choosing:
            return
        if self._asked_at < 0 or self._rows.asked() != self.model.asked:
            self._ask()
        chosen, stage = self._desk.selection, None
        if chosen.part_ids and chosen.part_ids != self._parts:
            stage = self._go_to_part(chosen.part_ids)
        elif chosen.key is not None:
            self._go_to(chosen.key)
        self._parts = self._desk.selection.part_ids
        self._settle_row(stage)

    def _go_to(self, key: Key) -> None:
        """To a row, or for a feature with stations to its first one."""
        there = nearest(key, self.model.keys)
        if there is None:
            return
        self._choosing = True
        self.view.go_to((there[0], there[1]))
        shown, chosen = self.model.shown_at(self.view.currentIndex().row()), self._desk.selection
        if shown is not None and chosen.part_ids and shown.row.part_id not in chosen.part_ids:
            self._parts = (shown.row.part_id,)
            self._desk.choose(key=shown.row.key, part_ids=self._parts)
        elif there != key:
            self._desk.choose(key=there)
        self._choosing = False

    def _settle_row(self, stage: Stage | None = None) -> None:
        """The row chosen and the row in hand are one, or there is none: a row out of view is nobody's."""
        key, part = self._desk.selection.key, self._desk.selection.part_ids
        current = self.view.currentIndex()
        shown = self.model.shown_at(current.row()) if current.isValid() else None
        if shown is None or shown.row.key != key or (part and shown.row.part_id not in part):
            self._choosing = True
            self.view.setCurrentIndex(QModelIndex())
            self._desk.choose(key=None)
            self._choosing = False
        self.say_row(stage)

    def say_row(self, stage: Stage | None = None) -> None:
        """Tell which row is in hand now."""
        current = self.view.currentIndex()
        self.row_in_hand.emit(self.model.keys[current.row()] if current.isValid() else None, stage)

    def _go_to_part(self, part_ids: Sequence[int]) -> Stage | None:
        """To the row of the parts chosen, or where they are taken up again; then the stage that is read there."""
        with self._desk.store.read() as connection:
            features = features_of(connection, part_ids)
            here = self._desk.selection.key
            if here is not None and here[0] in features:
                self._go_to(here)
                return None
            rows = [key for key in self.model.keys if key[0] in features]
            made = all_remade(connection, part_ids)
            there = first_of_part(rows, read_of(connection, features), made=made)
        key = (there[0][0], there[0][1]) if there is not None else None
        self._choosing = True
        self._desk.choose(key=key)
        self._choosing = False
        if key is not None:
            self._go_to(key)
        return there[1] if there is not None else None

    def _choose_row(self, current: QModelIndex, previous: QModelIndex) -> None:
        if self._choosing or not current.isValid():
            return
        if current.row() == previous.row():
            self.say_row(stage_of(current.column()))
            return
        shown = self.model.shown_at(current.row())
        if shown is None:
            return
        self._choosing = True
        if self.filters.reach.currentData() is Reach.PARTS:
            self._desk.choose(key=shown.row.key)
        else:
            self._parts = (shown.row.part_id,)
            self._desk.choose(key=shown.row.key, part_ids=self._parts)
        self._choosing = False
        self.say_row(stage_of(current.column()))

    def _down(self) -> None:
        """The cell under the one just filled; behind the last row none."""
        current = self.view.currentIndex()
        if stage_of(current.column()) is not None:
            self.view.setCurrentIndex(self.model.index(current.row() + 1, current.column()))

    # What is done with the cells chosen

    @property
    def strike_action(self) -> QAction:
        """Deletes the entry in hand; not to be had where none is."""
        return self._cells.strike_action

    def _show_menu(self, at: QPoint) -> None:
        self._cells.show_menu(at)

    def copy_with_headings(self) -> None:
        """Copy the chosen cells under their headings."""
        self._cells.copy_with_headings()

    def paste(self) -> None:
        """Paste a block from the cell in hand on; a block that wants a look is shown first."""
        self._cells.paste()

    def paste_from_row_in_hand(self) -> None:
        """Paste from the row in hand down, into the column of its stage."""
        self._cells.paste_from_row_in_hand()
