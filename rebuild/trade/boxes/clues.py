"""One clue of an unknown thing from what was typed: ``bore 24.98``, ``M10 x 1.5``, ``MT 3``, ``stamped 418``."""

from __future__ import annotations

import re
from dataclasses import dataclass

from rebuild.errors import Ambiguous, BadEntry
from rebuild.trade.sizes.quantity import Size, parse_length
from rebuild.trade.tapers.machine_tapers import parse_taper
from rebuild.trade.threads.designation import ThreadDesignation, parse_designation
from rebuild.words.boxes import ClueKind

_THREAD = re.compile(r"^(?:thread(?:ed)?|tapped)\b[:\s]*", re.IGNORECASE)
_TAPER = re.compile(r"^taper(?:s|ed)?\b[:\s]*", re.IGNORECASE)
_RATIO = re.compile(
    r"\b1\s*(?::|\bin\b)\s*(?P<x>\d+(?:\.\d+)?)(?!\s*(?:mm|in|inch|thou|[\d.:/\"-]))", re.IGNORECASE
)
_MARK = re.compile(r"^(?:stamped|marked|cast|letters)\b[:\s]*", re.IGNORECASE)
_SIZE_AT = re.compile(r"[-+]?[\d.,][\d.,/\s-]*(?:mm|in|inch|thou|µm|\")?(?=\s|$)", re.IGNORECASE)
LONGEST = 200


@dataclass(frozen=True, slots=True)
class ReadClue:
    """A clue read: what it is, its words, and the size where it is one."""

    kind: ClueKind
    text: str
    size: Size | None = None


def read_clue(typed: str, unit: str = "mm", *, decimal_comma: bool | None = None) -> ReadClue:
    """What a typed line says of a thing: a thread, a taper and a stamping by their words, then a size, else seen.

    Args:
        typed: one clue.
        unit: of a bare number, mm or in.
        decimal_comma: how to read ``1,250``; None asks.

    Raises:
        BadEntry: empty, too long, or a thread or taper that is none though it is called one.
        Ambiguous: a size with two readings.

    >>> read_clue("M10 x 1.5").kind.value, read_clue("MT 3").text, read_clue("stamped 418").text
    ('thread', 'Morse 3', '418')
    >>> read_clue("tapered 1:50").text, read_clue("1 in 50").kind.value
    ('1:50', 'taper')
    >>> clue = read_clue("bore 0.9835 in")
    >>> clue.kind.value, round(clue.size.mm, 3), clue.text
    ('size', 24.981, 'bore')
    """
    text = " ".join(typed.split())
    if not text or len(text) > LONGEST:
        what = "is empty." if not text else f"is {len(text)} letters long; {LONGEST} fit."
        raise BadEntry(
            what, where="Clue", way_out="Type one thing seen: bore 24.98, M10 x 1.5, MT 3, stamped 418."
        )
    if _MARK.match(text):
        mark = _MARK.sub("", text)
        return ReadClue(ClueKind.MARK, mark or text)
    if _THREAD.match(text):
        return ReadClue(ClueKind.THREAD, parse_designation(_THREAD.sub("", text), "Clue").text)
    ratio = ratio_in(text)
    if ratio is not None:
        alone = _RATIO.fullmatch(_TAPER.sub("", text)) is not None
        return ReadClue(ClueKind.TAPER, ratio if alone else text)
    if _TAPER.match(text):
        return ReadClue(ClueKind.TAPER, parse_taper(_TAPER.sub("", text)).name)
    return _unsaid(text, unit, decimal_comma)


def _unsaid(text: str, unit: str, comma: bool | None) -> ReadClue:
    """A clue that does not say what it is: a designation by its form, else the size in it."""
    if thread_of(text) is not None and not re.fullmatch(r"[\d.,/\s-]+", text):
        return ReadClue(ClueKind.THREAD, text)
    taper = _taper(text)
    if taper is not None:
        return ReadClue(ClueKind.TAPER, taper)
    for found in _SIZE_AT.finditer(text):
        try:
            size = parse_length(found[0].strip(), unit, "Clue", decimal_comma=comma)
        except Ambiguous:
            raise
        except BadEntry:
            continue
        if size.mm > 0:
            words = " ".join((text[: found.start()] + " " + text[found.end() :]).split())
            return ReadClue(ClueKind.SIZE, words or "across", size)
    return ReadClue(ClueKind.OTHER, text)


def ratio_in(text: str) -> str | None:
    """The taper ratio a text tells, as ``1:50``; None when it tells none.

    >>> ratio_in("gib tapered 1 in 50"), ratio_in("1:50.0"), ratio_in("bore 1 in")
    ('1:50', '1:50', None)
    """
    found = _RATIO.search(text)
    if found is None:
        return None
    x = found["x"]
    return f"1:{x.rstrip('0').rstrip('.') if '.' in x else x}"


def thread_of(text: str) -> ThreadDesignation | None:
    """A thread as it is designated, or None for what is none."""
    try:
        return parse_designation(text, "Clue")
    except BadEntry:
        return None


def _taper(text: str) -> str | None:
    try:
        return parse_taper(text).name
    except BadEntry:
        return None
