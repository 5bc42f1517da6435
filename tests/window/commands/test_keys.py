"""No key means two things at once, and the sheet of keys names them all."""

from __future__ import annotations

from collections import defaultdict

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QAbstractButton, QApplication, QLabel, QMenu, QToolButton, QWidget

from rebuild.window.bench.page import BenchPage
from rebuild.window.commands.pages import present_pages
from rebuild.window.shell.frame import Frame
from rebuild.window.steps.pane import TaskList
from rebuild.work.steps.acts import Done
from tests.conftest import Shop
from tests.support import sheet_of_keys

WIDGET_ONLY = Qt.ShortcutContext.WidgetShortcut


def keys_everywhere(frame: Frame) -> dict[str, list[str]]:
    """Keys that work wherever the focus is on the page shown, with what they mean."""
    found: dict[str, list[str]] = defaultdict(list)
    for action in frame.menuBar().actions():
        found[QKeySequence.mnemonic(action.text()).toString()].append(f"menu {action.text()}")
    for action in frame.actions():
        found[action.shortcut().toString()].append(f"action {action.text()}")
    for button in frame.findChildren(QAbstractButton):
        if button.isVisible() and button.window() is frame:
            found[button.shortcut().toString()].append(f"button {button.text()}")
    for label in frame.findChildren(QLabel):
        if label.isVisible() and label.buddy() is not None and label.window() is frame:
            found[QKeySequence.mnemonic(label.text()).toString()].append(f"label {label.text()}")
    for shortcut in frame.findChildren(QShortcut):
        owner = shortcut.parent()
        if isinstance(owner, QWidget) and owner.isVisible() and shortcut.context() is not WIDGET_ONLY:
            found[shortcut.key().toString()].append(f"shortcut of {owner.accessibleName()}")
    found.pop("", None)
    return found


def keys_of_panes(frame: Frame) -> dict[str, list[str]]:
    """Keys that work only while one pane has the focus."""
    found: dict[str, list[str]] = defaultdict(list)
    for widget in frame.findChildren(QWidget):
        if widget.isVisible() and not isinstance(widget, QMenu):
            for action in widget.actions():
                if action.shortcutContext() is WIDGET_ONLY:
                    found[action.shortcut().toString()].append(action.text())
    found.pop("", None)
    return found


@pytest.mark.parametrize("key", [page.key for page in present_pages()])
def test_no_key_means_two_things(frame: Frame, shop: Shop, key: str) -> None:
    frame.resize(1280, 800)
    frame.desk.choose(subassembly_id=shop.headstock, part_ids=(shop.cap,))
    frame.page(key)
    QApplication.processEvents()
    for _ in range(2):  # as it opens, and with all that folds unfolded: seen on Decide, two buttons had Alt+D
        everywhere = keys_everywhere(frame)
        twice = {keys: set(means) for keys, means in everywhere.items() if len(set(means)) > 1}
        assert twice == {}
        for fold in frame.findChildren(QToolButton):
            if fold.isVisible() and fold.isEnabled() and fold.isCheckable():
                fold.setChecked(True)
        QApplication.processEvents()
    shadowed = {keys for keys in keys_of_panes(frame) if keys in everywhere}
    assert shadowed == set(), "Qt does neither when a pane's key is also one of the window"


def test_no_key_means_two_things_while_a_step_is_ticked(frame: Frame, shop: Shop) -> None:
    frame.desk.choose(subassembly_id=shop.headstock)
    bench = frame.page("bench")
    assert isinstance(bench, BenchPage)
    assert isinstance(bench.tasks, TaskList)
    bench.tasks.view.setCurrentIndex(bench.tasks.model.index(3))
    bench.tasks.ask_tick()
    bench.tasks.panel.confirmed.emit(shop.refit, Done())
    QApplication.processEvents()
    everywhere = keys_everywhere(frame)
    assert {keys: set(means) for keys, means in everywhere.items() if len(set(means)) > 1} == {}


@pytest.mark.parametrize("key", [page.key for page in present_pages()])
def test_the_sheet_of_keys_names_every_key(frame: Frame, shop: Shop, key: str) -> None:
    frame.desk.choose(subassembly_id=shop.headstock, part_ids=(shop.cap,))
    frame.page(key)
    QApplication.processEvents()
    told = sheet_of_keys().replace("Ctrl+Enter", "Ctrl+Return")
    plain = {keys for keys in keys_everywhere(frame) if not (keys.startswith("Alt+") and len(keys) == 5)}
    for keys in plain | set(keys_of_panes(frame)):
        assert keys in told, keys


def test_no_menu_is_taller_than_half_a_small_screen(frame: Frame) -> None:
    """*Show* was nearly 1,000 px tall: groups, lengths and inks stand in menus of their own."""
    tops = [action.menu() for action in frame.menuBar().actions()]
    menus = [menu for menu in tops if isinstance(menu, QMenu)]
    under = [action.menu() for menu in menus for action in menu.actions() if action.menu() is not None]
    tall = {menu.title(): menu.sizeHint().height() for menu in menus if menu.title() in ("&Show", "&File")}
    assert max(tall.values()) < 400, tall
    words = {
        action.text() for menu in (*menus, *under) if isinstance(menu, QMenu) for action in menu.actions()
    }
    for page in present_pages():
        assert any(line.endswith(f": {page.name}") for line in words), page.name
