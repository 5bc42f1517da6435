"""Tab walks every page: each control that can be used is reached by the keyboard, and has a name when it is."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QAbstractSpinBox,
    QApplication,
    QComboBox,
    QHeaderView,
    QLineEdit,
    QPlainTextEdit,
    QTextEdit,
    QWidget,
)
from pytestqt.qtbot import QtBot

from rebuild.window.ink.picture import Picture
from rebuild.window.layout.page_row import PageName
from rebuild.window.layout.views import Views
from rebuild.window.shell.frame import Frame
from tests.conftest import Shop

CONTROLS = (
    QAbstractButton, QAbstractItemView, QAbstractSpinBox, QComboBox, QLineEdit, QPlainTextEdit, QTextEdit, Picture,
)  # fmt: skip
MOST = 160


def usable(top: QWidget) -> Iterator[QWidget]:
    """The controls a hand could use now. A key of its own (a page's name, a view's) is a way to reach one too."""
    for widget in top.findChildren(QWidget):
        inner = isinstance(widget.parent(), QComboBox | QAbstractSpinBox | QLineEdit | QAbstractItemView)
        if not isinstance(widget, CONTROLS) or inner or isinstance(widget, QHeaderView):
            continue
        if not widget.isVisible() or not widget.isEnabled() or widget.objectName().startswith("qt_"):
            continue
        if isinstance(widget, QAbstractButton) and not widget.shortcut().isEmpty():
            continue
        if (
            isinstance(widget, QLineEdit)
            and widget.isReadOnly()
            and widget.focusPolicy() == Qt.FocusPolicy.NoFocus
        ):
            continue
        yield widget


def called(widget: QWidget) -> str:
    words = widget.text() if isinstance(widget, QAbstractButton) else ""
    return widget.accessibleName() or words


def walk(frame: Frame) -> list[QWidget]:
    """Who gets the focus as Tab is pressed, until it comes round."""
    seen: list[QWidget] = []
    for _ in range(MOST):
        focus = QApplication.focusWidget()
        if focus is None or (len(seen) > 1 and focus is seen[0]):
            break
        if not seen or focus is not seen[-1]:  # a text with several links keeps it from one to the next
            seen.append(focus)
        QTest.keyClick(focus, Qt.Key.Key_Tab)
    return seen


@pytest.fixture
def active(frame: Frame, qtbot: QtBot, shop: Shop) -> Frame:
    with qtbot.waitActive(frame):
        frame.activateWindow()
    frame.desk.choose(subassembly_id=shop.headstock, part_ids=(shop.spindle,), key=(shop.journal, shop.near))
    return frame


def test_every_control_of_every_page_is_named_and_reached_by_tab(active: Frame) -> None:
    frame, walked = active, 0
    trouble: list[str] = []
    for page in frame.pages:
        frame.show_page(page.key)
        widget = frame.page(page.key)
        views = getattr(widget, "views", None)
        for at in range(views.stack.count() if isinstance(views, Views) else 1):
            if isinstance(views, Views):
                views.show_view(at)
            QApplication.processEvents()
            wanted = list(usable(widget))
            if not wanted:
                continue
            first = next((one for one in wanted if one.focusPolicy() & Qt.FocusPolicy.TabFocus), wanted[0])
            first.setFocus(Qt.FocusReason.TabFocusReason)
            reached = walk(frame)
            walked += len(reached)
            for one in wanted:
                # Of a row of names the chosen one has the focus; arrows go to the others.
                beside = isinstance(one, PageName) and any(
                    isinstance(other, PageName) and other.parent() is one.parent() for other in reached
                )
                if one not in reached and one.focusProxy() not in reached and not beside:
                    trouble.append(f"{page.key} {at}: Tab never reaches {type(one).__name__} “{called(one)}”")
            trouble += [
                f"{page.key} {at}: {type(one).__name__} has no name" for one in reached if not called(one)
            ]
    assert not trouble, "\n".join(trouble)
    assert walked > 250
