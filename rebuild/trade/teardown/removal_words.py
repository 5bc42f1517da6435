"""One line of the removal log as said at the bench: ``hs2 u, 4x 3/8-16 x 1-3/4, > bag 3``.

First the part (its code, its number alone, or words of its name; nothing: the next in the tree; several with
``+``), then one key for how it came off, then whatever else is worth saying, parted by commas. A clause that
begins with none of the known words and is no fastener is a note: nothing said is lost. A name may hold commas
and words like *cut* or *drive*: one that is known, or stands in quotes, is read whole.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from rebuild.errors import BadEntry
from rebuild.trade.results.door import door
from rebuild.trade.teardown.at_odds import other_end
from rebuild.trade.teardown.fastener_words import SaidFastener, names_a_kind, own_kind, parse_fastener
from rebuild.trade.teardown.said_order import NUMBERED_PLACE, in_order, without_article
from rebuild.words.teardown import RemovalWay

#: One key for each way something comes off, in the order the legend shows them.
HOW_KEYS = {
    "l": RemovalWay.LIFTED, "s": RemovalWay.SLID, "u": RemovalWay.UNSCREWED, "h": RemovalWay.LEFT_HAND,
    "d": RemovalWay.DRIVEN, "p": RemovalWay.PRESSED, "w": RemovalWay.PULLED, "r": RemovalWay.DRILLED,
    "c": RemovalWay.CUT, "x": RemovalWay.BROKEN, "m": RemovalWay.MISSING, "o": RemovalWay.OTHER,
}  # fmt: skip
_HOW_WORDS = {
    "lift": "l", "lifted": "l", "slid": "s", "slide": "s", "slipped": "s", "unscrewed": "u", "unscrew": "u",
    "driven": "d", "drive": "d", "drove": "d", "knocked": "d", "pressed": "p", "press": "p", "pulled": "w",
    "pull": "w", "withdrawn": "w", "drifted": "d", "drew": "w",
    "drawn": "w", "drilled": "r", "cut": "c", "sawn": "c", "broken": "x", "broke": "x",
    "missing": "m", "sheared": "x", "snapped": "x",
}  # fmt: skip
#: Ways that have an end to them: from which one it was driven or pressed matters at the next time.
WITH_END = (RemovalWay.DRIVEN, RemovalWay.PRESSED)
#: What is no longer whole, or no longer there.
NOT_WHOLE = (RemovalWay.BROKEN, RemovalWay.MISSING)
#: The words that open a clause, and what they say.
CLAUSES = {
    "mark": "match_mark", "marked": "match_mark", "marks": "match_mark", "sat": "orientation",
    "way": "orientation", "facing": "orientation", "orientation": "orientation", "hard": "hard", "found": "found",
    "photo": "photo", "with": "tools", "at": "location", "note": "note", "broke": "broke", "broken": "broke",
}  # fmt: skip
#: Clauses kept as they were said: what broke or was lost, and which way it sat.
_WHOLE_CLAUSES = (
    ("broke", re.compile(r"(?:broken|cracked|chipped|lost|snapped|torn|sheared)\b.*", re.IGNORECASE)),
    ("hard", re.compile(
        r"(?:(?:very|quite|a bit|rather|dead) )?(?:tight|stiff|seized|stuck|rusted (?:in|on))", re.IGNORECASE)),
    ("found", re.compile(
        r"(?:(?:very|quite|a bit|rather|badly|slightly|heavily|lightly) )?(?:worn|scored|pitted|rusty|bent|corroded|"
        r"grooved|galled|burred|greasy|dirty|dry)\b.*", re.IGNORECASE)),
    ("match_mark", re.compile(r".+ marked\b.+", re.IGNORECASE)),
    ("orientation", re.compile(r".+ (?:up|down|upwards?|downwards?|outwards?|inwards?)", re.IGNORECASE)),
)  # fmt: skip
#: The mark of the other of two alike, said after that of the first: upper one marked A, *lower one B*.
_OTHER_MARK = re.compile(r"(?:the )?\w+ one (?:is |has )?\S+", re.IGNORECASE)
#: The end a thing came out at. What was driven or pressed was struck at the other one.
_AN_END = (r"(?P<end>front|rear|back|left|right|top|bottom|above|below|inside|outside|"
           r"(?:wide|large|big|thick|narrow|small|little|thin|tagged) end)")  # fmt: skip
_OUT = re.compile(rf"out (?:(?:at|of|to|towards?) (?:the )?|the ){_AN_END}", re.IGNORECASE)
#: The same without *out*, straight after the way: *pressed to the rear*. An end is no place to put a thing in.
_TO_END = re.compile(rf"(?:(?:to|towards?) )?(?:the )?{_AN_END}", re.IGNORECASE)
_OUT_OF = re.compile(r"out of (?:the |its )?(?P<end>.+)", re.IGNORECASE)
#: What was driven up was struck from below.
_STRUCK = {"up": "below", "upwards": "below", "down": "above", "downwards": "above"}
_WASHER = re.compile(r"\bwashers?\b", re.IGNORECASE)
#: What is measured and how much: words of the log, not a reading.
_MEASURED = re.compile(
    r"\b(?:bore|dia(?:meter)?|o\.?d\.?|i\.?d\.?|thick(?:ness)?|width|wide|length|long|depth|deep|height|journal|"
    r"shaft)\b\D{0,12}\d+(?:[.,]\d+)?",
    re.IGNORECASE,
)
#: The ends of a pin or a gib that tapers, as they are called.
ENDS_OF_A_PIN = r"(?:wide|narrow|large|small|big|little|thick|thin|tagged)"
#: What was not taken off with it: words, no fastener.
_STAYED = re.compile(r"\b(?:left|stayed|stays|still) (?:in|on|behind)\b", re.IGNORECASE)
_BARE_PLACE = re.compile(rf"(?P<place>{NUMBERED_PLACE}(?: (?:in|of) (?:the )?.+)?)", re.IGNORECASE)
_PLACE_OF = re.compile(r"(?P<place>.+?) (?P<group>(?:in|of) (?:the )?.+)", re.IGNORECASE)
#: Which way round a thing sat: one of its two ends or sides, or what only one of them has, and where that was.
_ROUND = re.compile(
    r"(?:the )?(?:(?:wide|narrow|large|small|big|little|thick|thin|tagged|open|closed|shoulder(?:ed)?|"
    r"chamfer(?:ed)?|marked|flat|step(?:ped)?|plain|lettered|stamped|"
    r"numbered|polished|ground|rough)[ -](?:side|end|face|edge)|shoulder|chamfer|flat|step) "
    r"(?:was |is )?(?:to|towards?|at|facing|out|in|up|down)(?:ward|wards)?\b.*|"
    rf"(?:the )?{ENDS_OF_A_PIN}[ -]end (?:was |is )?(?:front|rear|back|left|right|top|bottom|above|below|inside|"
    r"outside|upper(?:most)?|lower(?:most)?)\b.*|"
    r"(?:the )?(?:hook|rack|key(?:way)?|slot|(?:oil |tapped )?holes?|tang|lip|flange|boss|groove|arrow|numbers?|"
    r"letters|teeth|lug|nib|bevel|ear|tail|head) (?:was |is )?(?:to the|towards?|facing)\b.*",
    re.IGNORECASE,
)
#: Where a key or its marks were, or what it looked at.
_SITS = re.compile(
    r"(?:the )?(?:key(?:way)?s?|pins?|slots?|screws?|nuts?) (?:is |was |were )?(?:on|at) (?:the )?"
    r"(?:top|bottom|left|right|front|rear|back|inside|outside|side)\b\D*|marks? (?:facing |to the )?"
    r"(?:up|down|in|out|front|rear|left|right|top|bottom)(?:wards?)?|\D* facing \D+",
    re.IGNORECASE,
)
#: A length of the thing itself, what came before or with it, and what it hung on: no fastener.
_HOW_LONG = re.compile(
    r"[\d.,/ -]+(?:in|mm|cm|inch|inches)?\.? (?:long|wide|thick|deep|high|across|round)\b\D*", re.IGNORECASE
)
_BESIDE = re.compile(
    r"\D*\b(?:first|last|(?:before|after|with) (?:it|that|this|them))|\D*\b(?:hooked|tied|wired|hung) \D*",
    re.IGNORECASE,
)
#: What follows such a word says nothing without the word before it: hard *to start*, broke *at the collar*.
_LEANS = re.compile(
    r"(?:at|to|in|on|off|of|out|through|along|across|near|by|from|under|behind|between|when|until|after)\b",
    re.IGNORECASE,
)
#: Where something broke, said straight after the way; *in* and *to* say where it was put.
_WHERE_BROKE = re.compile(r"(?:at|through|along|across|near|under|behind|between)\b", re.IGNORECASE)
_LEANING = ("match_mark", "orientation", "hard", "found", "broke")
#: Ends that are said without *the*.
_NO_ARTICLE = re.compile(
    r"(?:the|a|an|above|below|behind|beneath|under(?:neath)?|inside|outside|within|both|each|either)\b",
    re.IGNORECASE,
)
_FROM = re.compile(r"(?:driven |pressed |pulled )?from (?:the )?(?P<end>.+)", re.IGNORECASE)
_PLACE = re.compile(r"(?:>|\bin\b|\bto\b|\binto\b)\s*(?P<place>.+)", re.IGNORECASE)
_GROUP = re.compile(r"(?:in|of) (?:the )?(?P<group>.+)", re.IGNORECASE)
_SHIMS = re.compile(r"shims?\b\s*(?P<where>.*?)\s*(?P<leaves>(?<![\w.])[\d.][^,]*)", re.IGNORECASE)
_FASTENER = re.compile(
    r"\d\s*[x×]|\d/\d|\d-\d|\bm\d|\b(?:screws?|bolts?|studs?|nuts?|pins?|dowels?|rivets?|keys?|rings?|circlips?|washers?)\b",
    re.IGNORECASE,
)
_GOES_ON = re.compile(
    r"(?:finger(?: tight)?|tight|snug|loose|pinned|adjusted|missing|stripped|"
    rf"{ENDS_OF_A_PIN}[ -]end .+|"
    r"second .+|hidden .+|"
    r"l\.?h\.?|left[ -]hand|grade \d|(?:class )?(?:8\.8|10\.9|12\.9)|(?:cup|cone|dog|half dog|oval|flat) point)",
    re.IGNORECASE,
)
_HOW_TO_SAY = "Say it as “NAME u” or just “l” for the next part; keys: " + ", ".join(
    f"{key} {word}" for key, word in HOW_KEYS.items()
)


@dataclass(frozen=True, slots=True)
class SaidShims:
    """A shim pack as said: where it sat, and its leaves still as text."""

    where: str
    leaves: str


@dataclass(frozen=True, slots=True)
class SaidRemoval:
    """One line of the log, taken apart; ``parts`` are still the words said (none: the next in the tree).

    ``group`` is the subassembly it says, as it is called among those known; empty when it says none.
    """

    parts: tuple[str, ...]
    how: RemovalWay
    from_end: str = ""
    fasteners: tuple[SaidFastener, ...] = ()
    shims: tuple[SaidShims, ...] = ()
    place: str = ""
    typed: tuple[tuple[str, str], ...] = ()
    group: str = ""


@door()
def parse_removal(
    text: str, unit: str = "mm", known: Sequence[str] = (), groups: Sequence[str] = ()
) -> SaidRemoval:
    """Take a line of the log apart; ``known`` are the codes and names of parts, which are read whole.

    ``groups`` are those of subassemblies: ``in apron`` says one where no place is called so.

    Raises:
        BadEntry: no way of coming off was said.

    >>> said = parse_removal("hs2 u 4x 3/8-16 x 1-3/4, finger, mark two dots, > bag 3")
    >>> said.parts, said.how.value, said.fasteners[0].state, said.place, said.typed
    (('hs2',), 'unscrewed', 'finger', 'bag 3', (('match_mark', 'two dots'),))
    >>> parse_removal("l").parts
    ()
    >>> parse_removal("Gib, tapered l, from the front, broke one ear", known=("Gib, tapered",)).parts
    ('Gib, tapered',)
    >>> said = parse_removal("taper pin d front, in apron, > bag 3", groups=("Apron",))
    >>> said.group, said.place, said.from_end
    ('Apron', 'bag 3', 'front')
    """
    parts, line = _named(in_order(text, known, _is_verb), known)
    head, *clauses = _joined([clause.strip() for clause in line.split(",")], bool(parts))
    unnamed, how, rest = _head(head, bool(parts))
    sorted_out = _Clauses(unit, groups)
    struck = sorted_out.came_out(rest, how) or sorted_out.went_to(rest, how)
    if struck or sorted_out.says_group(rest):
        rest = ""
    elif (out_of := _OUT_OF.fullmatch(rest)) is not None:
        sorted_out.came_out_of(out_of["end"], how)
        rest = ""
    elif how in WITH_END and not _is_no_end(rest):
        rest = _STRUCK.get(rest.lower(), rest)
        sorted_out.end, rest = re.sub(r"^(?:from|at)\s+", "", re.sub(r"^(?:from )?the ", "", rest)), ""
    elif how is RemovalWay.BROKEN and _WHERE_BROKE.match(rest):
        sorted_out.note("broke", f"broke {rest}")
        rest = ""
    elif how in NOT_WHOLE and rest and not _says_something(rest):
        sorted_out.note("broke", rest)
        rest = ""
    for clause in ([rest] if rest else []) + clauses:
        if not sorted_out.came_out(clause, how):
            sorted_out.take(clause)
    return SaidRemoval(
        parts or unnamed,
        how,
        sorted_out.end,
        tuple(parse_fastener(words, unit) for words in sorted_out.fasteners_of(parts or unnamed)),
        tuple(sorted_out.shims),
        sorted_out.place,
        tuple(sorted_out.typed.items()),
        sorted_out.group,
    )


def says_a_size(text: str) -> bool:
    """Whether words of the log name a size, which is kept as words and is no reading.

    >>> says_a_size("bore 14.00"), says_a_size("see photo 12")
    (True, False)
    """
    return _MEASURED.search(text) is not None


def way_words(how: str, from_end: str) -> str:
    """How something came off, and from which end.

    >>> way_words(RemovalWay.SLID, "above"), way_words(RemovalWay.DRIVEN, "small end")
    ('slid off from above', 'driven out from the small end')
    """
    if not from_end:
        return str(how)
    return f"{how} from {'' if _NO_ARTICLE.match(from_end) else 'the '}{from_end}"


def _named(text: str, known: Sequence[str]) -> tuple[tuple[str, ...], str]:
    """The parts a line begins with that are in quotes or known by heart, and what follows them."""
    parts: list[str] = []
    rest, longest_first = text, sorted({name for name in known if name}, key=lambda name: -len(name))
    while True:
        quoted = re.match(r"[\"“](?P<name>[^\"”]+)[\"”]\s*", rest)
        name = quoted["name"].strip() if quoted else _begins_with(rest, longest_first)
        if not name:
            return (), text
        parts.append(name)
        rest = rest[quoted.end() if quoted else len(name) :].strip()
        if not rest.startswith("+"):
            return (tuple(parts), rest) if _way(rest.partition(" ")[0].rstrip(",")) else ((), text)
        rest = rest[1:].strip()


def _begins_with(text: str, names: Sequence[str]) -> str:
    for name in names:
        if text[: len(name)].casefold() == name.casefold() and not text[len(name) : len(name) + 1].isalnum():
            after = text[len(name) :].strip().partition(" ")[0].rstrip(",")
            if after.startswith("+") or _way(after):
                return text[: len(name)]
    return ""


def _joined(clauses: list[str], named: bool) -> list[str]:
    """The clauses, the first ones joined while they are still the name of a part that holds commas."""
    if named:
        return clauses
    for place, clause in enumerate(clauses):
        if place and _says_something(clause):
            break
        if _how_at(clause.split()) is not None:
            return [", ".join(clauses[: place + 1]), *clauses[place + 1 :]]
    return clauses


def _says_something(clause: str) -> bool:
    """Whether a clause speaks of a place, fastener or mark, and so is no part of a name."""
    return (
        clause.partition(" ")[0].lower().rstrip(":") in CLAUSES
        or _PLACE.fullmatch(clause) is not None
        or _FASTENER.search(clause) is not None
    )


def _is_no_end(rest: str) -> bool:
    """Whether what follows *driven* or *pressed* says with what, how hard or where it was put, and no end."""
    first = rest.partition(" ")[0].lower().rstrip(":")
    return (first in CLAUSES and first != "at") or _PLACE.fullmatch(rest) is not None


def _way(word: str) -> str:
    """The key a word stands for; empty when it says no way of coming off."""
    return word.lower() if word.lower() in HOW_KEYS else _HOW_WORDS.get(word.lower(), "")


def _is_verb(word: str) -> bool:
    """Whether a word says a way, as one says it first: *pulled the handwheel*. What is missing is no act."""
    return _way(word) not in ("", "m")


def _how_at(words: Sequence[str]) -> int | None:
    """Where a clause says how it came off: at its first such word, unless that begins a name that ends in a key."""
    found = [place for place, word in enumerate(words) if _way(word) and not _times(words, place)]
    if not found:
        return None
    last = len(words) - 1
    ends_in_key = found[-1] == last and words[last].lower() in HOW_KEYS and not words[last - 1][-1:].isdigit()
    return last if ends_in_key and len(words[found[0]]) > 1 else found[0]


def _times(words: Sequence[str], place: int) -> bool:
    """Whether an x stands between a count and a size: ``4 x M8``."""
    beside = " ".join([*words[max(0, place - 1) : place], *words[place + 1 : place + 2]])
    times = re.fullmatch(r"(?:m?\d[\d/.-]*) [\dm#.]\S*", beside, re.IGNORECASE)
    return words[place] in ("x", "X") and times is not None


def _head(head: str, named: bool) -> tuple[tuple[str, ...], RemovalWay, str]:
    """The parts' words, the way it came off, and what follows in the same clause."""
    words = head.split()
    place = 0 if named else _how_at(words)
    if place is None:
        raise BadEntry(
            "does not say how it came off.", where="Removal", value=head, way_out=f"{_HOW_TO_SAY}."
        )
    key, rest = _way(words[place]), words[place + 1 :]
    if key == "u" and " ".join(rest[:2]).lower() == "left hand":
        key, rest = "h", rest[2:]
    if key == "x" and len(words[place]) > 1 and rest[:1] and rest[0].lower() in ("off", "out"):
        rest = words[place:] if len(rest) > 1 else []
    elif rest and rest[0].lower() in ("off", "out") and not _off_what(rest):
        rest = rest[1:]
    said = " ".join(words[:place])
    parts = tuple(without_article(part.strip(" ,;")) for part in said.split("+") if part.strip(" ,;"))
    return parts, HOW_KEYS[key], " ".join(rest)


