"""The whole window in a process of its own, as the benchmarks start it: says what it measured as one line of JSON.

    python -m tests.benchmarks.child_window WHAT FILE FOLDER

What a parent has used must not show: memory is this process's own peak (``VmHWM``), because ``ru_maxrss`` begins at
the peak of the process that forked it. Times are on the clock of the run.
"""

from __future__ import annotations

import json
import os
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from tests.benchmarks import clock

if TYPE_CHECKING:
    from rebuild.window.shell.frame import Frame

ENTRIES, TURNS = 60, 5
#: Of so many readings one is watched until all has taken it up, which is over in this time.
EACH, FOLLOWS_S = 12, 1.0
MACHINE = 37
Said = dict[str, list[float]]


def peak_mb() -> float:
    """The most this process has had in memory [MB]. Linux only."""
    for line in Path("/proc/self/status").read_text(encoding="ascii").splitlines():
        if line.startswith("VmHWM:"):
            return int(line.split()[1]) / 1024
    raise RuntimeError("no VmHWM: not a Linux kernel")


def settled() -> None:
    """Until nothing is left to be painted."""
    from PySide6.QtWidgets import QApplication

    for _ in range(3):
        QApplication.processEvents()


def bare(_file: Path, _folder: Path) -> Said:
    """A window with a table and nothing of the program: what any window costs."""
    from PySide6.QtWidgets import QApplication, QMainWindow, QTableWidget, QTableWidgetItem

    app = QApplication([])
    window = QMainWindow()
    table = QTableWidget(40, 6)
    for row in range(40):
        for column in range(6):
            table.setItem(row, column, QTableWidgetItem("24.985"))
    window.setCentralWidget(table)
    window.resize(1280, 800)
    window.show()
    app.processEvents()
    settled()
    return {"mb": [peak_mb()]}


def started(file: Path, folder: Path) -> Frame:
    """The window with the file, its largest machine chosen."""
    frame = _frame(file, folder)
    _large(frame)
    return frame


def ready(frame: Frame) -> None:
    """What the window does by itself when nobody waits, a second after the first paint."""
    from rebuild.window.shell.readiness import steps

    for _ in steps(frame.desk):
        settled()
    frame.desk.looking.stop()


def _frame(file: Path, folder: Path) -> Frame:
    from rebuild.window.desk.memory import Memory
    from rebuild.window.shell.start import application, frame_for

    application()
    frame = frame_for(file, Memory(folder / "window.ini"))
    frame.show()
    settled()
    return frame


def _large(frame: Frame) -> None:
    from rebuild.work.machines import rows_tree

    with frame.desk.store.read() as connection:
        there = rows_tree.machine_names(connection)
    frame.desk.choose_machine(MACHINE if MACHINE in there else min(there))
    settled()


def memory(file: Path, folder: Path) -> Said:
    """Painted, and after every page has been shown."""
    frame = _frame(file, folder)
    _large(frame)
    painted = peak_mb()
    for page in frame.pages:
        frame.show_page(page.key)
        settled()
    return {"painted": [painted], "all pages": [peak_mb()]}


def pages(file: Path, folder: Path) -> Said:
    """Each page shown first, and again after another, in a window that had its second to get ready."""
    frame = started(file, folder)
    ready(frame)
    frame.show_page("bench")
    settled()
    said: Said = {}
    for page in frame.pages:
        spent = []
        for _ in range(2):
            spent.append(clock.timed(lambda key=page.key: (frame.show_page(key), settled())))  # type: ignore[misc]
            frame.show_page("bench")
            settled()
        said[page.key] = spent
    return said


def switch(file: Path, folder: Path) -> Said:
    """From one machine to the next and back, on the bench; in a file of one machine, the machine chosen anew."""
    frame = _frame(file, folder)
    frame.show_page("bench")
    _large(frame)
    here = frame.desk.machine_id
    spent = []
    for _ in range(TURNS):
        frame.desk.choose_machine(None)
        settled()
        spent.append(clock.timed(lambda: (frame.desk.choose_machine(here), settled())))
    return {"switch": spent}


