"""Finding a figure by words: its title, its group, its topic, what is told of it, and what the shop calls it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from rebuild.trade.results.figure import Figure

_WORD = re.compile(r"[^\W_]+", re.UNICODE)
_SPELLED = {
    "center": "centre",
    "centers": "centres",
    "gage": "gauge",
    "aluminum": "aluminium",
    "gray": "grey",
    "pounds": "lb",
    "pound": "lb",
    "lbs": "lb",
    "lb/in": "lbf/in",
}
_NUMBER = re.compile(r"[-+]?[0-9][0-9.,/]*(?:-[0-9][0-9.]*)?")


def found_by(figures: Iterable[Figure], asked: str) -> list[Figure]:
    """The figures that every word asked for begins a word of, best first; all of them when nothing is asked.

    A title that begins so comes before one with such a word, that before the shop's words and what is told of it.

    A plural finds its singular. A size among the words (``taper 0.475``) is left out where no figure has it: it is for
    the entries.

    >>> from rebuild.trade.figures import all_figures
    >>> [one.topic for one in found_by(all_figures().values(), "circlip")]
    ['ring-groove']
    """
    asked = in_british(asked)
    listed = [(figure, _words_of(figure)) for figure in figures]
    wanted = [
        word
        for word in asked.casefold().split()
        if not _NUMBER.fullmatch(word)
        or any(_has(words, word) or _numbered(figure, word) for figure, words in listed)
    ]
    if asked.strip() and not wanted:
        return []
    found = [
        figure
        for figure, words in listed
        if all(_has(words, word) or _numbered(figure, word) for word in wanted)
    ]
    return sorted(found, key=lambda figure: rank(figure, wanted))


def rank(figure: Figure, wanted: Sequence[str]) -> int:
    """How near a figure is to the words asked for: 0 its title begins so, to 4 they stand only in what is told.

    >>> from rebuild.trade.figures import figure
    >>> rank(figure("dividing"), ["dividing"]), rank(figure("spindle-speeds"), ["back", "gear"])
    (0, 2)
    """
    phrase = " ".join(wanted)
    if not wanted:
        return 0
    if any(_numbered(figure, word) for word in wanted):
        return 1
    if figure.title.casefold().startswith(phrase):
        return 0
    if all(_has(frozenset(_WORD.findall(figure.title.casefold())), word) for word in wanted):
        return 1
    if f" {phrase}" in f" {figure.words.casefold()}":
        return 2
    return 3 if all(_has(frozenset(figure.words.casefold().split()), word) for word in wanted) else 4


def in_british(asked: str) -> str:
    """Words in the spelling the handbook uses, case folded; those of the New World are found too.

    >>> in_british("Center of gravity"), in_british("pounds"), in_british("lb/in")
    ('centre of gravity', 'lb', 'lbf/in')
    """
    return " ".join(_SPELLED.get(word, word) for word in asked.casefold().split())


def none_found(asked: str) -> str:
    """What to say when nothing was found.

    >>> none_found("flange")
    'No figure is called “flange”. Try one word of the thing itself: thread, key, gear, taper, spring.'
    """
    return f"No figure is called “{asked.strip()}”. Try one word of the thing itself: thread, key, gear, taper, spring."


def _words_of(figure: Figure) -> frozenset[str]:
    told = f"{figure.title} {figure.group} {figure.topic} {figure.about} {figure.words}".casefold()
    return frozenset((*told.split(), *_WORD.findall(told)))


def _has(words: frozenset[str], asked: str) -> bool:
    """Whether a word begins so, or so without the s of a plural."""
    ways = {asked, asked.removesuffix("s")} if len(asked) > 3 else {asked}
    return any(word.startswith(way) for way in ways for word in words)


def _numbered(figure: Figure, asked: str) -> bool:
    """Whether a word is one of the numbers that lead to a figure, as those stamped on a bearing."""
    return bool(figure.numbers) and re.fullmatch(figure.numbers, asked) is not None
