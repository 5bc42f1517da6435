"""Photos filed by tags: a photo of a tag, and those after it from the same camera, until the next tag."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

T = TypeVar("T")

#: A pause this long ends a run: the next evening's first photo is not of yesterday's last tag.
PAUSE = dt.timedelta(hours=4)


@dataclass(frozen=True, slots=True)
class Shot(Generic[T]):
    """One photo: its camera, when, its file's name, and what the tags on it stand for (empty: no tag)."""

    camera: str
    taken: dt.datetime | None
    file_name: str
    tags: tuple[T, ...] = ()


def _order(shot: Shot[T], *, dated: bool) -> tuple[str, str]:
    return (shot.taken.isoformat() if dated and shot.taken is not None else "", shot.file_name)


def filed(shots: Sequence[Shot[T]]) -> list[tuple[T, ...]]:
    """What each photo shows by the tags, in the order given; several tags on one photo are all shown.

    Each camera is followed by itself: in the order of its times, or of its file names where a time is missing.

    >>> shots = [Shot("a", None, "1", ("gib",)), Shot("a", None, "2"), Shot("b", None, "3")]
    >>> filed(shots)
    [('gib',), ('gib',), ()]
    """
    found: list[tuple[T, ...]] = [()] * len(shots)
    for camera in dict.fromkeys(shot.camera for shot in shots):
        mine = [(at, shot) for at, shot in enumerate(shots) if shot.camera == camera]
        dated = all(shot.taken is not None for _, shot in mine)
        mine.sort(key=lambda pair: _order(pair[1], dated=dated))
        current: tuple[T, ...] = ()
        before: dt.datetime | None = None
        for at, shot in mine:
            if shot.taken is not None and before is not None and shot.taken - before > PAUSE:
                current = ()
            current = shot.tags or current
            found[at] = current
            before = shot.taken
    return found
