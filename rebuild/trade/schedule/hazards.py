"""What a part is suspected to hold, from what was written of it: to be tested before it is worked.

The words say *suspected*, nothing more; a laboratory says what it is. Asbestos, lead in paint, mercury and
unknown fluids fall under the codes of the place and, where those ask for it, licensed people.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache


@dataclass(frozen=True, slots=True)
class Hazard:
    """What is suspected, how it is spoken of, and what to do before any work."""

    word: str
    pattern: re.Pattern[str]
    test: str


HAZARDS = (
    Hazard("asbestos", re.compile(r"asbestos", re.I), "Have it tested for asbestos, wetted and bagged"),
    Hazard("lead", re.compile(r"\blead(ed)?[ -](based )?(paint|primer)|\bred lead", re.I),
           "Test the paint for lead"),
    Hazard("mercury", re.compile(r"mercury", re.I), "Find out whether it holds mercury, unopened"),
    Hazard("fluid", re.compile(r"\bunknown (fluid|oil|liquid|coolant)", re.I),
           "Find out what the fluid is, undrained"),
)  # fmt: skip
_CLEARED = re.compile(
    r"(no|not|without|free (of|from)|tested for|tested:?|cleared of) \w*\s?(asbestos|lead|mercury)|"
    r"(asbestos|lead|mercury)[- ]free|(asbestos|lead|mercury)[^.;]{0,20}(tested|not found|negative)",
    re.I,
)
_TEST = re.compile(r"\b(test|tested|sample|laborator|find out|analys)", re.I)


@lru_cache(maxsize=20_000)
def suspected(text: str) -> tuple[Hazard, ...]:
    """What a text says a part may hold.

    >>> [hazard.word for hazard in suspected("lining may hold asbestos: wetted, double bag")]
    ['asbestos']
    >>> suspected("lining, asbestos-free"), suspected("leadscrew")
    ((), ())
    """
    found = tuple(hazard for hazard in HAZARDS if hazard.pattern.search(text))
    return () if found and _CLEARED.search(text) else found


def tests_for(title: str, hazard: Hazard) -> bool:
    """Whether a step by this title is the test for a hazard.

    >>> tests_for("Send a lining sample to be tested for asbestos", HAZARDS[0])
    True
    >>> tests_for("Clutch out, wetted", HAZARDS[0])
    False
    """
    return bool(_TEST.search(title)) and hazard.word in title.lower()
