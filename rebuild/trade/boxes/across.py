"""Across what a size of a thing goes: an inside, an outside, or along it, by the words that go with it."""

from __future__ import annotations

import re

from rebuild.words.boxes import SizeOf
from rebuild.words.readings import FeatureKind

_KINDS = {
    FeatureKind.OUTSIDE_DIAMETER: SizeOf.OUTSIDE,
    FeatureKind.BORE: SizeOf.INSIDE,
    FeatureKind.WIDTH: SizeOf.ALONG,
    FeatureKind.DEPTH: SizeOf.ALONG,
    FeatureKind.LENGTH: SizeOf.ALONG,
    FeatureKind.HEIGHT: SizeOf.ALONG,
}
#: Words of a size, common practice, no source. Those of a length come first: "length of bore" is a length.
_WORDS = (
    (SizeOf.ALONG, ("length", "long", "width", "wide", "thickness", "thick", "depth", "deep", "height", "high")),
    (SizeOf.INSIDE, ("bore", "bored", "hole", "inside", "id")),
    (SizeOf.OUTSIDE, ("outside", "od", "journal", "shank")),
)  # fmt: skip


def across(words: str) -> SizeOf | None:
    """Across what a size goes by its words; None when they do not say.

    >>> [across(words) for words in ("bore", "outside diameter", "24.98 long", "length of bore", "across the flats")]
    [<SizeOf.INSIDE: 'inside'>, <SizeOf.OUTSIDE: 'outside'>, <SizeOf.ALONG: 'along'>, <SizeOf.ALONG: 'along'>, None]
    """
    said = set(re.findall(r"[^\W\d_]+", words.casefold()))
    return next((of for of, names in _WORDS if said & set(names)), None)


def across_feature(kind: FeatureKind, name: str) -> SizeOf | None:
    """Across what a feature is measured: its kind says it, else its name.

    >>> across_feature(FeatureKind.OUTSIDE_DIAMETER, "front journal"), across_feature(FeatureKind.OTHER, "thickness")
    (<SizeOf.OUTSIDE: 'outside'>, <SizeOf.ALONG: 'along'>)
    """
    return _KINDS.get(kind) or across(name)
