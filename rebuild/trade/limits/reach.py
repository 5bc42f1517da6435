"""What an instrument can measure and how far it reaches: asked about before a value is believed.

Which instrument suits which feature is common practice, no source: an outside micrometer does not go into a
bore, and a 1 to 2 in micrometer cannot close on 0.743 in.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from rebuild.errors import BadEntry
from rebuild.trade.sizes.quantity import Size, parse_length
from rebuild.trade.sizes.show import show_length
from rebuild.words.readings import FeatureKind, InstrumentKind, Measures

_O, _I, _D, _S, _T = Measures

#: Kinds whose uses are known; one that is not here (an indicator, a feeler) is never asked about.
BY_KIND: dict[InstrumentKind, frozenset[Measures]] = {
    InstrumentKind.OUTSIDE_MICROMETER: frozenset({_O}),
    InstrumentKind.INSIDE_MICROMETER: frozenset({_I}),
    InstrumentKind.DEPTH_MICROMETER: frozenset({_D, _S}),
    InstrumentKind.CALIPER: frozenset({_O, _I, _D, _S}),
    InstrumentKind.BORE_GAUGE: frozenset({_I}),
    InstrumentKind.TELESCOPING_GAUGE: frozenset({_I}),
    InstrumentKind.SMALL_HOLE_GAUGE: frozenset({_I}),
    InstrumentKind.HEIGHT_GAUGE: frozenset({_S, _D}),
    InstrumentKind.THREAD_WIRES: frozenset({_T}),
    InstrumentKind.RULE: frozenset({_O, _I, _D, _S}),
}

#: What a feature wants, any one of them; a kind that is not here is not asked about.
WANTED: dict[FeatureKind, frozenset[Measures]] = {
    FeatureKind.OUTSIDE_DIAMETER: frozenset({_O}),
    FeatureKind.BORE: frozenset({_I}),
    FeatureKind.DEPTH: frozenset({_D}),
    FeatureKind.WIDTH: frozenset({_O, _I}),
    FeatureKind.LENGTH: frozenset({_O, _D, _S}),
    FeatureKind.HEIGHT: frozenset({_S, _O, _D}),
    FeatureKind.KEYWAY: frozenset({_I, _D, _O}),
    FeatureKind.THREAD: frozenset({_T, _O}),
}

#: Indicators compare, so their range is a travel and no size; a feeler that does not go in reads nothing at all.
_NO_RANGE = (
    InstrumentKind.DIAL_INDICATOR,
    InstrumentKind.TEST_INDICATOR,
    InstrumentKind.LEVEL,
    InstrumentKind.AUTOCOLLIMATOR,
    InstrumentKind.FEELER,
    InstrumentKind.CRUSHABLE_STRIP,
)
#: A thimble runs a little past its ends: this share of the range is not asked about.
OVER_RUN = 0.01

_INCHES, _METRIC = ("in", "thou"), ("mm", "µm", "cm", "m")
#: Half a division is commonly estimated between two lines; finer than that is asked about.
ESTIMATED = 0.5

_IN_NAME = re.compile(
    r"(?<![\d.])(\d+(?:\.\d+)?)\s*(?:-|–|to)\s*(\d+(?:\.\d+)?)(?![\d.])\s*(mm|in\b|inch(?:es)?|\")?", re.I
)


@dataclass(frozen=True, slots=True)
class Reach:
    """One instrument's ends [mm] and uses; ``None`` and an empty set mean not known."""

    name: str
    least_mm: float | None = None
    most_mm: float | None = None
    measures: frozenset[Measures] = frozenset()
    unit: str = ""  #: the unit its scale is in, mm or in; empty: not known
    resolution_mm: float | None = None
    kind: InstrumentKind = InstrumentKind.OTHER


#: What is read off a thimble, which has no fractions. Common practice, no source.
_MICROMETERS = frozenset({
    InstrumentKind.OUTSIDE_MICROMETER, InstrumentKind.INSIDE_MICROMETER, InstrumentKind.DEPTH_MICROMETER,
    InstrumentKind.TELESCOPING_GAUGE, InstrumentKind.SMALL_HOLE_GAUGE, InstrumentKind.THREAD_WIRES,
})  # fmt: skip


