"""One making sheet on the screen: head, sizes beside the drawing, and everything else on leaves beneath."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, Qt, Signal
from PySide6.QtWidgets import QScrollArea, QSplitter, QVBoxLayout, QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.entry.line import EntryLine
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.layout.views import Views
from rebuild.window.lists.plain_table import PlainTable
from rebuild.window.making.details_pane import DetailsPane, FittingsPane
from rebuild.window.making.drawing_view import PartDrawing
from rebuild.window.making.head import SheetHead
from rebuild.window.making.lines import (
    DATA_COLUMNS,
    MATE_COLUMNS,
    data_lines,
    mate_line,
    settled_words,
)
from rebuild.window.making.sizes_pane import SizesPane
from rebuild.window.making.steps_pane import StepsPane, ToolsPane
from rebuild.window.making.story_pane import StoryPane
from rebuild.window.making.texts_pane import AFTER, WHAT, TextsPane
from rebuild.words.making import MakingProgress
from rebuild.work.making.rows_against import How, against
from rebuild.work.making.rows_as_made import worst
from rebuild.work.making.rows_sheet import sheet_page
from rebuild.work.making.rows_sheet_lists import SheetPage, SizeRow
from rebuild.work.readings.landing import Surface
from rebuild.work.readings.rows_grid import Key

_MEASURED = (MakingProgress.BEING_MADE, MakingProgress.MADE)


class SheetView(QWidget):
    """Shows one ``SheetPage``."""

    done = Signal(object)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self.page: SheetPage | None = None
        self.places: list[Key] = []
        self.head = SheetHead(desk, self)
        self.sizes = SizesPane(desk, self)
        self.drawing = PartDrawing(self)
        self.mates = PlainTable("Mates", MATE_COLUMNS, self)
        self.steps = StepsPane(desk, self)
        self.tools = ToolsPane(desk, self)
        self.details = DetailsPane(desk, self)
        self.fittings = FittingsPane(desk, self)
        self.data = PlainTable("Blank, thread, taper, gear and key", DATA_COLUMNS, self)
        self.what = TextsPane(desk, WHAT, parent=self)
        self.after = TextsPane(desk, AFTER, parent=self)
        self.cautions = PlainLabel(self)
        self.cautions.setWordWrap(True)
        self.cautions.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.cautions.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.story = StoryPane(desk, self)
        self.leaves = Views(
            [
                ("Steps", self.steps),
                ("Mates", self.mates),
                ("Data and blank", self.data),
                ("What and why", self.what),
                ("Tools", self.tools),
                ("Cautions", _scrolled(self.cautions)),
                ("After", self.after),
                ("Story", self.story),
                ("Holes and flats", self.details),
                ("At assembly", self.fittings),
            ],
            self,
        )
        self.entry = EntryLine(desk, self, Surface.SHEET)
        self._place: Key | None = None
        self.entry.follow_rows(lambda: self.places, lambda _key: None, self._say_row, self.sizes.table)
        self.entry.left = self._left
        self.nothing = PlainLabel(
            "No making sheet yet.\nChoose a part at the bench and make one: it is filled with all that is known.",
            self,
        )
        self._compose()
        self._wire()
        self.show_page(None, [])

    def _compose(self) -> None:
        self.nothing.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.across = QSplitter(Qt.Orientation.Horizontal, self)
        self.across.addWidget(self.drawing)
        self.across.addWidget(self.sizes)
        self.across.setStretchFactor(0, 5)
        self.across.setStretchFactor(1, 3)
        letters = max(430, 60 * self.fontMetrics().averageCharWidth())
        self.across.setSizes([1020 - letters, letters])
        self.down = QSplitter(Qt.Orientation.Vertical, self)
        self.down.addWidget(self.across)
        # The entry line stands beside the leaves: under them it would take its height from the drawing.
        self.beneath = QSplitter(Qt.Orientation.Horizontal, self)
        self.beneath.addWidget(self.leaves)
        self.beneath.addWidget(self.entry)
        self.beneath.setSizes([500, 520])
        self.down.addWidget(self.beneath)
        self.down.setStretchFactor(0, 5)
        self.down.setStretchFactor(1, 4)
        self.down.setSizes([280, 185])
        for splitter in (self.across, self.down, self.beneath):
            splitter.setChildrenCollapsible(False)
        self.down.setMinimumHeight(200)  # in a large type each half scrolls before the window grows
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(4)
        layout.addWidget(self.head)
        layout.addWidget(self.down, 1)
        layout.addWidget(self.nothing, 1)

    def _wire(self) -> None:
        self.head.done.connect(self.done)
        self.sizes.chosen.connect(self._size_chosen)
        self.data.activated.connect(self._show_working)
        self._desk.selection_changed.connect(self._follow)

    def show_page(self, page: SheetPage | None, places: list[Key]) -> None:
        """Show a sheet; ``places`` are where its as-made values land."""
        measured = page is not None and page.course.progress in _MEASURED
        self.page, self.places = page, places
        for widget in (self.head, self.down):
            widget.setVisible(page is not None)
        self.nothing.setVisible(page is None)
        self.head.show_page(page)
        self.sizes.show_page(page)
        self.steps.show_page(page)
        for pane in (self.tools, self.details, self.fittings):
            pane.show_page(page)
        if self._place not in places:
            self._place = None
        self.entry.setVisible(measured)
        if page is None:
            self.drawing.show_drawing(None)
            for texts in (self.what, self.after):
                texts.show_sheet(None)
            self.story.show_part(None)
            return
        self.drawing.show_drawing(
            page.drawing.drawn,
            page.head.unit,
            page.drawing.trouble or "This shape has no drawing.",
            {size.role: value.verdict for size in page.sizes if (value := worst(size.made)) is not None},
        )
        self.mates.plain.fill([(mate.fit_id, mate_line(mate)) for mate in page.mates])
        self._fill_data(page)
        self.what.show_sheet(page.id, changes=not page.course.settled)
        self.after.show_sheet(page.id, settled_words(page))
        self.cautions.setText(
            "\n\n".join(one.line() for one in page.cautions) or "None that these words call for."
        )
        self.story.show_part(page.head.part_id)
        self._say_row()

    def show_tool(self, tool_id: int) -> None:
        """Turn to a tool, the keyboard on whether it is in hand."""
        self.leaves.show_widget(self.tools)
        self.tools.table.choose(tool_id)
        self.tools.form.boxes["in_hand"].widget.setFocus()

    def _fill_data(self, page: SheetPage) -> None:
        rows = data_lines(page)
        self._blocks = [key for key, _ in rows]
        self.data.plain.fill([(number, words) for number, (_, words) in enumerate(rows)])

    def _size_chosen(self, size: SizeRow | None) -> None:
        self.drawing.choose(size.role if size is not None else "")
        page = self.page
        if page is None or not self.isVisible() or page.course.progress not in _MEASURED:
            return
        self._place = self._place_of(size)
        self._desk.choose(part_ids=(page.head.part_id,), key=self._place)
        self._say_row()

    def _place_of(self, size: SizeRow | None) -> Key | None:
        """Where a size's values land: the place in hand, if it is one of its feature, else its first; or none."""
        feature = size.feature_id if size is not None else None
        if self._place is not None and self._place[0] == feature:
            return self._place
        return next((place for place in self.places if place[0] == feature), None)

    def _say_row(self) -> None:
        """The place in hand; a sheet begins at its chosen size, unless another part than its own is chosen."""
        page, parts = self.page, self._desk.selection.part_ids
        if self._place is None and page is not None and (not parts or page.head.part_id in parts):
            self._place = self._place_of(self.sizes.chosen_size)
            if self._place is not None and self.isVisible():
                self._desk.choose(part_ids=(page.head.part_id,), key=self._place)
        self.entry.place.row_in_hand(self._place, None)

    def _left(self) -> str:
        """The sizes nothing measures whose operation is not ticked yet."""
        if self.page is None:
            return ""
        with self._desk.store.read() as connection:
            found = against(sheet_page(connection, self.page.id))
        names = [one.name for one in found if one.how is How.UNREAD]
        told = f" Still open, tick its operation when it is made: {', '.join(names)}."
        return told if names else ""

    def _follow(self) -> None:
        chosen = self._desk.selection
        if not self.isVisible() or self.page is None:
            return
        if chosen.key in self.places and chosen.key is not None:
            self._place = chosen.key
            self.sizes.choose_feature(chosen.key[0])
            self._say_row()
        elif self.page.head.part_id not in chosen.part_ids or chosen.key is None:
            self._place = None
            self.entry.place.row_in_hand(None, None)

    def _show_working(self, index: QModelIndex) -> None:
        page = self.page
        if page is None:
            return
        number = self._blocks[index.row()]
        working = page.blank.working if number == 0 else page.data[number - 1].working
        if working is not None:
            self._desk.ask_working(working)


def _scrolled(label: PlainLabel) -> QWidget:
    scroll = QScrollArea()
    scroll.setAccessibleName("Cautions")
    scroll.setWidget(label)
    scroll.setWidgetResizable(True)
    scroll.setFrameShape(QScrollArea.Shape.NoFrame)
    return scroll
