"""How the window stands, kept from day to day: its place, unit, size of text, look, pages and open file."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rebuild.window.desk.desk import ShowUnit
from rebuild.window.ink import theme

if TYPE_CHECKING:
    from rebuild.window.shell.frame import Frame


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


def remember(frame: Frame) -> None:
    """Write down how the window stands."""
    memory, desk = frame.memory, frame.desk
    memory.put("geometry", frame.saveGeometry())
    memory.put("unit", desk.show_unit.name)
    memory.put("text_size", str(frame.text_size.percent))
    frame.stack.remember()
    memory.put("open", str(desk.store.path.resolve()) if desk.is_open else "")
    memory.save()
