"""The menu of a right click in the tree: lines of the frame's own table, so words and keys agree."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QMenu

from rebuild.window.commands.dispatch import do_act
from rebuild.window.commands.menu_lines import ON_NOTHING, ON_PARTS, ON_SUBASSEMBLY, row_of
from rebuild.window.desk.desk import Desk
from rebuild.window.parts.tree.lines import BOX, ROOT, Kind, kind_of

if TYPE_CHECKING:
    from rebuild.window.parts.tree.pane import PartTree

_IN_TREE = {"rename": "F2", "remove": "Del"}


def fill_menu(menu: QMenu, desk: Desk, pane: PartTree, node: int) -> None:
    """Put the lines that suit what was clicked into the menu."""
    for key in _offered(node):
        if not key:
            menu.addSeparator()
            continue
        row = row_of(key)
        shown = row.keys or _IN_TREE.get(key, "")
        action = menu.addAction(f"{row.text}\t{shown}" if shown else row.text)
        action.setEnabled(row.needs.met(desk))
        action.triggered.connect(lambda _checked=False, chosen=key: do_line(desk, pane, chosen))


def _offered(node: int) -> tuple[str, ...]:
    if node in (ROOT, BOX):
        return ON_NOTHING
    return ON_PARTS if kind_of(node) is Kind.PART else ON_SUBASSEMBLY


def do_line(desk: Desk, pane: PartTree, key: str) -> None:
    """Do one line: in the tree itself, or an act of the frame."""
    if key == "rename":
        pane.view.rename()
    elif key == "remove":
        pane.remove_chosen()
    else:
        do_act(key, desk, pane.window())
