"""A fastener as said at the bench: ``4 x 3/8-16 x 1-3/4 socket cap, finger``, ``taper pin no. 4 big end front``.

What can be read is taken apart; what is left over stays as a note, so nothing said is lost. A thread that is
no designation (``5/16 plain``) stays as the words that were said.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from functools import lru_cache

from rebuild.errors import BadEntry
from rebuild.trade.results.door import door
from rebuild.trade.sizes.number import read_whole
from rebuild.trade.sizes.quantity import parse_length
from rebuild.trade.sizes.typed_text import plain_of
from rebuild.trade.teardown.at_odds import other_end
from rebuild.trade.threads.designation import ThreadDesignation, parse_designation
from rebuild.words.teardown import FastenerKind, FastenerPoint, FastenerState

WAYS = "Say it as 4 x M10 x 45 socket or 4 x 3/8-16 x 1-3/4 socket."
LONGEST = 300
#: Kind as stored, and the words that name it; longest first so that "set screw" is not a screw.
_KINDS = (
    (FastenerKind.TAPER_PIN, r"taper pins?"),
    (FastenerKind.ROLL_PIN, r"(?:roll|spring) pins?"),
    (FastenerKind.DOWEL, r"dowel(?: pin)?s?"),
    (FastenerKind.SET_SCREW, r"(?:set|grub) ?screws?"),
    (FastenerKind.RING, r"(?:retaining|snap) rings?|circlips?"),
    (FastenerKind.RIVET, r"rivets?"),
    (FastenerKind.STUD, r"studs?"),
    (FastenerKind.NUT, r"nuts?"),
    (FastenerKind.BOLT, r"bolts?"),
    (FastenerKind.KEY, r"keys?"),
    (FastenerKind.SCREW, r"screws?"),
)
_HEAD = re.compile(
    r"\b(socket cap|socket head|socket|cheese head|cheese|fillister|countersunk|csk|flat head|button|pan|"
    r"round head|hexagon|hex|square|slotted|cap)\b"
)
#: What has no thread to be read.
_WITHOUT_THREAD = (
    FastenerKind.TAPER_PIN,
    FastenerKind.DOWEL,
    FastenerKind.ROLL_PIN,
    FastenerKind.KEY,
    FastenerKind.RIVET,
)
#: A part of such a kind is its own fastener.
_HELD_BY_NONE = (
    FastenerKind.TAPER_PIN, FastenerKind.DOWEL, FastenerKind.ROLL_PIN, FastenerKind.RIVET, FastenerKind.STUD,
    FastenerKind.BOLT,
)  # fmt: skip
#: Points and the words that name them; "flat" alone may be a head, and a half dog is no dog.
_POINTS = (
    (FastenerPoint.HALF_DOG, "half dog"), (FastenerPoint.DOG, "dog"), (FastenerPoint.CUP, "cup"),
    (FastenerPoint.CONE, "cone"), (FastenerPoint.OVAL, "oval"), (FastenerPoint.FLAT, "flat point"),
)  # fmt: skip
_OTHER_STATES = "|".join(state for state in FastenerState if state is not FastenerState.FINGER)
_STATE = re.compile(rf"\b({FastenerState.FINGER})(?: tight)?\b|\b({_OTHER_STATES})\b")
_COUNT = re.compile(r"(\d{1,3})\s*[x×]\s*(?=[\dm#.nt]|\w+ washer)", re.IGNORECASE)
_END = re.compile(
    r"\b(?:(?P<wide>big|wide|large|thick)|narrow|small|little|thin)[ -]end(?: (?:is|was))?"
    r"(?: (?:at|to|towards?|facing))?(?: the)? (?P<where>[\w -]+)"
)
#: What says which end of a pin it is only to who hung the tag on it.
_TAGGED = re.compile(r"\b(tagged[ -]end [\w -]+)")
_WORDS = {
    "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "eleven": 11,
    "twelve": 12,
}  # fmt: skip
_PLURAL = r"(?:screws|bolts|nuts|studs|pins|dowels|rivets|keys|washers|rings|circlips)"
_COUNT_IN_WORDS = re.compile(rf"(?P<word>{'|'.join(_WORDS)})\s+(?:x\s+)?(?=\S)", re.IGNORECASE)
_COUNT_OF = re.compile(rf"(?P<count>\d{{1,3}})\s+(?=(?:[a-z]+ ){{0,3}}{_PLURAL}\b)", re.IGNORECASE)
#: Three sizes and no thread: width, height and length of a key.
_KEY_SIZE = re.compile(r"\d+(?:-\d+)?/\d+(?:\s*[x×]\s*\d[\d/.-]*){2}(?:\s*(?:in|\"))?")
_HIDDEN = re.compile(r"\b((?:second|hidden|another)\b[^,;]*)")
_JAM_NUT = re.compile(r"\b((?:with |and )?(?:a )?(?:jam|lock) ?nuts?)\b")
_WASHER = re.compile(
    r"\b((?:with |and )?(?:an? )?(?:\d+ ?x? )?(?:(?:spring|lock|plain|flat|star|toothed|wave|cup|tab|thick|"
    r"thin|thrust|copper|fib(?:re|er)) )?washers?)\b"
)
#: What still speaks of a fastener when its washer is taken away.
_FASTENER_LEFT = re.compile(rf"\d|\b(?:{'|'.join(words for _kind_of, words in _KINDS)})\b|#")
_GRADE = re.compile(r"\b(grade \d|(?:class )?(?:8\.8|10\.9|12\.9))\b")
_HAND = re.compile(r"\bl\.?h\.?\b|\bleft[ -]?hand(?:ed)?\b")
_PIN_SIZE = re.compile(r"(?:\bno\.?\s*|#)(\d+(?:/0)?)(?![\d/-])")


@dataclass(frozen=True, slots=True)
class SaidFastener:
    """What was said of one hole, or of several alike. ``length`` is as typed, in ``length_unit``."""

    kind: str = FastenerKind.SCREW
    count: int = 1
    thread: str = ""
    left_hand: bool = False
    length: str = ""
    length_unit: str = "mm"
    head: str = ""
    point: str = ""
    grade: str = ""
    state: str = ""
    big_end: str = ""
    hidden: str = ""
    note: str = ""


def names_a_kind(words: str) -> bool:
    """Whether words say what kind of fastener they speak of, or what head it has.

    >>> names_a_kind("4 x 1/8 rivets"), names_a_kind("3/8-16")
    (True, False)
    """
    said = words.lower()
    return _HEAD.search(said) is not None or any(
        re.search(rf"\b(?:{name})\b", said) for _kind, name in _KINDS
    )


def own_kind(part: str) -> str:
    """What kind of fastener a part is by its name; empty when it is none, or may be held by others: a nut, a key.

    >>> own_kind("rivets"), own_kind("shear stud"), own_kind("feed nut")
    ('rivet', 'stud', '')
    """
    said = part.lower()
    kind = next((kind for kind, name in _KINDS if re.search(rf"\b(?:{name})$", said)), None)
    return kind.value if kind in _HELD_BY_NONE else ""


@door()
def parse_fastener(text: str, unit: str = "mm") -> SaidFastener:
    """Take a fastener's words apart; a length without a unit is in the thread's own, else in ``unit``.

    Raises:
        BadEntry: nothing was said, or more than anyone says of one fastener.

    >>> said = parse_fastener("4 x 3/8-16 x 1-3/4 socket cap, finger tight")
    >>> said.count, said.thread, said.length, said.length_unit, said.head, said.state
    (4, '3/8-16', '1-3/4', 'in', 'socket cap', 'finger')
    >>> parse_fastener("taper pin no. 4 x 1-1/4 in, big end front").big_end
    'front'
    """
    plain = plain_of(text, "Fastener", WAYS, longest=LONGEST, sort="one fastener")
    said, rest = _count(SaidFastener(length_unit=unit), plain)
    jam, rest = _cut(_JAM_NUT, rest)
    washer, rest = _cut(_WASHER, rest)
    if washer is not None and not _FASTENER_LEFT.search(rest.lower()):
        of = " ".join(rest.replace(",", " ").split())
        return replace(said, kind=FastenerKind.OTHER, note=" ".join(filter(None, (washer[1], of))))
    tagged, rest = _cut(_TAGGED, rest)
    for take in (_big_end, _hidden, _grade, _state, _kind, _hand):
        said, rest = take(said, rest)
    said, rest = _head_and_point(said, rest)
    found = _size(said, " ".join(rest.replace(",", " ").replace(";", " ").split()), unit)
    beside = (*(one[1] for one in (jam, washer, tagged) if one is not None), found.note)
    return replace(found, note=" ".join(filter(None, beside)))


@lru_cache(maxsize=512)
def known_thread(text: str) -> ThreadDesignation | None:
    """The designation of a thread as said, or None when it is none (or has several honest readings).

    >>> known_thread("3/8-16").tpi, known_thread("plain")
    (16.0, None)
    """
    try:
        return parse_designation(text)
    except BadEntry:
        return None


def _cut(pattern: re.Pattern[str], text: str) -> tuple[re.Match[str] | None, str]:
    found = pattern.search(text.lower())
    if found is None:
        return None, text
    return found, f"{text[: found.start()]} {text[found.end() :]}"


def _count(said: SaidFastener, text: str) -> tuple[SaidFastener, str]:
    worded, of = _COUNT_IN_WORDS.match(text), _COUNT_OF.match(text)
    if worded is not None:
        return replace(said, count=_WORDS[worded["word"].lower()]), text[worded.end() :]
    if of is not None:
        return replace(said, count=read_whole(of["count"], "Fastener")), text[of.end() :]
    found = _COUNT.match(text)
    if found is None or _KEY_SIZE.fullmatch(text.strip()):
        return said, text
    return replace(said, count=read_whole(found[1], "Fastener")), text[found.end() :]


def _big_end(said: SaidFastener, text: str) -> tuple[SaidFastener, str]:
    """Where the big end of a pin sat; the narrow one says it too."""
    found, rest = _cut(_END, text)
    if found is None:
        return said, text
    where = found["where"].strip()
    return replace(
        said, big_end=where if found["wide"] else other_end(where), kind=FastenerKind.TAPER_PIN
    ), rest


def _hidden(said: SaidFastener, text: str) -> tuple[SaidFastener, str]:
    found, rest = _cut(_HIDDEN, text)
    return (replace(said, hidden=found[1].strip()), rest) if found else (said, text)


def _grade(said: SaidFastener, text: str) -> tuple[SaidFastener, str]:
    found, rest = _cut(_GRADE, text)
    return (replace(said, grade=found[1].removeprefix("class ")), rest) if found else (said, text)


def _state(said: SaidFastener, text: str) -> tuple[SaidFastener, str]:
    found, rest = _cut(_STATE, text)
    return (replace(said, state=found[1] or found[2]), rest) if found else (said, text)


def _kind(said: SaidFastener, text: str) -> tuple[SaidFastener, str]:
    for kind, words in _KINDS:
        found, rest = _cut(re.compile(rf"\b(?:{words})\b"), text)
        if found is not None:
            return replace(said, kind=kind), rest
    if _KEY_SIZE.fullmatch(text.strip()):
        return replace(said, kind=FastenerKind.KEY), text
    return said, text


def _hand(said: SaidFastener, text: str) -> tuple[SaidFastener, str]:
    found, rest = _cut(_HAND, text)
    return (replace(said, left_hand=True), rest) if found else (said, text)


def _head_and_point(said: SaidFastener, text: str) -> tuple[SaidFastener, str]:
    for point, words in _POINTS:
        found, rest = _cut(re.compile(rf"\b{words}(?: point)?\b"), text)
        if found is not None:
            kind = FastenerKind.SET_SCREW if said.kind == FastenerKind.SCREW else said.kind
            said, text = replace(said, point=point, kind=kind), rest
            break
    found, rest = _cut(_HEAD, text)
    if found is None:
        return said, text
    bolt = said.kind == FastenerKind.SCREW and found[1] in ("hex", "hexagon", "square")
    kind = FastenerKind.BOLT if bolt else said.kind
    return replace(said, head=found[1], kind=kind), rest


def _size(said: SaidFastener, text: str, unit: str) -> SaidFastener:
    """The thread or pin size, then the length, then whatever is left as a note."""
    if said.kind in _WITHOUT_THREAD:
        return _plain_size(said, text, unit)
    whole = known_thread(text)
    if whole is not None and whole.pitch_mm < whole.nominal_mm / 2:
        return replace(said, thread=text)
    for thread, tail in _splits(text):
        known = known_thread(thread)
        if known is None or known.pitch_mm >= known.nominal_mm / 2:
            continue
        length, note = _length(tail, known.unit)
        return replace(said, thread=thread, length=length, length_unit=known.unit, note=note)
    return _plain_size(said, text, unit)


def _splits(text: str) -> list[tuple[str, str]]:
    """Every way to part the words into a thread and what follows, the longest thread first."""
    places = [found.span() for found in re.finditer(r"\s*[x×]\s*|\s+", text)]
    return [(text[:start].strip(), text[end:].strip()) for start, end in reversed(places)]


def _plain_size(said: SaidFastener, text: str, unit: str) -> SaidFastener:
    found, rest = _cut(_PIN_SIZE, text)
    size = f"No. {found[1]}" if found else ""
    if found is None:
        size, _, rest = rest.partition(" x ") if said.kind != FastenerKind.KEY else _key_size(rest)
    tail = re.sub(r"^\s*[x×]\s*", "", rest.strip())
    if not tail and said.count > 1 and re.fullmatch(r"\d+(?:\.\d+)?(?:\s*mm)?", size.strip()):
        said, size, tail = replace(said, count=1), str(said.count), size.strip()
    unit = "in" if "/" in tail.split(" x ")[0] or ("/" in size and not tail.endswith("mm")) else unit
    length, note = _length(tail, unit)
    return replace(said, thread=size.strip(), length=length, length_unit=unit, note=note)


def _key_size(text: str) -> tuple[str, str, str]:
    """A key is said as width x height x length."""
    parts = [part.strip() for part in re.split(r"\s*[x×]\s*", text.strip())]
    return (" x ".join(parts[:2]), "", " ".join(parts[2:]))


def _length(tail: str, unit: str) -> tuple[str, str]:
    """The longest run of words from the start that reads as a length, and the words after it."""
    words = tail.split()
    for end in range(len(words), 0, -1):
        head = " ".join(words[:end])
        try:
            if parse_length(head, unit).mm > 0:
                return head, " ".join(words[end:])
        except BadEntry:
            continue
    return "", tail


def fastener_words(said: SaidFastener) -> str:
    """A fastener in one line.

    >>> fastener_words(parse_fastener("2 x M8x1.25x25 hex"))
    '2 × M8x1.25 × 25 mm hex bolt'
    >>> fastener_words(parse_fastener("2 x spring washer")), fastener_words(parse_fastener("M6 x 16, spring washer"))
    ('2 × spring washer', 'M6 × 16 mm screw, spring washer')
    """
    size = " × ".join(filter(None, (said.thread, _with_unit(said.length, said.length_unit))))
    alone = said.kind == FastenerKind.OTHER and not size and said.note
    kind, note = (said.note, "") if alone else (said.kind, said.note)
    words = [f"{said.count} ×" if said.count != 1 else "", size, said.head, kind]
    more = [
        "left hand" if said.left_hand else "",
        f"{said.point} point" if said.point else "",
        said.grade,
        f"big end {said.big_end}" if said.big_end else "",
        said.hidden,
        said.state,
        note,
    ]
    return ", ".join(filter(None, (" ".join(filter(None, words)), *more)))


def _with_unit(length: str, unit: str) -> str:
    return f"{length} {unit}" if length and not re.search(r"[a-z\"']", length, re.IGNORECASE) else length
