"""One clock for a whole run: the wall's, or where the machine is busy with other work the processor's.

A wall clock on a busy machine measures the others. The table says which was used; ``REBUILD_BENCH_CLOCK`` set to
``wall`` or ``cpu`` decides. Processor time leaves out what waits for the disk.
"""

from __future__ import annotations

import os
import statistics
import time
from collections.abc import Callable, Sequence

CHOICE = "REBUILD_BENCH_CLOCK"
#: More than this share of the processors at work for others: busy.
BUSY = 0.3


def choose() -> str:
    """``wall`` or ``cpu``, settled at the first call for this process and those it starts."""
    if os.environ.get(CHOICE) not in ("wall", "cpu"):
        busy = os.getloadavg()[0] > BUSY * (os.cpu_count() or 1)
        os.environ[CHOICE] = "cpu" if busy else "wall"
    return os.environ[CHOICE]


def now() -> float:
    """Seconds on the clock chosen, of this process."""
    return time.process_time() if choose() == "cpu" else time.perf_counter()


def of_thread() -> float:
    """Seconds on the clock chosen, of this thread alone: what others do beside it holds nobody up."""
    return time.thread_time() if choose() == "cpu" else time.perf_counter()


def of_children() -> float:
    """Seconds on the clock chosen, where the work is that of processes waited for."""
    if choose() == "wall":
        return time.perf_counter()
    spent = os.times()
    return spent.children_user + spent.children_system


def timed(work: Callable[[], object]) -> float:
    """Seconds one piece of work takes."""
    start = now()
    work()
    return now() - start


def middle(spent: Sequence[float]) -> float:
    """The median."""
    return statistics.median(spent)


def p95(spent: Sequence[float]) -> float:
    """The 95th of a hundred."""
    return statistics.quantiles(spent, n=20, method="inclusive")[-1]
