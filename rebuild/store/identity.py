"""Which file lies at a path: its device and inode. A path is only a name, and a name can be given to another file."""

from __future__ import annotations

import os
from collections import Counter
from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True, slots=True)
class Identity:
    """What tells two files apart, and when its content on the disk was written last."""

    device: int
    inode: int
    size: int
    written_ns: int

    def same_file(self, other: Identity) -> bool:
        """Whether it is the same file, whatever was written to it."""
        return (self.device, self.inode) == (other.device, other.inode)


def identity(path: Path) -> Identity | None:
    """Who lies at ``path`` now; None when nothing can be found there."""
    try:
        found = path.stat()
    except OSError:
        return None
    return Identity(found.st_dev, found.st_ino, found.st_size, found.st_mtime_ns)


#: The files a store of this process has open, by device and inode, and how often.
_held: Counter[tuple[int, int]] = Counter()


def hold(opened: Identity) -> None:
    """A store of this process opened this file: from now on nobody here may open and close it by himself.

    Closing any handle on it would let go of SQLite's locks (POSIX locks belong to the process, not to the handle).
    """
    _held[opened.device, opened.inode] += 1


def let_go(opened: Identity) -> None:
    """That store closed it."""
    _held[opened.device, opened.inode] -= 1


def is_held_here(path: Path) -> bool:
    """Whether a store of this process has the file at ``path`` open."""
    found = identity(path)
    return found is not None and _held[found.device, found.inode] > 0


def went_to(known: Identity, was: Path) -> Path | None:
    """Where a file that this process holds open lies now, or None when it was deleted or cannot be told.

    Linux tells by the names of open files; elsewhere the folder it was in is looked through. No file is
    opened: closing one would let go of SQLite's locks on it.
    """
    for candidate in (*_open_names(), *_neighbours(was)):
        found = identity(candidate)
        if found is not None and found.same_file(known) and candidate != was:
            return candidate
    return None


def _open_names() -> list[Path]:
    names = []
    folder = Path("/proc/self/fd")
    try:
        handles = list(folder.iterdir())
    except OSError:
        return []
    for handle in handles:
        try:
            names.append(handle.readlink())
        except OSError:
            continue
    return [name for name in names if name.is_absolute()]


def _neighbours(was: Path) -> list[Path]:
    try:
        return [Path(entry.path) for entry in os.scandir(was.parent) if entry.is_file()]
    except OSError:
        return []
