"""How wide the grid's columns are: from what the rows hold, until someone drags one."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence

from PySide6.QtGui import QFontMetrics

from rebuild.window.lists.shares import Need, share_widths
from rebuild.window.lists.wrapped import wide
from rebuild.window.readings.columns import HEADINGS, STAGE_COLUMNS, Column
from rebuild.window.readings.delegates import PAD, ROUND_SHAPE, ZONE_WIDTH
from rebuild.window.readings.shown import Shown, after_point, margin_text, verdict_text

#: Columns whose words may go on a second line, between words; numbers and units may not.
WRAPS = frozenset(
    {Column.PART, Column.FEATURE, Column.KIND, Column.STATION, Column.SPEC, Column.OFF, Column.VERDICT}
)
#: An empty stage keeps room for a reading of this length.
_READING = "0.0000"
_SHORTEST_WORDS = 9
_SHORTEST_FEATURE = 11
#: Columns that break only where a word ends: what they hold is short.
_TIGHT = frozenset({Column.STATION, Column.OFF})


class Widths:
    """What each column needs over every row seen so far of one question."""

    def __init__(self, metrics: QFontMetrics, heading: QFontMetrics) -> None:
        self._metrics = metrics
        self._heading = heading
        self._needs: dict[Column, Need] = {}
        self.forget()

    def forget(self) -> None:
        """Begin again, for another question."""
        self._needs = {column: self._bare(column) for column in Column}

    def _bare(self, column: Column) -> Need:
        width = self._heading.horizontalAdvance(HEADINGS[column].title) + 2 * PAD + 3
        if column in STAGE_COLUMNS:
            width = max(width, wide(_READING, self._metrics) + 2 * PAD + 2)
        if column is Column.FEATURE:
            least = max(width, _SHORTEST_FEATURE * self._metrics.averageCharWidth())
            return Need(least, least)
        if column is Column.SPEC:
            width += self._heading.horizontalAdvance(", in")
        if column is Column.ZONE:
            return Need(max(width, ZONE_WIDTH), max(width, ZONE_WIDTH))
        return Need(width, width)

    def see(self, rows: Collection[Shown]) -> bool:
        """Widen for rows; whether anything grew."""
        grew = False
        for shown in rows:
            for column, need in self._of(shown).items():
                had = self._needs[column]
                wanted = Need(max(had.natural, need.natural), max(had.least, need.least))
                if wanted != had:
                    self._needs[column] = wanted
                    grew = True
        return grew

    def _of(self, shown: Shown) -> Mapping[Column, Need]:
        found = {}
        told = {Column.OFF: margin_text(shown), Column.VERDICT: verdict_text(shown)}
        for column in Column:
            text = told[column] if column in told else shown.texts[column]
            if not text:
                continue
            around = 2 * PAD + 2 + (ROUND_SHAPE if column is Column.VERDICT else 0)
            if column in STAGE_COLUMNS:
                text += after_point(text, shown.unit)
            natural = wide(text, self._metrics) + around
            least = natural
            if column in WRAPS:
                longest = max((wide(word, self._metrics) for word in text.split()), default=0)
                short = 0 if column in _TIGHT else _SHORTEST_WORDS * self._metrics.averageCharWidth()
                least = min(natural, max(longest, short) + around)
            found[column] = Need(natural, least)
        return found

    def least(self, columns: Sequence[Column]) -> int:
        """The room [px] the columns need at their narrowest."""
        return sum(self._needs[column].least for column in columns)

    def share(self, columns: Sequence[Column], room: int) -> dict[Column, int]:
        """Widths [px] of the columns shown, in a room [px]."""
        return dict(
            zip(columns, share_widths([self._needs[column] for column in columns], room), strict=True)
        )
