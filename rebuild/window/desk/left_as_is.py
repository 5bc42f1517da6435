"""Whether a file lies as this program left it: then nothing in it needs to be looked over before it is shown.

Looking a file over costs a start a few hundredths of a second; a file that came from elsewhere, was changed by another
program or was not closed in peace is looked over, and so is each after the first paint.
"""

from __future__ import annotations

from pathlib import Path

from rebuild.window.desk.memory import Memory

_KEY = "left"
#: A file up to this size [bytes] is looked over within the time of a key; a larger one beside the window.
QUICK_BYTES = 2_000_000


def is_quick_to_look_over(path: Path) -> bool:
    """Whether looking a file over holds nobody up."""
    try:
        return path.stat().st_size <= QUICK_BYTES
    except OSError:
        return True  # it cannot be opened either, which has a sentence of its own


def note_left(memory: Memory, path: Path | None) -> None:
    """Remember how a file lies after it was closed in peace; None forgets it."""
    memory.put(_KEY, "" if path is None else _lies(path))


def lies_as_left(memory: Memory, path: Path) -> bool:
    """Whether nobody has written to the file since this program closed it."""
    lies = _lies(path)
    return bool(lies) and memory.text(_KEY) == lies


def _lies(path: Path) -> str:
    """Size, time and name of a file that is whole by itself; empty when it is not."""
    try:
        at = path.resolve(strict=True)
        wal = at.with_name(f"{at.name}-wal")
        if wal.is_file() and wal.stat().st_size:
            return ""
        said = at.stat()
    except OSError:
        return ""
    return f"{said.st_size} {said.st_mtime_ns} {said.st_ino} {at}"
