"""One line of the removal log as said at the bench: ``hs2 u, 4x 3/8-16 x 1-3/4, > bag 3``.

First the part (its code, its number alone, or words of its name; nothing: the next in the tree; several with
``+``), then one key for how it came off, then whatever else is worth saying, parted by commas. A clause that
begins with none of the known words and is no fastener is a note: nothing said is lost.
"""

from __future__ import annotations

import re
from collections.abc import Hashable, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

from rebuild.errors import BadEntry
from rebuild.trade.results.door import door
from rebuild.trade.sizes.number import read_whole
from rebuild.trade.teardown.fastener_words import SaidFastener, parse_fastener
from rebuild.words.teardown import RemovalWay

K = TypeVar("K", bound=Hashable)

#: One key for each way something comes off, in the order the legend shows them.
HOW_KEYS = {
    "l": RemovalWay.LIFTED, "s": RemovalWay.SLID, "u": RemovalWay.UNSCREWED, "h": RemovalWay.LEFT_HAND,
    "d": RemovalWay.DRIVEN, "p": RemovalWay.PRESSED, "w": RemovalWay.PULLED, "r": RemovalWay.DRILLED,
    "c": RemovalWay.CUT, "x": RemovalWay.BROKEN, "o": RemovalWay.OTHER,
}  # fmt: skip
_HOW_WORDS = {
    "lift": "l", "lifted": "l", "slid": "s", "slide": "s", "slipped": "s", "unscrewed": "u", "unscrew": "u",
    "driven": "d", "drive": "d", "drove": "d", "knocked": "d", "pressed": "p", "press": "p", "pulled": "w",
    "pull": "w", "withdrawn": "w", "drilled": "r", "cut": "c", "sawn": "c", "broken": "x", "broke": "x",
}  # fmt: skip
#: Ways that have an end to them: from which one it was driven or pressed matters at the next time.
WITH_END = (RemovalWay.DRIVEN, RemovalWay.PRESSED)
#: The words that open a clause, and what they say.
CLAUSES = {
    "mark": "match_mark", "marked": "match_mark", "marks": "match_mark", "sat": "orientation",
    "way": "orientation", "facing": "orientation", "hard": "hard", "found": "found", "photo": "photo",
    "with": "tools", "at": "location", "note": "note",
}  # fmt: skip
_PLACE = re.compile(r"(?:>|\bin\b|\bto\b|\binto\b)\s*(?P<place>.+)", re.IGNORECASE)
_SHIMS = re.compile(r"shims?\b\s*(?P<where>.*?)\s*(?P<leaves>(?<![\w.])[\d.][^,]*)", re.IGNORECASE)
_FASTENER = re.compile(
    r"\d\s*[x×]|\d/\d|\d-\d|\bm\d|\b(?:screws?|bolts?|studs?|nuts?|pins?|dowels?|rivets?|keys?|rings?|circlips?)\b",
    re.IGNORECASE,
)
_GOES_ON = re.compile(
    r"(?:finger(?: tight)?|tight|snug|loose|pinned|adjusted|missing|stripped|big end .+|second .+|hidden .+|"
    r"l\.?h\.?|left[ -]hand|grade \d|(?:class )?(?:8\.8|10\.9|12\.9)|(?:cup|cone|dog|half dog|oval|flat) point)",
    re.IGNORECASE,
)
_HOW_TO_SAY = "Say it as “hs2 u” or just “l” for the next part; keys: " + ", ".join(
    f"{key} {word}" for key, word in HOW_KEYS.items()
)


@dataclass(frozen=True, slots=True)
class SaidShims:
    """A shim pack as said: where it sat, and its leaves still as text."""

    where: str
    leaves: str


@dataclass(frozen=True, slots=True)
class SaidRemoval:
    """One line of the log, taken apart; ``parts`` are still the words said (none: the next in the tree)."""

    parts: tuple[str, ...]
    how: RemovalWay
    from_end: str = ""
    fasteners: tuple[SaidFastener, ...] = ()
    shims: tuple[SaidShims, ...] = ()
    place: str = ""
    typed: tuple[tuple[str, str], ...] = ()


@door()
def parse_removal(text: str, unit: str = "mm") -> SaidRemoval:
    """Take a line of the log apart.

    Raises:
        BadEntry: no way of coming off was said.

    >>> said = parse_removal("hs2 u 4x 3/8-16 x 1-3/4, finger, mark two dots, > bag 3")
    >>> said.parts, said.how.value, said.fasteners[0].state, said.place, said.typed
    (('hs2',), 'unscrewed', 'finger', 'bag 3', (('match_mark', 'two dots'),))
    >>> parse_removal("l").parts
    ()
    """
    head, *clauses = (clause.strip() for clause in text.split(","))
    parts, how, rest = _head(head)
    end = ""
    if how in WITH_END:
        end, rest = re.sub(r"^(?:from|at)\s+", "", re.sub(r"^(?:from )?the ", "", rest)), ""
    sorted_out = _Clauses(unit)
    for clause in ([rest] if rest else []) + clauses:
        sorted_out.take(clause)
    return SaidRemoval(
        parts,
        how,
        end,
        tuple(parse_fastener(words, unit) for words in sorted_out.fasteners),
        tuple(sorted_out.shims),
        sorted_out.place,
        tuple(sorted_out.typed.items()),
    )


