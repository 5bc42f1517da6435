"""A camera's clock against the shop's: off by one amount for each camera, found from one photo whose time is known."""

from __future__ import annotations

import datetime as dt

from rebuild.errors import OutOfRange

#: Cameras are set wrong by hours, days, or have lost their date; a clock off by more is no clock [s].
MOST_S = 40 * 366 * 86_400.0
#: A clock that was never set begins at the first of January; photos of its first days tell nothing.
_UNSET_DAYS = 3
FIRST_YEAR = 1995


def fast_by(camera: dt.datetime, shop: dt.datetime) -> float:
    """How many seconds a camera is ahead of the shop, from one photo's time on both clocks.

    Raises:
        OutOfRange: they lie further apart than any clock.

    >>> fast_by(dt.datetime(2026, 5, 2, 20, 15), dt.datetime(2026, 5, 2, 19, 15))
    3600.0
    """
    ahead = (camera - shop).total_seconds()
    if abs(ahead) > MOST_S:
        raise OutOfRange(
            "lies more than 40 years from the camera’s own.",
            where="Time",
            value=f"{shop:%Y-%m-%d %H:%M}",
            way_out="Look at the year.",
        )
    return ahead


def ahead_words(fast_s: float) -> str:
    """How a camera's clock stands to the shop's.

    >>> ahead_words(3600.0), ahead_words(-90.0), ahead_words(0.0), ahead_words(93_600.0)
    ('1 h fast', '1 min 30 s slow', 'right', '1 d 2 h fast')
    """
    left, words = round(abs(fast_s)), []
    for unit, long_s in (("d", 86_400), ("h", 3_600), ("min", 60), ("s", 1)):
        many, left = divmod(left, long_s)
        words += [f"{many} {unit}"] if many else []
    return f"{' '.join(words)} {'fast' if fast_s > 0 else 'slow'}" if words else "right"


def shop_time(camera: dt.datetime | None, fast_s: float) -> dt.datetime | None:
    """When a photo was taken on the shop's clock; None for one without a date.

    >>> shop_time(dt.datetime(2026, 5, 2, 20, 15), 3600.0)
    datetime.datetime(2026, 5, 2, 19, 15)
    """
    return None if camera is None else camera - dt.timedelta(seconds=fast_s)


def doubt(taken: dt.datetime | None, now: dt.datetime) -> str:
    """Why a photo's time cannot be believed; empty when it can.

    >>> doubt(dt.datetime(2001, 1, 1, 0, 4), dt.datetime(2026, 5, 2))
    'is dated 2001-01-01: its clock was not set'
    >>> doubt(dt.datetime(2026, 5, 1), dt.datetime(2026, 5, 2))
    ''
    """
    if taken is None:
        return "carries no date"
    if taken > now + dt.timedelta(minutes=10):
        return f"is dated {taken:%Y-%m-%d %H:%M}, which is still to come"
    unset = taken.month == 1 and taken.day <= _UNSET_DAYS and taken.year < now.year
    if taken.year < FIRST_YEAR or (unset and (now - taken).days > 366):
        return f"is dated {taken:%Y-%m-%d}: its clock was not set"
    return ""
