"""The part in hand: named among the photos, it is the one chosen everywhere."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from rebuild.window.desk.desk import Desk, Say
from rebuild.window.forms.editors import ReferenceEditor
from rebuild.window.photos.mark_tools import part_offered


class InHandEditor(ReferenceEditor):
    """The part in hand: choosing it stores nothing. ``named`` tells that one was typed or chosen here."""

    asks_only = True
    named = Signal()

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self.setAccessibleName("Part in hand")
        self.line().setAccessibleName("Part in hand")
        self.line().setPlaceholderText("code or name of the part P files to")
        self.settled.connect(self._take)

    def show_chosen(self) -> None:
        """The part chosen, unless another one is being typed."""
        if not self.line().hasFocus():
            chosen = self._desk.selection.part_ids if self._desk.is_open else ()
            self.put(str(chosen[0]) if chosen else "")

    def _take(self) -> None:
        """A part was typed or chosen here: it is the chosen one everywhere, and the keys go to the photos again."""
        typed, part = self.typed(), part_offered(self)
        if part is not None:
            self.put(str(part))
            self.named.emit()
            self._desk.choose(part_ids=(part,), key=None)
        elif typed:
            self._desk.say(
                f"“{typed}” is no part of this machine, or several are called so: type its code, or choose it.",
                Say.ASK,
            )
        else:
            self._desk.choose(part_ids=(), key=None)
