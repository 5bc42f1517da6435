"""The frame: header, pages, message line and menus. It composes panes and wires them; no more."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, cast

from PySide6.QtCore import QByteArray, Qt, QTimer
from PySide6.QtGui import QAction, QCloseEvent, QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QApplication, QMainWindow, QVBoxLayout, QWidget

from rebuild.window.commands.build_menus import Menus
from rebuild.window.commands.editor_undo import EditorUndo
from rebuild.window.desk.desk import Desk, Say
from rebuild.window.desk.files import Files
from rebuild.window.desk.hearing import Hearing, Records
from rebuild.window.desk.leads import ShowsRows
from rebuild.window.desk.left_as_is import note_left
from rebuild.window.desk.memory import Memory
from rebuild.window.desk.typing_watch import TypingWatch
from rebuild.window.entry.bursts import Bursts
from rebuild.window.ink import theme
from rebuild.window.ink.scheme import choose
from rebuild.window.shell.before_closing import BeforeClosing
from rebuild.window.shell.first_page import first_page
from rebuild.window.shell.header import Header
from rebuild.window.shell.message_line import MessageLine
from rebuild.window.shell.page_stack import PageStack
from rebuild.window.shell.start_page import StartPage, dropped_file
from rebuild.window.shell.text_size import TextSize
from rebuild.window.shell.window_lines import WindowLines
from rebuild.window.shell.window_state import recall, remember
from rebuild.work.machines import rows_tree as tree

if TYPE_CHECKING:
    from rebuild.trade.results.working import Working
    from rebuild.work.find.rows import Found

FIRST_SIZE = (1280, 800)


class Frame(QMainWindow):
    """The program's window."""

    def __init__(self, desk: Desk, memory: Memory) -> None:
        super().__init__()
        self.desk = desk
        self.memory = memory
        desk.left_on = memory.left_on
        self.setAcceptDrops(True)
        self.header = Header(desk, self)
        self.messages = MessageLine(desk, self)
        self.start = StartPage(memory, self)
        self.stack = PageStack(desk, memory, self)
        self.pages = self.stack.pages
        self.files = Files(desk, memory, self, self.settle, self._refused, self._progress)
        self._before_closing = BeforeClosing(desk, self.files)
        self.text_size = TextSize(self._text_sized, self)
        self.typing = TypingWatch(desk, memory.folder / "typing", self)
        self._compose()
        self.menus = Menus(self, WindowLines(self).handlers())
        Bursts.at(desk, self)
        app = cast(QApplication, QApplication.instance())
        EditorUndo(app, desk, self)
        app.applicationStateChanged.connect(self._leave)
        app.commitDataRequest.connect(self._leave)
        self._listen()
        recall(self)
        self._opened() if desk.is_open else self._closed()

    def _compose(self) -> None:
        middle = QWidget(self)
        column = QVBoxLayout(middle)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.header)
        column.addWidget(self.stack, 1)
        column.addWidget(self.messages)
        self.stack.addWidget(self.start)
        self.setCentralWidget(middle)
        self.resize(*FIRST_SIZE)

    def _listen(self) -> None:
        desk = self.desk
        self.header.pages.asked.connect(self.show_page)
        self.header.finder.chosen.connect(self._go_to)
        self.header.finder.left.connect(self._keyboard_to_page)
        self.start.asked.connect(lambda key: self.do(key))
        self.start.chosen.connect(self.files.open)
        self.messages.kept_asked.connect(lambda: self.do("kept"))
        desk.page_asked.connect(self.show_page)
        desk.row_asked.connect(self._show_row)
        desk.working_asked.connect(self._working_asked)
        desk.opened.connect(self._opened)
        desk.closed.connect(self._closed)
        desk.machine_changed.connect(self._left_on)
        desk.lost.connect(self.files.lost)
        desk.moved.connect(self._title)
        self.files.half_typed = self.typing.half_typed
        desk.ask_long_step = self._ask_long_step
        self._hearing = Hearing(
            desk, self, (Records.of("machine"),), lambda _changed: self._title(), while_hidden=True
        )

    def do(self, key: str) -> None:
        """Do one action of the table by its key, as its menu line would."""
        self.menus.action(key).trigger()

    def action(self, key: str) -> QAction:
        """The action of one key."""
        return self.menus.action(key)

    # Pages

    def show_page(self, key: str) -> None:
        """Turn to a page, making it when it is first shown."""
        if not self.desk.is_open or self.stack.made(key) is None:
            return
        if key != self.stack.key:
            self.messages.over()
        self.stack.turn_to(key)
        self.header.pages.show_chosen(key)

    def page(self, key: str) -> QWidget:
        """The widget of a page, shown."""
        self.show_page(key)
        return cast(QWidget, self.stack.get(key))

    def _show_row(self, key: str, table: str, row_id: int) -> None:
        """Let a page stand on the row a link led to."""
        page = self.stack.get(key)
        if isinstance(page, ShowsRows):
            page.show_row(table, row_id)

    def _go_to(self, found: Found) -> None:
        from rebuild.window.find.go import go_to

        go_to(self.desk, found, self.page, self)

    def _keyboard_to_page(self) -> None:
        from rebuild.window.find.go import take_keyboard

        if (page := self.stack.get(self.page_shown)) is not None:
            take_keyboard(page)

    def _working_asked(self, working: Working) -> None:
        """Pages turn to their own pane after asking; so it is looked for when they are done."""
        from rebuild.window.results.working_window import show_elsewhere

        QTimer.singleShot(0, self, partial(show_elsewhere, self.desk, self, working))

    @property
    def page_shown(self) -> str:
        """The key of the page shown; empty on the start page."""
        return self.stack.key if self.desk.is_open else ""

    # Files

    def _opened(self) -> None:
        self.show_page(first_page(self.desk))
        if not self.stack.key:
            self.show_page(self.pages[0].key)
        self.start.say("")
        self._title()
        # After whoever opened it has said so.
        QTimer.singleShot(0, self, self.typing.offer_left)

    def _closed(self) -> None:
        self.start.read()
        self.start.say("")
        self.stack.setCurrentWidget(self.start)
        self._title()

    def _ask_long_step(self, undo: bool, touched: dict[str, int]) -> None:
        from rebuild.window.desk.long_step import LongStep

        LongStep(self.desk, undo, touched, self).open()

    def _leave(self, _state: object = None) -> None:
        """Another window has the focus, the computer sleeps or the session ends: the file is made whole."""
        if QApplication.applicationState() != Qt.ApplicationState.ApplicationActive:
            self.desk.make_whole()

    def _refused(self, sentence: str) -> None:
        if self.desk.is_open:
            self.desk.say(sentence, Say.TROUBLE)
        else:
            self.start.say(sentence)

    def _progress(self, words: str) -> None:
        self.start.say(words)
        if self.desk.is_open:
            self.desk.say(words)
        QApplication.processEvents()

    def _left_on(self) -> None:
        """The file is opened on the machine shown last."""
        if self.desk.is_open and self.desk.machine_id is not None:
            self.memory.leave_on(self.desk.store.path, self.desk.machine_id)

    def _title(self) -> None:
        if not self.desk.is_open:
            self.setWindowTitle("Rebuild")
            return
        with self.desk.store.read() as connection:
            named = tree.machine_names(connection)
        machine = named.get(self.desk.machine_id or 0)
        self.setWindowTitle(" — ".join(filter(None, (machine, self.desk.store.path.name, "Rebuild"))))

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if dropped_file(event) is not None:
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        path: Path | None = dropped_file(event)
        if path is not None:
            event.acceptProposedAction()
            self.files.open(path)

    # Text

    def _text_sized(self, percent: int) -> None:
        """Pages keep widths and fonts measured once: they are put by and made anew."""
        page = self.stack.key
        self.settle()
        self.stack.drop_all()
        # Where the splitters stood was right for the text there was.
        for splitter in ("bench/across", "bench/down"):
            self.memory.put(splitter, QByteArray())
        if page:
            self.show_page(page)
        if self.desk.is_open:
            self.desk.say(f"Text at {percent} % of the usual size.")

    def choose_look(self, look: theme.Look) -> None:
        """Light, dark, or as the system, at once; kept with the rest of the window's state."""
        choose(cast(QApplication, QApplication.instance()), look)
        self.menus.check_look()
        self.memory.put("look", look.name)

    # Leaving

    def remember(self) -> None:
        """Write down how the window stands."""
        remember(self)

    def settle(self) -> None:
        """Store what is being typed; what is refused goes to the kept entries, for the file may close next."""
        from rebuild.window.forms.edit_form import EditForm

        focus = self.focusWidget()
        if focus is not None:
            focus.clearFocus()
        for form in self.findChildren(EditForm):
            form.put_by()
        self.stack.put_by()
        self.typing.put_by()

    def closeEvent(self, event: QCloseEvent) -> None:
        if self._before_closing.must_wait():
            event.ignore()
            return
        self.settle()
        self.remember()
        self.typing.end()
        sound = self.desk.is_open and not self.desk.store.unreadable
        path = self.desk.store.path if sound else None
        self.desk.close()
        note_left(self.memory, path)
        super().closeEvent(event)
