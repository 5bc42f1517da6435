"""Start to painted window with a file loaded, against a bare window with a table.

Run: ``python tests/benchmarks/bench_start.py [PROJECT]`` (the demo is built when no project is given),
or ``pytest tests/benchmarks/bench_start.py -s``. Each start is a process of its own, the two kinds by
turns; compiled modules are kept, as they are after a first start. The time is that of the whole process,
from its launch to the event after the first paint, when it ends itself.
"""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.benchmarks import clock

TURNS = 9
MOST_RATIO = 2.5
#: To everything usable.
MOST_USABLE = 4.0
#: Must stay unloaded until needed.
LATE = ("alembic", "pint", "numpy", "reportlab", "ezdxf", "openpyxl")

#: A window with a table, as the first page has one, and no library the program does not need for it.
BARE = """
import os
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication, QMainWindow, QTableWidget, QTableWidgetItem
class Table(QTableWidget):
    def paintEvent(self, event):
        super().paintEvent(event)
        QTimer.singleShot(0, lambda: os._exit(0))
app = QApplication([])
window = QMainWindow()
table = Table(40, 6)
for row in range(40):
    for column in range(6):
        table.setItem(row, column, QTableWidgetItem("24.985"))
window.setCentralWidget(table)
window.resize(1280, 800)
window.show()
app.exec()
"""

OURS = f"""
import os, sys
from pathlib import Path
import rebuild.window.shell.start as start
made = start._frame
def frame(*given, **named):
    from PySide6.QtCore import QTimer
    from rebuild.window.shell.message_line import MessageLine
    painted = MessageLine.paintEvent
    def paint(self, event):
        painted(self, event)
        QTimer.singleShot(0, end)
    MessageLine.paintEvent = paint
    return made(*given, **named)
def end():
    loaded = [name for name in {LATE!r} if name in sys.modules]
    print(" ".join(loaded), flush=True)
    os._exit(1 if loaded else 0)
start._frame = frame
start.run(Path(sys.argv[1]))
"""


def one(program: str, folder: Path, *arguments: str) -> float:
    """Seconds of one start. Raises RuntimeError when it loads what it should not, or fails."""
    environment = dict(
        os.environ,
        QT_QPA_PLATFORM="offscreen",
        XDG_CONFIG_HOME=str(folder),
        PYTHONPYCACHEPREFIX=str(folder / "pyc"),
    )
    environment.pop("PYTHONDONTWRITEBYTECODE", None)
    began = clock.of_children()
    done = subprocess.run(
        [sys.executable, "-c", program, *arguments],
        env=environment,
        capture_output=True,
        text=True,
        check=False,
    )
    took = clock.of_children() - began
    if done.returncode:
        raise RuntimeError(f"loaded at start: {done.stdout.strip()} {done.stderr[-400:]}")
    return took


def measure(project: Path, folder: Path, turns: int = TURNS) -> tuple[float, float]:
    """Median seconds of the bare start and of ours; the first turn only fills the cache of modules."""
    taken = [(one(BARE, folder), one(OURS, folder, str(project))) for _ in range(turns + 1)][1:]
    return statistics.median(bare for bare, _ in taken), statistics.median(ours for _, ours in taken)


def table(bare: float, ours: float) -> str:
    """The figures as lines."""
    return (
        f"bare window with a table      {bare * 1000:7.0f} ms\n"
        f"window with the file painted  {ours * 1000:7.0f} ms\n"
        f"ratio                         {ours / bare:7.2f}   at most {MOST_RATIO}"
    )


def demo(folder: Path) -> Path:
    """The demo, built in a folder of its own."""
    from rebuild.demo.build import build_demo

    path = folder / "demo.rebuild"
    build_demo(path)
    return path


def test_start_against_a_bare_window(tmp_path: Path) -> None:
    bare, ours = measure(demo(tmp_path), tmp_path)
    print(f"\n{table(bare, ours)}")
    assert ours > bare


def main() -> int:
    """Print the table; the exit code is 1 when the ratio is too large."""
    with TemporaryDirectory() as own:
        folder = Path(own)
        project = Path(sys.argv[1]) if len(sys.argv) > 1 else demo(folder)
        bare, ours = measure(project, folder)
    print(table(bare, ours))
    return int(ours / bare > MOST_RATIO)


if __name__ == "__main__":
    sys.exit(main())
