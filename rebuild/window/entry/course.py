"""Which rows a surface of measured parts shows and in which order, how a value is taken, and the row in hand."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from rebuild.errors import BadEntry
from rebuild.trade.limits.uncertainty import InstrumentLimit
from rebuild.trade.limits.verdict import Rule
from rebuild.trade.sizes.amounts import parse_celsius
from rebuild.window.desk.desk import Desk
from rebuild.window.readings.shown import reading_text
from rebuild.words.decisions import Decision
from rebuild.words.readings import STAGES, Stage
from rebuild.work.landings.stored import How
from rebuild.work.readings import rows_grid as grid
from rebuild.work.readings.entry import Entry
from rebuild.work.readings.landing import Landing, Surface, after, first_unread, worked_at
from rebuild.work.readings.rows_destination import instrument_sentence, next_unread, read_on_part
from rebuild.work.readings.rows_grid import GridRow, Key
from rebuild.work.readings.rows_judged import instrument_limits
from rebuild.work.records.rows import Choice, choices
from rebuild.work.records.rows_settings import decimal_comma, owner

if TYPE_CHECKING:
    from sqlalchemy import Connection


class Course:
    """The rows of one surface and the landing on them; reads the file, writes nothing."""

    def __init__(self, desk: Desk, surface: Surface = Surface.GRID) -> None:
        self._desk = desk
        self.surface = surface
        self.order: Callable[[], Sequence[Key]] = tuple
        self._row_of: Callable[[Key], GridRow | None] = lambda key: None
        self._limits: dict[int, InstrumentLimit] = {}
        self.row: GridRow | None = None
        self.instrument_id: int | None = None
        self.temperature = ""
        self.note = ""
        self.thread_way = ""
        self.coarse = ""

    def follow(self, order: Callable[[], Sequence[Key]], row_of: Callable[[Key], GridRow | None]) -> None:
        """Move on in this order (that of the surface), taking its rows as far as it shows them."""
        self.order, self._row_of = order, row_of

    @property
    def landing(self) -> Landing | None:
        """Where the next value goes, as long as that is a row of this surface."""
        landing = self._desk.landing
        return landing if landing is not None and landing.surface is self.surface else None

    @property
    def key(self) -> Key | None:
        """The row in hand."""
        landing = self.landing
        return (landing.row[0], landing.row[1]) if landing is not None else None

    @property
    def stage(self) -> Stage | None:
        """The stage in hand."""
        landing = self.landing
        return landing.part_stage if landing is not None else None

    def landing_on(self, key: Key, stage: Stage | None) -> Landing | None:
        """The landing on a row: at ``stage``, or at the stage offered for it; None when the row is gone."""
        row = self.read(key)
        if row is None:
            return None
        at = stage or self.offered(row)
        return Landing(self.surface, key, at.value, words=f"{place_in_words(row)}  ·  {at.value}")

    def offered(self, row: GridRow) -> Stage:
        """The stage offered for a row: the one its part is worked at, or with that read the first unread one.

        On a making sheet the part is read as made.
        """
        if self.surface is Surface.SHEET:
            return Stage.AS_MADE
        read = [reading is not None for reading in row.readings]
        with self._desk.store.read() as connection:
            worked = worked_at(read_on_part(connection, row.part_id))
        if not read[STAGES.index(worked)]:
            return worked
        return first_unread(read, made=row.decision is Decision.REMAKE)

    def read(self, key: Key) -> GridRow | None:
        """A row as the file has it now."""
        if not self._desk.is_open:
            return None
        row = self._row_of(key)
        if row is not None:
            return row
        with self._desk.store.read() as connection:
            found = grid.rows(connection, [key], Rule.SIMPLE, {})
        return found[0] if found else None

    def look(self) -> None:
        """Read the row in hand again, and whether the instrument is fine enough for it."""
        self.row, self.coarse = (self.read(self.key) if self.key is not None else None), ""
        if self.row is not None:
            with self._desk.store.read() as connection:
                self._warn(connection, self.row)

    def _warn(self, connection: Connection, row: GridRow) -> None:
        limit = self._limits.get(self.instrument_id) if self.instrument_id is not None else None
        self.coarse = (
            instrument_sentence(connection, row, limit, self._temperature_c()) if limit is not None else ""
        )

    def _temperature_c(self) -> float | None:
        """The temperature typed, as far as it can be read; the act says when it cannot."""
        try:
            comma = decimal_comma(self._desk.store)
            return parse_celsius(self.temperature, decimal_comma=comma) if self.temperature.strip() else None
        except BadEntry:
            return None

    @property
    def how(self) -> How:
        """How a value is taken now."""
        signs = owner(self._desk.store) if self._desk.is_open else ""
        return How(
            self.instrument_id, self.temperature, signs, self.note, unit=self._scale, thread=self.thread_way
        )

    @property
    def _scale(self) -> str:
        limit = self._limits.get(self.instrument_id) if self.instrument_id is not None else None
        return limit.reach.unit if limit is not None and limit.reach is not None else ""

    @property
    def unit(self) -> str:
        """What a bare number is in: the unit of the instrument's scale, else the feature's own."""
        return self._scale or (self.row.unit if self.row is not None else "mm")

    @property
    def stands(self) -> str:
        """Says that the row is read at the stage in hand: a new value takes that one's place."""
        stage, row = self.stage, self.row
        reading = row.readings[STAGES.index(stage)] if row is not None and stage is not None else None
        if reading is None or row is None:
            return ""
        read = reading_text(reading, row.unit)
        return f"{read} stands here; a new value replaces it, the old one stays in the history."

    def entry(self, key: Key, stage: Stage) -> Entry:
        """How a reading typed or pasted into a cell is taken."""
        how = self.how
        return Entry(
            key[0],
            key[1] or None,
            stage,
            how.instrument_id,
            how.temperature,
            None,
            how.taken_by,
            how=how.thread,
        )

    def next_after(self, key: Key, stage: Stage, *, corrected: bool = False) -> Key | None:
        """Where Enter moves on to: the next row not read at this stage, round once; else the row behind, if any.

        Behind a value that was corrected it is the very next row: nothing read meanwhile is stepped over.
        """
        order = self.order()
        behind = after(key, order)
        there = (behind[0], behind[1]) if behind is not None else None
        if corrected and there is not None:
            return there
        with self._desk.store.read() as connection:
            unread = next_unread(connection, order, key, stage)
        return unread if unread is not None and unread != key else there

    def first(self) -> Key | None:
        """The first row without any reading, or the first of all."""
        order = self.order()
        with self._desk.store.read() as connection:
            return next_unread(connection, order, None, STAGES[0]) or next(iter(order), None)

    def beside(self, by: int) -> Key | None:
        """The row before (-1) or after (+1) the one in hand."""
        order = list(self.order())
        if self.key not in order:
            return None
        place = order.index(self.key) + by
        return order[place] if 0 <= place < len(order) else None

    def rows_from(self, landing: Landing, like: Sequence[Landing]) -> list[Landing]:
        """Landings for a column: from ``landing`` down, as far apart as ``like`` lie in this order; else one by one.

        Those below the last row are left out. A block over several stages keeps them; one stage takes the landing's.
        """
        order = list(self.order())
        if landing.row not in order:
            return [landing]
        shown = all(one.row in order for one in like)
        lie = [order.index((one.row[0], one.row[1])) for one in like] if shown else list(range(len(like)))
        begin = order.index((landing.row[0], landing.row[1]))
        one_stage = len({one.stage for one in like}) == 1
        found = []
        for at, one in zip(lie, like, strict=True):
            there = begin + at - lie[0]
            stage = landing.part_stage if one_stage else one.part_stage
            on = self.landing_on(order[there], stage) if 0 <= there < len(order) else None
            if on is not None:
                found.append(on)
        return found

    def stage_beside(self, by: int) -> Stage | None:
        """The stage before or after the one in hand, as far as there is one."""
        if self.stage is None:
            return None
        return STAGES[max(0, min(len(STAGES) - 1, STAGES.index(self.stage) + by))]

    def instruments(self) -> list[Choice]:
        """The shop's instruments; their error limits are read along with them."""
        if not self._desk.is_open:
            return []
        with self._desk.store.read() as connection:
            self._limits = instrument_limits(connection)
            return choices(connection, "instrument", self._desk.machine_id or 0)


def place_in_words(row: GridRow) -> str:
    """``HS-01 spindle · front journal · near``."""
    named = (f"{row.part_code} {row.part_name}".strip(), row.feature, row.station)
    return "  ·  ".join(word for word in named if word)
