"""The frame: header, pages, message line and menus. It composes panes and wires them; no more."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Protocol, cast, runtime_checkable

from PySide6.QtCore import QByteArray, Qt, QTimer
from PySide6.QtGui import QAction, QCloseEvent, QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QApplication, QDialog, QMainWindow, QStackedWidget, QVBoxLayout, QWidget

from rebuild.window.commands.build_menus import Menus
from rebuild.window.commands.dispatch import do_act
from rebuild.window.commands.editor_undo import EditorUndo
from rebuild.window.commands.menu_lines import ACTIONS
from rebuild.window.commands.pages import Page, present_pages
from rebuild.window.desk.desk import Desk, Say, ShowUnit
from rebuild.window.desk.files import Files
from rebuild.window.desk.gc_pause import gc_paused
from rebuild.window.desk.hearing import Hearing, Records
from rebuild.window.desk.leads import HasPanes, ShowsRows
from rebuild.window.desk.left_as_is import note_left
from rebuild.window.desk.look_over import STUMBLED
from rebuild.window.desk.memory import Memory
from rebuild.window.desk.typing_watch import TypingWatch
from rebuild.window.entry.bursts import Bursts
from rebuild.window.ink import theme
from rebuild.window.ink.scheme import choose
from rebuild.window.parts.tree.menu import do_line
from rebuild.window.shell.first_page import first_page
from rebuild.window.shell.header import Header
from rebuild.window.shell.message_line import MessageLine
from rebuild.window.shell.start_page import StartPage, dropped_file
from rebuild.window.shell.text_size import USUAL, TextSize
from rebuild.work.machines import rows_tree as tree

if TYPE_CHECKING:
    from rebuild.trade.results.working import Working
    from rebuild.window.bench.page import BenchPage
    from rebuild.window.parts.tree.pane import PartTree
    from rebuild.work.find.rows import Found

FIRST_SIZE = (1280, 800)


@runtime_checkable
class Remembers(Protocol):
    """A page that keeps its state between days."""

    def remember(self, memory: Memory) -> None: ...

    def recall(self, memory: Memory) -> None: ...


@runtime_checkable
class PutsBy(Protocol):
    """A page that hands text not stored yet to the kept entries before the file closes."""

    def put_by(self) -> None: ...


@runtime_checkable
class TakesTyping(Protocol):
    """A page with a line one types into as soon as the page is there."""

    def line_to_type_in(self) -> QWidget: ...


class Frame(QMainWindow):
    """The program's window."""

    def __init__(self, desk: Desk, memory: Memory) -> None:
        super().__init__()
        self.desk = desk
        self.memory = memory
        desk.left_on = memory.left_on
        self.setAcceptDrops(True)
        self.pages = present_pages()
        self._made: dict[str, QWidget] = {}
        self._page = ""
        self.header = Header(desk, self)
        self.messages = MessageLine(desk, self)
        self.start = StartPage(memory, self)
        self.stack = QStackedWidget(self)
        self._warned_of_last_copy = False
        self._told_waiting = ""
        self.files = Files(desk, memory, self, self.settle, self._refused, self._progress)
        self.text_size = TextSize(self._text_sized, self)
        self.typing = TypingWatch(desk, memory.folder / "typing", self)
        self._compose()
        self.menus = Menus(self, self._handlers())
        Bursts.at(desk, self)
        app = cast(QApplication, QApplication.instance())
        EditorUndo(app, desk, self)
        app.applicationStateChanged.connect(self._leave)
        app.commitDataRequest.connect(self._leave)
        self._listen()
        self._recall()
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

    def _handlers(self) -> dict[str, Callable[[], object]]:
        """What each action does; the acts named in the table need only the desk and a window."""
        own: dict[str, Callable[[], object]] = {
            "new_file": self._new_file,
            "open_file": self.files.ask_open,
            "mend_file": self.files.ask_mend,
            "try_demo": self.files.open_demo,
            "close_file": self._close_file,
            "quit": self.close,
            "undo": self.desk.undo,
            "redo": self.desk.redo,
            "find": self._find,
            "find_all": self.header.finder.begin,
            "rename": lambda: self._tree("rename"),
            "remove": lambda: self._tree("remove"),
            "next_pane": self.next_pane,
            "bench_mode": self._bench_mode,
            "text_larger": lambda: self.text_size.step(1),
            "text_smaller": lambda: self.text_size.step(-1),
            "text_usual": lambda: self.text_size.choose(USUAL),
        }
        return own | {row.key: partial(do_act, row.key, self.desk, self) for row in ACTIONS if row.act}

    def _new_file(self) -> None:
        """File, machine, then the tree with the cursor in it: a first start is led."""
        self.files.ask_new()
        if self.desk.is_open and self.desk.machine_id is None:
            dialog = cast(QDialog, do_act("new_machine", self.desk, self))
            dialog.accepted.connect(self._to_tree)

    def _to_tree(self) -> None:
        tree_pane = self._bench_tree()
        tree_pane.choose_first()
        tree_pane.view.setFocus()
        self.desk.say("Ins adds a part to the chosen subassembly, Ctrl+V pastes a list of them.")

    def _bench_mode(self) -> None:
        self.show_page("bench")
        cast("BenchPage", self.page("bench")).toggle_bench_mode()

    def do(self, key: str) -> None:
        """Do one action of the table by its key, as its menu line would."""
        self.menus.action(key).trigger()

    def action(self, key: str) -> QAction:
        """The action of one key."""
        return self.menus.action(key)

    # Pages

    def show_page(self, key: str) -> None:
        """Turn to a page, making it when it is first shown."""
        page = next((page for page in self.pages if page.key == key), None)
        if page is None or not self.desk.is_open:
            return
        if key not in self._made:
            with gc_paused():
                made = self._make(page)
            self._made[key] = made
            self.stack.addWidget(made)
            if isinstance(made, Remembers):
                made.recall(self.memory)
        turned = key != self._page
        if turned:
            self.messages.over()
        self._page = key
        shown = self._made[key]
        self.stack.setCurrentWidget(shown)
        if turned and isinstance(shown, TakesTyping):
            shown.line_to_type_in().setFocus(Qt.FocusReason.OtherFocusReason)
        self.header.pages.show_chosen(key)

    def _make(self, page: Page) -> QWidget:
        """The widget of a page; one that stumbles over a file not looked over yet is made again when that is done."""
        before = self.children()
        try:
            return page.slot.make(self.desk, self)
        except STUMBLED:
            if not self.desk.look_over_at_once():
                raise
            for half_made in self.children():
                if half_made not in before:
                    half_made.deleteLater()
            return page.slot.make(self.desk, self)

    def page(self, key: str) -> QWidget:
        """The widget of a page, shown."""
        self.show_page(key)
        return self._made[key]

    def _show_row(self, key: str, table: str, row_id: int) -> None:
        """Let a page stand on the row a link led to."""
        page = self._made.get(key)
        if isinstance(page, ShowsRows):
            page.show_row(table, row_id)

    def _go_to(self, found: Found) -> None:
        from rebuild.window.find.go import go_to

        go_to(self.desk, found, self.page, self)

    def _keyboard_to_page(self) -> None:
        from rebuild.window.find.go import take_keyboard

        if (page := self._made.get(self.page_shown)) is not None:
            take_keyboard(page)

    def _working_asked(self, working: Working) -> None:
        """Pages turn to their own pane after asking; so it is looked for when they are done."""
        from rebuild.window.results.working_window import show_elsewhere

        QTimer.singleShot(0, self, partial(show_elsewhere, self.desk, self, working))

    @property
    def page_shown(self) -> str:
        """The key of the page shown; empty on the start page."""
        return self._page if self.desk.is_open else ""

    def next_pane(self) -> None:
        """Put the keyboard into the next pane of the page."""
        page = self._made.get(self._page)
        panes: list[QWidget] = page.panes() if isinstance(page, HasPanes) else []
        if not panes:
            return
        focus = QApplication.focusWidget()
        here = next(
            (place for place, pane in enumerate(panes) if focus is not None and _within(focus, pane)), -1
        )
        panes[(here + 1) % len(panes)].setFocus(Qt.FocusReason.ShortcutFocusReason)

    def _find(self) -> None:
        self._bench_tree().find_part()

    def _tree(self, what: str) -> None:
        do_line(self.desk, self._bench_tree(), what)

    def _bench_tree(self) -> PartTree:
        return cast("BenchPage", self.page("bench")).tree

    # Files

    def _opened(self) -> None:
        self.show_page(first_page(self.desk))
        if not self._page:
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

    def _close_file(self) -> None:
        self.settle()
        self.desk.close()

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
        page = self._page
        self.settle()
        for made in self._made.values():
            if isinstance(made, Remembers):
                made.remember(self.memory)
            self.stack.removeWidget(made)
            made.hide()
            made.deleteLater()
        self._made.clear()
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

    # Memory

    def _recall(self) -> None:
        geometry = self.memory.state("geometry")
        if not geometry.isEmpty():
            self.restoreGeometry(geometry)
        size = self.memory.text("text_size")
        if size.isdecimal():
            self.text_size.choose(int(size))
        look = self.memory.text("look")
        if look in theme.Look.__members__:
            self.choose_look(theme.Look[look])
        unit = self.memory.text("unit")
        if unit in {shown.name for shown in ShowUnit}:
            self.desk.choose_unit(ShowUnit[unit])

    def remember(self) -> None:
        """Write down how the window stands."""
        self.memory.put("geometry", self.saveGeometry())
        self.memory.put("unit", self.desk.show_unit.name)
        self.memory.put("text_size", str(self.text_size.percent))
        for made in self._made.values():
            if isinstance(made, Remembers):
                made.remember(self.memory)
        self.memory.put("open", str(self.desk.store.path.resolve()) if self.desk.is_open else "")
        self.memory.save()

    def settle(self) -> None:
        """Store what is being typed; what is refused goes to the kept entries, for the file may close next."""
        from rebuild.window.forms.edit_form import EditForm

        focus = self.focusWidget()
        if focus is not None:
            focus.clearFocus()
        for form in self.findChildren(EditForm):
            form.put_by()
        for made in self._made.values():
            if isinstance(made, PutsBy):
                made.put_by()
        self.typing.put_by()

    def _tells_of_waiting(self) -> bool:
        """Say once, before the window goes, what has no row yet; it stays in the file either way."""
        if not self.desk.is_open or self.desk.store.unreadable:
            return False
        from rebuild.work.landings.rows import unplaced, waiting_words

        with self.desk.store.read() as connection:
            said = waiting_words(unplaced(connection))
        if not said or said == self._told_waiting:
            return False
        self._told_waiting = said
        self.desk.say(f"{said} It is kept in the file. Close once more to leave it so.", Say.ASK)
        return True

    def closeEvent(self, event: QCloseEvent) -> None:
        last_copy = self.desk.last_copy
        if last_copy is not None and not self._warned_of_last_copy:
            self._warned_of_last_copy = True
            self.files.lost(last_copy)
            event.ignore()
            return
        if self._tells_of_waiting():
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


def _within(widget: QWidget, pane: QWidget) -> bool:
    return widget is pane or pane.isAncestorOf(widget)