def _off_what(rest: Sequence[str]) -> bool:
    """Whether *off* or *out* begins a saying of its own: out at the front, off the shaft."""
    said = " ".join(rest)
    return bool(_OUT.match(said) or _OUT_OF.match(said)) or rest[1:2] in (["the"], ["its"])


def _place_in(clause: str) -> str:
    """Where a clause says it was put; an end of the machine is no place unless it is said with an arrow."""
    found = _PLACE.fullmatch(clause) or _BARE_PLACE.fullmatch(clause)
    place = found["place"].strip() if found is not None else ""
    return "" if clause[:1] != ">" and _TO_END.fullmatch(place) else place


def _way_round(clause: str) -> str:
    """Which way round a thing sat, as a clause says it; empty when it does not."""
    if clause.lower().startswith("way round "):
        return clause[len("way round ") :].strip()
    return clause if _ROUND.fullmatch(clause) or _SITS.fullmatch(clause) else ""


def _is_aside(clause: str) -> bool:
    """Whether a clause speaks of no fastener, though a word or a number in it might."""
    return any((_STAYED.search(clause), _HOW_LONG.fullmatch(clause), _BESIDE.fullmatch(clause)))


class _Clauses:
    """Sorts clauses into what they speak of."""

    def __init__(self, unit: str, groups: Sequence[str] = ()) -> None:
        self.unit = unit
        self.group = ""
        self._groups = {name.casefold(): name for name in groups if name}
        self.fasteners: list[str] = []
        self.shims: list[SaidShims] = []
        self.place = ""
        self.end = ""
        self.typed: dict[str, str] = {}
        self._last_was_fastener = False
        self._marked = False

    def says_group(self, clause: str) -> bool:
        """Whether a clause says a subassembly; then it is kept."""
        found = _GROUP.fullmatch(clause)
        name = self._groups.get(" ".join(found["group"].casefold().split()), "") if found else ""
        self.group = self.group or name
        return bool(name)

    def came_out(self, clause: str, how: RemovalWay) -> bool:
        """Whether a clause says at which end it came out; then the end it came from is kept, or was struck at."""
        found = _OUT.fullmatch(clause)
        if found is None or self.end:
            return False
        end = found["end"].lower()
        self.end = other_end(end) if how in WITH_END else end
        return True

    def came_out_of(self, hole: str, how: RemovalWay) -> None:
        """What it was in; of what was driven or pressed that says nothing of the end it was struck at."""
        if how in WITH_END:
            self.note("note", f"out of {hole}")
        else:
            self.end = hole

    def went_to(self, rest: str, how: RemovalWay) -> bool:
        """As ``came_out``, of what follows the way itself and says to which end it went: *pressed to the rear*."""
        to = rest.lower().startswith(("to ", "toward"))
        return to and _TO_END.fullmatch(rest) is not None and self.came_out(f"out {rest}", how)

    def fasteners_of(self, parts: Sequence[str]) -> list[str]:
        """The fasteners said; a bare size said of a part that is a fastener itself is the size of it."""
        own = own_kind(parts[0]) if len(parts) == 1 else ""
        return [f"{words} {own}" if own and not names_a_kind(words) else words for words in self.fasteners]

    def take(self, clause: str) -> None:
        """Sort one clause."""
        if not clause or self.says_group(clause):
            return
        was, self._last_was_fastener = self._last_was_fastener, False
        marked, self._marked = self._marked, False
        first, _, rest = clause.partition(" ")
        name = CLAUSES.get(first.lower().rstrip(":"))
        if (turned := _way_round(clause)) and not (was and _GOES_ON.fullmatch(clause)):
            self.note("orientation", turned)
        elif name == "hard" and rest.lower().startswith("as "):
            self.note("found", clause)
        elif name is not None and rest.strip():
            leans = name in _LEANING and _LEANS.match(rest.strip())
            self.note(name, clause if leans else rest.strip())
        elif not self.end and (end := _FROM.fullmatch(clause)) is not None:
            self.end = end["end"].strip()
        elif not self.place and (place := _place_in(clause)):
            self._put_in(place)
        elif _is_aside(clause):
            self.note("note", clause)
        elif (shims := _SHIMS.fullmatch(clause)) is not None:
            self.shims.append(SaidShims(shims["where"], shims["leaves"]))
        elif marked and _OTHER_MARK.fullmatch(clause):
            self.note("match_mark", clause)
            self._marked = True
        elif was and (_GOES_ON.fullmatch(clause) or _WASHER.search(clause)):
            self.fasteners[-1] += f", {clause}"
            self._last_was_fastener = True
        elif _FASTENER.search(clause):
            self.fasteners.append(clause)
            self._last_was_fastener = True
        else:
            whole = (name for name, pattern in _WHOLE_CLAUSES if pattern.fullmatch(clause))
            name = next(whole, "note")
            self.note(name, clause)
            self._marked = name == "match_mark"

    def _put_in(self, place: str) -> None:
        """A place, and the subassembly when it is said in the same breath: ``bag 2 in tailstock``."""
        both = _PLACE_OF.fullmatch(place)
        self.place = both["place"].strip() if both is not None and self.says_group(both["group"]) else place

    def note(self, name: str, text: str) -> None:
        """Keep words under a field of the removal."""
        before = self.typed.get(name)
        self.typed[name] = f"{before}; {text}" if before else text
