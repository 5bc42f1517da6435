"""Backs up a file again and again until it is killed: each line told begins another process that does.

What all of them need is loaded once (``python -m tests.faults.backing_up FILE``); each says ``begins`` and its number.
"""

from __future__ import annotations

import multiprocessing
import os
import sys
from pathlib import Path

from rebuild.store.photo_copies import backup_with_photos

BEGINS = "begins"


def back_up(path: Path) -> None:
    """Back up for ever."""
    print(BEGINS, os.getpid(), flush=True)
    while True:
        print(backup_with_photos(path).path.name, flush=True)


def main() -> None:
    """One process for each line told, until nothing more is told."""
    context = multiprocessing.get_context("spawn" if sys.platform == "win32" else "fork")
    for _told in sys.stdin:
        child = context.Process(target=back_up, args=(Path(sys.argv[1]),))
        child.start()
        child.join()


if __name__ == "__main__":
    main()
