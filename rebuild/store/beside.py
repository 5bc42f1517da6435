"""Whole under its name or not there: written beside under a ``.part`` name, flushed, renamed, and the folder flushed.

A rename is durable only after its folder was flushed. What a killed program leaves lies under a ``.part`` name
that carries the number of its process; the next open of a file in that folder sweeps it away.
"""

from __future__ import annotations

import os
import re
import secrets
import shutil
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from rebuild.errors import FileTrouble

#: Hears how far it is (0 to 1) and a few words; False asks to stop.
Tell = Callable[[float, str], bool]


def unheard(_share: float, _words: str) -> bool:
    """For work nobody watches: it goes on to the end."""
    return True


_OURS = re.compile(r"\.(\d+)-[0-9a-f]{8}\.part(-journal|-wal|-shm)?$")
#: On a system that does not tell whether a process lives, and for the photo folder's marker: older than this is stray.
STRAY_S = 86_400.0


def part_of(target: Path) -> Path:
    """A name beside ``target`` for what is not whole yet."""
    return target.with_name(f"{target.name}.{os.getpid()}-{secrets.token_hex(4)}.part")


def flush(path: Path) -> None:
    """Wait until a file or folder is on the disk; folders cannot be flushed on Windows. Raises OSError."""
    if os.name == "nt" and path.is_dir():
        return
    handle = os.open(path, os.O_RDWR if os.name == "nt" else os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def put_in_place(part: Path, target: Path) -> None:
    """Give a whole and flushed file its name. Raises OSError, FileExistsError when the name is taken."""
    try:
        os.link(part, target)
    except FileExistsError:
        raise
    except OSError:  # a file system without links
        if target.exists():
            raise FileExistsError(target) from None
        part.rename(target)
    else:
        part.unlink()
    flush(target.parent)


@contextmanager
def written_beside(target: Path, *, over: bool = False) -> Iterator[Path]:
    """Write to the path given; it gets the name of ``target`` when the block ends well, else nothing is left.

    ``over`` lets it take the place of what has the name.

    Raises:
        OSError: it cannot be written or renamed; ``FileExistsError`` when the name is taken.
    """
    part = part_of(target)
    try:
        yield part
        flush(part)
        if over:
            part.replace(target)
            flush(target.parent)
        else:
            put_in_place(part, target)
    finally:
        remove(part)


def remove(part: Path) -> None:
    """Take away an unfinished file with what SQLite put beside it."""
    for name in (part, *(part.with_name(part.name + tail) for tail in ("-journal", "-wal", "-shm"))):
        name.unlink(missing_ok=True)


def stopped(target: Path) -> FileTrouble:
    """The sentence for work the user stopped."""
    return FileTrouble(
        "it was stopped; nothing was kept.", where=target.name, way_out="Begin again at any time."
    )


def sweep(project: Path) -> tuple[Path, ...]:
    """Remove what killed programs left half written beside a project and in its photo folder; returns what went.

    Only names this program gives, and only of processes that no longer run.
    """
    gone = []
    for path in filter(_is_stray, _ours_in(project.parent)):
        if path.is_dir():
            shutil.rmtree(path, ignore_errors=True)
        else:
            path.unlink(missing_ok=True)
        gone.append(path)
    for name in _names_in(project.parent):
        if name.endswith(" photos"):
            gone += _finish_or_remove(project.with_name(name))
    photos = project.with_name(f"{project.stem} photos")
    for name in _names_in(photos):
        for path in filter(_is_stray, _ours_in(photos / name)):
            path.unlink(missing_ok=True)
            gone.append(path)
    return tuple(gone)


def _finish_or_remove(folder: Path) -> list[Path]:
    """The photo folder of a copy killed before its last step: of no use without its database."""
    gone = []
    for marker in filter(_is_stray, _ours_in(folder)):
        if folder.with_name(_OURS.sub("", marker.name)).is_file():
            marker.unlink(missing_ok=True)
        else:
            shutil.rmtree(folder, ignore_errors=True)
            gone.append(folder)
    return gone


def _ours_in(folder: Path) -> list[Path]:
    return [folder / name for name in _names_in(folder) if _OURS.search(name)]


def _names_in(folder: Path) -> list[str]:
    """Names only: a file may lie in a folder of thousands."""
    try:
        return [entry.name for entry in os.scandir(folder)]
    except OSError:
        return []


def _is_stray(path: Path) -> bool:
    found = _OURS.search(path.name)
    if found is None:
        return False
    try:
        old = time.time() - path.stat().st_mtime > STRAY_S
    except OSError:
        return False
    return old or not _runs(int(found.group(1)))


def _runs(process: int) -> bool:
    if os.name == "nt":  # there a signal would end it
        return True
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    except (OSError, OverflowError):
        return True
    return True
