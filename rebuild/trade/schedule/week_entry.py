"""The hours of a day as typed: ``19:00-21:30, 9-12``."""

from __future__ import annotations

import itertools
import re
from collections.abc import Sequence

from rebuild.errors import BadEntry
from rebuild.trade.schedule.week import Spell
from rebuild.trade.sizes.number import read_whole

DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
#: Taken until the owner says otherwise; shown as such.
ASSUMED = (Spell(1, 19 * 60, 21 * 60), Spell(3, 19 * 60, 21 * 60), Spell(5, 9 * 60, 12 * 60))
_SPELL = re.compile(r"(\d{1,2})(?:[:.](\d{2}))?\s*(?:-|to)\s*(\d{1,2})(?:[:.](\d{2}))?")
_WAYS = "Type it as 19:00-21:30, several with commas between, or leave it empty."


def parse_day(text: str, weekday: int) -> tuple[Spell, ...]:
    """The spells of one weekday as typed: ``19:00-21:30, 9-12``.

    Raises:
        BadEntry: not spells, or they overlap.

    >>> [(spell.start_min, spell.end_min) for spell in parse_day("9-12, 19:30-21", 5)]
    [(540, 720), (1170, 1260)]
    """
    spells = []
    for part in filter(None, (piece.strip() for piece in text.replace("–", "-").split(","))):
        match = _SPELL.fullmatch(part)
        if not match:
            raise BadEntry("is not hours of a day.", where=DAYS[weekday], value=part, way_out=_WAYS)
        hours, minutes, *ends = (read_whole(part or "0", DAYS[weekday]) for part in match.groups())
        start, end = hours * 60 + minutes, ends[0] * 60 + ends[1]
        if not 0 <= start < end <= 24 * 60:
            raise BadEntry("does not end after it begins.", where=DAYS[weekday], value=part, way_out=_WAYS)
        spells.append(Spell(weekday, start, end))
    spells.sort(key=lambda spell: spell.start_min)
    for first, second in itertools.pairwise(spells):
        if second.start_min < first.end_min:
            raise BadEntry("holds spells that overlap.", where=DAYS[weekday], value=text, way_out=_WAYS)
    return tuple(spells)


def show_day(spells: Sequence[Spell]) -> str:
    """Spells of one day as they would be typed.

    >>> show_day(parse_day("9-12, 19:30-21", 5))
    '9:00-12:00, 19:30-21:00'
    """
    return ", ".join(f"{_clock(spell.start_min)}-{_clock(spell.end_min)}" for spell in spells)


def _clock(minutes: int) -> str:
    return f"{minutes // 60}:{minutes % 60:02d}"
