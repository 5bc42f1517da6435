"""Finding a figure by words: its title, its group, its topic, what is told of it, and what the shop calls it."""

from __future__ import annotations

import re
from collections.abc import Iterable

from rebuild.trade.results.figure import Figure

_WORD = re.compile(r"[^\W_]+", re.UNICODE)
_NUMBER = re.compile(r"[-+]?[0-9][0-9.,/]*")


def found_by(figures: Iterable[Figure], asked: str) -> list[Figure]:
    """The figures that every word asked for begins a word of, in their order; all of them when nothing is asked.

    A plural finds its singular. A size among the words (``taper 0.475``) is left out where no figure has it: it is for
    the entries.

    >>> from rebuild.trade.figures import all_figures
    >>> [one.topic for one in found_by(all_figures().values(), "circlip")]
    ['ring-groove']
    """
    listed = [(figure, _words_of(figure)) for figure in figures]
    wanted = [
        word
        for word in asked.casefold().split()
        if not _NUMBER.fullmatch(word) or any(_has(words, word) for _, words in listed)
    ]
    if asked.strip() and not wanted:
        return []
    return [figure for figure, words in listed if all(_has(words, word) for word in wanted)]


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
