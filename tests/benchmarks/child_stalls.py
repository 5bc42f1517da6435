"""How long the window's thread is held up while a user goes through everything: each turn of its loop is timed."""

from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path

from tests.benchmarks import clock
from tests.benchmarks.child_window import Said, ready, started

#: After each thing done the loop turns until nothing was heard for so long [s].
QUIET_S, MOST_S = 0.15, 20.0


def stalls(file: Path, folder: Path) -> Said:
    """The longest single turn [s] of each thing done; ``file`` is a copy, for it is written to."""
    frame = started(file, folder)
    said: Said = {}

    def do(what: str, act: Callable[[], object], until: Callable[[], bool] = lambda: True) -> None:
        said[what] = [max(_held(act), _turning(until))]

    do("getting ready", lambda: None)
    ready(frame)
    desk = frame.desk
    do("looking the file over", lambda: desk.looking.begin(desk.store), lambda: not desk.looking.running)
    for again in ("", " again"):
        for page in frame.pages:
            do(f"{page.name}{again}", lambda key=page.key: frame.show_page(key))  # type: ignore[misc]
    frame.show_page("bench")
    here = desk.machine_id
    do("no machine", lambda: desk.choose_machine(None))
    do("the machine", lambda: desk.choose_machine(here))
    do("whole window smaller", lambda: frame.resize(1000, 700))
    from rebuild.window.desk.backup import back_up

    ended: list[bool] = []
    do(
        "backup",
        lambda: back_up(desk, frame).finished.connect(lambda _code: ended.append(True)),
        lambda: bool(ended),
    )
    desk.looking.stop()
    return said


def _held(act: Callable[[], object]) -> float:
    before = clock.of_thread()
    act()
    return clock.of_thread() - before


def _turning(until: Callable[[], bool]) -> float:
    """Turn the loop until that is so and nothing follows; the longest turn."""
    from PySide6.QtWidgets import QApplication

    longest, end = 0.0, time.monotonic() + MOST_S
    quiet = time.monotonic() + QUIET_S
    while time.monotonic() < end and (not until() or time.monotonic() < quiet):
        took = _held(QApplication.processEvents)
        longest = max(longest, took)
        if took > 0.002:
            quiet = time.monotonic() + QUIET_S
        time.sleep(0.002)
    return longest
