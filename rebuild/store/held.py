"""Entries held in memory while the open file is not at its path: given to the file they go on in, or written out."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True, slots=True)
class Held:
    """What was typed, what it was meant for, and why it could not be stored there."""

    meant_for: str
    typed: str
    why: str


def write_out(held: Iterable[Held], beside: Path) -> Path:
    """Write held entries as plain text, in the file's folder or, when that is gone, the user's own.

    Raises:
        OSError: neither folder may be written.
    """
    stamp = dt.datetime.now().strftime("%Y-%m-%d %H%M%S")  # noqa: DTZ005 - a local wall-clock name
    text = "".join(f"{one.meant_for}: {one.typed}\n    {one.why}\n" for one in held)
    for folder in (beside.parent, Path.home()):
        target = folder / f"{beside.stem} not stored {stamp}.txt"
        try:
            target.write_text(text, encoding="utf-8")
        except OSError:
            if folder == Path.home():
                raise
        else:
            return target
    raise OSError("no folder to write to")
