"""The Making page: the sheets of the machine by state, and one of them whole."""

from __future__ import annotations

from PySide6.QtCore import QSignalBlocker, Qt
from PySide6.QtWidgets import QHBoxLayout, QSplitter, QWidget

from rebuild.errors import NotThere
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.live_page import LivePage
from rebuild.window.making.one_click import sheet_of
from rebuild.window.making.sheet_list import SheetList
from rebuild.window.making.sheet_view import SheetView
from rebuild.work.machines.rows_parts import names
from rebuild.work.making import rows as sheet_rows, rows_as_made, rows_sheet
from rebuild.work.making.rows import SheetRow, sheets
from rebuild.work.making.rows_as_made import places
from rebuild.work.making.rows_sheet import sheet_of_tool, sheet_page
from rebuild.work.records import rows_settings
from rebuild.work.records.rows_settings import verdict_rule


class MakingPage(LivePage):
    """Sheets · the chosen one."""

    shows = (sheet_rows, rows_sheet, rows_as_made, rows_settings)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, "Making", parent)
        self.list = SheetList(self)
        self.view = SheetView(desk, self)
        whole = QSplitter(Qt.Orientation.Horizontal, self)
        whole.addWidget(self.list)
        whole.addWidget(self.view)
        whole.setChildrenCollapsible(False)
        whole.setStretchFactor(0, 0)
        whole.setStretchFactor(1, 1)
        whole.setSizes([240, 1020])
        layout = QHBoxLayout(self)
        layout.setContentsMargins(8, 6, 8, 8)
        layout.addWidget(whole)
        self.list.chosen.connect(self._show)
        self.list.new_button.clicked.connect(self.new_sheet)
        self.view.done.connect(self._done)
        self._rows: list[SheetRow] = []
        self._part: int | None = None
        desk.selection_changed.connect(self._follow)
        desk.unit_changed.connect(self.look_again)

    def panes(self) -> list[QWidget]:
        """The panes F6 goes round."""
        found: list[QWidget] = [self.list.tree, self.view.sizes.table, self.view.leaves]
        return [*found, self.view.entry] if self.view.entry.isVisible() else found

    def refresh(self) -> None:
        """Read every sheet of the machine again."""
        self._name_button()
        if self.machine is None:
            self._rows = []
            self.list.show_rows([])
            self._show(0)
            return
        rule = verdict_rule(self._desk.store)
        with self._desk.store.read() as connection:
            rows = sheets(connection, self.machine, rule)
        before = {row.id for row in self._rows}
        self._rows = rows
        new = [row.id for row in rows if row.id not in before]
        with QSignalBlocker(self.list):  # the sheet is shown once, when it is known which
            self.list.show_rows(rows)
            if before and len(new) == 1:
                self.list.choose(new[0])
        self._show(self.list.key or 0)

    def show_row(self, table: str, key: int) -> None:
        """Choose what was found; of a tool its own row, where it is said to be in hand."""
        if table != "making_tool":
            self.choose(key)
            return
        with self._desk.store.read() as connection:
            sheet = sheet_of_tool(connection, key)
        if sheet is not None:
            self.choose(sheet)
            self.view.show_tool(key)

    def choose(self, sheet_id: int) -> None:
        """Turn to one sheet."""
        self.list.choose(sheet_id)

    def new_sheet(self) -> int | None:
        """One click: a sheet of the chosen part, or the one it has already."""
        chosen = self._desk.selection.part_ids
        if not chosen:
            self._desk.say("Choose a part at the bench first.")
            return None
        return sheet_of(self._desk, chosen[-1])

    def _done(self, found: object) -> None:
        """After an act that made another sheet, turn to it."""
        if isinstance(found, int):
            self.choose(found)

    def _follow(self) -> None:
        """Another part was chosen: its newest sheet is shown, if it has one."""
        self._name_button()
        chosen = self._desk.selection.part_ids
        part = chosen[-1] if len(chosen) == 1 else None
        if (
            part is not None
            and part != self._part
            and (self.view.page is None or self.view.page.head.part_id != part)
        ):
            own = [row.id for row in self._rows if row.part_id == part]
            if own:
                self.choose(own[-1])
        self._part = part

    def _show(self, sheet_id: int) -> None:
        if not sheet_id or not self._desk.is_open:
            self.view.show_page(None, [])
            return
        try:
            with self._desk.store.read() as connection:
                page = sheet_page(connection, sheet_id, verdict_rule(self._desk.store))
                where = places(connection, sheet_id)
        except NotThere:
            self.view.show_page(None, [])
            return
        self.view.show_page(page, where)

    def _name_button(self) -> None:
        chosen = self._desk.selection.part_ids
        named = ""
        if chosen and self._desk.is_open:
            with self._desk.store.read() as connection:
                named = next(iter(names(connection, chosen[-1:])), "")
        self.list.new_button.setEnabled(bool(named))
        words = f"&New sheet: {named.replace('&', '&&')}" if named else "&New sheet for the chosen part"
        self.list.new_button.setText(words)
