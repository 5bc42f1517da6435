"""The front of the part card: one glance of a part, with what is noted most often edited in place."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QPixmap, QResizeEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QScrollArea, QVBoxLayout, QWidget

from rebuild.errors import NotThere
from rebuild.trade.schedule.graph import Ref
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.leads import follow
from rebuild.window.desk.live_page import LivePage
from rebuild.window.forms.edit_form import EditForm
from rebuild.window.ink.thumbnail import read_scaled
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.section import Lead, Line, Section
from rebuild.window.parts.fields_leaf import part_specials
from rebuild.work.part_card import rows
from rebuild.work.part_card.rows import About, PartGlance, glance
from rebuild.work.records import rows_settings
from rebuild.work.records.fields import field_of
from rebuild.work.records.rows_settings import verdict_rule
from rebuild.work.records.wall_clock import now

PHOTO = QSize(150, 150)
#: Edited here; the rest of the part's fields stand on the leaf beside.
NOTED = ("place_id", "orientation", "match_mark", "condition")
#: The table the rows of a section are of, and the page it leads to.
TABLES = {
    About.LAY: "place", About.OFF: "removal", About.READ: "feature", About.FITS: "fit", About.MADE: "making_sheet",
    About.ORDERS: "waiting", About.QUESTIONS: "question", About.STEPS: "task", About.DECIDED: "part",
    About.MANUALS: "call_out",
    About.SKIPPED: "part",
}  # fmt: skip
PAGES = {
    About.LAY: "places",
    About.OFF: "teardown", About.READ: "bench", About.FITS: "fits", About.MADE: "making", About.ORDERS: "waiting",
    About.QUESTIONS: "questions", About.STEPS: "bench", About.DECIDED: "decide", About.SKIPPED: "decide",
    About.MANUALS: "manuals",
}  # fmt: skip
WIDE_ENOUGH_FOR_THREE = 900
MOST_COLUMNS = 3


class GlanceLeaf(LivePage):
    """Photo and the fields of ``NOTED`` first, then a section a subject; a line leads to its page."""

    shows = (rows, rows_settings)
    beside = True

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(desk, parent=parent)
        self._part_id: int | None = None
        self.found: PartGlance | None = None
        self.photo = PlainLabel(self)
        self.photo.setAccessibleName("Newest photo of the part")
        fields = [field_of("part", name) for name in NOTED]
        self.form = EditForm(desk, "part", fields=fields, specials=part_specials(desk), most_columns=2)
        self.sections = {about: Section(about.value, self) for about in About}
        self._columns = [QVBoxLayout() for _ in range(MOST_COLUMNS)]
        self._beside = QHBoxLayout()
        self._beside.setSpacing(16)
        self._lay_out()
        for section in self.sections.values():
            section.followed.connect(self._follow)

    def _lay_out(self) -> None:
        for column in self._columns:
            column.addStretch(1)
            self._beside.addLayout(column, 1)
        inside = QWidget(self)
        layout = QVBoxLayout(inside)
        layout.setContentsMargins(8, 4, 8, 6)
        top = QHBoxLayout()
        top.addWidget(self.photo, 0, Qt.AlignmentFlag.AlignTop)
        top.addWidget(self.form, 1)
        layout.addLayout(top)
        layout.addLayout(self._beside)
        layout.addStretch(1)
        scroll = QScrollArea(self)
        scroll.setAccessibleName("Card of the chosen part")
        scroll.setWidget(inside)
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addWidget(scroll)

    def show_part(self, part_id: int | None) -> None:
        """Turn to a part; read now if seen, else when it comes into view."""
        if part_id != self._part_id:
            self._part_id = part_id
            self.form.show_record(part_id)
            self.look_again()

    def refresh(self) -> None:
        """Read the part again."""
        self.found = None
        if self._part_id is not None and self._desk.is_open:
            rule = verdict_rule(self._desk.store)
            try:
                with self._desk.store.read() as connection:
                    self.found = glance(connection, self._part_id, now(), rule)
            except NotThere:
                self.found = None
        self._show()

    def _show(self) -> None:
        found = self.found
        self.form.setVisible(found is not None)
        self.photo.setVisible(found is not None and found.photo is not None)
        if found is not None and found.photo is not None:
            image = read_scaled(found.photo.path(self._desk.store.path), PHOTO.width())
            self.photo.setPixmap(QPixmap.fromImage(image))
        for about, section in self.sections.items():
            lines = found.of(about) if found is not None else ()
            shown: list[Line] = [
                (told.words, told.tail, self._lead(about, told.row_id))
                for told in lines
                if about is not About.LIES
            ]
            section.show_lines(shown)
        self._arrange()

    def _lead(self, about: About, row_id: int | None) -> Lead | None:
        page = PAGES.get(about)
        if page is None or self.found is None:
            return None
        found = self.found
        step = row_id if about is About.STEPS else None
        ref = Ref(TABLES[about], row_id) if row_id is not None else None
        return Lead(page, step, found.part_id, found.subassembly_id, ref)

    def _follow(self, lead: Lead) -> None:
        """To the very row: a feature is chosen on the bench, anything else in the list of its page."""
        part = (lead.part_id,) if lead.part_id is not None else ()
        self._desk.choose(subassembly_id=lead.subassembly_id, part_ids=part, key=None)
        if lead.ref is None:
            self._desk.page_asked.emit(lead.page)
        else:
            follow(
                self._desk, lead.ref, part_id=lead.part_id, subassembly_id=lead.subassembly_id, page=lead.page
            )

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._arrange()

    def _arrange(self) -> None:
        """The sections that tell something, in as many columns as there is room for."""
        columns = MOST_COLUMNS if self.width() > WIDE_ENOUGH_FOR_THREE else 2
        heights = [0] * columns
        for at, column in enumerate(self._columns):
            self._beside.setStretch(at, 1 if at < columns else 0)
            while column.count() > 1:
                column.takeAt(0)
        for about, section in self.sections.items():
            lines = self.found.of(about) if self.found is not None else ()
            least = heights.index(min(heights))
            if not section.isHidden():
                column = self._columns[least]
                column.insertWidget(column.count() - 1, section)
                heights[least] += 2 + len(lines)
