"""How the window stands, kept from day to day: its place, unit, size of text, look, pages and open file.

How much time there is tonight is kept for that evening only.
"""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from rebuild.window.desk.desk import ShowUnit
from rebuild.window.ink import theme
from rebuild.work.records.wall_clock import now

if TYPE_CHECKING:
    from rebuild.window.shell.frame import Frame

#: So long after midnight it is still the same evening.
LATE = dt.timedelta(hours=5)


def recall(frame: Frame) -> None:
    """Let the window stand as it was written down; what is not known any more is passed over."""
    memory = frame.memory
    geometry = memory.state("geometry")
    if not geometry.isEmpty():
        frame.restoreGeometry(geometry)
    size = memory.text("text_size")
    if size.isdecimal():
        frame.text_size.choose(int(size))
    look = memory.text("look")
    if look in theme.Look.__members__:
        frame.choose_look(theme.Look[look])
    unit = memory.text("unit")
    if unit in {shown.name for shown in ShowUnit}:
        frame.desk.choose_unit(ShowUnit[unit])
    evening, _, typed = memory.text("evening").partition(" ")
    if typed and evening == _evening():
        frame.desk.say_evening(typed)


def remember(frame: Frame) -> None:
    """Write down how the window stands."""
    memory, desk = frame.memory, frame.desk
    memory.put("geometry", frame.saveGeometry())
    memory.put("unit", desk.show_unit.name)
    memory.put("evening", f"{_evening()} {desk.evening}")
    memory.put("text_size", str(frame.text_size.percent))
    frame.stack.remember()
    memory.put("open", str(desk.store.path.resolve()) if desk.is_open else "")
    memory.save()


def _evening() -> str:
    """Which evening it is: it may end after midnight."""
    return (now() - LATE).date().isoformat()
