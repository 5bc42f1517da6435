"""A verified copy beside the file, by the menu: made beside the window, which goes on taking entries."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from rebuild.store.photo_copies import Kept, backup_with_photos
from rebuild.window.desk.copying import Copying
from rebuild.window.desk.desk import Desk, Say


def back_up(desk: Desk, window: QWidget | None) -> Copying:
    """Copy the file with its photos, check the copy, and say its name."""
    path = desk.store.path

    def done(value: object) -> None:
        if isinstance(value, Kept):
            desk.say(told(value))

    dialog = Copying(
        "Backing up",
        lambda tell: backup_with_photos(path, tell=tell),
        done,
        lambda sentence: desk.say(sentence, Say.TROUBLE),
        window,
    )
    dialog.open()
    return dialog


def told(made: Kept) -> str:
    """What was kept, in a sentence."""
    photos = f" with {made.photos} photos" if made.photos else ""
    troubles = f" {' '.join(made.troubles)}" if made.troubles else ""
    return f"Backed up and verified: {made.path.name}{photos}, beside the file.{troubles}"
