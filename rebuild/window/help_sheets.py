"""Two sheets of help: the keys, read from the table of actions; and the limits of use."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QPlainTextEdit, QVBoxLayout, QWidget

from rebuild.trade.limits_of_use import LIMITS
from rebuild.window.actions import ACTIONS
from rebuild.window.pages import present_pages

TREE_KEYS = (
    ("In the tree: rename", "F2"), ("In the tree: remove", "Del"), ("In the tree: new part", "Ins"),
    ("In the tree: new subassembly inside", "Shift+Ins"), ("In the tree: one place up or down", "Alt+Up, Alt+Down"),
    ("In a dialog: add and begin the next", "Ctrl+Enter"), ("In a long field: store it", "Ctrl+Enter"),
)  # fmt: skip


def keys_text() -> str:
    """Every key of the frame, one a line."""
    pages = [
        (f"Page {page.name}", f"Ctrl+{place}") for place, page in enumerate(present_pages(), 1) if place < 10
    ]
    rows = [(row.text.replace("&", "").rstrip("…"), row.keys) for row in ACTIONS if row.keys]
    return "\n".join(f"{keys:<20} {what}" for what, keys in (*rows, *pages, *TREE_KEYS))


def _sheet(title: str, text: str, parent: QWidget) -> QDialog:
    dialog = QDialog(parent)
    dialog.setWindowTitle(title)
    dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    shown = QPlainTextEdit(text, dialog)
    shown.setReadOnly(True)
    shown.setAccessibleName(title)
    shown.setTabChangesFocus(True)
    shown.setFrameShape(QPlainTextEdit.Shape.NoFrame)
    buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close, dialog)
    buttons.rejected.connect(dialog.reject)
    layout = QVBoxLayout(dialog)
    layout.addWidget(shown)
    layout.addWidget(buttons)
    dialog.resize(640, 440)
    dialog.open()
    return dialog


def limits_of_use(parent: QWidget) -> QDialog:
    """What the program can and cannot be trusted with."""
    return _sheet("Limits of use", LIMITS, parent)


def key_sheet(parent: QWidget) -> QDialog:
    """The keys."""
    from PySide6.QtGui import QFontDatabase

    dialog = _sheet("Keys", keys_text(), parent)
    text = dialog.findChild(QPlainTextEdit)
    if text is not None:
        text.setFont(QFontDatabase.systemFont(QFontDatabase.SystemFont.FixedFont))
    return dialog
