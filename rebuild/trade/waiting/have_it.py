"""Already have it? Compares what is wanted with what lies there: words, sizes and threads.

A rule of thumb, not a table: it puts likely ones first and says why; a person looks before he orders.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from rebuild.errors import BadEntry
from rebuild.trade.sizes.quantity import parse_length, tidy
from rebuild.trade.teardown.fastener_words import known_thread

#: Different words for one thing, each to its first.
_SAME = (
    ("bush", "bushing", "bushings", "bushes", "sleeve"), ("felt", "felts", "wiper", "wipers"),
    ("bronze", "sae660", "sae64", "gunmetal"), ("screw", "screws", "bolt", "bolts", "capscrew"),
    ("setscrew", "grubscrew", "grub"), ("pin", "pins"), ("shim", "shims"), ("nut", "nuts"), ("belt", "belts"),
    ("bearing", "bearings"), ("washer", "washers"), ("gear", "gears", "wheel"), ("wick", "wicks"),
    ("spring", "springs"), ("key", "keys", "keystock"), ("bar", "rod", "round", "stock"),
    ("halfnuts", "halfnut", "splitnut", "clasp"), ("oil", "oils", "lubricant"), ("rack", "racks"),
)  # fmt: skip
_FIRST = {word: group[0] for group in _SAME for word in group}
_NOISE = {"a", "an", "the", "of", "for", "and", "or", "with", "to", "new", "one", "two", "set", "pack", "long", "off",
          "in", "mm", "x", "no", "dia", "diameter", "pcs", "pair"}  # fmt: skip
_THREAD = re.compile(
    r"\bm\d+(?:\.\d+)?(?:\s*[x×]\s*\d*\.?\d+)?\b|(?:#\d+|\b\d+(?:-\d+/\d+|/\d+)?)-\d+(?:\s*(?:unc|unf|unef|lh|acme))*"
    r"|\btr\s*\d+\s*[x×]\s*\d+|\b\d+(?:/\d+)?\s*(?:bsw|bsf|ba)\b",
    re.IGNORECASE,
)
_SIZE = re.compile(
    r"(?<![\w/.-])(\d+[- ]\d+/\d+|\d+/\d+|\d*\.\d+|\d+(?:\.\d+)?)\s*(mm|in\b|inch|\")?", re.IGNORECASE
)
_NUMBERED = re.compile(r"\b(?:no\.?|number|size)\s*(\d+(?:/0)?)", re.IGNORECASE)
#: Bearing and belt numbers: they tell like things apart.
_CATALOGUE = re.compile(r"\b(?:[a-z]{1,3}\d{2,5}|\d{4,5})(?![\w.])")
ENOUGH = 0.5


@dataclass(frozen=True, slots=True)
class Likeness:
    """How like two things are, 0 to 1, and why."""

    score: float
    why: str


@dataclass(frozen=True, slots=True)
class _Said:
    words: frozenset[str]
    threads: frozenset[tuple[float, float, bool]]
    sizes: tuple[float, ...]
    numbers: frozenset[str]


def likeness(wanted: str, there: str) -> Likeness:
    """How well ``there`` answers to ``wanted``.

    >>> likeness("taper pin no. 4", "taper pins No. 4, pack of 25").score > ENOUGH
    True
    >>> likeness("3/8-16 socket screw", "3/8-24 socket screws").score < ENOUGH
    True
    """
    want, have = _said(wanted), _said(there)
    if not want.words and not want.threads and not want.sizes:
        return Likeness(0.0, "")
    common = want.words & have.words
    score = 0.6 * len(common) / max(1, len(want.words))
    why = [f"same words: {', '.join(sorted(common))}"] if common else []
    for name, mine, theirs in (
        ("thread", want.threads, have.threads),
        ("number", want.numbers, have.numbers),
    ):
        if mine and theirs:
            if mine & theirs:
                score += 0.4
                why.append(f"same {name}")
            else:
                score *= 0.4
                why.append(f"another {name}")
    if want.sizes and have.sizes:
        same = [
            mm for mm in want.sizes if any(abs(mm - other) <= max(0.06, 0.002 * mm) for other in have.sizes)
        ]
        score += 0.4 * len(same) / len(want.sizes) - 0.25 * (not same)
        if same:
            why.append("same size: " + ", ".join(f"{mm:.4g} mm" for mm in same))
    return Likeness(max(0.0, min(1.0, score)), "; ".join(why))


@lru_cache(maxsize=4096)
def _said(text: str) -> _Said:
    plain = tidy(text).lower().replace("sae ", "sae")
    threads: set[tuple[float, float, bool]] = set()

    def take_thread(found: re.Match[str]) -> str:
        alone, cross, length = re.sub(r"\s*[×]\s*", "x", found[0]).partition("x")
        for written, left in ((found[0], " "), (alone, f" {cross} {length} ")):
            known = known_thread(written)
            if known is not None and known.pitch_mm < known.nominal_mm / 2:
                threads.add((round(known.nominal_mm, 3), round(known.pitch_mm, 4), known.left_hand))
                return left
        return found[0]

    left = _THREAD.sub(take_thread, plain)
    numbers = frozenset(_NUMBERED.findall(left)) | frozenset(_CATALOGUE.findall(left))
    left = _NUMBERED.sub(" ", left)
    left = re.sub(r"\b(set|grub|half) (screw|nut)", r"\1\2", left)
    words = frozenset(
        _FIRST.get(word, word)
        for word in re.findall(r"[a-z][a-z0-9]*", left)
        if word not in _NOISE and len(word) > 1
    )
    return _Said(words, frozenset(threads), _sizes(left), numbers)


def _sizes(text: str) -> tuple[float, ...]:
    """Lengths among the words [mm]: with a unit, or written as a fraction or decimal inch."""
    found: list[float] = []
    pieces = [(match[1], (match[2] or "").lower()) for match in _SIZE.finditer(text)]
    unit_after = ""
    for number, written in reversed(pieces):
        unit = "mm" if written == "mm" else "in" if written else unit_after
        unit_after = unit if written else unit_after
        if not unit and "/" not in number and not number.startswith("."):
            continue
        try:
            found.append(round(parse_length(number, unit or "in").mm, 4))
        except BadEntry:
            continue
    return tuple(reversed(found))
