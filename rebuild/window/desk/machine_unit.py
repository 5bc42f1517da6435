"""The unit of the machine in hand: what a size typed without one is in, and what sizes are said in first."""

from __future__ import annotations

from rebuild.window.desk.desk import Desk
from rebuild.work.machines.rows_card import unit_of


def machine_unit(desk: Desk) -> str:
    """``mm`` or ``in``; empty where no file is open or no machine chosen."""
    if not desk.is_open or desk.machine_id is None:
        return ""
    with desk.store.read() as connection:
        return unit_of(connection, desk.machine_id)
