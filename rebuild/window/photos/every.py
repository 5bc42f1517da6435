"""Every photo of the chosen machine, whatever the page shows."""

from __future__ import annotations

from rebuild.window.desk.desk import Desk
from rebuild.work.photos.rows import PhotoRow, photos


def every_photo(desk: Desk) -> list[PhotoRow]:
    """Every photo of the machine; none while no machine is chosen."""
    if desk.machine_id is None:
        return []
    with desk.store.read() as connection:
        return photos(connection, desk.machine_id)
