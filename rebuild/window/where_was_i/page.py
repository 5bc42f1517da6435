"""Where was I: what to read on coming back, in two columns, and the strip that ends a session."""

from __future__ import annotations

import datetime as dt
import sys
from collections.abc import Callable
from dataclasses import replace
from importlib import import_module

from PySide6.QtCore import QTimer
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QFrame, QHBoxLayout, QScrollArea, QVBoxLayout, QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.desk.job import Job
from rebuild.window.desk.leads import follow
from rebuild.window.desk.live_page import LivePage
from rebuild.window.ink import theme
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.section import Lead, Line, Section
from rebuild.window.plan.ahead import Ahead
from rebuild.window.plan.drawing import Drawing
from rebuild.window.where_was_i import lines
from rebuild.window.where_was_i.end_strip import EndStrip
from rebuild.window.where_was_i.tonight_field import TonightField
from rebuild.work.plan.rows_graph import work_graph
from rebuild.work.records.wall_clock import now
from rebuild.work.where_was_i import rows as where_rows
from rebuild.work.where_was_i.rows import ReEntry, drives, where_was_i

#: By then the first page of a start has been painted.
PAINTED_MS = 400

#: Each section with its column, its words and what stands there when it is empty.
_Words = Callable[[ReEntry], list[Line]]
_SECTIONS: tuple[tuple[str, int, _Words, str], ...] = (
    ("Next three actions", 0, lines.actions, "Nothing can be done now: everything waits."),
    ("What drives the finish", 0, lines.drives, ""),
    ("Before you touch it", 0, lines.cautions, ""),
    ("On the bench", 0, lines.bench, "Nothing lies out or is off."),
    ("Not final", 0, lines.not_final, "No joint is left half done."),
    ("Last sessions", 1, lines.sessions, "No session is in the bench log yet."),
    ("Baths and clocks", 1, lines.clocks, ""),
    ("At a shop or lent", 1, lines.away, ""),
    ("Expected and owed", 1, lines.orders, ""),
    ("Values without a row", 1, lines.values, ""),
    ("Open questions", 1, lines.questions, ""),
    ("To be decided", 1, lines.undecided, ""),
)


class WherePage(LivePage):
    """One page per machine; ``now`` is the shop's clock."""

    shows = (where_rows,)
    by_the_clock = True

    def __init__(
        self, desk: Desk, parent: QWidget | None = None, now: Callable[[], dt.datetime] = now
    ) -> None:
        super().__init__(desk, "Where was I", parent)
        self._now = now
        self.found: ReEntry | None = None
        self._can_draw = "numpy" in sys.modules
        self._library = Job(self)
        self._library.done.connect(self._draw)
        self.title = PlainLabel(self)
        self.sections = {name: Section(name, self) for name, *_ in _SECTIONS}
        self.end = EndStrip(desk, now, self)
        # Made after the rest: the keyboard does not start in it, where a gauge's value would land.
        self.tonight = TonightField(desk, self)
        self.tonight.changed.connect(self.refresh)
        self.drawing = Drawing(self)
        self.drawing.came.connect(self.refresh)
        desk.closed.connect(self.drawing.drop)
        self.ahead = Ahead(self)
        self.ahead.came.connect(self.look_again)
        desk.closed.connect(self.ahead.drop)
        self._compose()

    def _compose(self) -> None:
        self.title.setFont(theme.large(self.font(), 1.5))
        self.title.setWordWrap(True)
        columns = QHBoxLayout()
        columns.setSpacing(28)
        sides = (QVBoxLayout(), QVBoxLayout())
        for name, side, _words, _nothing in _SECTIONS:
            sides[side].addWidget(self.sections[name])
            self.sections[name].followed.connect(self.follow)
        for column in sides:
            column.setSpacing(8)
            column.addStretch(1)
            columns.addLayout(column, 1)
        inside = QWidget(self)
        inside.setLayout(columns)
        scroll = QScrollArea(self)
        scroll.setAccessibleName("Where was I")
        scroll.setWidget(inside)
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setBackgroundRole(QPalette.ColorRole.Window)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(14, 8, 14, 10)
        layout.addWidget(self.title)
        layout.addWidget(self.tonight)
        layout.addWidget(scroll, 1)
        layout.addWidget(self.end)

    def panes(self) -> list[QWidget]:
        """The panes F6 goes round."""
        return [
            *(section.body for section in self.sections.values()),
            self.tonight.minutes,
            self.end.fields["did"],
        ]

    def put_by(self) -> None:
        """Hand a session not stored to the kept entries."""
        self.end.put_by()

    def refresh(self) -> None:
        """Read everything again, as it stands now."""
        found: ReEntry | None = None
        self.setEnabled(self.machine is not None)
        if self.machine is not None:
            with self._desk.store.read() as connection:
                moment = self._now()
                if self._can_draw and not self.ahead.look(work_graph(connection, self.machine, moment)):
                    return
                found = where_was_i(
                    connection,
                    self.machine,
                    moment,
                    drawn=self._can_draw,
                    tonight=self.tonight.tonight(),
                )
                if self._can_draw:
                    self.drawing.look(work_graph(connection, self.machine, moment))
            if not self._can_draw:
                # The page is painted first; the library comes on a thread, which holds no key up.
                QTimer.singleShot(PAINTED_MS, self, self._load_library)
        self.found = found
        self._show()

    def _load_library(self) -> None:
        self._library.start(lambda _tell: import_module("numpy"))

    def _draw(self) -> None:
        """What drives the finish, from schedules drawn, is the last to come."""
        self._can_draw = True
        if self.found is None or self.machine is None:
            return
        with self._desk.store.read() as connection:
            self.found = replace(self.found, drives=drives(connection, self.machine, self.found.now))
            self.drawing.look(work_graph(connection, self.machine, self.found.now))
        name = "What drives the finish"
        self.sections[name].show_lines(lines.drives(self.found))

    def _show(self) -> None:
        found = self.found
        if found is None:
            self.title.setText("No machine yet")
            for section in self.sections.values():
                section.show_lines([])
            return
        seen = f"last at it {found.last_seen}" if found.last_seen else "no session written down yet"
        self.title.setText(f"{found.machine}: {seen}")
        for name, _side, words, nothing in _SECTIONS:
            count = len(found.not_final) + len(found.apart) if name == "Not final" else None
            self.sections[name].show_lines(words(found), nothing=nothing, count=count)

    def follow(self, lead: Lead) -> None:
        """Go to what a line speaks of."""
        if lead.ref is not None:
            follow(
                self._desk,
                lead.ref,
                part_id=lead.part_id,
                subassembly_id=lead.subassembly_id,
                page=lead.page,
            )
            return
        if lead.page == "making" and lead.part_id is not None:
            # Imported when asked for: a start loads no act.
            from rebuild.window.making.one_click import sheet_of

            sheet_of(self._desk, lead.part_id)
            return
        if lead.page == "teardown":
            self._desk.choose(subassembly_id=lead.subassembly_id, part_ids=())
        self._desk.page_asked.emit(lead.page)
