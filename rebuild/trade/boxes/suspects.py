"""Which part an unknown thing may be: what is missing first, then by size, thread, taper, stamping and words.

A rule of thumb, common practice, no source: it puts likely ones first and says why; a person holds one to the other.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

from rebuild.trade.boxes.across import across
from rebuild.trade.boxes.clues import ratio_in, thread_of
from rebuild.trade.sizes.own_unit import both, said
from rebuild.words.boxes import ClueKind, SizeOf

Key = TypeVar("Key")

#: A size is the same within this, or within this share of it [mm, 1]; near within the second pair.
SAME_MM, SAME_SHARE = 0.05, 0.001
NEAR_MM, NEAR_SHARE = 0.5, 0.02
#: What each agreement counts.
MISSING, SAME, NEAR, THREAD, TAPER, MARK, WORD = 2.0, 3.0, 1.0, 3.0, 3.0, 4.0, 0.5
#: A number stamped on the thing that is the part's own code or maker's number, whole: nothing else speaks as loud.
NUMBER = 20.0
#: Called by no word that is not the part's: a gib is looked for among the gibs, with nothing else to go by.
ONLY_ITS_WORDS = 0.5
#: A size called otherwise on the part counts this share: a width may be what another calls the thickness.
CALLED_ELSE = 0.5
_IDLE = frozenset(
    ("as", "read", "a", "an", "the", "of", "for", "and", "with", "left", "right", "front", "rear", "across")
)
#: What a thing is made of is said of it before anybody knows it; no part is called by it alone.
_STUFF = frozenset(
    ("steel", "iron", "cast", "bronze", "brass", "copper", "alloy", "felt", "leather", "rubber")
)


@dataclass(frozen=True, slots=True)
class Seen:
    """One clue: its kind, its words, its size [mm], and across what where that is known."""

    kind: ClueKind
    text: str
    mm: float | None = None
    of: SizeOf | None = None

    @property
    def across(self) -> SizeOf | None:
        """Across what its size goes: as given, else by its words."""
        return self.of or across(self.text)


@dataclass(frozen=True, slots=True)
class HasSize:
    """A size of a part: what it is called, from where to where it goes [mm], and across what where that is known."""

    name: str
    low_mm: float
    high_mm: float
    of: SizeOf | None = None

    @property
    def across(self) -> SizeOf | None:
        """Across what it goes: as given, else by its name."""
        return self.of or across(self.name)


@dataclass(frozen=True, slots=True)
class Candidate(Generic[Key]):
    """A part it may be: whether it is missing, its words, what is known to be measured on it, and its numbers.

    ``numbers`` are its code and its maker's number: what is stamped is held to them whole.
    """

    key: Key
    missing: bool
    words: str
    sizes: tuple[HasSize, ...] = ()
    threads: tuple[str, ...] = ()
    tapers: tuple[str, ...] = ()
    stamped: str = ""
    numbers: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Suspect(Generic[Key]):
    """A candidate with how much speaks for it and what that is."""

    key: Key
    score: float
    why: tuple[str, ...]


def suspects(
    called: str, clues: Sequence[Seen], candidates: Iterable[Candidate[Key]], most: int = 12
) -> list[Suspect[Key]]:
    """Candidates for which something speaks besides one word among others, the likeliest first.

    >>> thing = (Seen(ClueKind.SIZE, "bore", 24.98),)
    >>> bush = Candidate(1, True, "bush", (HasSize("bore", 24.96, 25.0),))
    >>> key = Candidate(2, True, "key")
    >>> [(one.key, one.why) for one in suspects("bronze bush", thing, (key, bush))][0]
    (1, ('missing', 'bore 24.980 mm (0.9835 in) agrees with bore', 'called bush'))
    """
    clues = _once(clues)
    found = [_judge(called, clues, one) for one in candidates]
    likely = [one for one in found if one.score >= WORD + 1e-9 and one.why]
    order = {one.key: place for place, one in enumerate(found)}
    return sorted(likely, key=lambda one: (-one.score, order[one.key]))[:most]


def _once(clues: Sequence[Seen]) -> list[Seen]:
    """Each clue once: a size read as a feature and noted as a clue too is one size, and speaks once."""
    told: list[Seen] = []
    for clue in clues:
        same = (
            one.kind is clue.kind and one.mm is not None and clue.mm is not None
            and abs(one.mm - clue.mm) < 1e-6 and one.across is clue.across
            for one in told
        )  # fmt: skip
        if not any(same):
            told.append(clue)
    return told


def _judge(called: str, clues: Sequence[Seen], candidate: Candidate[Key]) -> Suspect[Key]:
    score, why = 0.0, []
    for clue in clues:
        counts, words = _agrees(clue, candidate)
        score += counts
        why += [words] if words else []
    seen = " ".join((called, *(clue.text for clue in clues if clue.kind is ClueKind.OTHER)))
    common = sorted(_words(seen) & _words(candidate.words))
    if common:
        telling = _words(called) - _STUFF
        score += WORD * len(common) + (ONLY_ITS_WORDS if telling and telling <= set(common) else 0.0)
        why.append(f"called {', '.join(common)}")
    if candidate.missing:
        score += MISSING
        why.insert(0, "missing")
    return Suspect(candidate.key, score, tuple(why))


def _agrees(clue: Seen, candidate: Candidate[Key]) -> tuple[float, str]:
    """How much one clue speaks for a candidate, and in which words."""
    if clue.kind is ClueKind.SIZE and clue.mm is not None:
        return _by_size(clue, clue.mm, candidate.sizes)
    if clue.kind is ClueKind.THREAD:
        mine = thread_of(clue.text)
        same = mine is not None and any(
            (theirs := thread_of(text)) is not None
            and (theirs.nominal_mm, theirs.pitch_mm, theirs.left_hand)
            == (mine.nominal_mm, mine.pitch_mm, mine.left_hand)
            for text in candidate.threads
        )
        return (THREAD, f"thread {clue.text}") if same else (0.0, "")
    if clue.kind is ClueKind.TAPER and _same_taper(clue.text, candidate.tapers):
        return TAPER, f"taper {clue.text}"
    if clue.kind is ClueKind.MARK:
        return _by_mark(clue.text, candidate)
    return 0.0, ""


def _by_mark(text: str, candidate: Candidate[Key]) -> tuple[float, str]:
    """What is stamped: the part's own number whole, else a word of what was noted as stamped on it."""
    for number in candidate.numbers:
        if number and _whole(number) in (_whole(text), *map(_whole, text.split())):
            return NUMBER, f"stamped {text}: its own number is {number}"
    if _words(text) & _words(candidate.stamped):
        return MARK, f"stamped {candidate.stamped}"
    return 0.0, ""


