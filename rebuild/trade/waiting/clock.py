"""How a clock stands: in the bath since, recoat between, cures until, re-torque after. Words only; nothing nags."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from enum import Enum

from rebuild.trade.results.door import door
from rebuild.trade.sizes.amounts import show_minutes
from rebuild.words.waiting import ClockKind


class Standing(Enum):
    """How far a clock is."""

    RUNNING = "running"
    NOW = "now"
    OVER = "over"


@dataclass(frozen=True, slots=True)
class ClockWords:
    """How a clock stands at a moment; ``due`` is when it may be seen to, ``latest`` when it must have been."""

    standing: Standing
    words: str
    due: dt.datetime | None
    latest: dt.datetime | None


#: Words of each kind: (before its time, in its time, past its latest time).
_WORDS: dict[str, tuple[str, str, str]] = {
    ClockKind.BATH: ("look in from {due}", "look in: due since {due}", "meant to be out by {latest}, {over} ago"),
    ClockKind.RECOAT: (
        "recoat from {due}, in {left}",
        "recoat now{until}",
        "recoat window closed {latest}, {over} ago: rub down first, as the tin says",
    ),
    ClockKind.CURE: ("cures until {due}, {left} left", "cured since {due}", "cured since {due}"),
    ClockKind.RETORQUE: ("re-torque from {due}, in {left}", "re-torque: due since {due}", "re-torque: due since {due}"),
    ClockKind.RELEVEL: ("re-level from {due}, in {left}", "re-level: due since {due}", "re-level: due since {due}"),
    ClockKind.LOOK: ("look again from {due}, in {left}", "look again: due since {due}", "look again: due since {due}"),
}  # fmt: skip


def _after(started: dt.datetime, minutes: float) -> dt.datetime:
    """So long after a start; what lies beyond every calendar is at its end."""
    try:
        return started + dt.timedelta(minutes=minutes)
    except OverflowError:
        return started.replace(year=dt.MAXYEAR if minutes > 0 else dt.MINYEAR, month=1, day=1)


@door()
def read_clock(
    kind: str, started: dt.datetime, low_min: float | None, high_min: float | None, now: dt.datetime
) -> ClockWords:
    """How a clock of ``kind`` started at ``started`` stands at ``now``.

    >>> at = dt.datetime(2026, 3, 14, 8, 0)
    >>> read_clock("cure", at, 720, None, at + dt.timedelta(hours=7)).words
    'cures until 14 Mar 20:00, 5 h left'
    >>> read_clock("in the bath", at, None, None, at + dt.timedelta(days=3)).words
    'in the bath since 14 Mar 08:00, 3 d'
    """
    due = None if low_min is None else _after(started, low_min)
    latest = None if high_min is None else _after(started, high_min)
    standing = _standing(due, latest, now)
    since = f"{kind} since {show_when(started, now)}, {ago(started, now)}" if kind == ClockKind.BATH else ""
    if due is None and latest is None:
        return ClockWords(standing, since or f"{kind} since {show_when(started, now)}", None, None)
    place = (Standing.RUNNING, Standing.NOW, Standing.OVER).index(standing)
    words = _WORDS[kind][place].format(
        due=show_when(due or started, now),
        latest=show_when(latest or started, now),
        left=ago(now, due or started),
        over=ago(latest or started, now),
        until=f", until {show_when(latest, now)}" if latest else "",
    )
    if due is None and standing is Standing.NOW:
        words = f"until {show_when(latest or started, now)}"
    return ClockWords(standing, f"{since}; {words}" if since else words, due, latest)


def _standing(due: dt.datetime | None, latest: dt.datetime | None, now: dt.datetime) -> Standing:
    if latest is not None and now > latest:
        return Standing.OVER
    if due is not None and now < due:
        return Standing.RUNNING
    if due is None and latest is None:
        return Standing.RUNNING
    return Standing.NOW


def show_when(moment: dt.datetime, now: dt.datetime) -> str:
    """A moment near ``now``: without the year when it is the same one, the day alone at midnight.

    >>> now = dt.datetime(2026, 3, 14, 8)
    >>> show_when(dt.datetime(2026, 3, 14, 20), now), show_when(dt.datetime(2027, 1, 2), now)
    ('14 Mar 20:00', '2 Jan 2027')
    """
    day = f"{moment.day} {MONTHS[moment.month - 1]}" + ("" if moment.year == now.year else f" {moment.year}")
    return day if (moment.hour, moment.minute) == (0, 0) else f"{day} {moment:%H:%M}"


MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def ago(earlier: dt.datetime, later: dt.datetime) -> str:
    """How long from one moment to another: ``3 d``, ``5 h``; never less than nothing, whole days from ten on.

    >>> at = dt.datetime(2026, 3, 14, 8)
    >>> ago(at, at + dt.timedelta(hours=5)), ago(at, at + dt.timedelta(days=10.7)), ago(at, at - dt.timedelta(days=1))
    ('5 h', '10 d', '0 min')
    """
    minutes = max(0.0, (later - earlier).total_seconds() / 60.0)
    return f"{minutes // 1440:.0f} d" if minutes >= 14_400 else show_minutes(minutes)