def reach_of(
    name: str,
    kind: InstrumentKind,
    unit: str,
    *,
    least_mm: float | None = None,
    most_mm: float | None = None,
    measures: str = "",
    scale: str | None = None,
    resolution_mm: float | None = None,
) -> Reach:
    """What is known of an instrument: its own fields first, then what its kind and its name tell.

    >>> reach = reach_of("1-2 in micrometer", InstrumentKind.OUTSIDE_MICROMETER, "in")
    >>> reach.least_mm, reach.most_mm
    (25.4, 50.8)
    """
    if kind in _NO_RANGE:
        least_mm = most_mm = None
    elif least_mm is None and most_mm is None:
        least_mm, most_mm = range_in(name, unit)
    uses = _known_uses(measures) or BY_KIND.get(kind, frozenset())
    return Reach(name, least_mm, most_mm, uses, _scale(name, unit, scale), resolution_mm, kind)


def _scale(name: str, unit: str, told: str | None) -> str:
    """The unit a scale is in: that of its resolution, else of the range in its name, else a unit chosen for it."""
    if told:
        return "in" if told in _INCHES else "mm" if told in _METRIC else ""
    found = _IN_NAME.search(name)
    if found is not None and found[3]:
        return "mm" if found[3].lower() == "mm" else "in"
    return "in" if unit == "in" else ""


@lru_cache(maxsize=512)
def range_in(name: str, unit: str) -> tuple[float | None, float | None]:
    """The range an instrument's name tells [mm], or two Nones.

    >>> range_in("Micrometer 50-75", "mm")
    (50.0, 75.0)
    >>> range_in("Level 0.02 mm/m", "mm")
    (None, None)
    """
    found = _IN_NAME.search(name)
    if found is None:
        return None, None
    used = found[3] or unit
    least, most = (parse_length(f"{text} {used}").mm for text in (found[1], found[2]))
    return (least, most) if least < most else (None, None)


def read_measures(text: str) -> frozenset[Measures]:
    """The uses typed, with commas between. Raises BadEntry for a word that is none.

    >>> sorted(read_measures("Outside, depth"))
    [<Measures.DEPTH: 'depth'>, <Measures.OUTSIDE: 'outside'>]
    """
    found = set()
    for word in filter(None, (part.strip().lower() for part in text.replace(";", ",").split(","))):
        meant = [use for use in Measures if use.value.startswith(word)]
        if len(meant) != 1:
            raise BadEntry(
                "is not something an instrument measures.",
                where="It measures",
                value=word,
                way_out=f"Type any of {', '.join(Measures)}.",
            )
        found.add(meant[0])
    return frozenset(found)


def _known_uses(stored: str) -> frozenset[Measures]:
    """What a stored text says an instrument measures; words that are none, in a file from elsewhere, say nothing."""
    try:
        return read_measures(stored)
    except BadEntry:
        return frozenset()


def finer_than(reach: Reach, sizes: Sequence[Size]) -> str:
    """Why a text can hardly have been read off this scale; empty when it can. Common practice, no source.

    >>> mic = Reach("Micrometer 50-75", unit="mm", resolution_mm=0.01)
    >>> finer_than(mic, [parse_length("59.971", "mm")])
    'is finer than Micrometer 50-75 reads, 0.010 mm.'
    >>> finer_than(mic, [parse_length("59.975", "mm")])
    ''
    >>> finer_than(Reach("1-2 in micrometer", unit="in", kind=InstrumentKind.OUTSIDE_MICROMETER),
    ...            [parse_length("1-1/4", "in")])
    'is a fraction, and 1-2 in micrometer reads decimals.'
    """
    for size in sizes:
        if "/" in size.text and reach.unit == "mm" and reach.kind is not InstrumentKind.RULE:
            return f"is a fraction of an inch, and {reach.name} reads in mm."
        if "/" in size.text and reach.kind in _MICROMETERS:
            return f"is a fraction, and {reach.name} reads decimals."
        if reach.resolution_mm and size.unit == reach.unit:
            steps = size.mm / (reach.resolution_mm * ESTIMATED)
            if abs(steps - round(steps)) > 1e-3:
                step = show_length(reach.resolution_mm, size.unit)
                return f"is finer than {reach.name} reads, {step}."
    return ""


