"""What kind of instrument its name tells. Which word means which is common practice, no source."""

from __future__ import annotations

import re

from rebuild.words.readings import InstrumentKind as Kind

#: The first line with a word of the name decides: a bore gauge with a dial is a bore gauge.
_WORDS: tuple[tuple[str, Kind], ...] = (
    (r"telescop\w*|snap gau?ges?", Kind.TELESCOPING_GAUGE),
    (r"small[- ]hole", Kind.SMALL_HOLE_GAUGE),
    (r"bore gau?ge|dial bore", Kind.BORE_GAUGE),
    (r"wires?", Kind.THREAD_WIRES),
    (r"inside mic\w*", Kind.INSIDE_MICROMETER),
    (r"depth mic\w*", Kind.DEPTH_MICROMETER),
    (r"mic|mike|micrometer", Kind.OUTSIDE_MICROMETER),
    (r"height gau?ge", Kind.HEIGHT_GAUGE),
    (r"gau?ge blocks?", Kind.GAUGE_BLOCKS),
    (r"feelers?", Kind.FEELER),
    (r"calipers?", Kind.CALIPER),
    (r"test indicator|lever indicator", Kind.TEST_INDICATOR),
    (r"indicator|dial", Kind.DIAL_INDICATOR),
    (r"level", Kind.LEVEL),
    (r"autocollimator", Kind.AUTOCOLLIMATOR),
    (r"crushable", Kind.CRUSHABLE_STRIP),
    (r"rule", Kind.RULE),
)


def instrument_in(name: str) -> Kind | None:
    """The kind an instrument's name tells, or None.

    >>> instrument_in("Telescoping gauge 1/2-3/4"), instrument_in("0-1 mic").value
    (<InstrumentKind.TELESCOPING_GAUGE: 'telescoping gauge and micrometer'>, 'outside micrometer')
    >>> instrument_in("Dial bore gauge"), instrument_in("the good one")
    (<InstrumentKind.BORE_GAUGE: 'bore gauge'>, None)
    """
    plain = name.strip().lower()
    for words, kind in _WORDS:
        if re.search(rf"(?<!\w)(?:{words})(?!\w)", plain):
            return kind
    return None
