"""What the keys and the menu of the grid do with the cells chosen: strike, copy, paste, edit the spec."""

from __future__ import annotations

from PySide6.QtCore import QObject, QPoint, Qt, Signal
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QMenu, QWidget

from rebuild.window.desk.desk import Desk, Say
from rebuild.window.readings.cell_acts import CellActs
from rebuild.window.readings.columns import STAGE_COLUMNS, Column
from rebuild.window.readings.headings import Headings
from rebuild.window.readings.model import GridModel
from rebuild.window.readings.view import GridView
from rebuild.words.readings import STAGES


class CellMenu(QObject):
    """Actions on the view, by key and in its menu; dialogs open over the grid."""

    entry_wanted = Signal()

    def __init__(
        self, desk: Desk, model: GridModel, view: GridView, headings: Headings, acts: CellActs, grid: QWidget
    ) -> None:
        super().__init__(grid)
        self._desk, self._model, self._view = desk, model, view
        self._headings, self._acts, self._grid = headings, acts, grid
        self._make_actions()

    def _make_actions(self) -> None:
        keys = QKeySequence.StandardKey
        self._open = self._action("&Working…", self._open_working)
        self._enter = self._action("&Enter a reading here", self.entry_wanted.emit, "Ctrl+Return")
        self._spec = self._action("Edit &spec", self._edit_spec)
        self.strike_action = self._action("&Delete entry…", self.strike, keys.Delete)
        self._copy = self._action("&Copy", self.copy, keys.Copy)
        self._headed = self._action("Copy with &headings", self.copy_with_headings, "Ctrl+Shift+C")
        self._paste = self._action("&Paste", self.paste, keys.Paste)

    def _action(self, text: str, does: object, keys: QKeySequence.StandardKey | str | None = None) -> QAction:
        action = QAction(text, self._grid)
        if keys is not None:
            action.setShortcut(QKeySequence(keys))
            action.setShortcutContext(Qt.ShortcutContext.WidgetShortcut)
        action.triggered.connect(does)
        self._view.addAction(action)
        return action

    def show_menu(self, at: QPoint) -> None:
        """Open the menu at a place of the view."""
        menu = QMenu(self._grid)
        found = self._acts.reading_of(self._view.currentIndex())
        self._open.setEnabled(found is not None)
        self.strike_action.setEnabled(found is not None)
        menu.addActions([self._open, self._enter, self._spec, self.strike_action])
        menu.addSeparator()
        menu.addActions([self._copy, self._headed, self._paste])
        menu.addSeparator()
        menu.addMenu(self._headings.menu(menu))
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        menu.popup(self._view.viewport().mapToGlobal(at))

    def _open_working(self) -> None:
        self._acts.open_working(self._view.currentIndex())

    def _edit_spec(self) -> None:
        current = self._view.currentIndex()
        if current.isValid():
            cell = self._model.index(current.row(), Column.SPEC)
            self._headings.show_column(Column.SPEC)
            self._view.setCurrentIndex(cell)
            self._view.edit(cell)

    def strike(self) -> None:
        """Ask why, then strike the reading in hand."""
        found = self._acts.reading_of(self._view.currentIndex())
        if found is None:
            self._desk.say("There is no entry here to delete.", Say.ASK)
            return
        reading, stage, where = found
        from rebuild.window.readings.strike import StrikeReading

        dialog = StrikeReading(
            self._desk, reading.id, f"{reading.typed} {stage.value} on {where}", self._grid
        )
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.open()

    def copy(self) -> None:
        """Copy the chosen cells for a spreadsheet."""
        self._acts.copy(self._chosen_cells(), self._headings.visible())

    def copy_with_headings(self) -> None:
        """Copy the chosen cells under their headings."""
        cells, columns = self._chosen_cells(), self._headings.visible()
        # What stands over the rows and in a heading goes into columns of its own on the way to a spreadsheet.
        for column, before in ((Column.UNIT, Column.SPEC), (Column.PART, Column.FEATURE)):
            if column not in columns and before in columns:
                columns.insert(columns.index(before), column)
                cells += [(row, int(column)) for row in {row for row, _ in cells}]
        self._acts.copy(cells, columns, headings=True)

    def _chosen_cells(self) -> list[tuple[int, int]]:
        return [(index.row(), index.column()) for index in self._view.selectedIndexes()]

    def paste(self) -> None:
        """Paste a block from the cell in hand on; a block that wants a look is shown first."""
        current = self._view.currentIndex()
        keys = [self._model.keys[row] for row, column in self._chosen_cells() if column == Column.SPEC]
        landed = self._acts.paste(current, self._headings.visible(current.column()), keys)
        if landed is not None:
            from rebuild.window.readings.paste_preview import PastePreview

            preview = PastePreview(self._desk, landed, self._grid)
            preview.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
            preview.pasted.connect(self._acts.remember_column)
            preview.open()

    def paste_from_row_in_hand(self) -> None:
        """Paste from the row in hand down, into the column of its stage."""
        current, stage = self._view.currentIndex(), self._headings.stage_in_hand
        if current.isValid() and stage is not None:
            self._view.setCurrentIndex(self._model.index(current.row(), STAGE_COLUMNS[STAGES.index(stage)]))
            self.paste()
