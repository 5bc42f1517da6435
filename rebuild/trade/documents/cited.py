"""A page, figure and item of a manual as people note them: ``manual p. 34``, ``Fig. 12, item 4``, ``12-4``."""

from __future__ import annotations

import re
from dataclasses import dataclass

_NUMBER, _NO = r"([a-z]?-?\d{1,4}[a-z]?)\b", r"\b\.?\s*(?:no\.?\s*)?"
_PAGE = re.compile(
    r"\b(?:pages?|pg|pp?|seite|s)\b\.?\s*([a-z]{0,2}-?\d{1,4}(?:[-.]\d{1,3})?)\b", re.IGNORECASE
)
_FIGURE = re.compile(rf"\b(?:figures?|fig|plate|sheet|drawing|abb|bild){_NO}{_NUMBER}", re.IGNORECASE)
_ITEM = re.compile(rf"\b(?:items?|it|ref|pos|part){_NO}{_NUMBER}", re.IGNORECASE)
#: Figure and item by themselves, as a part's own field has them; the first sign between them parts the two.
_BARE = re.compile(r"\s*([a-z]?\d{1,4}[a-z]?)\s*(?:[-/.,:]|\s)\s*([a-z]?\d{1,4}[a-z]?)\s*", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Cited:
    """What a note says of a manual; empty where it says nothing."""

    page: str = ""
    figure: str = ""
    item: str = ""

    def __bool__(self) -> bool:
        return bool(self.page or self.figure)


def cited(text: str) -> Cited:
    """The page, figure and item a note names.

    >>> cited("manual p. 34")
    Cited(page='34', figure='', item='')
    >>> cited("parts list, Fig. 12, item 4")
    Cited(page='', figure='12', item='4')
    >>> bool(cited("measured 12 times"))
    False
    """
    page, figure, item = (found.search(text) for found in (_PAGE, _FIGURE, _ITEM))
    after = text[figure.end() :] if figure is not None else ""
    bare = re.match(r"\s*[-/,.:]?\s*(\d{1,4}[a-z]?)\s*$", after, re.IGNORECASE)
    return Cited(
        page[1] if page is not None else "",
        figure[1] if figure is not None else "",
        item[1] if item is not None else bare[1] if bare is not None else "",
    )


def figure_and_item(text: str) -> Cited:
    """As ``cited``; a bare pair is figure and item, a bare number the figure.

    >>> figure_and_item("12-4"), figure_and_item("12")
    (Cited(page='', figure='12', item='4'), Cited(page='', figure='12', item=''))
    """
    found = cited(text)
    if found:
        return found
    pair = _BARE.fullmatch(text)
    if pair is not None:
        return Cited("", pair[1], pair[2])
    alone = re.fullmatch(r"\s*([a-z]?\d{1,4}[a-z]?)\s*", text, re.IGNORECASE)
    return Cited("", alone[1]) if alone is not None else Cited()


def captions(words: str, figure: str) -> int:
    """How plainly a page shows a figure: 2 when a line begins with its name, 1 when it is only spoken of, 0 if not.

    >>> captions("Fig. 12 Apron", "12"), captions("see Fig. 12", "12"), captions("Fig. 121", "12")
    (2, 1, 0)
    """
    best = 0
    for line in words.splitlines():
        for found in _FIGURE.finditer(line):
            if found[1].casefold() == figure.casefold():
                best = max(best, 2 if found.start() == len(line) - len(line.lstrip()) else 1)
    return best
