"""Which part an unknown thing may be: what is missing first, then by size, thread, taper, stamping and words.

A rule of thumb, common practice, no source: it puts likely ones first and says why; a person holds one to the other.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

from rebuild.trade.boxes.clues import ratio_in, thread_of
from rebuild.trade.sizes.own_unit import both, said
from rebuild.words.boxes import ClueKind

Key = TypeVar("Key")

#: A size is the same within this, or within this share of it [mm, 1]; near within the second pair.
SAME_MM, SAME_SHARE = 0.05, 0.001
NEAR_MM, NEAR_SHARE = 0.5, 0.02
#: What each agreement counts.
MISSING, SAME, NEAR, THREAD, TAPER, MARK, WORD = 2.0, 3.0, 1.0, 3.0, 3.0, 4.0, 0.5
#: Called by no word that is not the part's: a gib is looked for among the gibs, with nothing else to go by.
ONLY_ITS_WORDS = 0.5
#: A size called otherwise on the part counts this share: a bore is no length, but words differ.
CALLED_ELSE = 0.5
_IDLE = frozenset(
    ("as", "read", "a", "an", "the", "of", "for", "and", "with", "left", "right", "front", "rear", "across")
)


@dataclass(frozen=True, slots=True)
class Seen:
    """One clue: its kind, its words, its size [mm]."""

    kind: ClueKind
    text: str
    mm: float | None = None


@dataclass(frozen=True, slots=True)
class HasSize:
    """A size of a part: what it is called, and from where to where it goes [mm]."""

    name: str
    low_mm: float
    high_mm: float


@dataclass(frozen=True, slots=True)
class Candidate(Generic[Key]):
    """A part it may be: whether it is missing, its words, and what is known to be measured on it."""

    key: Key
    missing: bool
    words: str
    sizes: tuple[HasSize, ...] = ()
    threads: tuple[str, ...] = ()
    tapers: tuple[str, ...] = ()
    stamped: str = ""


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
    found = [_judge(called, clues, one) for one in candidates]
    likely = [one for one in found if one.score >= WORD + 1e-9 and one.why]
    order = {one.key: place for place, one in enumerate(found)}
    return sorted(likely, key=lambda one: (-one.score, order[one.key]))[:most]


def _judge(called: str, clues: Sequence[Seen], candidate: Candidate[Key]) -> Suspect[Key]:
    score, why = 0.0, []
    for clue in clues:
        counts, words = _agrees(clue, candidate)
        score += counts
        why += [words] if words else []
    common = sorted(_words(called) & _words(candidate.words))
    if common:
        score += WORD * len(common) + (ONLY_ITS_WORDS if len(common) == len(_words(called)) else 0.0)
        why.append(f"called {', '.join(common)}")
    if candidate.missing:
        score += MISSING
        why.insert(0, "missing")
    return Suspect(candidate.key, score, tuple(why))


def _agrees(clue: Seen, candidate: Candidate[Key]) -> tuple[float, str]:
    """How much one clue speaks for a candidate, and in which words."""
    if clue.kind is ClueKind.SIZE and clue.mm is not None:
        return _by_size(clue.text, clue.mm, candidate.sizes)
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
    if clue.kind is ClueKind.MARK and _words(clue.text) & _words(candidate.stamped):
        return MARK, f"stamped {candidate.stamped}"
    return 0.0, ""


def _same_taper(text: str, tapers: Sequence[str]) -> bool:
    ratio = ratio_in(text)
    return text in tapers or (ratio is not None and any(ratio_in(other) == ratio for other in tapers))


def _by_size(name: str, mm: float, sizes: Sequence[HasSize]) -> tuple[float, str]:
    """The size that lies nearest: the same, near, or nothing."""
    mine = _words(name)
    nearest = min(
        sizes, key=lambda one: (_off(mm, one) > 0, _off(mm, one), not mine & _words(one.name)), default=None
    )
    if nearest is None:
        return 0.0, ""
    off, shown = _off(mm, nearest) - 1e-9, f"{name} {both(mm)}"
    share = 1.0 if _words(name) & _words(nearest.name) or not _words(name) else CALLED_ELSE
    if off <= max(SAME_MM, SAME_SHARE * mm):
        return SAME * share, f"{shown} agrees with {nearest.name}"
    if off <= min(NEAR_MM, NEAR_SHARE * mm):
        return NEAR * share, f"{shown} is {said(off, 2)} off {nearest.name}"
    return 0.0, ""


def _off(mm: float, size: HasSize) -> float:
    return max(0.0, size.low_mm - mm, mm - size.high_mm)


def _words(text: str) -> frozenset[str]:
    found = re.findall(r"[^\W_]+", text.casefold())
    return frozenset(found) - _IDLE
