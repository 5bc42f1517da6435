"""Get ready for the first act while nobody waits: the window has been painted, nothing has been typed yet.

The work is cut into steps of some milliseconds; between them the window takes keys. Whoever is quicker
than that loses nothing: an act loads for itself what is not there yet.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from importlib import import_module
from threading import Thread

from PySide6.QtCore import QObject, QTimer

from rebuild.window.desk.desk import Desk
from rebuild.window.desk.job import SWITCH_S

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
#: What the pages bring with them, from the least upwards: each is a few milliseconds of imports.
_BROUGHT = (
    "rebuild.trade.drawing.lay_out",
    "rebuild.sheets.paper",
    "rebuild.sheets.drawing_pdf",
    "rebuild.work.making.rows_sheet",
    "rebuild.work.making.acts",
    "rebuild.sheets.making_sheet",
)
#: Left to the event loop between two steps.
BREATH_MS = 5


def steps(desk: Desk | None = None) -> Iterator[None]:
    """All that is to be done, a step at each turn; the file of ``desk`` is looked over last, beside the window."""
    from rebuild.store.mapped import make_ready

    yield from make_ready()
    for act in _ACTS:
        import_module(act)
        yield
    if desk is not None and desk.is_open:
        desk.attempt(desk.store.journal)
        yield
    yield from _beside("numpy")
    for module in _of_pages():
        import_module(module)
        yield
    if desk is not None and desk.is_open:
        # Pages that showed cells that cannot be read then read again.
        desk.looking.begin(desk.store)


def _beside(library: str) -> Iterator[None]:
    """A library that takes longer than a key may wait, on a thread; it is there when this ends."""
    sys.setswitchinterval(SWITCH_S)
    thread = Thread(target=import_module, args=(library,), daemon=True)
    thread.start()
    while thread.is_alive():
        yield


def _of_pages() -> Iterator[str]:
    """The modules of the pages, those that bring most with them by pieces: so a page first shown is only made."""
    from rebuild.trade.figures import MODULES
    from rebuild.window.commands.pages import PAGES

    yield from _BROUGHT
    yield from (page.slot.module for page in PAGES)
    yield from (f"rebuild.trade.figures.{name}" for name in MODULES)


def get_ready(owner: QObject, desk: Desk | None = None) -> None:
    """Begin; it goes on by itself as long as ``owner`` lives."""
    _Ready(owner, desk)


class _Ready(QTimer):
    def __init__(self, owner: QObject, desk: Desk | None) -> None:
        super().__init__(owner)
        self._steps = steps(desk)
        self.setInterval(BREATH_MS)
        self.timeout.connect(self._go_on)
        self.start()

    def _go_on(self) -> None:
        try:
            next(self._steps)
        except StopIteration:
            self.stop()
            self.deleteLater()
