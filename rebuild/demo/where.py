"""Where the demo lies, and making it when it is not there; a user's own edits are never written over."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable
from pathlib import Path


def demo_path() -> Path:
    """The demo file of this program: its name carries version and edition, so an older one stays as it is."""
    from platformdirs import user_data_path

    from rebuild import __version__
    from rebuild.demo.build import EDITION

    return user_data_path("rebuild", appauthor=False) / f"demo {__version__}-{EDITION}.rebuild"


def ensure_demo(path: Path, progress: Callable[[str], None] | None = None) -> bool:
    """Build the demo at ``path`` unless a file is there; True when it was built now. Raises FileTrouble.

    It is built under another name and renamed when whole, so a build cut short leaves nothing that
    looks like a demo.
    """
    if path.exists():
        return False
    from rebuild.demo.build import build_demo
    from rebuild.store.photo_copies import move_photos
    from rebuild.store.photos import photo_folder

    unfinished = path.with_name(f"{path.stem} being made by {os.getpid()}{path.suffix}")
    for left_over in _with_side_files(unfinished):
        left_over.unlink(missing_ok=True)
    try:
        build_demo(unfinished, progress)
        if path.exists():
            return False
        move_photos(unfinished, path)
        unfinished.rename(path)
    finally:
        for left_over in _with_side_files(unfinished):
            left_over.unlink(missing_ok=True)
        shutil.rmtree(photo_folder(unfinished), ignore_errors=True)
    return True


def _with_side_files(path: Path) -> tuple[Path, ...]:
    return (path, path.with_name(f"{path.name}-wal"), path.with_name(f"{path.name}-shm"))
