"""Tab walks every dialog an act opens: each control that can be used is reached by the keyboard, and has a name."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog, QFileDialog, QWidget
from pytestqt.qtbot import QtBot

from rebuild.window.commands.menu_lines import ACTIONS
from rebuild.window.layout.page_row import PageName
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.shell.frame import Frame
from tests.conftest import Shop
from tests.depth import DEPTH
from tests.window.commands.test_tab_walk import MOST, called, usable

#: These ask the system for a file or a printer first, or take the machine away.
NOT_OPENED = {"back_up", "remove_machine"}
#: Of each sort one; the whole check opens every one.
FEW = ("decide", "instruments", "new_feature", "new_part", "part_card")


def opened_by(frame: Frame, key: str) -> list[QDialog]:
    frame.do(key)
    QApplication.processEvents()
    return [one for one in frame.findChildren(QDialog) if one.isVisible()]


def walked(start: QWidget, key: Qt.Key) -> list[QWidget]:
    """Who gets the focus from ``start`` on, until one has it again."""
    start.setFocus(Qt.FocusReason.TabFocusReason)
    seen: list[QWidget] = []
    while (focus := QApplication.focusWidget()) is not None and len(seen) < MOST:
        if focus in seen[:-1]:
            break
        if not seen or focus is not seen[-1]:
            seen.append(focus)
        elif seen.count(focus) and not isinstance(focus, PlainLabel):
            break
        QTest.keyClick(focus, key)
    return seen


def troubles(key: str, dialog: QDialog) -> list[str]:
    """What of one dialog is reached neither by Tab nor by Shift+Tab from where it begins, or has no name."""
    wanted = list(usable(dialog))
    if not wanted:
        return [f"{key}: nothing in it can be used"]
    dialog.activateWindow()
    QApplication.processEvents()
    start = dialog.focusWidget() or wanted[0]
    reached = [*walked(start, Qt.Key.Key_Tab), *walked(start, Qt.Key.Key_Backtab)]
    found = [f"{key}: {type(one).__name__} has no name" for one in reached if not called(one)]
    for one in wanted:
        # Of a row of names the chosen one has the focus; arrows go to the others.
        beside = isinstance(one, PageName) and any(isinstance(other, PageName) for other in reached)
        if one not in reached and one.focusProxy() not in reached and not beside:
            found.append(f"{key}: Tab never reaches {type(one).__name__} “{called(one)}”")
    return found


def test_every_control_of_every_dialog_is_named_and_reached_by_tab(
    frame: Frame, qtbot: QtBot, shop: Shop, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    def chooser(_parent: QWidget, *_more: object) -> tuple[str, str]:
        return "", ""

    for name in ("getSaveFileName", "getOpenFileName", "getExistingDirectory"):
        monkeypatch.setattr(QFileDialog, name, chooser)
    with qtbot.waitActive(frame):
        frame.activateWindow()
    opened: set[str] = set()
    trouble: list[str] = []
    keys = sorted({row.key for row in ACTIONS if row.act} - NOT_OPENED)
    for key in keys if DEPTH > 1 else FEW:
        frame.show_page("bench")
        frame.desk.choose(
            subassembly_id=shop.headstock, part_ids=(shop.spindle,), key=(shop.journal, shop.near)
        )
        for dialog in opened_by(frame, key):
            opened.add(key)
            trouble += troubles(key, dialog)
            dialog.done(0)
            dialog.deleteLater()
        QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    assert not trouble, "\n".join(trouble)
    assert len(opened) > (25 if DEPTH > 1 else 4), sorted(opened)
