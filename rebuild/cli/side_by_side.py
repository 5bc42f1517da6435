"""The state of a file of many machines, worked out by as many processes as there are processors for it.

Machines are independent of each other, and what takes the time is Python's own work: threads would take turns at it.
"""

from __future__ import annotations

import os
import sys
import threading
from collections.abc import Sequence
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import closing
from multiprocessing import get_context
from pathlib import Path

from rebuild.store.store import Store
from rebuild.work.machines.rows_tree import machines
from rebuild.work.plan.rows_summary import MachineState, ShopState, machine_states, shop_state

#: Machines worth a process of their own: fewer are worked out before it is there.
A_SHARE = 8


def state_of_file(path: Path, processors: int | None = None) -> ShopState:
    """The state of the whole file, not looked over for cells that cannot be read.

    Raises:
        FileTrouble: the file cannot be opened.
        LookupError, ValueError, TypeError: a cell was met that cannot be read.
    """
    with closing(Store.open(path, looked_over=False)) as store:
        with store.read() as connection:
            keys = [row.id for row in machines(connection)]
        hands = min(processors or _processors(), len(keys) // A_SHARE)
        if hands < 2:
            return shop_state(store)
    # SQLite forbids a connection to be carried over a fork: none is open here.
    told = _told(path, [keys[first::hands] for first in range(hands)])
    with closing(Store.open(path, looked_over=False)) as store:
        return shop_state(store, told)


def _processors() -> int:
    """How many there are to work side by side; one where a process cannot be split off as it stands."""
    alone = sys.platform != "linux" or threading.active_count() > 1
    return 1 if alone else len(os.sched_getaffinity(0))


def _told(path: Path, shares: Sequence[Sequence[int]]) -> dict[int, MachineState]:
    with ProcessPoolExecutor(len(shares) - 1, mp_context=get_context("fork")) as others:
        asked = [others.submit(_share, path, share) for share in shares[1:]]
        told = _share(path, shares[0])
        for one in asked:
            told |= _got(one)
    return told


def _got(asked: Future[dict[int, MachineState]]) -> dict[int, MachineState]:
    """What another process found; nothing if it could not: then it is worked out here, where what is wrong is heard."""
    try:
        return asked.result()
    except BrokenProcessPool:
        return {}


def _share(path: Path, keys: Sequence[int]) -> dict[int, MachineState]:
    try:
        with closing(Store.open(path, looked_over=False)) as store:
            return machine_states(store, keys)
    except Exception:  # noqa: BLE001 - whatever it is, who asked meets it again and says it where it is heard
        return {}
