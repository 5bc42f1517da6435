"""The Find field of the header: everything of the file by any word, number, code or size, while it is typed."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, QPoint, Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication, QFrame, QLineEdit, QVBoxLayout, QWidget
from shiboken6 import isValid

from rebuild.errors import RebuildError
from rebuild.window.desk.desk import Desk
from rebuild.window.entry.gauge import TAKES_GAUGE
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.plain_table import PlainTable
from rebuild.words.counted import counted
from rebuild.work.find.acts_search import search
from rebuild.work.find.rows import MOST, Found

KEY = "F3"
#: From the last letter to the search; from the last change of the file to the index [ms].
_SOON, _IDLE = 60, 900
#: Between two bites of the words of a large file the window has its turn [ms]; a search waits no longer for them [s].
_BETWEEN, _WITHIN = 15, 0.1
#: Enter waits so long for what is sought [s]; what comes later is gone to when it comes.
_ENTER_WITHIN = 0.4
_WIDE, _HIGH = 900, 460
_COLUMNS = ("Kind", "What", "Found", "Machine")


class FindField(QLineEdit):
    """One line; what was found stands under it. Up and Down choose, Enter goes there, Esc leads back."""

    chosen = Signal(object)
    left = Signal()  #: by Esc, with nothing to lead back to

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._from: QWidget | None = None
        self.found: list[Found] = []
        self._go_when_found = False
        self.panel = _Panel(self)
        self._later = QTimer(self, interval=_SOON, singleShot=True)
        self._idle = QTimer(self, interval=_IDLE, singleShot=True)
        self.setAccessibleName("Find")
        self.setProperty(TAKES_GAUGE, True)  # a size typed quickly here is looked for
        self.setPlaceholderText(f"Find anything  {KEY}")
        self.setToolTip("Parts, readings, places, notes, steps: any word, code or size, as 24.98 or 3/8")
        self.setClearButtonEnabled(True)
        self.setMinimumWidth(120)
        self.textEdited.connect(lambda _text: self._look_soon())
        self._later.timeout.connect(self.search)
        self._more = QTimer(self, interval=_BETWEEN, singleShot=True)
        self._idle.timeout.connect(self._follow)
        self._more.timeout.connect(self._follow)
        self.panel.table.activated.connect(lambda _index: self.go())
        self.panel.table.clicked.connect(lambda _index: self.go())
        desk.changed.connect(lambda _changed: self._idle.start())
        for signal in (desk.opened, desk.closed):
            signal.connect(self._other_file)

    def _look_soon(self) -> None:
        self._go_when_found = False
        self._later.start()

    def begin(self) -> None:
        """Put the keyboard here, what stands in it chosen."""
        focus = QApplication.focusWidget()
        if focus is not self:
            self._from = focus
        self.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.selectAll()
        if self.text().strip():
            self.search()

    def search(self, within_s: float | None = None) -> None:
        """Look for what is typed and show it; no longer than ``within_s`` is waited for words not read yet."""
        self._later.stop()
        self.found = []
        typed = self.text().strip()
        if not typed or not self._desk.is_open:
            self.panel.hide()
            return
        store = self._desk.store
        self.found = (
            self._desk.attempt(
                lambda: search(store, typed, within_s=_WITHIN if within_s is None else within_s)
            )
            or []
        )
        late = store.words_behind != 0
        self.panel.show_found(self.found, typed, more_to_come=late)
        if late:
            self._more.start()

    def go(self) -> None:
        """Go to the chosen one, or the first."""
        if self._later.isActive():
            self.search()
        if not self.found and self.panel.more_to_come and self.text().strip():
            self.search(_ENTER_WITHIN)
            self._go_when_found = not self.found and self.panel.more_to_come
        if self.found:
            at = self.panel.table.chosen()
            one = self.found[at if at is not None else 0]
            self.panel.hide()
            self.chosen.emit(one)

    def leave(self) -> None:
        """Put what was typed and found away and the keyboard back where it was, or onto the page."""
        self._later.stop()
        self._go_when_found = False
        self.clear()
        self.found = []
        self.panel.hide()
        if self._from is not None and isValid(self._from) and self._from.isVisible():
            self._from.setFocus()
        else:
            self.left.emit()

    def _follow(self) -> None:
        """The index knows what is stored, before it is asked and when nobody types; of a large file by and by."""
        if not self._desk.is_open:
            return
        if self._desk.hand.left_ms():
            self._more.start(self._desk.hand.left_ms())
            return
        try:
            share = self._desk.store.follow_some_words()
        except (
            RebuildError
        ) as trouble:  # not ``attempt``: what goes well unasked ends no trouble of the user's
            self._desk.say_trouble(str(trouble))
            return
        if share < 1:
            self._more.start(_BETWEEN)
        elif self.panel.more_to_come and self.panel.isVisible() and self._desk.store.words_behind == 0:
            self.search()
            if self._go_when_found:
                self._go_when_found = False
                self.go()

    def _other_file(self) -> None:
        self.clear()
        self.found = []
        self.panel.hide()
        self._more.stop()
        if self._desk.is_open:
            self._idle.start()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = Qt.Key(event.key())
        if key in (Qt.Key.Key_Up, Qt.Key.Key_Down, Qt.Key.Key_PageUp, Qt.Key.Key_PageDown):
            self.panel.move_by(
                {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1, Qt.Key.Key_PageUp: -10, Qt.Key.Key_PageDown: 10}[key]
            )
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.go()
        elif key == Qt.Key.Key_Escape:
            self.leave()
        else:
            super().keyPressEvent(event)


class _Panel(QFrame):
    """What was found, over the page, under the field."""

    def __init__(self, field: FindField) -> None:
        super().__init__(field.window())
        self._field = field
        self.more_to_come = False
        self.setFrameShape(QFrame.Shape.StyledPanel)
        self.setAutoFillBackground(True)
        self.table = PlainTable("Found", _COLUMNS, self)
        self.table.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.count = PlainLabel(self)
        self.count.setWordWrap(True)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(6, 6, 6, 6)
        layout.addWidget(self.table, 1)
        layout.addWidget(self.count)
        field.installEventFilter(self)
        self.hide()

    def show_found(self, found: list[Found], typed: str, *, more_to_come: bool) -> None:
        """Show rows, the first one chosen; while the words of a large file are still read, that is said."""
        self.more_to_come = more_to_come
        still = (
            " The words of this file are still being read: more may come by itself." if more_to_come else ""
        )
        self.table.setVisible(bool(found))
        self.table.plain.fill([(at, _line(one)) for at, one in enumerate(found)])
        if found:
            more = "; type more to see fewer" if len(found) >= MOST else ""
            self.count.setText(
                f"{counted(len(found), 'row')}{more}. Enter goes there, Up and Down choose, Esc leads back.{still}"
            )
            self.table.selectRow(0)
        else:
            self.count.setText(
                f"Nothing in this file has “{typed}”. Words are found by their beginning, sizes by value.{still}"
                if not more_to_come
                else f"Nothing yet has “{typed}”.{still}"
            )
        self._place(bool(found))
        self.show()
        self.raise_()

    def move_by(self, rows: int) -> None:
        """Choose another row."""
        last = self.table.plain.rowCount() - 1
        if last >= 0:
            here = self.table.chosen()
            self.table.selectRow(max(0, min(last, (here if here is not None else -1) + rows)))

    def _place(self, with_rows: bool) -> None:
        window = self._field.window()
        if self.parentWidget() is not window:
            self.setParent(window)
        wide = min(_WIDE, window.width() - 16)
        at = self._field.mapTo(window, QPoint(0, self._field.height() + 2))
        high = min(_HIGH, window.height() - at.y() - 40) if with_rows else self.sizeHint().height()
        self.setGeometry(max(8, min(at.x(), window.width() - wide - 8)), at.y(), wide, high)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Gone when the keyboard goes elsewhere."""
        if watched is self._field and event.type() == QEvent.Type.FocusOut:
            self.hide()
        return super().eventFilter(watched, event)


def _line(one: Found) -> tuple[str, ...]:
    lies = f"lies in {one.lies}" if one.lies else ""
    return (one.kind, one.title, " · ".join(filter(None, (lies, one.around))), one.machine)
