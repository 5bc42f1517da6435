"""Where the next reading lands: the row in hand, the stage and instrument, and the way on from there."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from rebuild.errors import BadEntry
from rebuild.trade.limits.uncertainty import InstrumentLimit
from rebuild.trade.limits.verdict import Rule
from rebuild.trade.sizes.amounts import parse_celsius
from rebuild.window.desk.desk import Desk
from rebuild.words.readings import STAGES, Stage
from rebuild.work.readings import rows_grid as grid
from rebuild.work.readings.entry import Entry
from rebuild.work.readings.rows_destination import coarse_sentence, next_unread
from rebuild.work.readings.rows_grid import Asked, GridRow, Key
from rebuild.work.readings.rows_judged import instrument_limits
from rebuild.work.records.rows import Choice, choices
from rebuild.work.records.rows_settings import owner

if TYPE_CHECKING:
    from sqlalchemy import Connection

_KEPT = 200


class Course:
    """The destination and the order it moves in; reads the file, writes nothing."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self._order: Callable[[], Sequence[Key]] | None = None
        self._row_of: Callable[[Key], GridRow | None] = lambda key: None
        self._limits: dict[int, InstrumentLimit] = {}
        self.key: Key | None = None
        self.row: GridRow | None = None
        self.stage = Stage.AS_FOUND
        self.instrument_id: int | None = None
        self.temperature = ""
        self._signs = ""
        self.coarse = ""
        self.stored: list[tuple[Key, Stage, int]] = []

    def follow(self, order: Callable[[], Sequence[Key]], row_of: Callable[[Key], GridRow | None]) -> None:
        """Move on in this order (that of the grid), taking its rows as far as it shows them."""
        self._order, self._row_of = order, row_of

    def order(self) -> Sequence[Key]:
        """Every row a reading can land on, in order; that of the tree when no grid is followed."""
        if self._order is not None:
            return self._order()
        if self._desk.machine_id is None:
            return []
        with self._desk.store.read() as connection:
            return grid.keys(connection, Asked(self._desk.machine_id), Rule.SIMPLE, {})

    def go(self, key: Key | None) -> None:
        """Land on another row."""
        self.key = key
        self._signs = owner(self._desk.store) if self._desk.is_open else ""
        self.row = self._row_of(key) if key is not None and self._desk.is_open else None
        if self.row is None:
            self.look()
        else:
            with self._desk.store.read() as connection:
                self._warn(connection)

    def look(self) -> None:
        """Read the row in hand again."""
        self.row, self.coarse = None, ""
        if not self._desk.is_open:
            self.key = None
        elif self.key is not None:
            with self._desk.store.read() as connection:
                found = grid.rows(connection, [self.key], Rule.SIMPLE, {})
                self.row = found[0] if found else None
                self._warn(connection)

    def _warn(self, connection: Connection) -> None:
        """Work out whether the instrument in hand is too coarse for the row in hand."""
        limit = self._limits.get(self.instrument_id) if self.instrument_id is not None else None
        self.coarse = ""
        if self.row is not None and limit is not None:
            self.coarse = coarse_sentence(connection, self.row, limit, self._temperature_c())

    def _temperature_c(self) -> float | None:
        """The temperature typed, as far as it can be read; the act says when it cannot."""
        try:
            return parse_celsius(self.temperature) if self.temperature.strip() else None
        except BadEntry:
            return None

    def entry(self, key: Key | None = None, stage: Stage | None = None) -> Entry:
        """How a reading is taken now, on a row and stage (those in hand)."""
        feature_id, station_id = key or self.key or (0, 0)
        return Entry(
            feature_id, station_id or None, stage or self.stage, self.instrument_id, self.temperature,
            taken_by=self._signs,
        )  # fmt: skip

    def next_unread(self) -> Key | None:
        """The next row without a reading at the stage in hand, going round once; None when all are read."""
        order = self.order()
        with self._desk.store.read() as connection:
            return next_unread(connection, order, self.key, self.stage)

    def beside(self, by: int) -> Key | None:
        """The row before (-1) or after (+1) the one in hand."""
        order = list(self.order())
        if not order:
            return None
        if self.key not in order:
            return order[0] if by > 0 else order[-1]
        place = order.index(self.key) + by
        return order[place] if 0 <= place < len(order) else None

    def stage_beside(self, by: int) -> Stage:
        """The stage before or after the one in hand, as far as there is one."""
        return STAGES[max(0, min(len(STAGES) - 1, STAGES.index(self.stage) + by))]

    def instruments(self) -> list[Choice]:
        """The shop's instruments; their error limits are read along with them."""
        if not self._desk.is_open:
            return []
        with self._desk.store.read() as connection:
            self._limits = instrument_limits(connection)
            return choices(connection, "instrument", self._desk.machine_id or 0)

    def remember(self, reading_id: int) -> None:
        """The row in hand has just been read."""
        if self.key is not None:
            self.stored.append((self.key, self.stage, reading_id))
            del self.stored[:-_KEPT]
