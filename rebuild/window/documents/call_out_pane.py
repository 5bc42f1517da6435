"""The call-outs of the page shown as a list, and the line a new one is marked with."""

from __future__ import annotations

from PySide6.QtCore import QPointF, Signal
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from rebuild.errors import RebuildError
from rebuild.trade.schedule.graph import Ref
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.leads import follow
from rebuild.window.documents.call_out_line import CallOutLine, TypedCallOut
from rebuild.window.lists.plain_table import PlainTable
from rebuild.work.documents.acts import mark_page, name_call_out
from rebuild.work.documents.names import Names
from rebuild.work.documents.rows import CallOutRow, PageRow
from rebuild.work.editing.acts import edit, remove

_COLUMNS = ("Item", "Part", "Differs from the manual here")
#: Two corners of a place on the page, as shares of its width and height.
Place = tuple[QPointF, QPointF]


class CallOutPane(QWidget):
    """``chosen`` tells the call-out chosen in the list, ``held`` a place marked whose item is still to be typed."""

    chosen = Signal(int)
    held = Signal(object)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._page: PageRow | None = None
        self._place: Place | None = None
        self._marks: dict[int, CallOutRow] = {}
        self.table = PlainTable("Call-outs of the page", _COLUMNS, self)
        self.line = CallOutLine(desk, self)
        self.draw_button = QPushButton("Mark on the page", self)
        self.set_button = QPushButton("Store", self)
        self.go_button = QPushButton("Go to it", self)
        self.remove_button = QPushButton("Remove", self)
        self._lay_out()
        self._wire()

    def _lay_out(self) -> None:
        self.draw_button.setCheckable(True)
        self.draw_button.setToolTip("Then drag across the item on the page")
        self.set_button.setToolTip("The place just marked, or the call-out chosen in the list (Enter)")
        self.table.when_empty(
            "What the page shows of this machine: drag across an item, type its number and its part."
        )
        buttons = QHBoxLayout()
        for button in (self.draw_button, self.set_button, self.go_button, self.remove_button):
            button.setAutoDefault(False)
            buttons.addWidget(button)
        buttons.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(4)
        layout.addWidget(self.table, 1)
        layout.addWidget(self.line)
        layout.addLayout(buttons)

    def _wire(self) -> None:
        self.table.selectionModel().selectionChanged.connect(lambda _new, _old: self._show_chosen())
        self.table.activated.connect(lambda _index: self.go())
        self.line.entered.connect(self.store)
        self.draw_button.toggled.connect(self._begin)
        self.set_button.clicked.connect(lambda _checked=False: self.store())
        self.go_button.clicked.connect(lambda _checked=False: self.go())
        self.remove_button.clicked.connect(lambda _checked=False: self.remove())

    def show_page(self, page: PageRow | None, marks: list[CallOutRow]) -> None:
        """The call-outs of another page; what is begun in the line stays."""
        if page is None or self._page is None or page.id != self._page.id:
            self._hold(None)
        self._page = page
        self.line.show_page(page.id if page is not None else None)
        self._marks = {mark.id: mark for mark in marks}
        rows = [(mark.id, (mark.text, mark.named, mark.differs)) for mark in marks]
        self.table.plain.fill(rows)
        mark = self._current()
        if mark is not None and not self.line.begun:
            self.line.show_mark(mark)
        self._enable()

    def offer(self) -> None:
        """Read again what a call-out may name."""
        self.line.offer()

    def _current(self) -> CallOutRow | None:
        return self._marks.get(self.table.chosen() or 0)

    def _show_chosen(self) -> None:
        mark = self._current()
        self._enable()
        if mark is not None:
            self.line.show_mark(mark)
            self.chosen.emit(mark.id)

    def _enable(self) -> None:
        mark = self._current()
        self.draw_button.setEnabled(self._page is not None)
        self.set_button.setEnabled(mark is not None or self._place is not None)
        self.remove_button.setEnabled(mark is not None or self._place is not None)
        self.go_button.setEnabled(mark is not None and bool(mark.named))

    def _hold(self, place: Place | None) -> None:
        """A place marked on the page waits for what it shows."""
        self._place = place
        self.held.emit(place)
        self._enable()

    def _begin(self, drawing: bool) -> None:
        """A new one is begun: what the line shows of the chosen one is no part of it."""
        if drawing and not self.line.begun:
            self.table.clearSelection()
            self.line.clear()

    def mark(self, start: QPointF, end: QPointF) -> None:
        """A place was dragged on the page: stored with what stands in the line, else held until that is typed."""
        if self._page is None:
            return
        self._begin(True)
        self._hold((start, end))
        self.draw_button.setChecked(False)
        if self.line.is_empty:
            self.line.words.setFocus()
        else:
            self.store()

    def store(self) -> None:
        """Enter: the place just marked becomes a call-out, or the chosen one takes what stands in the line."""
        mark = self._current()
        if self._place is None and mark is None:
            return
        typed = self.line.read()
        if typed is None:
            return
        try:
            key = self._new(typed, self._place) if self._place is not None else None
            if key is None and mark is not None:
                self._change(mark, typed)
                self.line.keep()
        except RebuildError as trouble:
            self.line.tell(trouble)
            return
        self._desk.went_well.emit()
        if key is not None:
            self._hold(None)
            self.line.clear()
            self.table.choose(key)

    def _new(self, typed: TypedCallOut, place: Place) -> int | None:
        page = self._page
        if page is None:
            return None
        start, end = ((one.x(), one.y()) for one in place)
        return mark_page(
            self._desk.store, page.id, start, end, typed.text, typed.names, typed.differs, typed.new_part
        )

    def _change(self, mark: CallOutRow, typed: TypedCallOut) -> None:
        """Give the chosen call-out what stands in the line. Raises RebuildError."""
        was = Names(None if mark.feature_id else mark.part_id, mark.feature_id, mark.oil_point_id)
        if typed.names != was or typed.new_part is not None:
            name_call_out(self._desk.store, mark.id, typed.names, typed.new_part)
        words = {"text": typed.text, "differs": typed.differs}
        if words != {"text": mark.text, "differs": mark.differs}:
            edit(self._desk.store, "call_out", [mark.id], words)

    def go(self) -> None:
        """Go to what the chosen call-out names."""
        mark = self._current()
        if mark is not None:
            follow_call_out(self._desk, mark)

    def remove(self) -> None:
        """Let go of the place just marked, else take the chosen call-out off the page."""
        if self._place is not None:
            self._hold(None)
            return
        mark = self._current()
        if mark is not None:
            self._desk.attempt(
                lambda: remove(self._desk.store, "call_out", [mark.id]), "Removed; undo brings it back."
            )


def follow_call_out(desk: Desk, mark: CallOutRow) -> None:
    """Turn to the part, spec or oil point a call-out names."""
    if mark.oil_point_id is not None:
        follow(desk, Ref("oil_point", mark.oil_point_id))
    elif mark.feature_id is not None:
        follow(
            desk, Ref("feature", mark.feature_id), part_id=mark.part_id, subassembly_id=mark.subassembly_id
        )
    elif mark.part_id is not None:
        desk.choose(subassembly_id=mark.subassembly_id)
        follow(desk, Ref("part", mark.part_id), subassembly_id=mark.subassembly_id)
