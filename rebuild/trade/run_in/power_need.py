"""Which steps put power on: the motor alone, or the whole machine. Common practice, no source."""

from __future__ import annotations

import re
from enum import StrEnum
from functools import lru_cache

from rebuild.words.steps import TaskKind


class PowerNeed(StrEnum):
    """How much of the machine runs when a step is done."""

    NONE = "none"
    MOTOR_ALONE = "motor alone"
    WHOLE = "the machine"


#: No title speaks of power without one of these, in letters of any size.
POWER_WORDS = ("first start", "power", "switch", "run")
_POWER = re.compile(
    r"\bfirst (?:power|run|start)\b|\bpower(?:ed|ing)?\b(?: \w+){0,3} (?:on|up)\b|\bunder power\b"
    r"|\bswitch(?:ed|ing)?\b(?: \w+){0,3} on\b|\brun(?:ning)?[ -]in\b"
)
_ALONE = re.compile(r"\bmotor alone\b|\bbelts?\b(?: and \w+)? off\b|\bwithout (?:the )?belts?\b")
#: No title speaks of the motor alone without one of these.
ALONE_WORDS = ("alone", "belt")
_NOT_YET = re.compile(r"\bbefore (?:first )?power\b|\bpower (?:is )?off\b")


@lru_cache(maxsize=20_000)
def power_need(title: str, kind: str) -> PowerNeed:
    """What a step runs, from its kind and its own words; every step of commissioning runs something.

    >>> power_need("First power: lowest speed", "other").value
    'the machine'
    >>> power_need("Prove direction with belt off", "commission").value
    'motor alone'
    >>> power_need("Walk round before power", "inspect").value
    'none'
    """
    plain = title.lower()
    if kind != TaskKind.COMMISSION and (_NOT_YET.search(plain) or not _POWER.search(plain)):
        return PowerNeed.NONE
    return PowerNeed.MOTOR_ALONE if _ALONE.search(plain) else PowerNeed.WHOLE
