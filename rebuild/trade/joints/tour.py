"""Which joints are not final, and in what order to walk round the machine to them.

Walk: front, right, rear, left, then on top, then underneath; at each stand from the top down. On a lathe the
headstock end is the left, the tailstock end the right. The user's own order stands above this one.
"""

from __future__ import annotations

import re
from collections.abc import Hashable, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

from rebuild.words.joints import Tightness
from rebuild.words.teardown import FastenerKind

K = TypeVar("K", bound=Hashable)

#: Tightness from apart to pinned; each is enough where an earlier one is wanted.
TIGHT: tuple[Tightness, ...] = tuple(Tightness)
STANDS = ("front", "right", "rear", "left", "on top", "underneath", "elsewhere")
_SIDE_WORDS = (
    ("underneath", r"under\w*|below|beneath|sump|pit"),
    ("rear", r"rear|back|behind"),
    ("front", r"front|operator\w*|apron"),
    ("right", r"right|tailstock|outboard"),
    ("left", r"left|headstock|end train"),
    ("on top", r"top|above|over\w*"),
)
_LEVELS = ((0, r"top|upper|high\w*|above|over\w*"), (2, r"bottom|lower|low|foot|feet|base"))

#: What a joint comes to in the end, by what holds it; common practice, and the user's to change.
_WANTED: dict[str, Tightness] = {
    FastenerKind.TAPER_PIN: Tightness.PINNED,
    FastenerKind.DOWEL: Tightness.PINNED,
    FastenerKind.ROLL_PIN: Tightness.PINNED,
    FastenerKind.RIVET: Tightness.PINNED,
    FastenerKind.KEY: Tightness.SNUG,
    FastenerKind.SET_SCREW: Tightness.LOCKED,
    FastenerKind.RING: Tightness.LOCKED,
}


@dataclass(frozen=True, slots=True)
class Stop(Generic[K]):
    """A joint on the walk: its words of place, and the user's own place of it if he gave one."""

    key: K
    location: str
    own: int | None = None


def stand_of(location: str) -> str:
    """Where one stands to reach a location, from its own words.

    >>> stand_of("headstock, rear cap"), stand_of("bed foot, tailstock end"), stand_of("HS-04")
    ('rear', 'right', 'elsewhere')
    """
    plain = location.lower()
    for stand, words in _SIDE_WORDS:
        if re.search(rf"\b(?:{words})\b", plain):
            return stand
    return "elsewhere"


def walk_key(location: str) -> tuple[int, int, str]:
    """Sorts locations into the walk: stand, then from the top down, then by their words.

    >>> sorted(["rear cap", "front, low", "front, top"], key=walk_key)
    ['front, top', 'front, low', 'rear cap']
    """
    plain = location.lower()
    level = next((number for number, words in _LEVELS if re.search(rf"\b(?:{words})\b", plain)), 1)
    return STANDS.index(stand_of(location)), level, plain


def walk(stops: Sequence[Stop[K]]) -> list[K]:
    """All stops in walking order; those without a place of the user's own join the last one of their stand.

    >>> walk([Stop("a", "rear"), Stop("b", "front, low"), Stop("c", "front, top")])
    ['c', 'b', 'a']
    """
    own = sorted((stop for stop in stops if stop.own is not None), key=lambda stop: stop.own or 0)
    rest = sorted((stop for stop in stops if stop.own is None), key=lambda stop: walk_key(stop.location))
    if not own:
        return [stop.key for stop in rest]
    order = list(own)
    for stop in rest:
        stand = stand_of(stop.location)
        same = [place for place, other in enumerate(order) if stand_of(other.location) == stand]
        order.insert(same[-1] + 1 if same else len(order), stop)
    return [stop.key for stop in order]


def is_final(tight: str, wanted: str, dress: str = "", wanted_dress: str = "") -> bool:
    """Whether a joint is as far as it is wanted: at least as tight, and dressed as wanted.

    >>> is_final("snug", "torqued"), is_final("pinned", "torqued"), is_final("torqued", "snug", "dry", "oiled")
    (False, True, False)
    """
    return TIGHT.index(tight) >= TIGHT.index(_least(wanted)) and (not wanted_dress or dress == wanted_dress)


def _least(wanted: str) -> Tightness:
    """What counts as far enough: a joint said to be apart by a slip is not finished by being apart."""
    return Tightness.SNUG if wanted == Tightness.APART else Tightness(wanted)


def unfinished(tight: str, wanted: str, dress: str = "", wanted_dress: str = "", found: str = "") -> str:
    """What a joint still lacks, in words; empty when it is final.

    >>> unfinished("finger", "torqued", "dry", "oiled")
    'finger tight, to be torqued; dry, to be oiled'
    >>> unfinished("apart", "snug", found="tight")
    'apart (found tight), to be snug'
    """
    lacks = []
    if TIGHT.index(tight) < TIGHT.index(_least(wanted)):
        was = f" (found {found})" if found and tight == Tightness.APART else ""
        lacks.append(f"{Tightness(tight).said}{was}, to be {_least(wanted).said}")
    if wanted_dress and dress != wanted_dress:
        lacks.append(f"{dress or 'not dressed'}, to be {wanted_dress}")
    return "; ".join(lacks)


def wanted_for(kind: str, *, torque_known: bool) -> Tightness:
    """What a joint held by this kind of fastener comes to: pinned, locked, torqued, or snug.

    >>> wanted_for(FastenerKind.DOWEL, torque_known=False).value, wanted_for("bolt", torque_known=True).value
    ('pinned', 'torqued')
    """
    return _WANTED.get(kind, Tightness.TORQUED if torque_known else Tightness.SNUG)
