"""What a part wants done to its surface, from what is noted of its condition and finish.

A rule of thumb over words, not a table: common practice, no source. A person looks before he begins.
"""

from __future__ import annotations

import re

from rebuild.words.treatments import Treatment

_NOT = r"(?<!no )(?<!not )(?<!free of )(?<!without )"
_DIRTY = re.compile(
    rf"{_NOT}\b(dirty|filthy|greasy|grease|caked|gummed|oily|oil-soaked|soaked in oil|swarf|sludge)", re.I
)
_RUSTY = re.compile(rf"{_NOT}\b(rusty|rusted|rust\b|corroded)(?!-free)", re.I)
_OLD_PAINT = re.compile(rf"{_NOT}\b(over|re)?paint(ed)?\b", re.I)
_KEPT_PAINT = re.compile(
    r"paint(work)?\s+(is\s+)?(good|sound|kept|stays|to stay)|unpainted|not painted", re.I
)
_COAT = re.compile(r"\b(paint|painted|enamel|lacquer|gloss|satin|topcoat|hammered)", re.I)
_PRIMED_ONLY = re.compile(r"\bprimer\b|\bprimed\b", re.I)
_BARE = re.compile(r"\b(bare|bright|blued|oiled|polished|plated|chromed|no paint|unpainted|as it is)\b", re.I)


def wanted(condition: str, finish: str) -> tuple[Treatment, ...]:
    """What is to be done, in order; a part of which nothing is noted wants nothing.

    Old paint is stripped and painted again unless the finish says it stays bare. Paint and rust come off clean iron.

    >>> [str(one) for one in wanted("caked in swarf, light rust", "bare")]
    ['degrease', 'de-rust']
    >>> [str(one) for one in wanted("paint flaking, greasy", "grey enamel")]
    ['degrease', 'strip', 'prime', 'paint']
    >>> wanted("sound, no rust", ""), wanted("bore worn", "bare")
    ((), ())
    """
    painted = bool(_OLD_PAINT.search(condition)) and not _KEPT_PAINT.search(condition)
    rusty = bool(_RUSTY.search(condition))
    bare = bool(_BARE.search(finish))
    coat = not bare and (bool(_COAT.search(finish)) or (painted and not finish.strip()))
    found = {
        Treatment.DEGREASE: bool(_DIRTY.search(condition)) or painted or rusty or coat,
        Treatment.STRIP: painted,
        Treatment.DERUST: rusty,
        Treatment.PRIME: coat or (not bare and bool(_PRIMED_ONLY.search(finish))),
        Treatment.PAINT: coat,
    }
    return tuple(one for one, is_wanted in found.items() if is_wanted)
