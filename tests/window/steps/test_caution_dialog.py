"""The dialog that puts a caution on a step shows the whole of it, whichever is chosen."""

from __future__ import annotations

from PySide6.QtWidgets import QApplication

from rebuild.window.shell.frame import Frame
from rebuild.window.steps.links import PickDialog, new_caution
from rebuild.work.steps.rows import tasks
from tests.conftest import Shop


def test_the_whole_text_of_every_caution_is_seen(frame: Frame, shop: Shop) -> None:
    with frame.desk.store.read() as connection:
        row = next(row for row in tasks(connection, shop.machine) if row.id == shop.strip)
    new_caution(frame.desk, row, frame)
    dialog = frame.findChild(PickDialog)
    assert dialog is not None
    longest = 0
    for place in range(dialog.choice.count()):
        dialog.choice.setCurrentIndex(place)
        QApplication.processEvents()
        label = dialog.about
        assert label.height() >= label.heightForWidth(label.width()), dialog.choice.currentText()
        assert dialog.rect().contains(label.geometry()), dialog.choice.currentText()
        longest = max(longest, len(label.text()))
    assert longest > 200, "the longest caution goes over several lines"