def cannot(reach: Reach, kind: FeatureKind, value_mm: float, unit: str) -> str:
    """Why a value can hardly have been read with an instrument on a feature of this kind; empty when it can.

    >>> cannot(reach_of("1-2 in micrometer", InstrumentKind.OUTSIDE_MICROMETER, "in"), FeatureKind.OUTSIDE_DIAMETER,
    ...        18.8722, "in")
    'lies outside the range of 1-2 in micrometer, 1.0000 in to 2.0000 in.'
    """
    if _wrong_use(reach, kind):
        uses = " and ".join(sorted(reach.measures))
        return f"was read with {reach.name}, which measures {uses}; this is a {kind.value}."
    if ends := _beyond(reach, value_mm, unit):
        return f"lies outside the range of {reach.name}, {ends}."
    return ""


def unsuited(reach: Reach, kind: FeatureKind, size_mm: float | None, unit: str) -> str:
    """A sentence that an instrument does not suit a feature of this kind and size (None: not known); or nothing.

    >>> unsuited(reach_of("Micrometer 50-75", InstrumentKind.OUTSIDE_MICROMETER, "mm"),
    ...          FeatureKind.OUTSIDE_DIAMETER, 25.0, "mm")
    'Micrometer 50-75 reaches 50.000 mm to 75.000 mm; this is 25.000 mm.'
    """
    if _wrong_use(reach, kind):
        return f"{reach.name} measures {' and '.join(sorted(reach.measures))}; this is a {kind.value}."
    ends = _beyond(reach, size_mm, unit) if size_mm is not None else ""
    if ends and size_mm is not None:
        return f"{reach.name} reaches {ends}; this is {show_length(size_mm, unit)}."
    return ""


def _wrong_use(reach: Reach, kind: FeatureKind) -> bool:
    wanted = WANTED.get(kind)
    return wanted is not None and bool(reach.measures) and not wanted & reach.measures


def outside_reach(reach: Reach, kind: FeatureKind, value_mm: float) -> bool:
    """Whether ``cannot`` has something to say: its answer for many readings, without words.

    >>> mic = reach_of("1-2 in micrometer", InstrumentKind.OUTSIDE_MICROMETER, "in")
    >>> [outside_reach(mic, FeatureKind.OUTSIDE_DIAMETER, mm) for mm in (18.87, 30.0)]
    [True, False]
    """
    least, most = span(reach, kind)
    return not least <= abs(value_mm) <= most


def span(reach: Reach, kind: FeatureKind) -> tuple[float, float]:
    """The least and most size [mm], its sign aside, an instrument reads on a feature of a kind; none above infinity.

    >>> span(reach_of("1-2 in micrometer", InstrumentKind.OUTSIDE_MICROMETER, "in"), FeatureKind.BORE)
    (inf, -inf)
    """
    return (float("inf"), float("-inf")) if _wrong_use(reach, kind) else _with_room(reach)


def _reaches(reach: Reach, value_mm: float) -> bool:
    """Whether a size lies in the range, with a little room where the range has two ends."""
    least, most = _with_room(reach)
    return least <= abs(value_mm) <= most


def _with_room(reach: Reach) -> tuple[float, float]:
    least, most = reach.least_mm or 0.0, reach.most_mm if reach.most_mm is not None else float("inf")
    room = OVER_RUN * (most - least) if most != float("inf") else 0.0
    return least - room, most + room


def _beyond(reach: Reach, value_mm: float, unit: str) -> str:
    """The ends of the range when a value lies beyond them, else empty."""
    if (reach.least_mm is None and reach.most_mm is None) or _reaches(reach, value_mm):
        return ""
    least, most = reach.least_mm or 0.0, reach.most_mm if reach.most_mm is not None else float("inf")
    if most == float("inf"):
        return f"{show_length(least, unit)} and more"
    return f"{show_length(least, unit)} to {show_length(most, unit)}"
