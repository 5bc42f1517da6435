"""Which work makes a noise that is heard next door: by its words, else by its kind. Common practice, no source."""

from __future__ import annotations

import re

from rebuild.words.steps import TaskKind

_LOUD = re.compile(
    r"\b(hammer|grind|drill|saw|mill|turn|bore|plane|shape|press|drive (in|out)|knock|wire wheel|air|blast|compressor|"
    r"needle|weld|run|power|ream)(s|ed|ing|ning|ding|ling)?\b",
    re.I,
)
_BY_HAND = re.compile(r"\bby hand\b|\bhand[- ]?(ream|drill)", re.I)
_QUIET = re.compile(r"\b(scrape|scraping|stone|blue|bluing|lap|measure|oil|clean)", re.I)
_QUIET_KINDS = (TaskKind.MEASURE, TaskKind.INSPECT, TaskKind.DECIDE, TaskKind.BUY)
_LOUD_KINDS = (TaskKind.MAKE, TaskKind.REWORK, TaskKind.COMMISSION)


def is_loud(title: str, kind: TaskKind) -> bool:
    """Whether work by this title is heard next door.

    >>> is_loud("Grind the reamer", TaskKind.OTHER), is_loud("Scrape the dovetail", TaskKind.REWORK)
    (True, False)
    >>> is_loud("Make the bush", TaskKind.MAKE), is_loud("Measure the bore", TaskKind.MEASURE)
    (True, False)
    """
    if kind in _QUIET_KINDS or _BY_HAND.search(title):
        return False
    return bool(_LOUD.search(title)) or (kind in _LOUD_KINDS and not _QUIET.search(title))
