"""A verified copy beside the file, at once, by the menu."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from rebuild.store.photo_copies import Kept, backup_with_photos
from rebuild.window.desk.desk import Desk


def back_up(desk: Desk, _window: QWidget | None) -> Kept | None:
    """Copy the file with its photos, check the copy, and say its name."""
    made = desk.attempt(lambda: backup_with_photos(desk.store.path))
    if made is not None:
        photos = f" with {made.photos} photos" if made.photos else ""
        troubles = f" {' '.join(made.troubles)}" if made.troubles else ""
        desk.say(f"Backed up and verified: {made.path.name}{photos}, beside the file.{troubles}")
    return made
