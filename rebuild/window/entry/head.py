"""The top of the entry line: where the next value lands, in type that is read at arm's length."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QVBoxLayout, QWidget

from rebuild.trade.limits.spec_unit import with_unit
from rebuild.window.entry.course import Course
from rebuild.window.ink import theme
from rebuild.window.layout.elided_label import ElidedLabel
from rebuild.window.readings.shown import reading_text
from rebuild.words.readings import STAGES
from rebuild.work.readings.landing import Surface
from rebuild.work.readings.rows_grid import GridRow

CHOOSE = "Choose a row"
_WHERE = {
    Surface.GRID: "In the grid or the tree. A gauge's values wait until there is one.",
    Surface.SHEET: "In the sizes above, one that lies on a feature. A gauge's values wait until there is one.",
}


class EntryHead(QWidget):
    """Part, feature, station and stage in large type; under it the spec, what was read, and any warning."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.place = ElidedLabel(self, first_gives=True)
        self.place.setFont(theme.large(self.font(), 1.5))
        self.place.setAccessibleName("The next value lands on")
        self.spec = ElidedLabel(self, Qt.TextElideMode.ElideRight)
        self.warning = ElidedLabel(self, Qt.TextElideMode.ElideRight)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(1)
        layout.addWidget(self.place)
        layout.addWidget(self.spec)
        layout.addWidget(self.warning)

    def show_course(self, course: Course, typed_for: str) -> None:
        """Show where the next value lands; ``typed_for`` is another row the text was typed for, or empty."""
        landing, row = course.landing, course.row
        if landing is None or row is None:
            self.place.setText(CHOOSE)
            self.spec.setText(_WHERE[course.surface])
        else:
            self.place.setText(landing.words)
            self.spec.setText(_about(row))
        told = (
            f"What is typed was meant for {typed_for}." if typed_for else "",
            course.stands,
            course.coarse,
        )
        warning = "  ".join(filter(None, told))
        self.warning.setText(warning)


def _about(row: GridRow) -> str:
    named = "inches" if row.unit == "in" else row.unit
    spec = (
        f"spec {with_unit(row.spec_text, row.unit)}"
        if row.spec_text
        else f"no spec yet; numbers are in {named}"
    )
    sense = f", plus means {row.sense}" if row.sense else ""
    read = [
        f"{stage.value} {reading_text(reading, row.unit)}"
        for stage, reading in zip(STAGES, row.readings, strict=True)
        if reading is not None
    ]
    return f"{spec}{sense}" + (f"   read: {', '.join(read)}" if read else "")
