"""The hand that types values one after another: what stands beside the row waits until it rests.

A value is stored, its row painted and the next one in hand before anything else is read. The part card and the
steps, which rest on every reading of the machine, are read when no key was touched for ``REST_MS``: a gauge or a
quick hand never waits for them, and of a run of values they are read once.
"""

from __future__ import annotations

import time
from collections.abc import Iterator
from contextlib import contextmanager

#: Without a key for this long the hand rests.
REST_MS = 120
#: Between two panes that take up what waited: a key pressed meanwhile is heard first.
BETWEEN_MS = 15


class Hand:
    """Knows whether a value is just being put, and how long it still is until the hand rests."""

    def __init__(self) -> None:
        self.at_work = False
        self._until = 0.0

    @contextmanager
    def putting(self) -> Iterator[None]:
        """A value is put and the next row taken in hand: what stands beside takes that up later."""
        was, self.at_work = self.at_work, True
        try:
            yield
        finally:
            self.at_work = was
            self.touched()

    def touched(self) -> None:
        """A key was touched."""
        self._wait(REST_MS)

    def have_looked(self) -> None:
        """A pane has just taken up what waited; the next one lets the keys go first."""
        self._wait(BETWEEN_MS)

    def left_ms(self) -> int:
        """How long until the hand rests [ms]; 0 when it does."""
        return max(0, round((self._until - time.monotonic()) * 1000))

    def _wait(self, length_ms: int) -> None:
        self._until = max(self._until, time.monotonic() + length_ms / 1000)
