"""A camera's clock put right by one photo: when it was really taken."""

from __future__ import annotations

import datetime as dt

from PySide6.QtWidgets import QWidget

from rebuild.errors import BadEntry
from rebuild.trade.photos.clock import ahead_words
from rebuild.window.desk.desk import Desk
from rebuild.window.forms.add_dialog import AddDialog, Adding
from rebuild.window.photos.every import every_photo
from rebuild.words.counted import counted
from rebuild.work.photos.acts import set_camera
from rebuild.work.photos.rows import PhotoRow
from rebuild.work.records.field import Field, FieldKind

#: When a photo was taken by the shop's own clock.
SHOP_TIME = Field("at", "When it was taken", FieldKind.MOMENT, help="By the shop’s clock.")


def ask_clock(desk: Desk, photo: PhotoRow, parent: QWidget) -> AddDialog:
    """Ask when a photo was really taken, in an open dialog; that puts its camera's clock right."""

    def act(typed: dict[str, str]) -> int:
        when = SHOP_TIME.read(typed.get("at", ""))["at"]
        if not isinstance(when, dt.datetime):
            raise BadEntry("is empty.", where=SHOP_TIME.label, way_out="Type it as 2026-05-02 19:15.")
        minute = typed.get("at", "").count(":") < 2
        ahead.append(set_camera(desk.store, photo.id, when, to_the_minute=minute))
        return photo.id

    def say(_key: int) -> None:
        dated = sum(row.camera == photo.camera and row.by_camera is not None for row in every_photo(desk))
        clock = f"{photo.camera or 'This camera'} is {ahead_words(ahead[-1])}"
        desk.say(f"{clock}; {counted(dated, 'photo')} put right.")

    ahead: list[float] = []
    own = photo.by_camera
    taken = f"{own:%Y-%m-%d %H:%M:%S}" if own else ""
    under = f"{photo.camera or 'This camera'} says {taken or 'nothing of when'}."
    adding = Adding("Camera’s clock", under, [SHOP_TIME], act, say, lambda: {"at": taken}, again=False)
    dialog = AddDialog(desk, adding, parent)
    dialog.add_button.setText("Put right")
    dialog.open()
    return dialog
