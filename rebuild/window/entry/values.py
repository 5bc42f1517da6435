"""What is done with values already sent: put on the row in hand, moved there, taken back, thrown away."""

from __future__ import annotations

from collections.abc import Callable
from typing import Protocol, runtime_checkable

from rebuild.errors import Implausible, RebuildError
from rebuild.window.desk.desk import Desk, Say
from rebuild.work.landings.rows import unplaced
from rebuild.work.landings.stored import Stored, UnplacedRow, replaces
from rebuild.work.readings.landing import Landing

NO_ROW = "Choose the row it belongs to first."


@runtime_checkable
class FillsFields(Protocol):
    """A surface whose values are stored together: a waiting one goes into the field in hand."""

    def take_waiting(self, text: str) -> bool:
        """Take it; False where there is no empty field in hand."""


class Values:
    """Acts on the last five values and on those without a row; says what it did."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self._held: tuple[int, Landing] | None = None

    def waiting(self) -> list[UnplacedRow]:
        """The values without a row, oldest first."""
        if not self._desk.is_open:
            return []
        with self._desk.store.read() as connection:
            return unplaced(connection)

    def put(self, waiting: UnplacedRow) -> None:
        """Put a waiting value on the row in hand; an implausible one at the second time of asking."""
        from rebuild.work.landings.acts import place_unplaced

        landing, surface = self._desk.landing, self._desk.surface
        if landing is None or surface is None:
            self._desk.say(NO_ROW, Say.ASK)
            return
        if isinstance(surface, FillsFields):
            self._fill(waiting, surface)
            return
        confirmed = self._held == (waiting.id, landing)
        try:
            stored = place_unplaced(self._desk.store, waiting.id, landing, surface.how(), confirmed=confirmed)
        except Implausible as odd:
            self._held = (waiting.id, landing)
            self._desk.say(str(odd).replace("Press Enter again", "Put it there again"), Say.ASK)
        except RebuildError as trouble:
            self._desk.say(str(trouble), Say.TROUBLE)
        else:
            self._held = None
            self._desk.remember(stored)
            self._desk.say(f"{stored.typed} put on {landing.words}.{replaces(stored)}")
            surface.value_put(stored)

    def _fill(self, waiting: UnplacedRow, surface: FillsFields) -> None:
        """Into a field that is stored with others later; the value waits on where it has no room."""
        from rebuild.work.landings.acts import throw_away

        if not surface.take_waiting(waiting.typed):
            self._desk.say(f"{waiting.typed} has no empty field here and waits on.", Say.ASK)
            return
        self._desk.attempt(lambda: throw_away(self._desk.store, waiting.id))

    def put_oldest(self) -> None:
        """Put the value that waited longest on the row in hand."""
        waiting = self.waiting()
        if waiting:
            self.put(waiting[0])
        else:
            self._desk.say("No value waits for a row.")

    def move(self, place: int) -> None:
        """Move one of the last five (from 1) to the row in hand."""
        from rebuild.work.landings.acts import move, move_column

        def act(stored: Stored) -> None:
            landing = self._desk.landing
            if landing is None:
                self._desk.say(NO_ROW, Say.ASK)
                return
            surface = self._desk.surface
            if stored.behind and surface is not None:
                rows = surface.rows_from(landing, [one.landing for one in stored.all])
                moved = move_column(self._desk.store, stored, rows)
            else:
                moved = move(self._desk.store, stored, landing)
            self._desk.remember(moved)
            self._desk.say(f"{moved.said} moved to {landing.words}.{replaces(moved)}")

        self._on(place, act)

    def take_back(self, place: int) -> None:
        """Take one of the last five (from 1) back."""
        from rebuild.work.landings.acts import take_back

        def act(stored: Stored) -> None:
            take_back(self._desk.store, stored)
            self._desk.say(f"{stored.said} taken back from {stored.landing.words}. Ctrl+Z brings it back.")

        self._on(place, act)

    def throw_away(self, waiting: UnplacedRow) -> None:
        """Throw a waiting value away."""
        from rebuild.work.landings.acts import throw_away

        self._desk.attempt(
            lambda: throw_away(self._desk.store, waiting.id),
            f"{waiting.typed} thrown away. Ctrl+Z brings it back.",
        )

    def _on(self, place: int, act: Callable[[Stored], None]) -> None:
        recent = self._desk.recent
        if not 1 <= place <= len(recent):
            self._desk.say("There is no such value among the last ones.")
            return
        self._desk.attempt(lambda: act(recent[-place]))
