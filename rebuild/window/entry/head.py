"""The top of the entry line: where the next value lands, in type that is read at arm's length."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QVBoxLayout, QWidget

from rebuild.window.entry.course import Course
from rebuild.window.ink import theme
from rebuild.window.layout.elided_label import ElidedLabel
from rebuild.window.readings.shown import reading_text
from rebuild.words.readings import STAGES
from rebuild.work.readings.rows_grid import GridRow


class EntryHead(QWidget):
    """Part, feature, station and stage in large type; under it the spec, what was read, and any warning."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.place = ElidedLabel(self)
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

    def show_course(self, course: Course, locked: str) -> None:
        """Show where the next value lands; ``locked`` says why it does not follow the grid, or is empty."""
        row = course.row
        if row is None:
            gone = course.key is not None
            self.place.setText("This row was removed" if gone else "Choose a row in the grid")
            self.spec.setText("What is typed here stays until it is stored or cleared." if gone else "")
        else:
            self.place.setText(f"{place_in_words(row)}  ·  {course.stage.value}")
            self.spec.setText(_about(row))
        warning = locked or (course.coarse if row is not None else "")
        self.warning.setText(warning)
        self.warning.setVisible(bool(warning))


def place_in_words(row: GridRow) -> str:
    """``HS-01 spindle · front journal · near``."""
    named = (f"{row.part_code} {row.part_name}".strip(), row.feature, row.station)
    return "  ·  ".join(word for word in named if word)


def _about(row: GridRow) -> str:
    spec = f"spec {row.spec_text} {row.unit}" if row.spec_text else f"no spec yet; numbers are in {row.unit}"
    sense = f", plus means {row.sense}" if row.sense else ""
    read = [
        f"{stage.value} {reading_text(reading, row.unit)}"
        for stage, reading in zip(STAGES, row.readings, strict=True)
        if reading is not None
    ]
    return f"{spec}{sense}" + (f"   read: {', '.join(read)}" if read else "")