def _head(head: str) -> tuple[tuple[str, ...], RemovalWay, str]:
    """The parts' words, the way it came off, and what follows in the same clause."""
    words = head.split()
    for place, word in enumerate(words):
        key = word.lower() if word.lower() in HOW_KEYS else _HOW_WORDS.get(word.lower(), "")
        if not key:
            continue
        rest = words[place + 1 :]
        if key == "u" and " ".join(rest[:2]).lower() == "left hand":
            key, rest = "h", rest[2:]
        if rest and rest[0].lower() in ("off", "out"):
            rest = rest[1:]
        said = " ".join(words[:place])
        parts = tuple(part.strip() for part in said.split("+") if part.strip())
        return parts, HOW_KEYS[key], " ".join(rest)
    raise BadEntry("does not say how it came off.", where="Removal", value=head, way_out=f"{_HOW_TO_SAY}.")


class _Clauses:
    """Sorts clauses into what they speak of."""

    def __init__(self, unit: str) -> None:
        self.unit = unit
        self.fasteners: list[str] = []
        self.shims: list[SaidShims] = []
        self.place = ""
        self.typed: dict[str, str] = {}
        self._last_was_fastener = False

    def take(self, clause: str) -> None:
        """Sort one clause."""
        if not clause:
            return
        was, self._last_was_fastener = self._last_was_fastener, False
        first, _, rest = clause.partition(" ")
        name = CLAUSES.get(first.lower().rstrip(":"))
        if name is not None and rest.strip():
            self._note(name, rest.strip())
        elif not self.place and (place := _PLACE.fullmatch(clause)) is not None:
            self.place = place["place"].strip()
        elif (shims := _SHIMS.fullmatch(clause)) is not None:
            self.shims.append(SaidShims(shims["where"], shims["leaves"]))
        elif was and _GOES_ON.fullmatch(clause):
            self.fasteners[-1] += f", {clause}"
            self._last_was_fastener = True
        elif _FASTENER.search(clause):
            self.fasteners.append(clause)
            self._last_was_fastener = True
        else:
            self._note("note", clause)

    def _note(self, name: str, text: str) -> None:
        before = self.typed.get(name)
        self.typed[name] = f"{before}; {text}" if before else text


@dataclass(frozen=True, slots=True)
class Named(Generic[K]):
    """Something that can be meant: its key, code and name."""

    key: K
    code: str
    name: str


def meant(words: str, among: Sequence[Named[K]], where: str = "Part") -> Named[K]:
    """What ``words`` mean among the named things: a code (``hs2`` for HS-02), a number, or words of the name.

    Raises:
        BadEntry: nothing, or several things, fit; they are listed.

    >>> parts = [Named(1, "HS-01", "spindle"), Named(2, "HS-02", "bearing cap")]
    >>> meant("hs2", parts).key, meant("2", parts).key, meant("cap", parts).key
    (2, 2, 2)
    """
    for fits in (_same_code, _same_number, _same_words):
        found = [one for one in among if fits(words, one)]
        if len(found) == 1:
            return found[0]
        if found:
            listed = ", ".join(f"{one.code} {one.name}".strip() for one in found[:5])
            more = f" and {len(found) - 5} more" if len(found) > 5 else ""
            raise BadEntry(f"could be {listed}{more}.", where=where, value=words, way_out="Type more of it.")
    raise BadEntry(
        "is none of those there.", where=where, value=words, way_out="Type its code, or words of its name."
    )


def _letters_and_number(code: str) -> tuple[str, int] | None:
    found = re.fullmatch(r"([a-z]*)[\s\-_.]*0*(\d+)", code.strip().lower())
    return (found[1], read_whole(found[2], "Code")) if found else None


def _same_code(words: str, one: Named[K]) -> bool:
    if words.strip().lower() == one.code.lower() != "":
        return True
    said, its = _letters_and_number(words), _letters_and_number(one.code)
    return said is not None and said == its and said[0] != ""


def _same_number(words: str, one: Named[K]) -> bool:
    said, its = _letters_and_number(words), _letters_and_number(one.code)
    return said is not None and its is not None and said[0] == "" and said[1] == its[1]


def _same_words(words: str, one: Named[K]) -> bool:
    has = re.findall(r"\w+", f"{one.code} {one.name}".lower())
    said = re.findall(r"\w+", words.lower())
    return bool(said) and all(any(word.startswith(start) for word in has) for start in said)
