"""Lines of the removal log said in another order than part, way, rest: the verb first, or the place first.

They are put in the order the log reads; nothing is added to them and nothing left out but an article.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

#: A place that is said by its kind and a number or a letter: ``bag 2``, ``tray B``.
NUMBERED_PLACE = r"(?:bag|tote|tray|box|tin|jar|drawer|shelf) (?:no\.? ?)?(?:\d+[a-z]?|[a-z]\d*)"
_PLACE_FIRST = re.compile(
    rf"(?:in(?:to)? )?(?P<place>{NUMBERED_PLACE})\s*(?::|>|=|-\s)\s*(?P<rest>\S.*)", re.IGNORECASE
)
#: Said as an order these begin a name as well: *drive shaft*, *pull rod*. With an article they are verbs.
_BEGINS_NAMES = ("lift", "slide", "unscrew", "drive", "press", "pull", "cut")
_ARTICLE = re.compile(r"(?:the|a|an|this|that)\s+", re.IGNORECASE)
_OFF = re.compile(r"(?:off|out|away)(?=[\s,]|$)\s*", re.IGNORECASE)
#: What follows a verb and is no part: an end, a way it went, how it was, how many.
_NO_PART = re.compile(
    r"(?:from|at|to|towards?|with|by|in|into|on|of|off|out|up|down|through|along|across|under|behind|between|"
    r"near|>|left[ -]hand|lh|and|but|because|using|without|"
    r"(?:front|rear|back|left|right|top|bottom|above|below|inside|outside|side|end|easily|hard|tight|stiff|free|freely|"
    r"by hand|one|two|some|half|all)\b|\w+[ -]end\b|\d|#|m\d)",
    re.IGNORECASE,
)
#: Where the name of a part ends that nobody knows yet.
_NAME_ENDS = re.compile(
    r"\s*(?:,|>|\b(?:off|out|from|at|to|with|by|in|into|on|through|using)\b|\d).*", re.IGNORECASE
)


def in_order(text: str, known: Sequence[str], is_verb: Callable[[str], bool]) -> str:
    """A line in the order the log reads: ``NAME way, rest, > place``; as it was when it stands so already.

    ``is_verb`` says whether a word, or a key, is a way of coming off.

    >>> verb = ("pulled", "pull", "w").__contains__
    >>> in_order("pulled the handwheel off, > bag 2", ("handwheel",), verb)
    '"handwheel" pulled, > bag 2'
    >>> in_order("bag 3: hs2 u", (), verb), in_order("hs2 d front > bag 2", (), verb)
    ('hs2 u, > bag 3', 'hs2 d front, > bag 2')
    >>> in_order("pull rod w", (), verb)  # a name may begin so
    'pull rod w'
    """
    text = text.strip()
    first = _PLACE_FIRST.fullmatch(text)
    if first is not None:
        text = f"{first['rest']}, > {first['place']}"
    return re.sub(r"\s*,*\s*>", ", >", _verb_first(text, known, is_verb)).lstrip(", ")


def without_article(name: str) -> str:
    """A part's words as its name: *the motor* is called motor.

    >>> without_article("the motor"), without_article("thermostat")
    ('motor', 'thermostat')
    """
    return _ARTICLE.sub("", name, count=1) if _ARTICLE.match(name) else name


def _verb_first(text: str, known: Sequence[str], is_verb: Callable[[str], bool]) -> str:
    verb, _, rest = text.partition(" ")
    if len(verb) < 2 or not is_verb(verb) or not rest.strip():
        return text
    off = _OFF.match(rest)
    named = rest[off.end() :] if off is not None else rest
    said = without_article(named)
    if said == named and (_NO_PART.match(named) or named.startswith(",") or verb.lower() in _BEGINS_NAMES):
        return text
    if any(is_verb(word) for word in said.partition(",")[0].split()):
        return text  # a name that begins so, with its way behind it
    name = next((one for one in sorted(known, key=len, reverse=True) if _begins(said, one)), "")
    name = (name and said[: len(name)]) or _NAME_ENDS.sub("", said)
    behind = said[len(name) :].strip()
    back = _OFF.match(behind)
    if back is not None and not re.match(r"(?:at|of|to|towards?|the)\b", behind[back.end() :], re.IGNORECASE):
        behind = behind[back.end() :]
    between = "" if behind.startswith(",") else " "
    return f'"{name.strip()}" {verb}{between}{behind}'.strip() if name.strip() else text


def _begins(text: str, name: str) -> bool:
    return (
        bool(name) and text[: len(name)].casefold() == name.casefold() and not text[len(name) :][:1].isalnum()
    )
