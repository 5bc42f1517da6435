"""Steps and tools of a sheet: the table, and the chosen row's fields to type into."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QModelIndex
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QScrollArea,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from rebuild.window.desk.desk import Desk
from rebuild.window.forms.record_form import fields_named
from rebuild.window.lists.plain_table import PlainTable
from rebuild.window.making.filled_form import FilledForm
from rebuild.window.making.lines import (
    STEP_COLUMNS,
    TOOL_COLUMNS,
    step_line,
    tool_line,
)
from rebuild.work.editing.acts import remove
from rebuild.work.making.acts_steps import add_step, add_tool, move_step, tick_step
from rebuild.work.making.rows_sheet_lists import SheetPage

_STEP_FIELDS = ("what", "machine", "hold", "tool", "speed", "feed", "leave", "measure", "note")
_TOOL_FIELDS = ("what", "why", "in_hand")


class RowsPane(QWidget):
    """A table with the chosen row's form beside it, a line to add with, and buttons."""

    def __init__(
        self,
        desk: Desk,
        record: str,
        names: tuple[str, ...],
        table: PlainTable,
        hint: str,
        parent: QWidget | None,
    ) -> None:
        super().__init__(parent)
        self._desk = desk
        self._page: SheetPage | None = None
        self.table = table
        self.form = FilledForm(desk, record, self, fields=fields_named(record, names), most_columns=1)
        self.form.filled = self._filled
        self.new = QLineEdit(self)
        self.new.setPlaceholderText(hint)
        self.new.setAccessibleName(hint)
        self.buttons = QHBoxLayout()
        self.buttons.addWidget(self.new, 1)
        scroll = QScrollArea(self)
        scroll.setWidget(self.form)
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QScrollArea.Shape.NoFrame)
        across = QSplitter(self)
        across.addWidget(table)
        across.addWidget(scroll)
        across.setStretchFactor(0, 5)
        across.setStretchFactor(1, 2)
        across.setSizes([740, 260])
        across.setChildrenCollapsible(False)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(3)
        layout.addWidget(across, 1)
        layout.addLayout(self.buttons)
        table.selectionModel().currentRowChanged.connect(self._current)
        self.new.returnPressed.connect(self._add)

    def button(self, text: str, act: Callable[[int], object]) -> QPushButton:
        """A button that does something to the chosen row."""
        made = QPushButton(text, self)
        made.setAutoDefault(False)
        made.clicked.connect(lambda _checked=False: self._on_chosen(act))
        self.buttons.addWidget(made)
        return made

    def _on_chosen(self, act: Callable[[int], object]) -> None:
        key = self.table.chosen()
        if key is not None:
            self._desk.attempt(lambda: act(key))

    def show_page(self, page: SheetPage | None) -> None:
        """Show another sheet's rows, the chosen one kept."""
        same = page is not None and self._page is not None and page.id == self._page.id
        key = self.table.chosen() if same else None
        self._page = page
        self.table.plain.fill(self._lines(page) if page is not None else [])
        if key is not None:
            self.table.choose(key)
        elif self.table.plain.ids:
            self.table.choose(self.table.plain.ids[0])
        else:
            self.form.show_record(None)
        self.setEnabled(page is not None and not page.course.settled)

    def _lines(self, page: SheetPage) -> list[tuple[int, tuple[str, ...]]]:
        raise NotImplementedError

    def _filled(self, row_id: int) -> dict[str, str]:
        """The texts of a row that are stored with the names of sizes, as they are shown."""
        raise NotImplementedError

    def _current(self, current: QModelIndex) -> None:
        ids = self.table.plain.ids
        self.form.show_record(ids[current.row()] if 0 <= current.row() < len(ids) else None)

    def _add(self) -> None:
        page, text = self._page, self.new.text()
        if page is not None and text.strip():
            made = self._desk.attempt(lambda: self._make(page.id, text))
            if made is not None:
                self.new.clear()
                self.table.choose(made)

    def _make(self, sheet_id: int, text: str) -> int:
        raise NotImplementedError


class StepsPane(RowsPane):
    """The steps, in order."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        table = PlainTable("Steps of the sheet", STEP_COLUMNS)
        hint = "New step after the chosen one: type it and press Enter"
        super().__init__(desk, "making_step", _STEP_FIELDS, table, hint, parent)
        self.button("Done", self._tick)
        self.button("Up", lambda key: move_step(desk.store, key, -1))
        self.button("Down", lambda key: move_step(desk.store, key, 1))
        self.button("Remove step", lambda key: remove(desk.store, "making_step", [key]))

    def _lines(self, page: SheetPage) -> list[tuple[int, tuple[str, ...]]]:
        return [(step.id, step_line(number, step)) for number, step in enumerate(page.steps, 1)]

    def _filled(self, row_id: int) -> dict[str, str]:
        steps = self._page.steps if self._page is not None else ()
        found = next((step for step in steps if step.id == row_id), None)
        return {"what": found.what, "tool": found.tool} if found is not None else {}

    def _make(self, sheet_id: int, text: str) -> int:
        return add_step(self._desk.store, sheet_id, text, after_id=self.table.chosen())

    def _tick(self, key: int) -> None:
        steps = self._page.steps if self._page is not None else ()
        done = next((step.done_at is not None for step in steps if step.id == key), False)
        tick_step(self._desk.store, key, done=not done)


class ToolsPane(RowsPane):
    """The tools to have before starting."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        table = PlainTable("Tools needed before starting", TOOL_COLUMNS)
        super().__init__(
            desk, "making_tool", _TOOL_FIELDS, table, "New tool: type it and press Enter", parent
        )
        self.button("Remove tool", lambda key: remove(desk.store, "making_tool", [key]))

    def _lines(self, page: SheetPage) -> list[tuple[int, tuple[str, ...]]]:
        return [(tool.id, tool_line(tool)) for tool in page.tools]

    def _filled(self, row_id: int) -> dict[str, str]:
        tools = self._page.tools if self._page is not None else ()
        found = next((tool for tool in tools if tool.id == row_id), None)
        return {"what": found.what} if found is not None else {}

    def _make(self, sheet_id: int, text: str) -> int:
        return add_tool(self._desk.store, sheet_id, text)
