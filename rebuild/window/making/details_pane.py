"""Holes, flats and grooves of a sheet, and what is fitted at assembly: tables with the chosen row's form."""

from __future__ import annotations

from PySide6.QtWidgets import QComboBox, QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.lists.plain_table import PlainTable
from rebuild.window.lists.said import day
from rebuild.window.making.steps_pane import RowsPane
from rebuild.words.fitting import FittingKind
from rebuild.words.making_details import DetailKind
from rebuild.work.editing.acts import remove
from rebuild.work.making.acts_details import add_detail, tick_detail
from rebuild.work.making.acts_fittings import add_fitting, finish_fitting
from rebuild.work.making.rows_sheet_lists import SheetPage

_DETAIL_FIELDS = (
    "name",
    "place",
    "size",
    "depth",
    "long",
    "around_deg",
    "circle",
    "count",
    "came_out",
    "note",
)
_FITTING_FIELDS = ("kind", "what", "start", "allowance", "condition", "task_id", "came_out", "note")


class DetailsPane(RowsPane):
    """What is on the part beside its turned sizes, ticked as made."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        table = PlainTable("Holes, flats, keyways and grooves", ("", "Detail", "Sizes", "Came out", "Made"))
        super().__init__(
            desk, "making_detail", _DETAIL_FIELDS, table, "New detail: name it and press Enter", parent
        )
        self.kind = QComboBox(self)
        self.kind.setAccessibleName("Kind of detail")
        self.kind.addItems([kind.value for kind in DetailKind])
        self.buttons.insertWidget(0, self.kind)
        self.button("Made", self._tick)
        self.button("Remove detail", lambda key: remove(desk.store, "making_detail", [key]))

    def _lines(self, page: SheetPage) -> list[tuple[int, tuple[str, ...]]]:
        return [
            (
                row.id,
                (
                    str(number),
                    row.title,
                    row.words,
                    f"{row.came_out}, outside" if row.outside else row.came_out,
                    day(row.done_at),
                ),
            )
            for number, row in enumerate(page.details, 1)
        ]

    def _filled(self, row_id: int) -> dict[str, str]:
        return {}

    def _make(self, sheet_id: int, text: str) -> int:
        return add_detail(self._desk.store, sheet_id, DetailKind(self.kind.currentText()), text)

    def _tick(self, key: int) -> None:
        rows = self._page.details if self._page is not None else ()
        row = next(row for row in rows if row.id == key)
        tick_detail(self._desk.store, key, row.came_out, done=row.done_at is None)


class FittingsPane(RowsPane):
    """What is brought to size at assembly."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        table = PlainTable("Fit at assembly", ("How, and until when", "Came out", "Done"))
        super().__init__(
            desk,
            "fitting",
            _FITTING_FIELDS,
            table,
            "What is fitted, until what holds, with a comma between",
            parent,
        )
        self.kind = QComboBox(self)
        self.kind.setAccessibleName("How it is fitted")
        self.kind.addItems([kind.value for kind in FittingKind])
        self.buttons.insertWidget(0, self.kind)
        self.button("Done", self._done)
        self.button("Remove", lambda key: remove(desk.store, "fitting", [key]))

    def show_page(self, page: SheetPage | None) -> None:
        """Fitting goes on after the sheet is accepted."""
        super().show_page(page)
        self.setEnabled(page is not None)

    def _lines(self, page: SheetPage) -> list[tuple[int, tuple[str, ...]]]:
        return [(row.id, (row.asked, row.came_out, day(row.done_at) or "to do")) for row in page.fittings]

    def _filled(self, row_id: int) -> dict[str, str]:
        return {}

    def _make(self, sheet_id: int, text: str) -> int:
        what, _, until = text.partition(",")
        part = self._page.head.part_id if self._page is not None else 0
        kind = FittingKind(self.kind.currentText())
        return add_fitting(
            self._desk.store, part, kind, what.strip(), {"condition": until.strip().removeprefix("until ")}
        )

    def _done(self, key: int) -> None:
        rows = self._page.fittings if self._page is not None else ()
        finish_fitting(self._desk.store, key, next(row.came_out for row in rows if row.id == key))
