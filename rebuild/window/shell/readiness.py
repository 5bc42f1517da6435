"""Get ready for the first act while nobody waits: the window has been painted, nothing has been typed yet.

The work is cut into steps of some milliseconds; between them the window takes keys. Whoever is quicker
than that loses nothing: an act loads for itself what is not there yet.
"""

from __future__ import annotations

from collections.abc import Iterator
from importlib import import_module

from PySide6.QtCore import QObject, QTimer

#: The acts done most; the others come with their pages.
_ACTS = (
    "rebuild.work.editing.rules",
    "rebuild.work.readings.acts",
    "rebuild.work.landings.acts",
    "rebuild.work.editing.acts",
    "rebuild.work.readings.acts_features",
    "rebuild.work.machines.acts",
    "rebuild.work.steps.acts",
)
#: Left to the event loop between two steps.
BREATH_MS = 5


def steps() -> Iterator[None]:
    """All that is to be done, a step at each turn."""
    from rebuild.store.store import make_ready

    yield from make_ready()
    for act in _ACTS:
        import_module(act)
        yield


def get_ready(owner: QObject) -> None:
    """Begin; it goes on by itself as long as ``owner`` lives."""
    _Ready(owner)


class _Ready(QTimer):
    def __init__(self, owner: QObject) -> None:
        super().__init__(owner)
        self._steps = steps()
        self.setInterval(BREATH_MS)
        self.timeout.connect(self._go_on)
        self.start()

    def _go_on(self) -> None:
        try:
            next(self._steps)
        except StopIteration:
            self.stop()
            self.deleteLater()
