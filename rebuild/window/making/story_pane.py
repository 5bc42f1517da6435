"""The story of the sheet's part from as found to as made: its features on the left, its days on the right."""

from __future__ import annotations

from PySide6.QtWidgets import QSplitter, QVBoxLayout, QWidget

from rebuild.errors import NotThere
from rebuild.window.desk.desk import Desk
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.plain_table import PlainTable
from rebuild.window.lists.said import day
from rebuild.window.lists.verdict_model import VerdictModel
from rebuild.work.making.rows_story import PartStory, part_story
from rebuild.work.records.rows_settings import verdict_rule

FEATURES = ("Feature", "To be", "First read", "Last read", "Verdict")
DAYS = ("Day", "What", "")


class StoryPane(QWidget):
    """Reads only while it is seen."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._part: int | None = None
        self.told: PartStory | None = None
        self.about = PlainLabel(self)
        self.about.setWordWrap(True)
        self.features = PlainTable(
            "Features from as found to as made", FEATURES, self, model=VerdictModel(FEATURES, self)
        )
        self.days = PlainTable("What was done to the part", DAYS, self)
        across = QSplitter(self)
        across.addWidget(self.features)
        across.addWidget(self.days)
        across.setChildrenCollapsible(False)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(3)
        layout.addWidget(self.about)
        layout.addWidget(across, 1)

    def show_part(self, part_id: int | None) -> None:
        """Tell the story of a part, now if seen."""
        self._part = part_id
        if self.isVisible():
            self._tell()

    def showEvent(self, event: object) -> None:
        super().showEvent(event)  # type: ignore[arg-type]
        self._tell()

    def _tell(self) -> None:
        self.told = None
        if self._part is not None and self._desk.is_open:
            try:
                with self._desk.store.read() as connection:
                    self.told = part_story(connection, self._part, verdict_rule(self._desk.store))
            except NotThere:
                self.told = None
        told = self.told
        self.about.setText(" · ".join(filter(None, (told.condition, told.decision))) if told else "")
        self.features.plain.fill(
            [
                (number, (one.feature, one.wanted, one.first, one.last, one.verdict))
                for number, one in enumerate(told.features if told else ())
            ]
        )
        self.days.plain.fill(
            [
                (number, (day(event.when), event.what, event.text))
                for number, event in enumerate(told.events if told else ())
            ]
        )
