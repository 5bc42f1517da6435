"""What a person must never read: a place holder, a float's whole tail, a plural of one, a unit said twice."""

from __future__ import annotations

import re
from functools import cache

_UNITS = r"mm|in|inches|µm|°C|°F|N·m|N m|lb-ft|h|min|days?|thou|kg|qt"
#: Words that end like a plural and are none, after a one: verbs, and nouns of the trade.
_NO_PLURALS = (
    r"(?:is|was|as|has|does|waits|stays|needs|gives|this|its|thus|us|across|class|pass|gas|boss|press|brass|less|"
    r"chamfers|plus|minus|glass|cross|loss|stands|of|mm|series|lens|conforms|holds|starves|touches|wants|goes|previous|radius|alone)"
)
PATTERNS = {
    "a place holder": re.compile(r"\{[a-z_ ]*\}"),
    "markup": re.compile(r"</?(?:b|i|br|p|span)\b[^>]*>"),
    "a float's tail": re.compile(r"\d\.\d{7,}"),
    "a plural of one": re.compile(
        rf"(?<![\d./,:x×+-])(?<!\+ )\b1 (?!{_NO_PLURALS}\b)(?:open )?[a-z]+[^s\W]s\b"
    ),
    "a unit said twice": re.compile(rf"(?<![\w.])\d[\d.]* ({_UNITS}) \1\b"),
}


def raw(text: str) -> list[str]:
    """What is raw in a text; most texts stand on many a page."""
    return list(_raw(text))


@cache
def _raw(text: str) -> tuple[str, ...]:
    return tuple(
        f"{what}: {found.group(0)!r}" for what, pattern in PATTERNS.items() if (found := pattern.search(text))
    )
