"""What the lines of the menus do that need the window itself; the others are acts named in their table."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING, cast

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QDialog

from rebuild.window.commands.dispatch import do_act
from rebuild.window.commands.menu_lines import ACTIONS
from rebuild.window.parts.tree.menu import do_line
from rebuild.window.shell.text_size import USUAL

if TYPE_CHECKING:
    from rebuild.window.bench.page import BenchPage
    from rebuild.window.shell.frame import Frame


class WindowLines(QObject):
    """The lines of one window's menus: its files, its panes, its text, and the tree of its bench."""

    def __init__(self, frame: Frame) -> None:
        super().__init__(frame)
        self._frame = frame
        self._desk = frame.desk

    def handlers(self) -> dict[str, Callable[[], object]]:
        """What each action does; the acts named in the table need only the desk and a window."""
        frame = self._frame
        own: dict[str, Callable[[], object]] = {
            "new_file": self._new_file,
            "open_file": frame.files.ask_open,
            "mend_file": frame.files.ask_mend,
            "try_demo": frame.files.open_demo,
            "close_file": self._close_file,
            "quit": frame.close,
            "undo": self._desk.undo,
            "redo": self._desk.redo,
            "find": self._find,
            "find_all": frame.header.finder.begin,
            "rename": lambda: self._tree("rename"),
            "remove": lambda: self._tree("remove"),
            "next_pane": frame.stack.next_pane,
            "bench_mode": self._bench_mode,
            "text_larger": lambda: frame.text_size.step(1),
            "text_smaller": lambda: frame.text_size.step(-1),
            "text_usual": lambda: frame.text_size.choose(USUAL),
        }
        return own | {row.key: partial(do_act, row.key, self._desk, frame) for row in ACTIONS if row.act}

    def _new_file(self) -> None:
        """File, machine, then the tree with the cursor in it: a first start is led."""
        self._frame.files.ask_new()
        if self._desk.is_open and self._desk.machine_id is None:
            dialog = cast(QDialog, do_act("new_machine", self._desk, self._frame))
            dialog.accepted.connect(self._to_tree)

    def _close_file(self) -> None:
        self._frame.settle()
        self._desk.close()

    def _to_tree(self) -> None:
        tree_pane = self._bench().tree
        tree_pane.choose_first()
        tree_pane.view.setFocus()
        self._desk.say("Ins adds a part to the chosen subassembly, Ctrl+V pastes a list of them.")

    def _bench_mode(self) -> None:
        self._frame.show_page("bench")
        self._bench().toggle_bench_mode()

    def _find(self) -> None:
        self._bench().tree.find_part()

    def _tree(self, what: str) -> None:
        do_line(self._desk, self._bench().tree, what)

    def _bench(self) -> BenchPage:
        return cast("BenchPage", self._frame.page("bench"))
