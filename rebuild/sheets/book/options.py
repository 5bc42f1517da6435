"""What a book holds besides what it always holds."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Callable
from dataclasses import dataclass

from rebuild.errors import RebuildError

#: A file system takes 255 bytes; an ending and a number must still fit [bytes].
LONGEST = 200
#: Hears how far a book is (0 to 1) and a few words; False stops it.
Progress = Callable[[float, str], bool]


class Cancelled(RebuildError):
    """The book was stopped before it was whole; nothing was written."""


@dataclass(frozen=True, slots=True)
class BookOptions:
    """The choices. ``printed`` goes on the title page; without it the same file gives the same book for ever."""

    cost: bool = False
    photos: bool = False
    log: bool = True
    paper: str = "A4"
    printed: dt.date | None = None


def file_name(name: str) -> str:
    """A machine's name as a file's: what a file name cannot hold is left out, and too long a one is cut.

    >>> file_name('16" shaper: no. 2/3')
    '16 shaper no. 23'
    """
    clean = re.sub(r'[<>:"/\\|?*\x00-\x1f\ud800-\udfff]', "", name).strip(" .") or "machine"
    return clean.encode()[:LONGEST].decode(errors="ignore").strip(" .")