def entry(file: Path, folder: Path) -> Said:
    """A reading typed by key in the whole window: from Return until it is durable and all of it painted."""
    from PySide6.QtCore import QEvent, QObject, Qt
    from PySide6.QtTest import QTest

    from rebuild.window.bench.page import BenchPage
    from rebuild.window.entry.line import EntryLine
    from rebuild.window.readings.grid import MeasurementGrid
    from rebuild.words.readings import Stage

    class Painted(QObject):
        seen = 0

        def eventFilter(self, _watched: QObject, event: QEvent) -> bool:
            self.seen += event.type() == QEvent.Type.Paint
            return False

    frame = _frame(file, folder)
    _large(frame)
    bench = frame.page("bench")
    assert isinstance(bench, BenchPage)
    line, grid = bench.entry, bench.grid
    assert isinstance(line, EntryLine)
    assert isinstance(grid, MeasurementGrid)
    painted = Painted()
    grid.view.viewport().installEventFilter(painted)
    frame.desk.choose(key=grid.keys[0])
    line.controls.choose_stage(Stage.FITTED)
    settled()
    spent: list[float] = []
    beside: list[float] = []
    for _ in range(2 * ENTRIES):
        key = frame.desk.selection.key
        if key is None:
            raise RuntimeError("no row is left to read")
        expected = _expected(frame, key)
        QTest.keyClicks(line.field, f"{expected:.3f} mm")
        settled()
        seen = painted.seen
        start = clock.now()
        QTest.keyClick(line.field, Qt.Key.Key_Return)
        settled()
        took = clock.now() - start
        if line.field.text():  # held as odd, as one of the far-off sizes the file is made of: not counted
            line.field.clear()
            frame.desk.choose(key=grid.keys[grid.keys.index(key) + 1])
            settled()
        elif painted.seen > seen:
            spent.append(took)
            if len(spent) % EACH == 0:
                beside.append(_longest_stall())
        else:
            raise RuntimeError("the reading was stored and the grid not painted")
    return {"entry": spent, "beside": beside}


def _longest_stall() -> float:
    """After a reading: the longest the window is held up while the card and the steps take it up."""
    from PySide6.QtWidgets import QApplication

    until, longest = time.monotonic() + FOLLOWS_S, 0.0
    while time.monotonic() < until:
        longest = max(longest, clock.timed(QApplication.processEvents))
        time.sleep(0.002)
    return longest


def _expected(frame: Frame, key: tuple[int, int]) -> float:
    with frame.desk.store.read() as connection:
        found = connection.exec_driver_sql(
            "SELECT coalesce((SELECT value_mm FROM reading WHERE feature_id = f.id AND coalesce(station_id, 0) = ? "
            "AND struck IS NULL ORDER BY id DESC LIMIT 1), nominal_mm, high_mm, low_mm, 1.0) FROM feature AS f "
            "WHERE id = ?",
            (key[1], key[0]),
        ).scalar()
    return float(found or 1.0)


def sorts(file: Path, _folder: Path) -> Said:
    """The keys of a whole machine in each order and by verdict, with the first page of rows."""
    from rebuild.store.store import Store
    from rebuild.trade.limits.verdict import Rule, Verdict
    from rebuild.work.machines import rows_tree
    from rebuild.work.readings import rows_grid as grid
    from rebuild.work.readings.rows_judged import instrument_limits

    store = Store.open(file, looked_over=False)
    said: Said = {}
    with store.read() as connection:
        there = rows_tree.machine_names(connection)
        machine = MACHINE if MACHINE in there else min(there)
        limits = instrument_limits(connection)
        rule = Rule.CONFORMANCE_95

        def look(asked: grid.Asked) -> None:
            grid.rows(connection, grid.keys(connection, asked, rule, limits)[:128], rule, limits)

        asked = [(by.value, grid.Asked(machine, sort=by)) for by in grid.SortBy]
        asked.append(("not conforming only", grid.Asked(machine, verdicts=frozenset({Verdict.DOES_NOT}))))
        for name, one in asked:
            look(one)
            said[name] = [clock.timed(lambda one=one: look(one)) for _ in range(TURNS)]  # type: ignore[misc]
    store.close()
    return said


def stalls(file: Path, folder: Path) -> Said:
    """See ``child_stalls``."""
    from tests.benchmarks import child_stalls

    return child_stalls.stalls(file, folder)


WHATS: dict[str, Callable[[Path, Path], Said]] = {
    name.__name__: name for name in (bare, memory, pages, switch, entry, sorts, stalls)
}

if __name__ == "__main__":
    found = WHATS[sys.argv[1]](Path(sys.argv[2]), Path(sys.argv[3]))
    print(json.dumps(found), flush=True)
    os._exit(0)
