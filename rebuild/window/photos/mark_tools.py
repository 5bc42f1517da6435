"""What the next mark on a photo is: its kind, its words, the part it names; drawn, it is stored with them."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QPointF, Signal
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QLineEdit, QWidget

from rebuild.errors import BadEntry, RebuildError
from rebuild.trade.schedule.graph import Ref
from rebuild.window.desk.desk import Desk, Say
from rebuild.window.desk.leads import follow
from rebuild.window.forms.editors import ReferenceEditor
from rebuild.window.layout.plain import PlainLabel
from rebuild.words.photos import MarkKind
from rebuild.work.photos.acts import mark_photo
from rebuild.work.photos.rows import MarkRow, PhotoRow
from rebuild.work.records.rows import Choice

_LOOK = "look only"


class MarkTools(QWidget):
    """``drawing`` tells whether a drag on the photo marks it."""

    drawing = Signal(bool)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self.tool = QComboBox(self)
        self.tool.setAccessibleName("Mark to draw")
        self.tool.addItems([_LOOK, *(kind.value for kind in MarkKind)])
        self.words = QLineEdit(self)
        self.words.setAccessibleName("Words of the mark")
        self.words.setPlaceholderText("words of the mark, e.g. 1-1")
        self.names = ReferenceEditor(self)
        self.names.setAccessibleName("Part the mark names")
        self.names.line().setAccessibleName("Part the mark names")
        self.names.line().setPlaceholderText("part it names")
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(PlainLabel("Mark", self))
        row.addWidget(self.tool)
        row.addWidget(self.words, 1)
        row.addWidget(self.names, 1)
        self.tool.currentTextChanged.connect(lambda text: self.drawing.emit(text != _LOOK))

    def offer(self, parts: Sequence[Choice]) -> None:
        """The parts a mark may name."""
        self.names.offer(parts)

    def mark(self, photo: PhotoRow | None, start: QPointF, end: QPointF) -> None:
        """A place was drawn on a photo, as shares of it: store the mark; on trouble what is typed stays."""
        if photo is None or self.tool.currentText() == _LOOK:
            return
        kind = MarkKind(self.tool.currentText())
        try:
            mark_photo(
                self._desk.store,
                photo.id,
                kind,
                (start.x(), start.y()),
                (end.x(), end.y()),
                self.words.text(),
                self._named(),
            )
        except RebuildError as trouble:
            self._desk.say(str(trouble), Say.TROUBLE)
            self.words.setFocus()
        else:
            self.words.clear()
            self.names.put("")

    def _named(self) -> int | None:
        """The part the next mark names. Raises BadEntry."""
        typed, found = self.names.typed(), part_offered(self.names)
        if typed and found is None:
            raise BadEntry(
                "is no part of this machine, or several are called so.",
                where="Part the mark names",
                value=typed,
                way_out="Choose from the list, or leave it empty.",
            )
        return found

    def follow(self, mark: MarkRow) -> None:
        """A mark was clicked: to the part it names."""
        if mark.part_id is not None:
            self._desk.choose(subassembly_id=mark.subassembly_id)
            follow(self._desk, Ref("part", mark.part_id))


def part_offered(editor: ReferenceEditor) -> int | None:
    """The part meant by what stands in an editor, among those it offers: also the only one its words fit."""
    typed = editor.typed()
    offered = [(editor.itemData(at), editor.itemText(at).casefold()) for at in range(editor.count())]
    parts = [(key, label) for key, label in offered if isinstance(key, int)]
    words = typed.casefold().split()
    fit = [key for key, label in parts if words and all(word in label for word in words)]
    return next((key for key, _ in parts if str(key) == typed), fit[0] if len(fit) == 1 else None)
