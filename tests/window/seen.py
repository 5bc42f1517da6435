"""A page shown at its size, and its controls looked over for names."""

from __future__ import annotations

from PySide6.QtWidgets import QAbstractItemView, QComboBox, QLineEdit, QWidget
from pytestqt.qtbot import QtBot


def shown(qtbot: QtBot, page: QWidget) -> None:
    page.resize(1280, 760)
    with qtbot.waitExposed(page):
        page.show()


def named(page: QWidget) -> None:
    for kind in (QLineEdit, QAbstractItemView, QComboBox):
        for control in page.findChildren(kind):
            owner = control.parentWidget()
            inside = isinstance(owner, QComboBox) or control.objectName().startswith("qt_")
            spoken = control.accessibleName() or (owner is not None and owner.accessibleName())
            assert spoken or inside or isinstance(owner.parentWidget(), QComboBox), control
