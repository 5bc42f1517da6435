"""Which page a file opens on."""

from __future__ import annotations

from rebuild.window.desk.desk import Desk
from rebuild.work.log.rows import is_begun

WHERE = "where"


def first_page(desk: Desk, otherwise: str) -> str:
    """The page that says where one was, as soon as a session has been written down; else ``otherwise``."""
    if not desk.is_open or desk.machine_id is None:
        return otherwise
    with desk.store.read() as connection:
        return WHERE if is_begun(connection, desk.machine_id) else otherwise
