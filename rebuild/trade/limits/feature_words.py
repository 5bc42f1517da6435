"""What is measured on a part, told from the words its feature is called by, and held against a fit letter.

Which word means which is common practice, no source. That capital letters are tolerance classes of holes and small
ones of shafts: ISO 286-1:2010, 4.1.
"""

from __future__ import annotations

import re

from rebuild.words.readings import FeatureKind as Kind

#: The first line with a word of the name decides; so "bore depth" is a depth, "thread runout" a runout.
_WORDS: tuple[tuple[str, Kind], ...] = (
    (r"lost motion|backlash", Kind.LOST_MOTION),
    (r"end play|end float", Kind.END_PLAY),
    (r"runout|run-out|run out", Kind.RUNOUT),
    (r"straight(?:ness)?", Kind.STRAIGHTNESS),
    (r"flat(?:ness)?", Kind.FLAT),
    (r"depth", Kind.DEPTH),
    (r"width|thickness", Kind.WIDTH),
    (r"length", Kind.LENGTH),
    (r"height", Kind.HEIGHT),
    (r"keyway|keyseat", Kind.KEYWAY),
    (r"thread", Kind.THREAD),
    (r"taper", Kind.TAPER),
    (r"gap", Kind.GAP),
    (r"bore|hole|id|i\.d\.|inside diameter|inside dia", Kind.BORE),
    (r"od|o\.d\.|outside|outside diameter|outside dia|journal|shank|spigot|pin", Kind.OUTSIDE_DIAMETER),
    (r"gear|teeth", Kind.GEAR),
)
_CLASS = re.compile(r"\d\s*([A-Za-z]{1,2})\d{1,2}\b")


def kind_in(name: str) -> Kind | None:
    """The kind a feature's name tells, or None.

    >>> kind_in("Bore"), kind_in("front journal"), kind_in("oil hole depth"), kind_in("face")
    (<FeatureKind.BORE: 'bore'>, <FeatureKind.OUTSIDE_DIAMETER: 'outside diameter'>, <FeatureKind.DEPTH: 'depth'>, None)
    """
    plain = name.strip().lower()
    for words, kind in _WORDS:
        if re.search(rf"(?<![\w.])(?:{words})(?![\w.])", plain):
            return kind
    return None


def letter_disagrees(kind: Kind, spec: str) -> str:
    """Why a tolerance class does not suit a diameter of this kind; empty when it does, or names no class.

    >>> letter_disagrees(Kind.OUTSIDE_DIAMETER, "25 H7")
    'H7 is a class of holes, but this is an outside diameter.'
    >>> letter_disagrees(Kind.BORE, "25 H7"), letter_disagrees(Kind.WIDTH, "8 N9")
    ('', '')
    """
    found = _CLASS.search(spec)
    if found is None or kind not in (Kind.OUTSIDE_DIAMETER, Kind.BORE):
        return ""
    hole = found[1][0].isupper()
    if hole == (kind is Kind.BORE):
        return ""
    called = found[0][1:].strip()
    what = (
        "a class of holes, but this is an outside diameter"
        if hole
        else "a class of shafts, but this is a bore"
    )
    return f"{called} is {what}."
