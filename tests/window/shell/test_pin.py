"""The ceiling on PySide6 in pyproject.toml: 6.12.0 on Python 3.11 loses a reference to None at each
void call and kills the interpreter after some thousands.

It must die in a process of its own for the rest of the tests to be heard.
"""

from __future__ import annotations

import subprocess
import sys

VOID_CALLS = 200_000

PROGRAM = f"""
from PySide6.QtCore import QAbstractTableModel, QModelIndex, Qt
from PySide6.QtWidgets import QApplication, QWidget

class Empty(QAbstractTableModel):
    def rowCount(self, parent=QModelIndex()): return 1
    def columnCount(self, parent=QModelIndex()): return 1
    def data(self, index, role=Qt.ItemDataRole.DisplayRole): return None

app = QApplication([])
widget, model = QWidget(), Empty()
here = model.index(0, 0)
for _ in range({VOID_CALLS}):
    widget.update()
    model.itemData(here) if _ % 100 == 0 else None
print("alive", {VOID_CALLS})
"""


def test_two_hundred_thousand_void_calls_leave_the_interpreter_alive() -> None:
    done = subprocess.run([sys.executable, "-c", PROGRAM], capture_output=True, text=True, timeout=120)

    assert done.returncode == 0, done.stderr[-500:]
    assert done.stdout.strip() == f"alive {VOID_CALLS}"