def _whole(number: str) -> str:
    """A number as it is compared: ``15-303`` and ``15 303`` are one, ``15-30`` is another."""
    return re.sub(r"[\s\-_./]+", "-", number.strip().casefold())


def _same_taper(text: str, tapers: Sequence[str]) -> bool:
    ratio = ratio_in(text)
    return text in tapers or (ratio is not None and any(ratio_in(other) == ratio for other in tapers))


def _by_size(clue: Seen, mm: float, sizes: Sequence[HasSize]) -> tuple[float, str]:
    """The size that lies nearest of those that go across the same: the same, near, or nothing.

    A size that does not say across what it goes is held to all of them, and the reason says so.
    """
    of, mine = clue.across, _words(clue.text)
    fit = [one for one in sizes if of is None or one.across in (None, of)]
    nearest = min(
        fit, key=lambda one: (_off(mm, one) > 0, _off(mm, one), not mine & _words(one.name)), default=None
    )
    if nearest is None:
        return 0.0, ""
    off, shown = _off(mm, nearest) - 1e-9, f"{clue.text} {both(mm)}"
    same = not mine or bool(mine & _words(nearest.name)) or (of is not SizeOf.ALONG and of is nearest.across)
    share = 1.0 if same else CALLED_ELSE
    bare = ", though nobody said what of it was measured" if of is None and not mine else ""
    if off <= max(SAME_MM, SAME_SHARE * mm):
        return SAME * share, f"{shown} agrees with {nearest.name}{bare}"
    near, alike = min(NEAR_MM, NEAR_SHARE * mm), max(SAME_MM, SAME_SHARE * mm)
    if off <= near:
        # The nearer the more: what lies a tenth off speaks louder than that something else is missing.
        return (
            SAME - (SAME - NEAR) * (off - alike) / (near - alike)
        ) * share, f"{shown} is {said(off, 2)} off {nearest.name}{bare}"
    return 0.0, ""


def _off(mm: float, size: HasSize) -> float:
    return max(0.0, size.low_mm - mm, mm - size.high_mm)


def _words(text: str) -> frozenset[str]:
    found = re.findall(r"[^\W_]+", text.casefold())
    return frozenset(found) - _IDLE
