"""Which kinds of feature a worked-out size belongs on, told from its label; common practice, no source."""

from __future__ import annotations

import re

from rebuild.words.readings import FeatureKind as Kind

_ROUND = frozenset({Kind.OUTSIDE_DIAMETER, Kind.BORE})
_SLOT = frozenset({Kind.WIDTH, Kind.KEYWAY, Kind.GAP})
#: The first line that is in the label decides; a label of none of them may go anywhere.
_SUITS: tuple[tuple[str, frozenset[Kind]], ...] = (
    (r"screw, |nut, |thread|wires", frozenset({Kind.THREAD}) | _ROUND),
    (r"pitch circle", frozenset()),
    (r"neighbours|hole \d+, [xy]", frozenset({Kind.LENGTH})),
    (r"span|over .* pins", frozenset({Kind.GEAR}) | _ROUND),
    (r"over rollers", frozenset({Kind.WIDTH, Kind.WAY})),
    (r"taper|gauge diameter", frozenset({Kind.TAPER}) | _ROUND),
    (r"across the", frozenset({Kind.DEPTH, Kind.KEYWAY, Kind.HEIGHT})),
    (r"width|throat|key in the", _SLOT),
    (r"depth", frozenset({Kind.DEPTH, Kind.KEYWAY})),
    (r"height", frozenset({Kind.HEIGHT, Kind.KEYWAY, Kind.WIDTH})),
    (r"groove diameter", _ROUND),
    (r"^shaft|outside", frozenset({Kind.OUTSIDE_DIAMETER, Kind.GEAR})),
    (r"hole|bore|housing", frozenset({Kind.BORE})),
    (r"dowel|minor diameter", frozenset({Kind.OUTSIDE_DIAMETER})),
)


def suits(label: str, kind: Kind) -> bool:
    """Whether limits of this label belong on a feature of this kind; one of no told kind takes anything.

    >>> suits("pitch circle", Kind.DEPTH), suits("hole 25 mm H7", Kind.BORE), suits("size", Kind.GAP)
    (False, True, True)
    """
    if kind is Kind.OTHER:
        return True
    for words, kinds in _SUITS:
        if re.search(words, label):
            return kind in kinds
    return True
