"""One fit: what it is now, what has changed since it was looked at, its picture, every place, and what to do."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from rebuild.errors import RebuildError
from rebuild.trade.fits.words import range_words, working, zones
from rebuild.trade.results.working import Working
from rebuild.trade.schedule.graph import Ref
from rebuild.window.desk.desk import Desk, Say
from rebuild.window.desk.leads import follow, follow_to_field
from rebuild.window.fits.lines import ALONG, PAIR_COLUMNS, SIDE_COLUMNS, line_of, pair_rows, side_rows
from rebuild.window.fits.settings import FitSettings
from rebuild.window.ink import theme
from rebuild.window.ink.fit_picture import FitPicture
from rebuild.window.ink.shapes import ShapeMark
from rebuild.window.layout.plain import PlainLabel, plain_tip
from rebuild.window.layout.views import Views
from rebuild.window.lists.plain_table import PlainTable
from rebuild.window.lists.section import Lead, Section
from rebuild.window.lists.verdict_model import VerdictModel
from rebuild.window.results.working import WorkingPane
from rebuild.words.fits import FitKind
from rebuild.work.fits.acts import look
from rebuild.work.fits.rows import FitRow
from rebuild.work.fits.rows_follower import limits_in
from rebuild.work.fits.rows_tight import Missing, NotKnown, ways_in
from rebuild.work.records.field import show_day, show_moment

TIGHT = (FitKind.PRESS, FitKind.SHRINK)


class FitDetail(QWidget):
    """The chosen fit."""

    side_asked = Signal(int, int)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self.row: FitRow | None = None
        self.mark = ShapeMark(None, self)
        self.title = PlainLabel(self)
        self.title.setFont(theme.large(self.font(), 1.25))
        self.sentence = PlainLabel(self)
        self.changes = PlainLabel(self)
        self.looked = QPushButton("&Looked at", self)
        self.picture = FitPicture(self, ("tight", "clear"))
        self.sides = PlainTable("The two sides", SIDE_COLUMNS, self)
        self.sides.stand_whole()
        self.pairs = PlainTable(
            "Every place of the fit", PAIR_COLUMNS, self, model=VerdictModel(PAIR_COLUMNS, self)
        )
        self.remarks = PlainLabel(self)
        self.why = QPushButton("&Working", self)
        self.follower = QPushButton("F&ollower's limits", self)
        self.assemble = QPushButton("How to p&ut together", self)
        self.missing = Section("Missing to put it together", self)
        self.settings = FitSettings(desk, self)
        self.working = WorkingPane(desk, self)
        self.now = QWidget(self)
        self.tabs = Views(
            (("Now", self.now), ("Settings", self.settings), ("Working", self.working)), self, keys=False
        )
        self._compose()
        self._wire()
        self.show_fit(None)

    def _compose(self) -> None:
        for label in (self.title, self.sentence, self.changes, self.remarks):
            label.setWordWrap(True)
            label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.remarks.setForegroundRole(QPalette.ColorRole.PlaceholderText)
        self.picture.setMinimumHeight(150)
        body = QVBoxLayout(self.now)
        body.setContentsMargins(0, 2, 0, 0)
        body.setSpacing(5)
        body.addWidget(self.picture, 3)
        body.addWidget(self.sides)
        body.addWidget(self.pairs, 2)
        body.addWidget(self.remarks)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 0, 0, 0)
        layout.setSpacing(4)
        layout.addLayout(self._row(self.mark, self.title, stretch=1))
        layout.addWidget(self.sentence)
        layout.addLayout(self._row(self.changes, self.looked, stretch=0))
        layout.addWidget(self.tabs, 1)
        buttons = QHBoxLayout()
        for button in (self.why, self.follower, self.assemble):
            buttons.addWidget(button)
        buttons.addStretch(1)
        layout.addLayout(buttons)
        layout.addWidget(self.missing)
        self.missing.hide()

    @staticmethod
    def _row(first: QWidget, second: QWidget, *, stretch: int) -> QHBoxLayout:
        row = QHBoxLayout()
        row.addWidget(first, 1 - stretch, Qt.AlignmentFlag.AlignVCenter)
        row.addWidget(
            second, stretch, Qt.AlignmentFlag.AlignVCenter if stretch else Qt.AlignmentFlag.AlignTop
        )
        return row

    def _wire(self) -> None:
        self.looked.clicked.connect(self._look)
        self.why.clicked.connect(self.show_working)
        self.follower.clicked.connect(self.show_limits)
        self.assemble.clicked.connect(self.show_assembly)
        self.sides.activated.connect(self._go)
        self.missing.followed.connect(self._enter)

    def show_fit(self, row: FitRow | None) -> None:
        """Show another fit, or the same one as it is now."""
        other = row is None or self.row is None or row.id != self.row.id
        self.row = row
        self.missing.hide()
        self.tabs.setEnabled(row is not None)
        for button in (self.why, self.follower, self.assemble, self.looked):
            button.setEnabled(row is not None)
        self.settings.show_fit(row)
        if other and self.tabs.view_shown is self.working:
            self.tabs.show_view(0)
        if row is None:
            self._empty()
            return
        unit = self._desk.unit_for(row.unit)
        self.title.setText(row.title)
        self.mark.show_shape(line_of(row, self._desk.unit_for).shape)
        plain = row.now is not None and row.now.verdict.value == row.state.value
        self.sentence.setText(row.sentence if plain else f"{row.state.value.capitalize()}: {row.sentence}")
        self._show_changes(row)
        self.picture.set_zones(zones(row.now, row.found, row.low_mm, row.high_mm), unit)
        self._tables(row, unit)
        waits = [f"Waits: {wait.sentence}." for wait in row.waits]
        self.remarks.setText("\n".join([*waits, *row.remarks]))
        self.remarks.setVisible(bool(self.remarks.text()))
        self.why.setEnabled(row.now is not None)
        self.assemble.setVisible(row.kind in TIGHT)

    def _empty(self) -> None:
        self.title.setText("No fit chosen")
        self.mark.show_shape(None)
        self.sentence.setText("A fit joins two features: New fit… enters the first.")
        self.picture.set_zones(())
        for table in (self.sides, self.pairs):
            table.plain.fill([])
        for widget in (self.changes, self.looked, self.remarks, self.assemble):
            widget.setVisible(False)

    def _show_changes(self, row: FitRow) -> None:
        since = f" ({show_day(row.looked_at)})" if row.looked_at is not None else ""
        lines = "\n".join(f"• {said}" for said in row.stale)
        self.changes.setText(f"Stale. Since you last looked{since}:\n{lines}" if row.stale else "")
        self.changes.setToolTip(plain_tip(show_moment(row.looked_at)) if row.looked_at is not None else "")
        self.changes.setVisible(bool(row.stale))
        self.looked.setVisible(bool(row.stale))

    def _tables(self, row: FitRow, unit: str) -> None:
        self.sides.plain.fill(side_rows(row))
        self.pairs.plain.fill(pair_rows(row.now, unit) if row.now is not None else [])
        self.pairs.setColumnHidden(ALONG, row.now is None or row.now.combining.axial is None)
        line = self.sides.verticalHeader().defaultSectionSize()
        self.pairs.setVisible(row.now is not None)
        self.pairs.setMinimumHeight(line * 2 + self.pairs.horizontalHeader().sizeHint().height() + 4)

    def _look(self) -> None:
        row = self.row
        if row is not None:
            self._desk.attempt(lambda: look(self._desk.store, [row.id]), f"Looked at: {row.title}.")

    def show_working(self) -> None:
        """Open how the fit was worked out."""
        row = self.row
        if row is None or row.now is None:
            return
        unit = self._desk.unit_for(row.unit)
        wanted = range_words(row.low_mm, row.high_mm, unit)
        note = ", ".join(part for part in (row.wanted_text, row.wanted_note) if part)
        titles = (
            (row.outer.title, row.inner.title)
            if row.gap is None or row.now.most.inner
            else (row.gap.title, "")
        )
        self._open(working(row.title, titles, row.now, unit, f"{wanted} ({note})" if note else wanted))

    def show_limits(self) -> None:
        """Work out what the follower must measure, and open the working; trouble is said."""
        if self.row is None:
            return
        try:
            worked = limits_in(self.row)
        except RebuildError as trouble:
            self._desk.say(str(trouble), Say.TROUBLE)
            return
        self._open(worked.working)

    def show_assembly(self) -> None:
        """Pressed, freezer, dry ice, nitrogen or oven: what each takes on the real sizes, a press fit pushed first."""
        row = self.row
        if row is None:
            return
        try:
            with self._desk.store.read() as connection:
                worked = ways_in(connection, row)
        except NotKnown as trouble:
            self._desk.say(str(trouble), Say.TROUBLE)
            self.missing.show_lines([(one.told, "", _lead(one)) for one in trouble.missing])
            return
        except RebuildError as trouble:
            self._desk.say(str(trouble), Say.TROUBLE)
            return
        self._open(worked.working)

    def _enter(self, lead: Lead) -> None:
        """To the very field or row where what is missing is entered."""
        if lead.ref is not None:
            follow(self._desk, lead.ref, part_id=lead.part_id)
        elif lead.part_id is not None:
            follow_to_field(self._desk, lead.part_id, lead.field)

    def _open(self, found: Working) -> None:
        self._desk.ask_working(found)
        self.tabs.show_widget(self.working)

    def _go(self) -> None:
        key = self.sides.chosen()
        row = self.row
        if row is not None and key is not None:
            side = next(
                (side for side in (*row.sides, row.gap) if side is not None and side.feature_id == key), None
            )
            if side is not None:
                self.side_asked.emit(side.part_id, side.feature_id)


def _lead(missing: Missing) -> Lead:
    ref = Ref("feature", missing.feature_id) if missing.feature_id else None
    return Lead("bench", part_id=missing.part_id, ref=ref, field=missing.field)
