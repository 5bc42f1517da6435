"""Which page a file opens on."""

from __future__ import annotations

from rebuild.window.desk.desk import Desk
from rebuild.work.log.rows import is_begun

WHERE, BENCH = "where", "bench"


def first_page(desk: Desk) -> str:
    """The page that says where one was, once there is anything to come back to; in a new file where things are typed.

    Never the page another file was left on: it says nothing of this one.
    """
    if not desk.is_open or desk.machine_id is None:
        return BENCH
    with desk.store.read() as connection:
        return WHERE if is_begun(connection, desk.machine_id) else BENCH
