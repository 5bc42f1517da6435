"""Every control of every page, leaf and dialog has a name for a screen reader."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QAbstractSlider,
    QAbstractSpinBox,
    QApplication,
    QComboBox,
    QDialog,
    QFileDialog,
    QLineEdit,
    QMenu,
    QMenuBar,
    QPlainTextEdit,
    QScrollBar,
    QTextEdit,
    QWidget,
)

from rebuild.window.bench.page import BenchPage
from rebuild.window.commands.menu_lines import ACTIONS
from rebuild.window.shell.frame import Frame
from tests.conftest import Shop

CONTROLS = (
    QAbstractButton, QAbstractItemView, QAbstractSlider, QAbstractSpinBox, QComboBox, QLineEdit, QMenu,
    QPlainTextEdit, QTextEdit,
)  # fmt: skip


#: Acts that open no dialog here: they ask for nothing, or say what is missing first.
_SAID_ONLY = {"back_up", "remove_machine", "make_sheet", "manual_of_part"}


def nameless(top: QWidget) -> list[str]:
    """Controls under a widget that a screen reader could not name. Qt names the inner parts of its own."""
    found = []
    for widget in [top, *top.findChildren(QWidget)]:
        inner = widget.objectName().startswith("qt_") or isinstance(widget, QScrollBar)
        # The line of a combo box, the cross that clears a line, the corner of a table, the menu bar's overflow.
        part = isinstance(
            widget.parent(), QComboBox | QAbstractSpinBox | QLineEdit | QAbstractItemView | QMenuBar
        )
        if not isinstance(widget, CONTROLS) or inner or part:
            continue
        named = widget.accessibleName() or (widget.text() if isinstance(widget, QAbstractButton) else "")
        popup = widget.window().metaObject().className() == "QComboBoxPrivateContainer"
        if not named and not popup and not (isinstance(widget, QMenu) and widget.title()):
            found.append(f"{type(widget).__name__} in {type(widget.parent()).__name__}")
    return found


def test_every_page_in_the_table_opens_and_names_its_controls(frame: Frame) -> None:
    for page in frame.pages:
        frame.show_page(page.key)
        assert frame.page_shown == page.key
        assert frame.header.pages.chosen == page.key
        assert nameless(frame.page(page.key)) == [], page.key
    assert nameless(frame) == []


def test_every_leaf_and_dialog_names_its_controls(
    frame: Frame, shop: Shop, qapp: QApplication, monkeypatch: pytest.MonkeyPatch
) -> None:
    choosers: list[str] = []

    def chooser(_parent: QWidget, title: str, *_more: object) -> tuple[str, str]:
        choosers.append(title)
        return "", ""

    monkeypatch.setattr(QFileDialog, "getSaveFileName", chooser)
    QApplication.clipboard().setText("2x gib screw\n")  # with nothing to paste no box opens
    frame.desk.choose(subassembly_id=shop.headstock, part_ids=(shop.cap,))
    bench = frame.page("bench")
    assert isinstance(bench, BenchPage)
    for key in ("details", "features", "concessions", "history"):
        bench.details.show_leaf(key)
        assert nameless(bench.details) == [], key
    for key in sorted({row.key for row in ACTIONS if row.act} - _SAID_ONLY):
        choosers.clear()
        frame.do(key)
        if choosers:  # the system's own, which names its controls itself
            assert choosers[0].startswith("Print "), key
            continue
        dialog = next((one for one in frame.findChildren(QDialog) if one.isVisible()), None)
        assert dialog is not None, key
        assert nameless(dialog) == [], key
        assert dialog.windowTitle(), key
        dialog.close()
        dialog.deleteLater()
        qapp.sendPostedEvents(None, 52)  # QEvent.DeferredDelete
