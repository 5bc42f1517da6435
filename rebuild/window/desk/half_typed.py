"""Texts being typed, in a small file of the user's own: what a killed program leaves is offered at the next start.

Each window has its own file and a lock beside it. A lock that nobody living holds says that its window is gone; the
system tells that, on every platform, however it ended.
"""

from __future__ import annotations

import json
import os
import secrets
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from PySide6.QtCore import QLockFile

_TAIL = ".typing.json"


@dataclass(frozen=True, slots=True)
class HalfTyped:
    """A text nobody stored yet, and what it is meant for, in words."""

    meant_for: str
    text: str


class TypingFile:
    """The texts being typed in one window; ``folder`` is the user's own."""

    def __init__(self, folder: Path) -> None:
        self._path = folder / f"{os.getpid()}-{secrets.token_hex(4)}{_TAIL}"
        self._lock: QLockFile | None = None

    def write(self, project: Path, texts: Sequence[HalfTyped]) -> None:
        """Write what stands half typed now, whole or not at all; nothing half typed takes the file away.

        It need not outlive a power cut, only the program: it is not waited for until it is on the disk. Raises OSError.
        """
        if not texts:
            self._path.unlink(missing_ok=True)
            return
        if self._lock is None:
            self._path.parent.mkdir(parents=True, exist_ok=True)
            self._lock = _locked(self._path)
        told = {"file": str(project), "texts": [[one.meant_for, one.text] for one in texts]}
        part = self._path.with_suffix(".part")
        part.write_text(json.dumps(told), encoding="utf-8")
        part.replace(self._path)

    def end(self) -> None:
        """The window closes: nothing is half typed any more. Raises OSError."""
        self._path.unlink(missing_ok=True)
        if self._lock is not None:
            self._lock.unlock()
            self._lock = None


@dataclass(frozen=True, slots=True)
class Left:
    """What windows that are gone left half typed in one project, with the files it stands in."""

    texts: tuple[HalfTyped, ...]
    _files: tuple[Path, ...]

    def settled(self) -> None:
        """It lies where it can be found now: the files go. Raises OSError."""
        for path in self._files:
            path.unlink(missing_ok=True)


def left_in(folder: Path, project: Path) -> Left:
    """What windows that are gone left half typed in a project; files of living windows are not touched."""
    texts: list[HalfTyped] = []
    files = []
    for path, meant, found in _left(folder):
        if _is_meant(meant, project):
            texts += found
            files.append(path)
    return Left(tuple(dict.fromkeys(texts)), tuple(files))


def _left(folder: Path) -> Iterator[tuple[Path, Path, list[HalfTyped]]]:
    for path in sorted(folder.glob(f"*{_TAIL}")):
        lock = _locked(path)
        if lock is None:
            continue
        try:
            told = json.loads(path.read_text(encoding="utf-8"))
            texts = [HalfTyped(str(meant), str(text)) for meant, text in told["texts"]]
            yield path, Path(str(told["file"])), texts
        except (OSError, ValueError, KeyError, TypeError):
            pass  # not a file of ours, or taken meanwhile: left as it is
        finally:
            lock.unlock()


def _is_meant(meant: Path, project: Path) -> bool:
    """The same file, or one of its name where the one meant is gone: it was moved."""
    return meant == project or (meant.name == project.name and not meant.exists())


def _locked(path: Path) -> QLockFile | None:
    lock = QLockFile(str(path.with_suffix(".lock")))
    lock.setStaleLockTime(0)  # a living window may stand open for days
    return lock if lock.tryLock(0) else None
